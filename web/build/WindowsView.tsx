import { Button } from '@mantine/core';
import { useState } from 'react';
import { SECTIONS, SHIPPED_WINDOWS, type WindowRule } from '../../src/build/index.ts';
import { CHECKS } from '../../src/build/topics/index.ts';
import {
  type DisplayKind,
  displayUnit,
  quantityText,
  type UnitSystem,
} from '../../src/units/index.ts';
import { EditSheet } from '../form/edit-sheet.tsx';
import type { Field } from '../form/fields.ts';
import { usePreferences } from '../shell/preferences.tsx';
import { Heads } from '../table/Heads.tsx';
import {
  numberColumn,
  rangeColumn,
  type TableModel,
  tableFrom,
  wordsColumn,
} from '../table/model.ts';
import { TakeRow } from '../table/TakeTable.tsx';
import fields from './inputs.module.css';
import { SourceText } from './SourceText.tsx';
import { leavingAs } from './sheet-tables.ts';
import styles from './windows.module.css';
import { conditionWords, isOwnOf, withOwn, withoutOwn } from './windows.ts';

interface WindowsViewProps {
  /** The shop's own lines, which stand before the shipped ones. */
  readonly own: readonly WindowRule[];
  readonly onChange: (own: readonly WindowRule[]) => void;
}

/** Every window with where it comes from; the shop puts its own in the place of a shipped one and takes it away again. */
export function WindowsView({ own, onChange }: WindowsViewProps) {
  const [editing, setEditing] = useState<WindowRule | null>(null);
  const lines = SHIPPED_WINDOWS.map((rule) => own.find((one) => isOwnOf(one, rule)) ?? rule);
  const others = own.filter((one) => !SHIPPED_WINDOWS.some((rule) => isOwnOf(one, rule)));
  const groups = inSections([...lines, ...others]);
  return (
    <section className="panel" aria-labelledby="windows">
      <header>
        <h2 id="windows">Windows of the build sheet</h2>
        <span className="quiet">
          a line of the shop’s own stands in the place of the shipped one
        </span>
      </header>
      {groups.map(({ title, rules }) => {
        const mine = rules.filter((rule) => own.includes(rule)).length;
        return (
          <details key={title} className={styles.group}>
            <summary>
              <strong>{title}</strong>{' '}
              <span className="quiet">
                {[
                  rules.length === 1 ? '1 window' : `${rules.length} windows`,
                  ...(mine === 0 ? [] : [`${mine} of the shop’s own`]),
                ].join(', ')}
              </span>
            </summary>
            <Lines {...{ title, rules, own, onChange }} onEdit={setEditing} />
          </details>
        );
      })}
      {editing !== null && (
        <EditSheet
          title={labelOf(editing)}
          fields={fieldsOf(editing)}
          values={{ ...editing, source: 'the shop’s own' }}
          sendUntouched
          onClose={() => setEditing(null)}
          onSave={(patch) => {
            // Another window is no longer what those pages say.
            const { addresses: _, ...line } = editing;
            onChange(withOwn(own, { ...line, ...patch }));
            setEditing(null);
          }}
        />
      )}
    </section>
  );
}

interface LinesProps extends WindowsViewProps {
  readonly title: string;
  readonly rules: readonly WindowRule[];
  readonly onEdit: (rule: WindowRule) => void;
}

/** The windows of one section of the sheet, a line each. */
function Lines({ title, rules, own, onChange, onEdit }: LinesProps) {
  const { units } = usePreferences();
  return (
    <div className={`${fields.scroll} ${styles.windows}`}>
      <TakeRow title={`Windows: ${title}`} table={() => windowsTable(rules, units)} />
      <table className="sheet">
        <Heads of={['Check', 'Holds for', 'Window', 'Stop', 'From']} acts="Acts" />
        <tbody>
          {rules.map((rule) => {
            const mine = own.includes(rule);
            const name = labelOf(rule);
            const words = conditionWords(rule);
            return (
              <tr key={`${rule.name} ${words}`}>
                <th scope="row">{name}</th>
                <td className="quiet">{words}</td>
                <td>{within(rule, rule.low, rule.high, units)}</td>
                <td>{stops(rule, units)}</td>
                <td className="quiet">
                  {mine ? <strong>{rule.source}</strong> : <SourceText {...rule} />}
                </td>
                <td>
                  <div className="acts">
                    <Button
                      variant="default"
                      size="compact-xs"
                      aria-label={`Edit ${name}, ${words}`}
                      onClick={() => onEdit(rule)}
                    >
                      Edit
                    </Button>
                    {mine && (
                      <Button
                        variant="default"
                        size="compact-xs"
                        aria-label={`Reset ${name}, ${words}`}
                        onClick={() => onChange(withoutOwn(own, rule))}
                      >
                        Reset
                      </Button>
                    )}
                  </div>
                </td>
              </tr>
            );
          })}
        </tbody>
      </table>
    </div>
  );
}

/** Windows that the test plan prints, which no check of the sheet has. */
const OF_THE_PLAN: Readonly<Record<string, readonly [string, DisplayKind]>> = {
  limitOilPressure: ['Oil pressure to shut down at', 'gaugePressure'],
  limitOilPressureIdle: ['Oil pressure at idle to shut down at', 'gaugePressure'],
  limitWater: ['Water to shut down at', 'temperature'],
  limitOil: ['Oil temperature to shut down at', 'temperature'],
  limitExhaust: ['Exhaust temperature to shut down at', 'temperature'],
  limitLean: ['Lambda to shut down at', 'lambda'],
  loadOil: ['Oil temperature before load', 'temperature'],
  pullOil: ['Oil temperature for a pull', 'temperature'],
  pullWater: ['Water temperature for a pull', 'temperature'],
  sweepRate: ['Sweep, rev/min each second', 'speed'],
};

