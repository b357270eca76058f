import { Link } from '@tanstack/react-router';
import {
  type FieldSpec,
  type PartMeasure,
  type PartReading,
  type PartTable,
  partOverTime,
} from '../../../src/build/index.ts';
import { type DisplayKind, quantityText, type UnitSystem } from '../../../src/units/index.ts';
import type { PartHistory } from '../../api/types.gen.ts';
import { leavingAs } from '../../build/sheet-tables.ts';
import { pathInWords, titleOf } from '../../build/words.ts';
import { dayLabel } from '../../shell/places.ts';
import { usePreferences } from '../../shell/preferences.tsx';
import { Nothing } from '../../shell/states.tsx';
import { count, dateInWords } from '../../shell/words.ts';
import { Heads } from '../../table/Heads.tsx';
import {
  type ColumnOf,
  numberColumn,
  rangeColumn,
  type TableModel,
  tableFrom,
  wordsColumn,
} from '../../table/model.ts';
import { TakeTable } from '../../table/TakeTable.tsx';
import styles from './parts.module.css';

type Stay = PartHistory['stays'][number];

/** Where a part has been, what it has seen there, and what was measured of it each time. */
export function History({ history: { serial, stays } }: { readonly history: PartHistory }) {
  const { units } = usePreferences();
  const [first] = stays;
  if (first === undefined)
    return (
      <Nothing title="No build has a part of this serial">
        <bdi>{serial}</bdi> stands on no build sheet. It may have been renamed there; the list of
        parts has all that carry a serial.
      </Nothing>
    );
  const { measures, tables } = partOverTime(stays.map(({ stay }) => stay));
  const shared = stays.some(({ stay }) => stay.beside > 0);
  return (
    <div className="stack">
      <div>
        <h1>
          <bdi>{serial}</bdi>, {stays.at(-1)!.stay.name}
        </h1>
        <p className="lede">{seenInWords(stays)}</p>
      </div>
      <section className="panel" aria-labelledby="stays">
        <header>
          <h2 id="stays">Where it has been</h2>
          <TakeTable title={`Where ${serial} has been`} table={() => staysTable(stays)} />
        </header>
        <div className={styles.scroll}>
          <table className="sheet">
            <Heads
              of={[
                'Engine and build',
                'Section',
                'Assembled',
                'Test days',
                'Its sheet says since refresh',
                'Note',
              ]}
            />
            <tbody>
              {stays.map((one) => (
                <StayRow key={`${one.buildId} ${one.stay.section}`} {...one} />
              ))}
            </tbody>
          </table>
        </div>
      </section>
      {measures.length === 0 && tables.length === 0 ? (
        <Nothing title="Nothing was measured of it yet">
          What is measured in its section of a build sheet stands here, build beside build.
        </Nothing>
      ) : (
        <section className="panel" aria-labelledby="measured">
          <header>
            <h2 id="measured">Measured over time</h2>
            <span className="quiet">
              {shared
                ? 'Its section held other parts with a serial too: what was measured there may be of one of them.'
                : 'What its section of each sheet says; smallest to largest where it is measured at several places.'}
            </span>
            {measures.length > 0 && (
              <TakeTable
                title={`${serial} measured over time`}
                table={() => measuresTable({ measures, stays }, units)}
              />
            )}
          </header>
          {measures.length > 0 && <Measures measures={measures} stays={stays} />}
        </section>
      )}
      {tables.map((table) => (
        <TableOverTime key={table.path} table={table} stays={stays} />
      ))}
    </div>
  );
}

const staysTable = (stays: readonly Stay[]): TableModel =>
  tableFrom(stays, [
    wordsColumn('Engine', ({ stay }) => stay.engine),
    wordsColumn('Build', ({ stay }) => stay.build),
    wordsColumn('Section', ({ stay }) => titleOf(stay.section)),
    wordsColumn('Assembled', ({ stay }) => stay.assembledOn),
    wordsColumn('Test days', ({ days }) => days.map(dayLabel).join('; ')),
    numberColumn(
      'Pulls on them',
      '',
      ({ days }) => days.reduce((sum, one) => sum + one.pullCount, 0),
      {
        decimals: 0,
      },
    ),
    numberColumn('Hours since refresh, by its sheet', 'h', ({ stay }) =>
      stay.hoursS === null ? null : stay.hoursS / 3600,
    ),
    numberColumn('Pulls since refresh, by its sheet', '', ({ stay }) => stay.pulls),
    wordsColumn('Note', ({ stay }) => stay.note),
  ]);

