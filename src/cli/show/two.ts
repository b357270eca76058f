import type { SettingInterval } from '../../ladder/types.ts';
import type { TwoObject } from '../../report/index.ts';
import { inUnitsOf, type UnitSystem } from '../../units/index.ts';
import { plain } from '../io.ts';
import { table, wrapped } from '../table.ts';

type Load = TwoObject['loads'][number];

/** A day's lead and lambda for a person: the best of both, the next pull, what to leave in it, the table by speed. */
export function showTwo(two: TwoObject, system: UnitSystem, columns: number): string {
  return [
    `${plain(two.session)}: lead and lambda at once\n`,
    ...two.loads.map((load) => showLoad(load, two.loads.length > 1, columns)),
    pullsTable(two),
    ...two.warnings.map((warning) => wrapped(`note: ${inUnitsOf(warning, system)}`, columns, '  ')),
  ].join('');
}

function showLoad(load: Load, named: boolean, columns: number): string {
  const { next } = load;
  const worth = next.worthPercent === null ? '' : ` (worth ${next.worthPercent.toFixed(2)} %)`;
  return [
    named
      ? `\n  ${load.loadPercent === null ? 'Full throttle' : `${load.loadPercent} % load`}\n`
      : '',
    wrapped(load.headline, columns, '  '),
    wrapped(load.summary, columns, '  '),
    '\n',
    `  best lead    ${intervalText(load.bestLeadDeg, 1, ' deg')}\n`,
    `  best lambda  ${intervalText(load.bestLambda, 3, '')}\n`,
    `  ridge        ${signed(load.ridgeDegPerTenth.value)} deg for each 0.1 of lambda leaner (${signed(load.ridgeDegPerTenth.low)} to ${signed(load.ridgeDegPerTenth.high)})\n`,
    `  the cell repeats within ${load.repeatabilityPercent.value.toFixed(2)} % (1 sd)\n`,
    '\n',
    table(
      [
        { title: 'leave in it for' },
        { title: 'lead', align: 'right' },
        { title: 'lambda', align: 'right' },
        { title: 'gives up', align: 'right' },
      ],
      load.uses.map(({ name, leadDeg, lambda, givesUpPercent }) => [
        name,
        leadDeg === null ? 'not known yet' : `${leadDeg} deg`,
        lambda === null ? '–' : lambda.toFixed(2),
        givesUpPercent === null ? '–' : `${givesUpPercent.toFixed(1)} %`,
      ]),
      '  ',
    ),
    ...load.uses.map(({ name, why }) => wrapped(`${name}: ${why}`, columns, '  ')),
    '\n',
    wrapped(`Next: ${next.why}${worth}`, columns, '  '),
    '\n',
    ...load.tables.map(({ use, rows, why }) =>
      rows === null
        ? wrapped(`No table for ${use}: ${why}`, columns, '  ')
        : `${table(
            [
              { title: `${use}: rpm`, align: 'right' },
              { title: 'lead', align: 'right' },
              { title: 'lambda', align: 'right' },
              { title: 'best lead' },
              { title: 'best lambda' },
            ],
            rows.map((row) => [
              String(row.speedRpm),
              row.leadDeg.toFixed(1),
              row.lambda.toFixed(3),
              intervalText(row.bestLeadDeg, 1, ''),
              intervalText(row.bestLambda, 3, ''),
            ]),
            '  ',
          )}${wrapped(why, columns, '  ')}`,
    ),
    '\n',
  ].join('');
}

function pullsTable({ pulls }: TwoObject): string {
  return table(
    [
      { title: 'pull' },
      { title: 'lead', align: 'right' },
      { title: 'lambda', align: 'right' },
      { title: 'mean power', align: 'right' },
      { title: 'was' },
    ],
    pulls.map(({ file, lead, lambda, meanPower, state, jets }, i) => [
      `${file ?? `typed ${i + 1}`}${jets === null ? '' : ` (jets ${jets})`}`,
      String(lead),
      lambda === null ? 'not known' : lambda.toFixed(3),
      meanPower === null ? '–' : `${(meanPower / 1000).toFixed(2)} kW`,
      state,
    ]),
    '  ',
  );
}

function intervalText({ value, low, high }: SettingInterval, places: number, unit: string): string {
  if (value === null && low === null && high === null) return 'not known yet';
  const text = (end: number | null) => (end === null ? '?' : end.toFixed(places));
  return `${value === null ? 'not known yet' : `${value.toFixed(places)}${unit}`} (${text(low)} to ${text(high)})`;
}

const signed = (value: number) => `${value < 0 ? '−' : '+'}${Math.abs(value).toFixed(1)}`;