/** Windows by the section of the sheet whose check they judge, in the order of the sheet; then those of the test plan. */
function inSections(
  rules: readonly WindowRule[],
): readonly { readonly title: string; readonly rules: readonly WindowRule[] }[] {
  const sectionOf = (rule: WindowRule) =>
    CHECKS.find(({ window }) => window === rule.name)?.section;
  return [
    ...SECTIONS.map(({ id, title }) => ({
      title,
      rules: rules.filter((rule) => sectionOf(rule) === id),
    })),
    { title: 'Test plan', rules: rules.filter((rule) => sectionOf(rule) === undefined) },
  ].filter((group) => group.rules.length > 0);
}

interface Meaning {
  readonly label: string;
  /** Null: a plain number. */
  readonly shown: DisplayKind | null;
  readonly decimals?: number;
  readonly isDifference?: true;
}

/** What the numbers of a window are. */
function meaningOf(rule: WindowRule): Meaning {
  const checks = CHECKS.filter((check) => check.window === rule.name);
  const first = checks[0];
  if (first !== undefined)
    return { ...first, label: [...new Set(checks.map(({ label }) => label))].join('; ') };
  const plan = OF_THE_PLAN[rule.name];
  return plan === undefined
    ? { label: rule.name, shown: null }
    : { label: plan[0], shown: plan[1] };
}
const labelOf = (rule: WindowRule): string => meaningOf(rule).label;

/** A number of a window, and behind the last one what it is counted by. */
function numberText(rule: WindowRule, value: number, units: UnitSystem): string {
  const { shown, decimals, isDifference } = meaningOf(rule);
  if (shown === null) return String(Number(value.toPrecision(4)));
  if (rule.perM)
    return shown === 'gaugePressure'
      ? `${quantityText(value * 1000, shown, units)} each 1000 rpm`
      : `${Number(value.toPrecision(4))} of its size`;
  return quantityText(value, shown, units, {
    ...(decimals === undefined ? {} : { decimals }),
    ...(isDifference === true ? { difference: true } : {}),
  }).replace(/ 1$/, '');
}

function within(
  rule: WindowRule,
  low: number | null,
  high: number | null,
  units: UnitSystem,
): string {
  const text = (value: number) => numberText(rule, value, units);
  if (low !== null && high !== null) return `${text(low).split(' ')[0]} to ${text(high)}`;
  if (low !== null) return `${text(low)} or more`;
  return high === null ? 'open' : `${text(high)} or less`;
}

function stops(rule: WindowRule, units: UnitSystem): string {
  const text = (value: number) => numberText(rule, value, units);
  return [
    ...(rule.stopBelow === null ? [] : [`below ${text(rule.stopBelow)}`]),
    ...(rule.stopAbove === null ? [] : [`above ${text(rule.stopAbove)}`]),
  ].join(', ');
}

/** The same as a table that leaves: ends in the unit of their row. */
function windowsTable(rules: readonly WindowRule[], units: UnitSystem): TableModel {
  const partOf = (rule: WindowRule) => {
    const { shown, isDifference } = meaningOf(rule);
    if (!rule.perM || shown === null) return leavingAs(shown, units, isDifference);
    if (shown !== 'gaugePressure') return leavingAs(null, units);
    const { symbol, of } = leavingAs(shown, units);
    return { symbol: `${symbol} each 1000 rpm`, of: (value: number) => of(value * 1000) };
  };
  const end = (rule: WindowRule, value: number | null) =>
    value === null ? null : partOf(rule).of(value);
  return tableFrom(rules, [
    wordsColumn('Check', labelOf),
    wordsColumn('Holds for', conditionWords),
    rangeColumn('Window', null, (rule) => ({
      low: end(rule, rule.low),
      high: end(rule, rule.high),
    })),
    numberColumn('Stop below', null, (rule) => end(rule, rule.stopBelow)),
    numberColumn('Stop above', null, (rule) => end(rule, rule.stopAbove)),
    wordsColumn('Unit', (rule) => {
      const { shown } = meaningOf(rule);
      return rule.perM && shown !== 'gaugePressure' ? '1 (of its size)' : partOf(rule).symbol;
    }),
    wordsColumn('From', ({ source }) => source),
  ]);
}

function fieldsOf(rule: WindowRule): readonly Field[] {
  const { shown } = meaningOf(rule);
  const counted =
    shown === 'gaugePressure' ? 'Pascal for each rev/min.' : 'As a part of the bore or journal.';
  const limit = (key: string, label: string, hint: string): Field => ({
    key,
    label,
    hint,
    ...(rule.perM || shown === null
      ? { kind: 'number' }
      : { kind: 'quantity', shown, dimension: displayUnit(shown, 'metric').dimension }),
  });
  return [
    limit('low', 'Least', rule.perM ? `${counted} Empty: open.` : 'Empty: open.'),
    limit('high', 'Most', 'Empty: open.'),
    limit('stopBelow', 'Stop below', 'Empty: only a second look.'),
    limit('stopAbove', 'Stop above', 'Empty: only a second look.'),
    { key: 'source', label: 'Where it is from', kind: 'text', required: true },
  ];
}
