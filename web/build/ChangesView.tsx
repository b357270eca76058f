import { Button } from '@mantine/core';
import { useMemo } from 'react';
import type { MeasuredChange, Stood } from '../../src/build/changes/sheetChanges.ts';
import { answerSheet, type Sheet, sheetChanges, type WindowRule } from '../../src/build/index.ts';
import { type DisplayKind, quantityText, type UnitSystem } from '../../src/units/index.ts';
import { usePreferences } from '../shell/preferences.tsx';
import { Nothing } from '../shell/states.tsx';
import styles from './build.module.css';
import { VerdictMark } from './Verdict.tsx';
import { pathInWords, titleOf } from './words.ts';

/** A sheet with the name of its build. */
export interface NamedSheet {
  readonly name: string;
  readonly sheet: Sheet;
}

interface ChangesViewProps {
  readonly before: NamedSheet;
  readonly after: NamedSheet;
  readonly own?: readonly WindowRule[];
}

/** Two builds of an engine: verdicts, parts, what follows and what was measured, on one page and on paper. */
export function ChangesView({ before, after, own }: ChangesViewProps) {
  const { units } = usePreferences();
  const found = useMemo(
    () =>
      sheetChanges(
        before.sheet,
        after.sheet,
        answerSheet(before.sheet, own),
        answerSheet(after.sheet, own),
      ),
    [before.sheet, after.sheet, own],
  );
  const { verdicts, parts, computed, measured } = found;
  const none = verdicts.length + parts.length + computed.length + measured.length === 0;
  return (
    <div className="stack">
      <div className="opening">
        <h1>
          {after.name} against {before.name}
        </h1>
        <div className={styles.state}>
          <Button variant="default" size="compact-md" onClick={() => window.print()}>
            Print
          </Button>
        </div>
      </div>
      {none && (
        <Nothing title="Nothing differs">
          The two sheets say the same. Fill in what was changed, and what follows from it stands
          here.
        </Nothing>
      )}
      {verdicts.length > 0 && (
        <section className="panel" aria-labelledby="verdicts">
          <header>
            <h2 id="verdicts">Verdicts that changed</h2>
          </header>
          <table className="sheet">
            <Head before={before.name} after={after.name} first="Check" />
            <tbody>
              {verdicts.map((one) => (
                <tr key={one.id}>
                  <th scope="row">{one.label}</th>
                  <td>
                    <VerdictMark verdict={one.before} />
                  </td>
                  <td>
                    <VerdictMark verdict={one.after} />
                  </td>
                </tr>
              ))}
            </tbody>
          </table>
        </section>
      )}
      {parts.length > 0 && (
        <section className="panel" aria-labelledby="parts">
          <header>
            <h2 id="parts">Parts</h2>
          </header>
          <ul className="marks">
            {parts.map(({ what, name, serial, from, to }) => (
              <li key={`${what} ${name} ${serial} ${from} ${to}`}>
                {name}
                {serial !== null && ` (${serial})`}
                {what === 'moved'
                  ? ` moved from ${titleOf(from!)} to ${titleOf(to!)}`
                  : what === 'added'
                    ? ` is new in ${titleOf(to!)}`
                    : ` is gone from ${titleOf(from!)}`}
              </li>
            ))}
          </ul>
        </section>
      )}
      {computed.length > 0 && (
        <section className="panel" aria-labelledby="computed">
          <header>
            <h2 id="computed">What follows</h2>
            <span className="quiet">moved by more than its own ±; the most first</span>
          </header>
          <table className="sheet">
            <Head before={before.name} after={after.name} first="Figure" by />
            <tbody>
              {computed.map((one) => (
                <tr key={one.id}>
                  <th scope="row">{one.label}</th>
                  <td className="figure">{told(one.before, one.shown, units)}</td>
                  <td className="figure">{told(one.after, one.shown, units)}</td>
                  <td className="figure">{by(one.by, one.shown, units)}</td>
                </tr>
              ))}
            </tbody>
          </table>
        </section>
      )}
      {measured.length > 0 && (
        <section className="panel" aria-labelledby="measured">
          <header>
            <h2 id="measured">What was measured or said</h2>
          </header>
          <table className="sheet">
            <Head before={before.name} after={after.name} first="Field" by />
            <tbody>
              {measured.map((one) => (
                <tr key={`${one.path} ${one.place}`}>
                  <th scope="row">
                    {pathInWords(one.path)}
                    {one.placeLabel !== null && `, ${one.placeLabel}`}
                  </th>
                  <td className="figure">{asTyped(one.before)}</td>
                  <td className="figure">{asTyped(one.after)}</td>
                  <td className="figure">{measuredBy(one, units)}</td>
                </tr>
              ))}
            </tbody>
          </table>
        </section>
      )}
    </div>
  );
}

function Head({
  before,
  after,
  first,
  by: hasBy = false,
}: {
  before: string;
  after: string;
  first: string;
  by?: boolean;
}) {
  return (
    <thead>
      <tr>
        <th scope="col">{first}</th>
        <th scope="col" className={hasBy ? 'figure' : undefined}>
          {before}
        </th>
        <th scope="col" className={hasBy ? 'figure' : undefined}>
          {after}
        </th>
        {hasBy && (
          <th scope="col" className="figure">
            By
          </th>
        )}
      </tr>
    </thead>
  );
}

const told = (value: number | null, shown: DisplayKind, units: UnitSystem) =>
  value === null ? 'not known' : quantityText(value, shown, units).replace(/ 1$/, '');
const by = (value: number | null, shown: DisplayKind, units: UnitSystem) =>
  value === null
    ? '–'
    : quantityText(value, shown, units, { signed: true, difference: true }).replace(/ 1$/, '');

function asTyped({ typed, unit }: Stood): string {
  if (typed === null) return 'not known';
  if (typeof typed === 'boolean') return typed ? 'yes' : 'no';
  return unit === null ? String(typed) : `${typed} ${unit}`;
}

function measuredBy({ by: value, shown }: MeasuredChange, units: UnitSystem): string {
  if (value === null) return '–';
  if (shown === null) return value > 0 ? `+${value}` : String(value);
  return by(value, shown, units);
}
