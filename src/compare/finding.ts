import { formatQuantity, type UnitSystem } from '../units/index.ts';
import { begun } from './begun.ts';
import type { GroupMeasures, PairAnswer } from './types.ts';

/*
 * The finding as a paragraph for the owner: what was gained and given up, from where to where. Sentences speak in
 * rev/min, and of power in the units of whoever reads, from the exact figures: a rounded one that is turned is off.
 */

const rounded = (speed: number) => String(50 * Math.round(speed / 50));
const percentOf = (value: number) => `${Math.abs(value).toFixed(1)} %`;

/** Power with its unit; of several figures the last alone bears it. */
function powerIn(units: UnitSystem): (...watts: number[]) => string {
  return (...watts) => {
    const said = watts.map((one) => formatQuantity(one, 'power', units));
    return `${said.map(({ text }) => text).join(' to ')} ${said[0]!.unit}`;
  };
}

/** Where in the sweep B is told to be ahead, and where behind, in words; empty where nowhere. */
interface Places {
  /** `above 5200 rev/min`, one for each stretch. */
  readonly gains: readonly string[];
  readonly losses: readonly string[];
}

/** @param edge  lowest and highest speed that all pulls reach [rev/min] */
function placesOf({ regions }: Regions, edge: readonly [number, number]): Places {
  const near = (speed: number, end: number) => Math.abs(speed - end) < 0.03 * (edge[1] - edge[0]);
  const place = (from: number, to: number) => {
    const [startsLow, endsHigh] = [near(from, edge[0]), near(to, edge[1])];
    if (startsLow && endsHigh) return 'over the whole sweep';
    if (startsLow) return `below ${rounded(to)} rev/min`;
    if (endsHigh) return `above ${rounded(from)} rev/min`;
    return `from ${rounded(from)} to ${rounded(to)} rev/min`;
  };
  const parts = (word: 'gain' | 'loss') =>
    regions.filter((one) => one.word === word).map((one) => place(one.fromRpm, one.toRpm));
  return { gains: parts('gain'), losses: parts('loss') };
}

type Regions = Pick<PairAnswer, 'regions'>;

const edgeOf = ({ bySpeed }: Pick<PairAnswer, 'bySpeed'>): readonly [number, number] => [
  bySpeed.speedRpm[0]!,
  bySpeed.speedRpm.at(-1)!,
];

/** The finding about one pair in one line that is read from across the cell. */
export const headlineOf = (pair: Omit<PairAnswer, 'finding'>): string => begun(headOf(pair));

function headOf(pair: Omit<PairAnswer, 'finding'>): string {
  const { b, gain, word } = pair;
  const { gains, losses } = placesOf(pair, edgeOf(pair));
  if (gains.length > 0 && losses.length > 0)
    return `${b} gains ${gains.join(' and ')}, gives up ${losses.join(' and ')}`;
  if (gains.length > 0) return `${b} gains ${gains.join(' and ')}`;
  if (losses.length > 0) return `${b} gives up torque ${losses.join(' and ')}`;
  if (word === 'cannot be told from chance')
    return `No difference larger than ${Math.max(Math.abs(gain.low), Math.abs(gain.high)).toFixed(1)} %`;
  return `${b} gives ${percentOf(gain.value)} ${gain.value > 0 ? 'more' : 'less'} mean power`;
}

/** `Build 2 gains above 5200 rev/min and gives up below 4300 rev/min.` */
function whereOf(pair: Omit<PairAnswer, 'finding'>): string[] {
  const { regions, b } = pair;
  const edge = edgeOf(pair);
  if (regions.length === 0)
    return [
      `At no speed from ${rounded(edge[0])} to ${rounded(edge[1])} rev/min can the two be told from chance.`,
    ];
  const places = placesOf(pair, edge);
  const parts = (word: 'gain' | 'loss') => {
    const at = word === 'gain' ? places.gains : places.losses;
    return regions
      .filter((region) => region.word === word)
      .map(
        (region, i) =>
          `${at[i]} (up to ${percentOf(region.mostPercent)} at ${rounded(region.mostAtRpm)} rev/min)`,
      )
      .join(' and ');
  };
  const [gains, losses] = [parts('gain'), parts('loss')];
  if (losses === '')
    return [`${b} gains ${gains}; nowhere does it give up torque that can be told from chance.`];
  if (gains === '')
    return [
      `${b} gives up torque ${losses}; nowhere does it gain any that can be told from chance.`,
    ];
  return [`${b} gains ${gains}, and gives up torque ${losses}.`];
}

