import { Button } from '@mantine/core';
import { useMemo } from 'react';
import type {
  ComputedChange,
  MeasuredChange,
  Stood,
} from '../../src/build/changes/sheetChanges.ts';
import {
  answerSheet,
  planSentence,
  type Sheet,
  sheetChanges,
  type WindowRule,
} from '../../src/build/index.ts';
import {
  type DisplayKind,
  type FormatOptions,
  findUnit,
  quantityText,
  type UnitSystem,
} from '../../src/units/index.ts';
import { signed } from '../charts/numbers.ts';
import { usePreferences } from '../shell/preferences.tsx';
import { Nothing } from '../shell/states.tsx';
import { dateInWords } from '../shell/words.ts';
import { numberColumn, type TableModel, tableFrom, wordsColumn } from '../table/model.ts';
import { TakeTable } from '../table/TakeTable.tsx';
import styles from './changes.module.css';
import { leavingAs } from './sheet-tables.ts';
import { VerdictMark } from './Verdict.tsx';
import { HEADLINES, pathInWords, titleOf } from './words.ts';

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

/** The largest changes, told as sentences. */
const SHORT = 6;

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
  const { verdicts, parts, computed, measured, tables } = found;
  const none = Object.values(found).every((changes) => changes.length === 0);
  const moved = computed.filter(({ sentence }) => sentence !== null);
  const told = verdicts.filter((one) => one.before !== 'not known' || one.after !== 'fine');
  const nowFine = verdicts.filter((one) => !told.includes(one));
  const fields = byField(measured);
  const firstSaid = fields.filter((places) => places.every((one) => one.before.typed === null));
  const saidAnew = fields.filter((places) => !firstSaid.includes(places));
  const came = computed.filter(({ before: was }) => was === null);
  const went = computed.filter(({ after: is }) => is === null);
  return (
    <div className="stack">
      <div className="opening">
        <h1>
          {after.name} against {before.name}
        </h1>
        <div className="acts offPaper">
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
      {moved.length > 0 && (
        <section className="panel" aria-labelledby="in-short">
          <header>
            <h2 id="in-short">In short</h2>
          </header>
          <ul className="marks">
            {inShort(moved).map((one) => (
              <li key={one.id}>{planSentence({ parts: one.sentence! }, units)}</li>
            ))}
          </ul>
        </section>
      )}
      {verdicts.length > 0 && (
        <section className="panel" aria-labelledby="verdicts">
          <header>
            <h2 id="verdicts">Verdicts that changed</h2>
            <TakeTable
              title="Verdicts that changed"
              table={() =>
                tableFrom(verdicts, [
                  wordsColumn('Check', ({ label }) => label),
                  wordsColumn(before.name, (one) => one.before),
                  wordsColumn(after.name, (one) => one.after),
                ])
              }
            />
          </header>
          {told.length > 0 && (
            <table className="sheet">
              <Head before={before.name} after={after.name} first="Check" />
              <tbody>
                {told.map((one) => (
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
          )}
          {nowFine.length > 0 && (
            <p className={styles.nowFine}>
              <VerdictMark verdict="fine" /> and not known before:{' '}
              {nowFine.map(({ label }) => label).join('; ')}.
            </p>
          )}
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
      {moved.length > 0 && (
        <section className="panel" aria-labelledby="computed">
          <header>
            <h2 id="computed">What follows</h2>
            <span className="quiet">moved by more than its own ±; the most first</span>
            <TakeTable
              title="What follows"
              table={() => computedTable(computed, [before.name, after.name], units)}
            />
          </header>
          <table className="sheet">
            <Head before={before.name} after={after.name} first="Figure" by />
            <tbody>
              {moved.map((one) => (
                <tr key={one.id}>
                  <th scope="row">{one.label}</th>
                  <td className="figure">{figureText(one, one.before, units)}</td>
                  <td className="figure">{figureText(one, one.after, units)}</td>
                  <td className="figure">{by(one, one.by, units)}</td>
                </tr>
              ))}
            </tbody>
          </table>
        </section>
      )}
      <Known id="came" title={`Known of ${after.name} only`} all={came} of="after" />
      <Known id="went" title={`Known of ${before.name} only`} all={went} of="before" />
      {tables.length > 0 && (
        <section className="panel" aria-labelledby="tables">
          <header>
            <h2 id="tables">Tables and curves</h2>
          </header>
          {tables.map(({ path, label, sentences }) => (
            <div key={path}>
              <h3 className={styles.ofTable}>
                {titleOf(path.split('.')[0]!)}: {label}
              </h3>
              <ul className="marks">
                {sentences.map((parts) => {
                  const text = planSentence({ parts }, units);
                  return <li key={text}>{text}</li>;
                })}
              </ul>
            </div>
          ))}
        </section>
      )}
      {saidAnew.length > 0 && (
        <section className="panel" aria-labelledby="measured">
          <header>
            <h2 id="measured">What was measured or said anew</h2>
            <span className="quiet">
              by place: smallest to largest, and the mean of the changes
            </span>
            <TakeTable
              title="What was measured or said"
              table={() => measuredTable(measured, [before.name, after.name])}
            />
          </header>
          <table className="sheet">
            <Head before={before.name} after={after.name} first="Field" by />
            <tbody>
              {saidAnew.map((places) => {
                const [one] = places as [MeasuredChange];
                return (
                  <tr key={one.path}>
                    <th scope="row">
                      {pathInWords(one.path)}
                      {places.length > 1
                        ? `, ${places.length} places`
                        : one.placeLabel !== null && `, ${one.placeLabel}`}
                    </th>
                    <td className="figure">{spanText(places.map((place) => place.before))}</td>
                    <td className="figure">{spanText(places.map((place) => place.after))}</td>
                    <td className="figure">{measuredBy(places, units)}</td>
                  </tr>
                );
              })}
            </tbody>
          </table>
        </section>
      )}
      {firstSaid.length > 0 && (
        <section className="panel" aria-labelledby="first-said">
          <header>
            <h2 id="first-said">Measured or said for the first time</h2>
            <span className="quiet">by place: smallest to largest</span>
          </header>
          <ul className={styles.known}>
            {firstSaid.map((places) => (
              <li key={places[0]!.path}>
                <span>{pathInWords(places[0]!.path)}</span>{' '}
                <strong>{spanText(places.map((place) => place.after))}</strong>
              </li>
            ))}
          </ul>
        </section>
      )}
    </div>
  );
}

/** Figures of both builds, those that only one has as well, in the unit of their row. */
function computedTable(
  computed: readonly ComputedChange[],
  [before, after]: readonly [string, string],
  units: UnitSystem,
): TableModel {
  const of = (one: ComputedChange, value: number | null, isDifference = one.isDifference) =>
    value === null ? null : leavingAs(one.shown, units, isDifference).of(value);
  return tableFrom(computed, [
    wordsColumn('Figure', ({ label }) => label),
    wordsColumn('Unit', ({ shown }) => leavingAs(shown, units).symbol),
    numberColumn(before, null, (one) => of(one, one.before)),
    numberColumn(after, null, (one) => of(one, one.after)),
    numberColumn('By', null, (one) => of(one, one.by, true)),
  ]);
}

/** Every place of every field that was measured or said anew, as it was typed. */
function measuredTable(
  measured: readonly MeasuredChange[],
  [before, after]: readonly [string, string],
): TableModel {
  const side = (name: string, of: (one: MeasuredChange) => Stood) => [
    numberColumn<MeasuredChange>(name, null, (one) => {
      const { typed } = of(one);
      return typeof typed === 'number' ? typed : null;
    }),
    wordsColumn<MeasuredChange>(`${name}, in words`, (one) => {
      const { typed } = of(one);
      return typed === null || typeof typed === 'number' ? null : String(typed);
    }),
    wordsColumn<MeasuredChange>(`${name}, unit`, (one) => of(one).unit),
  ];
  return tableFrom(measured, [
    wordsColumn('Field', ({ path }) => pathInWords(path)),
    wordsColumn('Place', ({ placeLabel }) => placeLabel),
    ...side(before, (one) => one.before),
    ...side(after, (one) => one.after),
  ]);
}

/** What an engine is called by first, then what moved most; what only stands warm is told by its cold twin. */
function inShort(moved: readonly ComputedChange[]): readonly ComputedChange[] {
  const place = ({ id }: ComputedChange) => {
    const at = HEADLINES.indexOf(id);
    return at < 0 ? HEADLINES.length : at;
  };
  return moved
    .filter(({ id }) => !moved.some((one) => id === `${one.id}Warm`))
    .sort((a, b) => place(a) - place(b))
    .slice(0, SHORT);
}

/** Changes of one field, place by place, in the order of the sheet. */
function byField(measured: readonly MeasuredChange[]): readonly (readonly MeasuredChange[])[] {
  const found = new Map<string, MeasuredChange[]>();
  for (const one of measured) {
    const places = found.get(one.path);
    if (places === undefined) found.set(one.path, [one]);
    else places.push(one);
  }
  return [...found.values()];
}

interface KnownProps {
  readonly id: string;
  readonly title: string;
  readonly all: readonly ComputedChange[];
  readonly of: 'before' | 'after';
}

/** Figures that only one of the builds has: told, not compared. */
function Known({ id, title, all, of }: KnownProps) {
  const { units } = usePreferences();
  if (all.length === 0) return null;
  return (
    <section className="panel" aria-labelledby={id}>
      <header>
        <h2 id={id}>{title}</h2>
      </header>
      <ul className={styles.known}>
        {all.map((one) => (
          <li key={one.id}>
            <span>{one.label}</span> <strong>{figureText(one, one[of], units)}</strong>
          </li>
        ))}
      </ul>
    </section>
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

const formatOf = ({ decimals, isDifference }: ComputedChange) => ({
  ...(decimals === null ? {} : { decimals }),
  ...(isDifference ? { difference: true as const } : {}),
});
const figureText = (change: ComputedChange, value: number | null, units: UnitSystem) =>
  value === null
    ? 'not known'
    : quantityText(value, change.shown, units, formatOf(change)).replace(/ 1$/, '');
const by = (change: ComputedChange, value: number | null, units: UnitSystem) =>
  value === null ? '–' : changeText(value, change.shown, units, formatOf(change));

function asTyped({ typed, unit }: Stood): string {
  if (typed === null) return 'not known';
  if (typeof typed === 'boolean') return typed ? 'yes' : 'no';
  if (typeof typed === 'string' && /^\d{4}-\d\d-\d\d$/.test(typed)) return dateInWords(typed);
  return unit === null ? String(typed) : `${typed} ${unit}`;
}

/** What stood at several places: the same everywhere, or the smallest to the largest. */
function spanText(stood: readonly Stood[]): string {
  const texts = [...new Set(stood.map(asTyped))];
  if (texts.length === 1) return texts[0]!;
  const numbers = stood.filter(({ inside }) => inside !== null);
  const unit = numbers[0]?.unit ?? null;
  if (numbers.length === 0) return texts.join(', ');
  const values = numbers.map(({ typed }) => typed as number);
  const [low, high] = [Math.min(...values), Math.max(...values)];
  const span = low === high ? String(low) : `${low} to ${high}`;
  const open = stood.length - numbers.length;
  return `${unit === null ? span : `${span} ${unit}`}${open === 0 ? '' : `, ${open} not known`}`;
}

function measuredBy(places: readonly MeasuredChange[], units: UnitSystem): string {
  const moves = places.flatMap(({ by: value }) => (value === null ? [] : [value]));
  if (moves.length === 0) return '–';
  const mean = moves.reduce((sum, one) => sum + one, 0) / moves.length;
  const { shown } = places[0]!;
  if (shown === null) return mean > 0 ? `+${mean}` : String(mean);
  return inTypedUnit(places, mean) ?? changeText(mean, shown, units);
}

/** A change in the unit that both were typed in, with the digits that they have; null where no unit is common to all. */
function inTypedUnit(places: readonly MeasuredChange[], mean: number): string | null {
  const stood = places.flatMap(({ by: value, before, after }) =>
    value === null ? [] : [before, after],
  );
  const [name, ...others] = new Set(stood.map(({ unit }) => unit));
  const unit = name == null || others.length > 0 ? undefined : findUnit(name);
  if (unit === undefined || unit.symbol === '%') return null;
  const decimals = Math.max(
    ...stood.map(({ typed }) => String(typed).split('.')[1]?.length ?? 0),
    places.length > 1 ? 1 : 0,
  );
  return `${signed(mean / unit.factor, decimals)} ${name}`;
}

/** A change in the units of the person: with a real minus, and what lies between two percentages as points. */
const changeText = (
  value: number,
  shown: DisplayKind,
  units: UnitSystem,
  format: FormatOptions = {},
) =>
  quantityText(value, shown, units, { ...format, signed: true, difference: true })
    .replace(/^-/, '−')
    .replace(/ %$/, ' points')
    .replace(/ 1$/, '');
