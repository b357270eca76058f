import { memo, useState } from 'react';
import {
  type EachEntry,
  type Entry,
  type FieldSpec,
  isEach,
  type SectionSpec,
} from '../../src/build/index.ts';
import { usePreferences } from '../shell/preferences.tsx';
import { TakeRow } from '../table/TakeTable.tsx';
import { About } from './About.tsx';
import { useSheetActs, useSheetWork } from './context.ts';
import { entryAt, setAbout, setEntry } from './edit.ts';
import styles from './inputs.module.css';
import { cellMarks, moveByKey } from './moving.ts';
import { NumberCell } from './NumberCell.tsx';
import { ledgerTable } from './sheet-tables.ts';
import { otherwise, usualUnit } from './typing.ts';
import { UnitPick } from './UnitPick.tsx';
import { WordCell } from './WordCell.tsx';

/** The fields of a section that stand once, a line each. */
export function Ledger({ section }: { readonly section: SectionSpec }) {
  const { sheet } = useSheetWork();
  const fields = section.fields.filter((field) => field.per === undefined);
  if (fields.length === 0) return null;
  return (
    <div>
      <TakeRow title={section.title} table={() => ledgerTable(section, sheet)} />
      {/* biome-ignore lint/a11y/noStaticElementInteractions: keys of the inputs inside, gathered */}
      <div className={styles.ledger} onKeyDown={moveByKey}>
        {fields.map((field, row) => {
          const path = `${section.id}.${field.id}`;
          return (
            <Line key={field.id} path={path} field={field} row={row} entry={entryAt(sheet, path)} />
          );
        })}
      </div>
    </div>
  );
}

interface LineProps {
  readonly path: string;
  readonly field: FieldSpec;
  readonly row: number;
  readonly entry: Entry | EachEntry | undefined;
}

/** Drawn again only where its own entry changes: a keystroke is in one line of fifty. */
const Line = memo(function Line({ path, field, row, entry }: LineProps) {
  const { change } = useSheetActs();
  const { units } = usePreferences();
  const [picked, setPicked] = useState<string | null>(null);
  const value = entry === undefined || isEach(entry) ? null : entry.value;
  const unit = entry?.unit ?? picked ?? usualUnit(field, units);
  const numeric = field.kind === 'quantity' || field.kind === 'number';
  const converted = typeof value === 'number' ? otherwise(field, value, unit, units) : null;
  return (
    <div className={styles.line}>
      <div className={styles.name}>
        <span>{field.label}</span>
        {field.help !== undefined && <small>{field.help}</small>}
      </div>
      <div className={styles.given} data-wide={numeric ? undefined : true}>
        {numeric ? (
          <>
            <NumberCell
              path={path}
              field={field}
              label={field.label}
              value={typeof value === 'number' ? value : null}
              unit={unit}
              column={0}
              row={row}
              onTyped={(typed) =>
                change(
                  (now) =>
                    setEntry(
                      now,
                      path,
                      typed === null
                        ? null
                        : {
                            ...entryAt(now, path),
                            ...(unit === undefined ? {} : { unit }),
                            ...typed,
                          },
                    ),
                  path,
                )
              }
            />
            <UnitPick
              field={field}
              unit={unit}
              onPick={(next) => {
                setPicked(next);
                if (entry !== undefined) change((now) => setAbout(now, path, { unit: next }));
              }}
            />
            <Tolerance path={path} field={field} row={row} entry={entry} />
          </>
        ) : (
          <WordCell path={path} field={field} value={value} marks={cellMarks(path, 0, row)} />
        )}
        <About path={path} field={field} entry={entry} />
        {converted !== null && <small className={styles.converted}>{converted}</small>}
      </div>
    </div>
  );
});

const NOT_NEGATIVE: FieldSpec = { id: 'plusMinus', label: 'Plus or minus', kind: 'number', low: 0 };

function Tolerance({ path, field, row, entry }: LineProps) {
  const { change } = useSheetActs();
  return (
    <span className={styles.tolerance}>
      <span aria-hidden="true">±</span>
      <NumberCell
        path={`${path}.plusMinus`}
        field={NOT_NEGATIVE}
        label={`${field.label}: plus or minus`}
        value={entry?.plusMinus ?? null}
        unit={undefined}
        column={1}
        row={row}
        onTyped={(typed) =>
          change((now) => setAbout(now, path, { plusMinus: typed?.value }), `${path}.plusMinus`)
        }
      />
    </span>
  );
}
