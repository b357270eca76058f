import type { Channel } from '../pull/recording.ts';
import { quoted } from './display.ts';

/** What looks wrong in the values without anything being refused, one sentence each. */
export function doubts(channels: readonly Channel[], lineOfRow: Uint32Array): string[] {
  const time = channels.find((channel) => channel.quantity === 'time');
  return [
    ...(time === undefined ? [] : timeDoubts(time.values, lineOfRow)),
    ...channels.flatMap((channel) => heldDoubt(channel)),
    ...channels.flatMap(saturationDoubt),
    ...misfireDoubts(channels, lineOfRow),
  ];
}

function lineText(lineOfRow: Uint32Array, row: number): string {
  return lineOfRow.length === 0 ? `row ${row + 1}` : `line ${lineOfRow[row]}`;
}

/** Duplicated stamps, steps back and gaps in time. */
function timeDoubts(time: Float64Array, lineOfRow: Uint32Array): string[] {
  const steps: number[] = [];
  const every = Math.max(1, Math.floor(time.length / 4000));
  for (let row = 1; row < time.length; row += every) {
    const step = time[row]! - time[row - 1]!;
    if (step > 0) steps.push(step);
  }
  steps.sort((a, b) => a - b);
  const usual = steps[steps.length >> 1] ?? 0;
  let [twice, twiceRow, back, backRow, gaps, gapRow, longest, absent] = [0, 0, 0, 0, 0, 0, 0, 0];
  let previous = Number.NaN;
  for (let row = 0; row < time.length; row++) {
    const now = time[row]!;
    if (Number.isNaN(now)) {
      absent++;
      continue;
    }
    const step = now - previous;
    previous = now;
    if (step === 0) {
      if (twice++ === 0) twiceRow = row;
    } else if (step < 0) {
      if (back++ === 0) backRow = row;
    } else if (step > 5 * usual && step > usual + 0.1) {
      if (gaps++ === 0) gapRow = row;
      if (step > longest) longest = step;
    }
  }
  const found: string[] = [];
  const times = (count: number) => (count === 1 ? 'once' : `${count} times`);
  if (twice > 0)
    found.push(
      `The same time stands on neighbouring rows ${times(twice)}, first on ${lineText(lineOfRow, twiceRow)}.`,
    );
  if (back > 0)
    found.push(
      `Time goes back ${times(back)}, first on ${lineText(lineOfRow, backRow)}: another pull may start there.`,
    );
  if (gaps > 0)
    found.push(
      `Time has ${gaps === 1 ? 'a gap' : `${gaps} gaps`}, first before ${lineText(lineOfRow, gapRow)}, the longest of ${longest.toPrecision(3)} s.`,
    );
  if (absent > 0) found.push(`Time is missing on ${absent} of ${time.length} rows.`);
  return found;
}

const LONGEST_HELD = 1000;
const HELD_QUANTITIES = ['torque', 'power', 'speed', 'lambda', 'afr', 'fuelFlow', 'airFlow'];

/** A value that a slower logger repeats over several rows, while it does change from run to run. */
function heldDoubt(channel: Channel): string[] {
  if (!HELD_QUANTITIES.includes(channel.quantity) || channel.derivedFrom !== undefined) return [];
  const { values } = channel;
  const timesOfLength = new Uint32Array(LONGEST_HELD + 1);
  let runs = 0;
  let start = 0;
  for (let row = 1; row <= values.length; row++) {
    if (row < values.length && values[row] === values[start]) continue;
    if (!Number.isNaN(values[start]!)) {
      timesOfLength[Math.min(LONGEST_HELD, row - start)]!++;
      runs++;
    }
    start = row;
  }
  // Few runs is a channel that hardly moves, which is another doubt.
  if (runs < 20) return [];
  let middle = 0;
  for (let below = 0; below * 2 < runs; ) below += timesOfLength[++middle]!;
  const most =
    (timesOfLength[middle - 1] ?? 0) + timesOfLength[middle]! + (timesOfLength[middle + 1] ?? 0);
  if (middle < 3 || most < 0.7 * runs) return [];
  return [
    `${quoted(channel.header)} changes only every ${middle} rows: it was recorded more slowly than the rest and held in between.`,
  ];
}

/** A lambda or AFR that sits at the end of its sensor's range. */
function saturationDoubt(channel: Channel): string[] {
  if (channel.quantity !== 'lambda' && channel.quantity !== 'afr') return [];
  if (channel.derivedFrom !== undefined) return [];
  const { values } = channel;
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  let numbers = 0;
  for (let row = 0; row < values.length; row++) {
    const value = values[row]!;
    if (Number.isNaN(value)) continue;
    numbers++;
    if (value < low) low = value;
    if (value > high) high = value;
  }
  if (numbers < 20 || high === low) return [];
  let atLow = 0;
  let atHigh = 0;
  let longestLow = 0;
  let longestHigh = 0;
  let runLow = 0;
  let runHigh = 0;
  for (let row = 0; row < values.length; row++) {
    const value = values[row]!;
    runLow = value === low ? runLow + 1 : 0;
    runHigh = value === high ? runHigh + 1 : 0;
    if (runLow > 0) atLow++;
    if (runHigh > 0) atHigh++;
    longestLow = Math.max(longestLow, runLow);
    longestHigh = Math.max(longestHigh, runHigh);
  }
  const least = Math.max(10, 0.03 * numbers);
  const found: string[] = [];
  if (longestHigh >= least)
    found.push(
      `${quoted(channel.header)} sits at its highest value, ${high}, on ${atHigh} rows: the sensor is at the end of its range, and the mixture was at least that lean or the sensor was in air.`,
    );
  if (longestLow >= least)
    found.push(
      `${quoted(channel.header)} sits at its lowest value, ${low}, on ${atLow} rows: the sensor is at the end of its range, and the mixture was at least that rich.`,
    );
  return found;
}

/** Short lean spikes of lambda while torque drops: unburnt air of a misfire, not a lean mixture. */
function misfireDoubts(channels: readonly Channel[], lineOfRow: Uint32Array): string[] {
  const torque = channels.find(({ quantity }) => quantity === 'torque')?.values;
  if (torque === undefined) return [];
  const found: string[] = [];
  for (const channel of channels) {
    if (channel.quantity !== 'lambda') continue;
    const { values } = channel;
    let spikes = 0;
    let firstRow = 0;
    const reach = 15;
    for (let row = reach; row < values.length - reach; row++) {
      const before = values[row - reach]!;
      const after = values[row + reach]!;
      const level = Math.max(before, after);
      if (!(values[row]! > level + 0.12) || Math.abs(before - after) > 0.06) continue;
      const calm = Math.min(torque[row - reach]!, torque[row + reach]!);
      let least = Number.POSITIVE_INFINITY;
      for (let near = row - reach; near <= row + reach; near++)
        if (torque[near]! < least) least = torque[near]!;
      if (!(least < 0.93 * calm) || !(calm > 0)) continue;
      if (spikes++ === 0) firstRow = row;
      row += reach;
    }
    if (spikes > 0)
      found.push(
        `${quoted(channel.header)} jumps lean for a moment while torque drops ${spikes === 1 ? 'once' : `${spikes} times`}, first on ${lineText(lineOfRow, firstRow)}: a misfire reads lean, as its air goes out unburnt.`,
      );
  }
  return found;
}
