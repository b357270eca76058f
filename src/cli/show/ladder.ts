import type { SettingInterval } from '../../ladder/types.ts';
import type { LadderObject } from '../../report/index.ts';
import { inUnitsOf, quantityText, type UnitSystem } from '../../units/index.ts';
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
    ladder.mixture === null ? '' : mixtureText(ladder.mixture, system, columns),
    usesTable(ladder),
    ...Object.entries(ladder.uses).map(([name, { why }]) =>
      wrapped(`${name}: ${why}`, columns, '  '),
    ),
    '\n',
    wrapped(`Next: ${nextText(ladder)}. ${ladder.next.why}`, columns, '  '),
    '\n',
    pullsTable(ladder, system),
    showMarksOf(
      ladder.pulls.map(({ file, lead, lambda, marks }) => ({
        name: `${file ?? 'typed'}, ${ladder.unit === '' ? `lambda ${lambda}` : `${lead} ${ladder.unit}`}`,
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

/** Power and fuel along the mixture, air to fuel beside lambda, and the consumption that was measured. */
function mixtureText(
  { rows, sentence, measured, fuel }: NonNullable<LadderObject['mixture']>,
  system: UnitSystem,
  columns: number,
): string {
  const consumption = (lambda: number) => {
    const own = measured.filter((one) => Math.abs(one.lambda - lambda) < 1e-4);
    if (own.length === 0) return '–';
    const mean = own.reduce((sum, { bsfcKgPerJ }) => sum + bsfcKgPerJ, 0) / own.length;
    return quantityText(mean, 'specificConsumption', system);
  };
  const lines =
    rows.length === 0
      ? ''
      : table(
          [
            { title: 'lambda', align: 'right' },
            { title: fuel === null ? 'air to fuel' : `air to ${fuel.name}`, align: 'right' },
            { title: 'gives up %', align: 'right' },
            { title: '95 %' },
            { title: 'fuel for the air %', align: 'right' },
            { title: 'fuel for the power %', align: 'right' },
            { title: 'measured', align: 'right' },
          ],
          rows.map(({ lambda, lossPercent, fuelPercent, fuelForPowerPercent }) => [
            lambda.toFixed(3),
            fuel === null ? '–' : (lambda * fuel.stoichiometricAfr).toFixed(2),
            lossPercent.value.toFixed(2),
            `${lossPercent.low.toFixed(2)} to ${lossPercent.high.toFixed(2)}`,
            signed(fuelPercent),
            signed(fuelForPowerPercent.value),
            consumption(lambda),
          ]),
          '  ',
        );
  return `${wrapped(sentence, columns, '  ')}${lines}\n`;
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
      { title: unit === '' ? 'lambda' : unit, align: 'right' },
      { title: 'peak torque' },
      { title: 'peak power' },
      { title: 'factor', align: 'right' },
      { title: '' },
    ],
    pulls.map((pull) => [
      pull.file ?? 'typed',
      unit === '' ? (pull.lambda?.toFixed(3) ?? 'not known') : String(pull.lead),
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
  // Degrees to the tenth; lambda, which has no unit, to the thousandth.
  const places = unit === '' ? 3 : 1;
  const figure = (end: number | null) => (end === null ? 'open' : end.toFixed(places));
  return `${value === null ? 'not known yet' : `${value.toFixed(places)} ${unit}`.trim()} (${figure(low)} to ${figure(high)})`;
}

function signed(percent: number): string {
  const text = percent.toFixed(2);
  return percent > 0 && Number(text) !== 0 ? `+${text}` : text;
}
