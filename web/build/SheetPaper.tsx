import { Button } from '@mantine/core';
import { Fragment, useMemo } from 'react';
import {
  answerSheet,
  type Check,
  type Entry,
  type Figure,
  isEach,
  type Place,
  placeLabels,
  type SectionSpec,
  type Sheet,
  type SheetAnswer,
  type TableSpec,
  type WindowRule,
} from '../../src/build/index.ts';
import { inUnitsOf, type UnitSystem } from '../../src/units/index.ts';
import { usePreferences } from '../shell/preferences.tsx';
import { dateInWords } from '../shell/words.ts';
import { Heads } from '../table/Heads.tsx';
import { TakeRow, TakeTable } from '../table/TakeTable.tsx';
import { layoutInWords } from './EngineLine.tsx';
import { eachAt, entryAt, tableAt } from './edit.ts';
import { PLACE_TITLES, STATISTICS } from './PlaceTables.tsx';
import styles from './paper.module.css';
import { followsTable, freeTable, ledgerTable, placesOnPaper } from './sheet-tables.ts';
import { statistics } from './typing.ts';
import { VerdictMark } from './Verdict.tsx';
import { windowWords } from './WindowBar.tsx';
import {
  checksOf,
  figuresOf,
  inNeedOrder,
  outOfWindow,
  pathInWords,
  placesOf,
  plusMinusText,
  SECTIONS,
  valueText,
  verdictCounts,
} from './words.ts';

interface SheetPaperProps {
  readonly title: string;
  readonly sheet: Sheet;
  readonly own?: readonly WindowRule[];
}

/** Of what is to be measured next, so much goes on paper; the screen has all. */
const NEXT = 12;

/** The whole sheet as it goes on paper: what was measured, what follows, what is out of its window, what to measure next. */
export function SheetPaper({ title, sheet, own }: SheetPaperProps) {
  const { units } = usePreferences();
  const answer = useMemo(() => answerSheet(sheet, own), [sheet, own]);
  const counts = verdictCounts(answer.checks);
  const wrong = outOfWindow(answer.checks);
  const said = SECTIONS.filter(
    ({ id }) =>
      sheet.sections[id] !== undefined ||
      [...checksOf(answer, id), ...figuresOf(answer, id)].some((one) => one.value !== null),
  );
  return (
    <article className={`stack ${styles.paper}`}>
      <div className="opening">
        <div>
          <h1>{title}</h1>
          <p className="lede">
            {layoutInWords(sheet.layout)}
            {sheet.use !== undefined && `; for ${sheet.use}`}
          </p>
        </div>
        <div className="acts offPaper">
          <Button variant="default" onClick={() => window.print()}>
            Print
          </Button>
        </div>
      </div>
      <p className={styles.counts}>
        {(['stop', 'look again', 'fine', 'not known'] as const).map((verdict) => (
          <VerdictMark key={verdict} verdict={verdict} count={counts[verdict]} />
        ))}
      </p>
      {wrong.length > 0 && (
        <section className="panel" aria-labelledby="paper-wrong">
          <header>
            <h2 id="paper-wrong">Out of its window</h2>
            <TakeTable title="Out of its window" table={() => followsTable(wrong, units)} />
          </header>
          <table className="sheet">
            <Heads of={['Check', 'Verdict', 'Value', 'What would bring it right']} />
            <tbody>
              {wrong.map((check) => (
                <tr key={check.id}>
                  <th scope="row">{check.label}</th>
                  <td>
                    <VerdictMark verdict={check.verdict} />
                  </td>
                  <td>{told(check, units)}</td>
                  <td>{inUnitsOf(check.problem ?? check.remedy ?? '', units)}</td>
                </tr>
              ))}
            </tbody>
          </table>
        </section>
      )}
      {said.map((section) => (
        <PaperSection key={section.id} section={section} sheet={sheet} answer={answer} />
      ))}
      {answer.measureNext.length > 0 && (
        <section className="panel" aria-labelledby="paper-next">
          <header>
            <h2 id="paper-next">What to measure next, what decides most first</h2>
          </header>
          <ol className={styles.next}>
            {answer.measureNext.slice(0, NEXT).map(({ path }) => (
              <li key={path}>
                <span className={styles.box} aria-hidden="true" /> {pathInWords(path)}
              </li>
            ))}
          </ol>
        </section>
      )}
    </article>
  );
}

interface InSection {
  readonly section: SectionSpec;
  readonly sheet: Sheet;
}

