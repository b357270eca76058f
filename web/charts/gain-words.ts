import type { StepAnswer } from '../../src/ladder/types.ts';
import { interval, plain, setting, signed, signedPercent } from './numbers.ts';
import { extentOf, valueAt } from './scale.ts';

export function readingAt(step: StepAnswer, speedRpm: number) {
  const { speedRpm: speeds, gainPercent, lowPercent, highPercent, toldFromChance } = step.bySpeed;
  const gain = valueAt(speeds, gainPercent, speedRpm);
  const low = valueAt(speeds, lowPercent, speedRpm);
  const high = valueAt(speeds, highPercent, speedRpm);
  if (gain === null || low === null || high === null) return null;
  let nearest = 0;
  speeds.forEach((speed, at) => {
    if (Math.abs(speed - speedRpm) < Math.abs(speeds[nearest]! - speedRpm)) nearest = at;
  });
  return { gain, low, high, told: toldFromChance[nearest] === true };
}

export function readingOf(step: StepAnswer, unit: string, speedRpm: number): string {
  const name = `${setting(step.from, unit)} to ${setting(step.to, unit)}`;
  const reading = readingAt(step, speedRpm);
  if (reading === null) return `${name}: not run at this speed`;
  const band = `${signedPercent(reading.gain)}, ${interval(reading.low, reading.high)}`;
  const also = step.besides === null ? '' : `, also changed: ${step.besides}`;
  return `${name}: ${band}${reading.told ? '' : ', cannot be told from chance'}${also}`;
}

export function summaryOf(steps: readonly StepAnswer[], unit: string): string {
  const parts = steps.map(
    (step) =>
      `${setting(step.from, unit)} to ${setting(step.to, unit)}: ${signedPercent(step.gainPercent)}, ${step.word}`,
  );
  return `What each step gained. ${parts.join('. ')}.`;
}

/** The same numbers as a table, one line about every `everyRpm`. */
export function gainTable(steps: readonly StepAnswer[], unit: string, everyRpm = 250) {
  const columns = ['engine speed, rpm'];
  for (const step of steps) {
    const name = `${setting(step.from, unit)} to ${setting(step.to, unit)}`;
    columns.push(`${name}, %`, 'from – to, %', 'told from chance');
  }
  const all = extentOf(...steps.map((step) => step.bySpeed.speedRpm));
  const rows: string[][] = [
    [
      'over the band',
      ...steps.flatMap((step) => [
        signed(step.gainPercent),
        interval(step.lowPercent, step.highPercent),
        step.word,
      ]),
    ],
  ];
  if (all !== null) {
    for (let speed = Math.ceil(all[0] / everyRpm) * everyRpm; speed <= all[1]; speed += everyRpm) {
      rows.push([
        plain(speed, 0),
        ...steps.flatMap((step) => {
          const reading = readingAt(step, speed);
          if (reading === null) return ['–', '–', '–'];
          return [
            signed(reading.gain),
            interval(reading.low, reading.high),
            reading.told ? 'yes' : 'no',
          ];
        }),
      ]);
    }
  }
  return { columns, rows };
}