/** Up to about here an engine on the street spends its time (common practice, no source). */
const STREET_RPM = 3500;

/** Which side is for whom, where each has speeds of its own. */
function forWhom(pair: Omit<PairAnswer, 'finding'>): string[] {
  const [crossing] = pair.crossings;
  if (pair.crossings.length !== 1 || crossing === undefined) return [];
  const [above, below] = crossing.aheadAbove === 'b' ? [pair.b, pair.a] : [pair.a, pair.b];
  const from = pair.regions.find(({ fromRpm }) => fromRpm >= crossing.speedRpm)?.fromRpm;
  const high = `${above} suits use above ${rounded(from ?? crossing.highRpm)} rev/min`;
  const low =
    crossing.speedRpm >= STREET_RPM
      ? `${below} suits street use, which stays mostly below that speed`
      : `${below} suits use that stays below that speed`;
  return [
    `The curves cross at ${rounded(crossing.speedRpm)} rev/min (${rounded(crossing.lowRpm)} to ${rounded(crossing.highRpm)} rev/min): ${low}; ${high}.`,
  ];
}

function peaksOf(
  pair: Omit<PairAnswer, 'finding'>,
  a: GroupMeasures,
  b: GroupMeasures,
  units: UnitSystem,
): string[] {
  const power = powerIn(units);
  const change = pair.peakPowerChangeW;
  const moved = pair.peakPowerMovedRpm;
  const told = change.low > 0 || change.high < 0;
  const peaks = `Peak power is ${power(b.peakPowerW.value.value)} at ${rounded(b.peakPowerW.speedRpm.value)} rev/min against ${power(a.peakPowerW.value.value)} at ${rounded(a.peakPowerW.speedRpm.value)} rev/min`;
  const difference = told
    ? `: ${power(Math.abs(change.value))} ${change.value > 0 ? 'more' : 'less'} (95 %: ${power(...[Math.abs(change.low), Math.abs(change.high)].sort((one, other) => one - other))})`
    : ', a difference that cannot be told from chance';
  const shift =
    moved.low > 0
      ? `; the peak has moved up by ${rounded(moved.value)} rev/min`
      : moved.high < 0
        ? `; the peak has moved down by ${rounded(-moved.value)} rev/min`
        : '';
  const edge =
    a.peakPowerW.atEdge || b.peakPowerW.atEdge
      ? ' A peak stands at the end of the sweep: the true one may lie beyond.'
      : '';
  return [`${peaks}${difference}${shift}.${edge}`];
}

/** How much of mean power, or that it cannot be told. */
function wholeOf(
  { a, b, gain, word }: Omit<PairAnswer, 'finding'>,
  [from, to]: readonly [number, number],
): string {
  const band = `from ${rounded(from)} to ${rounded(to)} rev/min`;
  const interval = `${gain.low.toFixed(1)} to ${gain.high.toFixed(1)} %`.replaceAll('-', '−');
  return {
    real: `${b} gives ${percentOf(gain.value)} more mean power ${band} than ${a} (95 %: ${interval}).`,
    small: `${b} gives ${percentOf(gain.value)} more mean power ${band} than ${a} (95 %: ${interval}): there, but small.`,
    loss: `${b} gives ${percentOf(gain.value)} less mean power ${band} than ${a} (95 %: ${interval}).`,
    'cannot be told from chance': `In mean power ${band}, ${b} cannot be told from ${a} (95 %: ${interval}): no difference larger than ${Math.max(Math.abs(gain.low), Math.abs(gain.high)).toFixed(1)} %.`,
  }[word];
}

/** What stands under the headline: how much over the band, and which side is for whom. */
export const leadOf = (
  pair: Omit<PairAnswer, 'finding'>,
  bandRpm: readonly [number, number],
): string => [wholeOf(pair, bandRpm), ...forWhom(pair)].map(begun).join(' ');

/**
 * The finding about one pair, in a few plain sentences.
 * @param bandRpm  the band that its mean power is over
 */
export function findingOf(
  pair: Omit<PairAnswer, 'finding'>,
  a: GroupMeasures,
  b: GroupMeasures,
  bandRpm: readonly [number, number],
  units: UnitSystem = 'metric',
): string {
  return [
    wholeOf(pair, bandRpm),
    ...whereOf(pair),
    ...forWhom(pair),
    ...peaksOf(pair, a, b, units),
    ...(pair.besides === null ? [] : [pair.besides]),
  ]
    .map(begun)
    .join(' ');
}
