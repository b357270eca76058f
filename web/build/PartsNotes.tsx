import { Button } from '@mantine/core';
import type { PartLine, SectionSpec } from '../../src/build/index.ts';
import { useSheetActs, useSheetWork } from './context.ts';
import { setNotes, setParts } from './edit.ts';
import styles from './inputs.module.css';

/** Parts of a section with the shop's own marks, and what else is to be said. */
export function PartsNotes({ section }: { readonly section: SectionSpec }) {
  const { sheet } = useSheetWork();
  const { change, parts: way } = useSheetActs();
  const data = sheet.sections[section.id];
  const parts = data?.parts ?? [];
  const put = (at: number, key: keyof PartLine, text: string) =>
    change(
      (now) =>
        setParts(
          now,
          section.id,
          parts.map((part, i) => {
            if (i !== at) return part;
            const { [key]: _, ...others } = part;
            return (
              text === '' && key !== 'name' ? others : { ...others, [key]: text }
            ) as PartLine;
          }),
        ),
      `${section.id}.parts.${at}.${key}`,
    );
  return (
    <section className={styles.block} aria-label="Parts and notes">
      <header>
        <h3>Parts and notes</h3>
        <small className="quiet">
          A part with a serial of the shop is followed from engine to engine.
        </small>
      </header>
      {parts.map((part, at) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: lines have no other name while they are typed
        <div key={at} className={styles.part}>
          {(['name', 'serial', 'note'] as const).map((key) => (
            <label key={key}>
              <small className="quiet">
                {key === 'name' ? 'Part' : key === 'serial' ? 'Serial of the shop' : 'Note'}
              </small>
              <input
                className={`${styles.input} ${styles.words}`}
                autoComplete="off"
                value={part[key] ?? ''}
                onChange={(event) => put(at, key, event.currentTarget.value)}
              />
            </label>
          ))}
          {way !== null && (part.serial ?? '').trim() !== '' && (
            <a
              className={styles.been}
              href={way.href(part.serial!.trim())}
              onClick={(event) => {
                if (event.metaKey || event.ctrlKey || event.shiftKey) return;
                event.preventDefault();
                way.go(part.serial!.trim());
              }}
            >
              Where <bdi>{part.serial}</bdi> has been
            </a>
          )}
          <button
            type="button"
            className={styles.more}
            aria-label={`Remove part ${part.name === '' ? at + 1 : part.name}`}
            onClick={() =>
              change((now) =>
                setParts(
                  now,
                  section.id,
                  parts.filter((_, i) => i !== at),
                ),
              )
            }
          >
            <span aria-hidden="true">×</span>
          </button>
        </div>
      ))}
      <Button
        variant="default"
        size="compact-md"
        onClick={() =>
          change((now) => setParts(now, section.id, [...parts, { name: section.title }]))
        }
      >
        Add a part
      </Button>
      <label className={styles.notes}>
        <small className="quiet">Notes</small>
        <textarea
          rows={3}
          value={data?.notes ?? ''}
          onChange={(event) => {
            const text = event.currentTarget.value;
            change((now) => setNotes(now, section.id, text), `${section.id}.notes`);
          }}
        />
      </label>
    </section>
  );
}
