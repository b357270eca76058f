import { memo, useCallback, useEffect, useRef, useState } from 'react';
import {
  type FieldSpec,
  type Place,
  placeLabels,
  type SectionSpec,
} from '../../src/build/index.ts';
import { usePreferences } from '../shell/preferences.tsx';
import { TakeTable } from '../table/TakeTable.tsx';
import { About } from './About.tsx';
import { useSheetActs, useSheetWork } from './context.ts';
import { eachAt, entryAt, setAbout, setEach } from './edit.ts';
import styles from './inputs.module.css';
import { moveByKey } from './moving.ts';
import { NumberCell, type NumberCellProps } from './NumberCell.tsx';
import { type PasteColumn, pasteBlock } from './pasting.ts';
import { placesTable } from './sheet-tables.ts';
import { statistics, usualUnit } from './typing.ts';
import { UnitPick } from './UnitPick.tsx';

export const PLACE_TITLES: Readonly<Record<Place, string>> = {
  cylinder: 'By cylinder',
  bank: 'By bank',
  mainJournal: 'By main journal',
  rodJournal: 'By rod journal',
  intakeValve: 'By intake valve',
  exhaustValve: 'By exhaust valve',
};

/** The fields of a section that are measured place by place: a table for each kind of place. */
export function PlaceTables({ section }: { readonly section: SectionSpec }) {
  const kinds = [...new Set(section.fields.flatMap((field) => field.per ?? []))];
  return kinds.map((per) => (
    <PlaceTable
      key={per}
      section={section.id}
      per={per}
      fields={section.fields.filter((field) => field.per === per)}
    />
  ));
}

interface PlaceTableProps {
  readonly section: string;
  readonly per: Place;
  readonly fields: readonly FieldSpec[];
}

function PlaceTable({ section, per, fields }: PlaceTableProps) {
  const { sheet } = useSheetWork();
  const { change } = useSheetActs();
  const { units } = usePreferences();
  const [picked, setPicked] = useState<Readonly<Record<string, string>>>({});
  const labels = placeLabels(per, sheet.layout);
  const columns = fields.map((field) => {
    const path = `${section}.${field.id}`;
    const unit = entryAt(sheet, path)?.unit ?? picked[path] ?? usualUnit(field, units);
    return { path, field, unit, each: eachAt(sheet, path) };
  });
  const latest = useRef({ sheet, columns });
  useEffect(() => {
    latest.current = { sheet, columns };
  });
  const paste = useCallback(
    (column: number, row: number, text: string): string | null => {
      const now = latest.current;
      const pasted = pasteBlock(now.sheet, now.columns satisfies PasteColumn[], column, row, text);
      if ('wrong' in pasted) return pasted.wrong;
      change(() => pasted.sheet);
      return null;
    },
    [change],
  );
  return (
    <section className={styles.block} aria-label={PLACE_TITLES[per]}>
      <header>
        <h3>{PLACE_TITLES[per]}</h3>
        <small className="quiet">
          A column or block from a spreadsheet can be pasted into any cell.
        </small>
        <TakeTable
          title={PLACE_TITLES[per]}
          table={() => placesTable(columns, { per, title: PLACE_TITLES[per], sheet })}
        />
      </header>
      {/* biome-ignore lint/a11y/noStaticElementInteractions: keys of the inputs inside, gathered */}
      <div className={styles.scroll} onKeyDown={moveByKey}>
        <table className={styles.places}>
          <thead>
            <tr>
              <td />
              {columns.map(({ path, field, unit }) => (
                <th key={path} scope="col">
                  <span className={styles.heading}>{field.label}</span>
                  <span className={styles.under}>
                    <UnitPick
                      field={field}
                      unit={unit}
                      onPick={(next) => {
                        setPicked({ ...picked, [path]: next });
                        if (entryAt(sheet, path) !== undefined)
                          change((now) => setAbout(now, path, { unit: next }));
                      }}
                    />
                    <About path={path} field={field} entry={entryAt(sheet, path)} />
                  </span>
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {labels.map((label, row) => (
              <tr key={label}>
                <th scope="row">{label}</th>
                {columns.map(({ path, field, unit, each }, column) => (
                  <td key={path}>
                    <PlaceCell
                      path={path}
                      field={field}
                      label={`${field.label}, ${label}`}
                      value={each[row] ?? null}
                      unit={unit}
                      column={column}
                      row={row}
                      paste={paste}
                    />
                  </td>
                ))}
              </tr>
            ))}
          </tbody>
          {labels.length > 1 && <Statistics columns={columns} />}
        </table>
      </div>
    </section>
  );
}

interface PlaceCellProps extends Omit<NumberCellProps, 'onTyped' | 'onBlock'> {
  readonly paste: (column: number, row: number, text: string) => string | null;
}

/** Drawn again only where its own value changes. */
const PlaceCell = memo(function PlaceCell({ paste, ...cell }: PlaceCellProps) {
  const { change } = useSheetActs();
  const { path, unit, column, row } = cell;
  return (
    <NumberCell
      {...cell}
      onBlock={(text) => paste(column, row, text)}
      onTyped={(typed) =>
        change(
          (now) =>
            setEach(
              now,
              path,
              eachAt(now, path).map((one, i) => (i === row ? (typed?.value ?? null) : one)),
              {
                ...(unit === undefined ? {} : { unit: typed?.unit ?? unit }),
                ...(typed?.plusMinus === undefined ? {} : { plusMinus: typed.plusMinus }),
              },
            ),
          `${path}.${row}`,
        )
      }
    />
  );
});

export const STATISTICS = [
  ['smallest', 'Smallest'],
  ['largest', 'Largest'],
  ['spread', 'Spread'],
] as const;

function Statistics({
  columns,
}: {
  columns: readonly { readonly path: string; readonly each: readonly (number | null)[] }[];
}) {
  const all = columns.map(({ path, each }) => ({ path, found: statistics(each) }));
  return (
    <tfoot>
      {STATISTICS.map(([key, name]) => (
        <tr key={key}>
          <th scope="row">{name}</th>
          {all.map(({ path, found }) => (
            <td key={path}>{found === null ? '–' : found[key]}</td>
          ))}
        </tr>
      ))}
    </tfoot>
  );
}
