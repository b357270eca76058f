import { Text } from '@mantine/core';
import { useState } from 'react';
import styles from './safety.module.css';

const CAUTIONS = [
  'The coupling shaft is guarded and balanced, and nobody stands in line with rotating parts.',
  'Ventilation runs and the carbon monoxide alarm is on.',
  'Fire suppression is at hand and fuel is handled as its makers say.',
  'Everyone in reach wears hearing and eye protection.',
  'An emergency stop works that does not depend on any computer.',
] as const;

/** The usual cautions, wherever a pull is planned: one quiet line, all of them a click away. */
export function SafetyLine() {
  const [open, setOpen] = useState(false);
  return (
    <aside className={styles.line} aria-label="Safety">
      <Text size="sm" c="dimmed" component="p" m={0}>
        Before a pull: guards on, nobody in line with rotating parts, fans and carbon monoxide alarm
        on, an emergency stop that needs no computer.{' '}
        <button
          type="button"
          className={styles.more}
          aria-expanded={open}
          onClick={() => setOpen(!open)}
        >
          {open ? 'Less' : 'All cautions'}
        </button>
      </Text>
      {open && (
        <ul>
          {CAUTIONS.map((caution) => (
            <li key={caution}>{caution}</li>
          ))}
          <li>
            Pullbook records and advises; it never replaces the cell’s own shutdowns. Local codes
            and qualified people have the last word.
          </li>
        </ul>
      )}
    </aside>
  );
}