const nameOfStay = ({ stay }: Stay) => `${stay.engine}, ${stay.build}`;

function measuresTable({ measures, stays }: MeasuresProps, units: UnitSystem): TableModel {
  const reading = (at: number) => (one: PartMeasure) => {
    const found = one.readings[at];
    const { of } = leavingAs(one.shown, units);
    return found == null || found.low === null || found.high === null
      ? null
      : { low: of(found.low), high: of(found.high) };
  };
  return tableFrom(measures, [
    wordsColumn('Measured', ({ path }) => pathInWords(path)),
    wordsColumn('Unit', ({ shown }) => leavingAs(shown, units).symbol),
    ...stays.flatMap((stay, at): ColumnOf<PartMeasure>[] => [
      rangeColumn(`${nameOfStay(stay)}, lowest and highest`, null, reading(at)),
      wordsColumn(`${nameOfStay(stay)}, in words`, ({ readings }) => readings[at]?.words),
    ]),
    ...(stays.length > 1
      ? [
          numberColumn<PartMeasure>('First to last', null, ({ by, shown }) =>
            by === null ? null : leavingAs(shown, units, true).of(by),
          ),
        ]
      : []),
  ]);
}

function overTimeTable(
  table: PartTable,
  { column, at }: { readonly column: FieldSpec; readonly at: number },
  stays: readonly Stay[],
  units: UnitSystem,
): TableModel {
  const foot = leavingAs(shownOf(table.key), units);
  const shown = leavingAs(shownOf(column), units);
  return tableFrom(table.rows, [
    numberColumn(table.key.label, foot.symbol, (row) => foot.of(row.at)),
    ...stays.map((stay, index) =>
      numberColumn<PartTable['rows'][number]>(nameOfStay(stay), shown.symbol, ({ values }) => {
        const value = values[at]![index];
        return value == null ? null : shown.of(value);
      }),
    ),
  ]);
}

/** `In 2 builds of 1 engine. 34 pulls on 3 test days are in this book; …`. */
function seenInWords(stays: readonly Stay[]): string {
  const builds = new Map(stays.map((one) => [one.buildId, one]));
  const engines = new Set(stays.map(({ engineId }) => engineId));
  const days = [...builds.values()].flatMap((one) => one.days);
  const pulls = days.reduce((sum, day) => sum + day.pullCount, 0);
  const said = [...builds.values()].flatMap(({ stay }) => stay.hoursS ?? []);
  const hours = said.reduce((sum, one) => sum + one, 0) / 3600;
  const sheets =
    said.length === 0
      ? 'No sheet says its hours'
      : `${Number(hours.toFixed(1))} h by ${said.length === builds.size ? 'its sheets' : `${said.length} of its ${count(builds.size, 'sheet')}`}`;
  return `In ${count(builds.size, 'build')} of ${count(engines.size, 'engine')}. ${count(pulls, 'pull')} on ${count(days.length, 'test day')} stand in this book. ${sheets}.`;
}

function StayRow({ engineId, buildId, days, stay }: Stay) {
  const said = [
    ...(stay.hoursS === null ? [] : [`${Number((stay.hoursS / 3600).toFixed(1))} h`]),
    ...(stay.pulls === null ? [] : [count(stay.pulls, 'pull')]),
  ];
  return (
    <tr>
      <th scope="row">
        <Link to={`/engines/${engineId}`}>{stay.engine}</Link>,{' '}
        <Link to={`/builds/${buildId}`}>{stay.build}</Link>
      </th>
      <td>
        <Link to="/builds/$id/sheet/{-$section}" params={{ id: buildId, section: stay.section }}>
          {titleOf(stay.section)}
        </Link>
      </td>
      <td>
        {stay.assembledOn === null ? (
          <span className="quiet">not said</span>
        ) : (
          dateInWords(stay.assembledOn)
        )}
      </td>
      <td>
        {days.length === 0 ? (
          <span className="quiet">none</span>
        ) : (
          days.map((day) => (
            <div key={day.id}>
              <Link to={`/days/${day.id}`}>{dayLabel(day)}</Link>, {count(day.pullCount, 'pull')}
            </div>
          ))
        )}
      </td>
      <td>{said.length === 0 ? <span className="quiet">nothing</span> : said.join(', ')}</td>
      <td className="quiet">{stay.note}</td>
    </tr>
  );
}