function PaperSection({ section, sheet, answer }: InSection & { readonly answer: SheetAnswer }) {
  const data = sheet.sections[section.id];
  const kinds = [...new Set(section.fields.flatMap((field) => field.per ?? []))];
  return (
    <section className="panel" aria-labelledby={`paper-${section.id}`}>
      <header>
        <h2 id={`paper-${section.id}`}>{section.title}</h2>
      </header>
      <Values section={section} sheet={sheet} />
      {kinds.map((per) => (
        <Places key={per} section={section} sheet={sheet} per={per} />
      ))}
      {(section.tables ?? []).map((spec) => (
        <Rows key={spec.id} section={section} sheet={sheet} spec={spec} />
      ))}
      {(data?.parts ?? []).length > 0 && (
        <p>
          Parts:{' '}
          {data!
            .parts!.map(({ name, serial, note }) =>
              [serial === undefined ? name : `${name} (${serial})`, note]
                .filter(Boolean)
                .join(', '),
            )
            .join('; ')}
          .
        </p>
      )}
      {data?.notes !== undefined && <p className={styles.notes}>{data.notes}</p>}
      <Following section={section} sheet={sheet} answer={answer} />
    </section>
  );
}

/** What stands once. */
function Values({ section, sheet }: InSection) {
  const lines = section.fields.flatMap((field) => {
    const entry = entryAt(sheet, `${section.id}.${field.id}`);
    return field.per !== undefined || entry === undefined || isEach(entry)
      ? []
      : [{ field, entry }];
  });
  if (lines.length === 0) return null;
  return (
    <>
      <TakeRow title={section.title} table={() => ledgerTable(section, sheet)} />
      <table className={`sheet ${styles.values}`}>
        <Heads of={['Measured or said', 'Value', 'Who, with what, when']} />
        <tbody>
          {lines.map(({ field, entry }) => (
            <tr key={field.id}>
              <th scope="row">{field.label}</th>
              <td>{typedText(entry)}</td>
              <td className="quiet">{whoOf(entry)}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </>
  );
}

/** `4.03 ± 0.0005 in`, as it was typed. */
function typedText({ value, unit, plusMinus }: Entry): string {
  if (typeof value === 'boolean') return value ? 'yes' : 'no';
  return [value, ...(plusMinus === undefined ? [] : [`± ${plusMinus}`]), unit]
    .filter((one) => one !== undefined)
    .join(' ');
}

const whoOf = (entry: { by?: string; with?: string; on?: string; note?: string }): string =>
  [entry.by, entry.with, entry.on === undefined ? undefined : dateInWords(entry.on), entry.note]
    .filter(Boolean)
    .join(', ');

/** What was measured place by place, its unit in the head of its column. */
function Places({ section, sheet, per }: InSection & { readonly per: Place }) {
  const columns = section.fields.flatMap((field) => {
    const path = `${section.id}.${field.id}`;
    const entry = entryAt(sheet, path);
    return field.per !== per || entry === undefined
      ? []
      : [{ field, entry, each: eachAt(sheet, path) }];
  });
  if (columns.length === 0) return null;
  const labels = placeLabels(per, sheet.layout);
  const found = columns.map(({ each }) => statistics(each));
  const said = columns.filter(({ entry }) => whoOf(entry) !== '');
  return (
    <>
      <TakeRow
        title={`${section.title}, ${PLACE_TITLES[per].toLowerCase()}`}
        table={() => placesOnPaper(section, per, PLACE_TITLES[per], sheet)}
      />
      <table className={`sheet ${styles.places}`}>
        <thead>
          <tr>
            <th scope="col">{PLACE_TITLES[per]}</th>
            {columns.map(({ field, entry }) => (
              <th key={field.id} scope="col" className="figure">
                {[field.label, entry.unit].filter(Boolean).join(', ')}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {labels.map((label, row) => (
            <tr key={label}>
              <th scope="row">{label}</th>
              {columns.map(({ field, each }) => (
                <td key={field.id} className="figure">
                  {each[row] ?? '–'}
                </td>
              ))}
            </tr>
          ))}
          {labels.length > 1 &&
            STATISTICS.map(([key, name]) => (
              <tr key={key} className="quiet">
                <th scope="row">{name}</th>
                {found.map((one, i) => (
                  <td key={columns[i]!.field.id} className="figure">
                    {one === null ? '–' : one[key]}
                  </td>
                ))}
              </tr>
            ))}
        </tbody>
      </table>
      {said.length > 0 && (
        <p className={`quiet ${styles.said}`}>
          {[...new Set(said.map(({ entry }) => whoOf(entry)))]
            .map((who) => {
              const alike = said.filter(({ entry }) => whoOf(entry) === who);
              return `${alike.map(({ field }) => field.label).join('; ')}: ${who.replace(/\.$/, '')}.`;
            })
            .join(' ')}
        </p>
      )}
    </>
  );
}

/** A free table, row by row. */
function Rows({ section, sheet, spec }: InSection & { readonly spec: TableSpec }) {
  const table = tableAt(sheet, `${section.id}.${spec.id}`);
  if (table === undefined || table.rows.length === 0) return null;
  const columns = spec.columns.filter(({ id }) =>
    table.rows.some((row) => (row[id] ?? null) !== null),
  );
  const isFigure = (kind: string) => kind === 'quantity' || kind === 'number';
  return (
    <>
      <TakeRow
        title={spec.label}
        table={() => freeTable({ ...spec, columns }, table, ({ id }) => table.units?.[id])}
      />
      <table className={`sheet ${styles.rows}`}>
        <caption>{spec.label}</caption>
        <thead>
          <tr>
            {columns.map(({ id, label, kind }) => (
              <th key={id} scope="col" className={isFigure(kind) ? 'figure' : undefined}>
                {[label, table.units?.[id]].filter(Boolean).join(', ')}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {table.rows.map((row, at) => (
            // biome-ignore lint/suspicious/noArrayIndexKey: rows have no other name
            <tr key={at}>
              {columns.map(({ id, kind }) => (
                <td key={id} className={isFigure(kind) ? 'figure' : undefined}>
                  {typeof row[id] === 'boolean' ? (row[id] ? 'yes' : 'no') : (row[id] ?? '–')}
                </td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </>
  );
}

/** Figures and checks of a section that are known. */
function Following({ section, sheet, answer }: InSection & { readonly answer: SheetAnswer }) {
  const { units } = usePreferences();
  const checks = inNeedOrder(checksOf(answer, section.id)).filter(
    ({ verdict }) => verdict !== 'not known',
  );
  const figures = figuresOf(answer, section.id).filter(
    ({ value, problem }) => value !== null || problem !== null,
  );
  if (checks.length + figures.length === 0) return null;
  return (
    <>
      <TakeRow
        title={`${section.title}, what follows`}
        table={() => followsTable([...checks, ...figures], units)}
      />
      <table className={`sheet ${styles.follows}`}>
        <thead>
          <tr>
            <th scope="col">What follows</th>
            <th scope="col" className="figure">
              Value
            </th>
            <th scope="col">Verdict</th>
            <th scope="col">Window</th>
          </tr>
        </thead>
        <tbody>
          {checks.map((check) => (
            <Fragment key={check.id}>
              <tr>
                <th scope="row">
                  {check.label}
                  <Each answer={check} sheet={sheet} units={units} />
                </th>
                <td className="figure">{told(check, units)}</td>
                <td>
                  <VerdictMark verdict={check.verdict} />
                </td>
                <td>
                  {windowWords(check, (at) => valueText(check, at, units))}
                  {check.window !== null && <small className="quiet">{check.window.source}</small>}
                </td>
              </tr>
            </Fragment>
          ))}
          {figures.map((figure) => (
            <tr key={figure.id}>
              <th scope="row">
                {figure.label}
                <Each answer={figure} sheet={sheet} units={units} />
              </th>
              <td className="figure">{told(figure, units)}</td>
              <td />
              <td />
            </tr>
          ))}
        </tbody>
      </table>
    </>
  );
}

/** All places of an answer in one line. */
function Each({ answer, sheet, units }: { answer: Figure; sheet: Sheet; units: UnitSystem }) {
  const { each } = answer;
  if (each === null || each.length < 2) return null;
  const places = placesOf(answer, sheet.layout);
  return (
    <small className="quiet">
      {each
        .map((value, i) =>
          value === null ? null : `${places[i] ?? i + 1}: ${numberText(answer, value, units)}`,
        )
        .filter((one) => one !== null)
        .join(', ')}
    </small>
  );
}

/** Without its unit, which stands beside. */
const numberText = (answer: Figure, value: number, units: UnitSystem) =>
  valueText(answer, value, units).split(' ')[0]!;

/** Value with its ±, or why there is none. */
function told(answer: Figure | Check, units: UnitSystem): string {
  if (answer.problem !== null) return inUnitsOf(answer.problem, units);
  if (answer.value === null) return 'not known';
  return [valueText(answer, answer.value, units), plusMinusText(answer, units)]
    .filter((one) => one !== null)
    .join(' ');
}
