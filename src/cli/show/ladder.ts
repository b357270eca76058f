import type { SettingInterval } from '../../ladder/types.ts';
import type { LadderObject } from '../../report/index.ts';
import { inUnitsOf, type UnitSystem } from '../../units/index.ts';
import { plain } from '../io.ts';
import { table, wrapped } from '../table.ts';
import { peakText, showMarksOf } from './curve.ts';

/** A day's ladder for a person: where it stands, what each step brought, what to leave in, what to do next. */
export function showLadder(ladder: LadderObject, system: UnitSystem, columns: number): string {
  return [
    `${plain(ladder.session)}\n`,
    wrapped(ladder.headline, columns, '  '),
    ladder.summary === '' ? '' : wrapped(ladder.summary, columns, '  '),
    '\n',
    ladder.steps.length === 0 ? '' : `${stepsTable(ladder)}\n`,
    placesTable(ladder),
    '\n',
    usesTable(ladder),
    ...Object.entries(ladder.uses).map(([name, { why }]) =>
      wrapped(`${name}: ${why}`, columns, '  '),
    ),
    '\n',
    wrapped(`Next: ${nextText(ladder)}. ${ladder.next.why}`, columns, '  '),
    '\n',
    pullsTable(ladder, system),
    showMarksOf(
      ladder.pulls.map(({ file, lead, marks }) => ({
        name: `${file ?? 'typed'}, ${lead} ${ladder.unit}`,
        marks,
      })),
      system,
      columns,
    ),
    ...ladder.warnings.map((warning) =>
      wrapped(`note: ${inUnitsOf(warning, system)}`, columns, '  '),
    ),
  ].join('');
}

function stepsTable({ steps, unit }: LadderObject): string {
  return table(
    [{ title: 'step' }, { title: 'gain %', align: 'right' }, { title: '95 %' }, { title: 'is' }],
    steps.map((step) => [
      `${step.from} to ${step.to} ${unit}`,
      signed(step.gainPercent),
      `${signed(step.lowPercent)} to ${signed(step.highPercent)}`,
      step.besides === null ? step.word : `${step.word} (beside: ${step.besides})`,
    ]),
    '  ',
  );
}

function placesTable({
  best,
  knee,
  limit,
  limitWatched,
  unit,
  repeatabilityPercent,
}: LadderObject) {
  return [
    `  best    ${intervalText(best, unit)}\n`,
    `  knee    ${intervalText(knee, unit)}\n`,
    `  limit   ${limit === null ? '–' : intervalText(limit, unit)}${limitWatched ? '' : ' (limit not watched)'}\n`,
    `  the cell repeats within ${repeatabilityPercent.toFixed(2)} % (1 sd)\n`,
  ].join('');
}

function usesTable({ uses, unit }: LadderObject): string {
  return table(
    [
      { title: 'leave in it for' },
      { title: 'setting', align: 'right' },
      { title: 'gives up', align: 'right' },
    ],
    Object.entries(uses).map(([name, { value, givesUpPercent }]) => [
      name,
      value === null ? 'not known yet' : `${value} ${unit}`,
      givesUpPercent === null ? '–' : `${givesUpPercent.toFixed(1)} %`,
    ]),
    '  ',
  );
}

function nextText({ next, unit }: LadderObject): string {
  const at =
    next.value === null ? '' : ` ${next.action === 'back' ? 'to' : 'at'} ${next.value} ${unit}`;
  return { pull: 'pull', repeat: 'repeat', back: 'go back', stop: 'stop' }[next.action] + at;
}

function pullsTable({ pulls, unit }: LadderObject, system: UnitSystem): string {
  return table(
    [
      { title: 'pull' },
      { title: unit, align: 'right' },
      { title: 'peak torque' },
      { title: 'peak power' },
      { title: 'factor', align: 'right' },
      { title: '' },
    ],
    pulls.map((pull) => [
      pull.file ?? 'typed',
      String(pull.lead),
      peakText(pull.peakTorque, 'torque', system),
      peakText(pull.peakPower, 'power', system),
      pull.correctionFactor === null ? '–' : pull.correctionFactor.toFixed(4),
      pull.excludedBecause === null ? '' : `left out: ${pull.excludedBecause}`,
    ]),
    '  ',
  );
}

/** `28.9 deg (28.4 to 29.6)`; an end that the ladder has not closed is open. */
function intervalText({ value, low, high }: SettingInterval, unit: string): string {
  const figure = (end: number | null) => (end === null ? 'open' : end.toFixed(1));
  return `${value === null ? 'not known yet' : `${value.toFixed(1)} ${unit}`} (${figure(low)} to ${figure(high)})`;
}

function signed(percent: number): string {
  const text = percent.toFixed(2);
  return percent > 0 && Number(text) !== 0 ? `+${text}` : text;
}