function StayHeads({ stays }: { readonly stays: readonly Stay[] }) {
  return stays.map(({ buildId, stay }) => (
    <th key={`${buildId} ${stay.section}`} scope="col" className="figure">
      {stay.engine}, {stay.build}
    </th>
  ));
}

interface MeasuresProps {
  readonly measures: readonly PartMeasure[];
  readonly stays: readonly Stay[];
}

function Measures({ measures, stays }: MeasuresProps) {
  const { units } = usePreferences();
  const sections = new Set(stays.map(({ stay }) => stay.section));
  return (
    <div className={styles.scroll}>
      <table className="sheet">
        <thead>
          <tr>
            <th scope="col">Measured</th>
            <StayHeads stays={stays} />
            {stays.length > 1 && (
              <th scope="col" className="figure">
                First to last
              </th>
            )}
          </tr>
        </thead>
        <tbody>
          {measures.map(({ path, label, shown, readings, by }) => (
            <tr key={path}>
              <th scope="row">{sections.size > 1 ? pathInWords(path) : label}</th>
              {readings.map((reading, index) => (
                <td key={stays[index]!.buildId + stays[index]!.stay.section} className="figure">
                  <Reading reading={reading} shown={shown} units={units} />
                </td>
              ))}
              {stays.length > 1 && (
                <td className="figure">{by === null ? '–' : valueText(by, shown, units, true)}</td>
              )}
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}

interface ReadingProps {
  readonly reading: PartReading | null;
  readonly shown: DisplayKind | null;
  readonly units: UnitSystem;
}

function Reading({ reading, shown, units }: ReadingProps) {
  if (reading === null) return <span className="quiet">not known</span>;
  const { low, high, words, count: places } = reading;
  if (words !== null || low === null || high === null) return words;
  const [from, to] = [valueText(low, shown, units), valueText(high, shown, units)];
  if (places === 1) return to;
  return (
    <>
      {from === to ? to : `${from.split(' ')[0]} to ${to}`}{' '}
      <small className="quiet">at {places}</small>
    </>
  );
}

function valueText(
  value: number,
  shown: DisplayKind | null,
  units: UnitSystem,
  by = false,
): string {
  if (shown === null) {
    const text = String(Number(value.toPrecision(6)));
    return by && value > 0 ? `+${text}` : text;
  }
  const text = quantityText(value, shown, units, by ? { signed: true, difference: true } : {});
  return text.replace(/^-/, '\u2212').replace(/ 1$/, '');
}

interface TableOverTimeProps {
  readonly table: PartTable;
  readonly stays: readonly Stay[];
}

/** A table such as the flow of a head at each lift, build beside build. */
function TableOverTime({ table, stays }: TableOverTimeProps) {
  const { units } = usePreferences();
  const measured = table.columns.flatMap((column, at) =>
    table.rows.some(({ values }) => values[at]!.some((one) => one !== null))
      ? [{ column, at }]
      : [],
  );
  return measured.map(({ column, at }) => (
    <section key={column.id} className="panel" aria-label={`${table.label}, ${column.label}`}>
      <header>
        <h2>
          {table.label}, {column.label.toLowerCase()}
        </h2>
        {table.help !== null && <span className="quiet">{table.help}</span>}
        <TakeTable
          title={`${table.label}, ${column.label.toLowerCase()}`}
          table={() => overTimeTable(table, { column, at }, stays, units)}
        />
      </header>
      <div className={styles.scroll}>
        <table className="sheet">
          <thead>
            <tr>
              <th scope="col">{table.key.label}</th>
              <StayHeads stays={stays} />
            </tr>
          </thead>
          <tbody>
            {table.rows
              .filter(({ values }) => values[at]!.some((one) => one !== null))
              .map((row) => (
                <tr key={row.at}>
                  <th scope="row">{valueText(row.at, shownOf(table.key), units)}</th>
                  {row.values[at]!.map((value, index) => (
                    <td key={stays[index]!.buildId + stays[index]!.stay.section} className="figure">
                      {value === null ? '–' : valueText(value, shownOf(column), units)}
                    </td>
                  ))}
                </tr>
              ))}
          </tbody>
        </table>
      </div>
    </section>
  ));
}

const shownOf = ({ shown }: FieldSpec): DisplayKind | null => shown ?? null;
