import { median, quantile } from '../../numerics/index.ts';
import { channelsOf, finiteIn } from '../channels.ts';
import { leanestBank } from '../derived.ts';
import type { Channel } from '../recording.ts';
import type { Mark } from '../types.ts';
import type { Check, CheckContext } from './context.ts';

/** Distance from the target that is worth a word. Torque is flat within 0.03 (handbooks, from memory). */
const LAMBDA_TOLERANCE = 0.03;
/** Lean of the target by this much: stop. Common practice, no source. */
const LAMBDA_LEAN_STOP = 0.08;
const BANKS_APART = 0.03;

const nameOf = (channel: Channel) =>
  channel.bank !== undefined
    ? `bank ${channel.bank}`
    : channel.cylinder !== undefined
      ? `cylinder ${channel.cylinder}`
      : `"${channel.header}"`;

/**
 * Lambda against its target. Banks are never averaged: the leanest is judged. A sensor pinned at its end of
 * scale says nothing, and a reading that goes lean just where the torque falls is unburned air of a misfire,
 * not a lean mixture.
 */
export const lambdaCheck: Check = (context) => {
  const { recording, span } = context;
  const lambdas = channelsOf(recording, 'lambda');
  const leanest = leanestBank(recording);
  if (leanest === undefined) return [];
  const marks: Mark[] = [];
  const pinned = lambdas.filter((channel) => isPinned(finiteIn(channel, span)));
  for (const channel of pinned) {
    const at = quantile(finiteIn(channel, span), 0.5);
    marks.push({
      kind: 'lambda',
      severity: 'look again',
      sentence: `Lambda of ${nameOf(channel)} is pinned at ${at.toFixed(2)}: the sensor is at the end of its scale and says nothing about the mixture.`,
    });
  }
  const good = lambdas.filter((channel) => !pinned.includes(channel));
  if (good.length === 0) return marks;
  marks.push(...misfires(context, leanest));
  const levels = good.map((channel) => ({ channel, level: median(finiteIn(channel, span)) }));
  levels.sort((one, other) => other.level - one.level);
  const [judged, second] = [levels[0]!, levels[levels.length - 1]!];
  if (levels.length > 1 && judged.level - second.level > BANKS_APART) {
    marks.push({
      kind: 'lambda',
      severity: 'look again',
      sentence: `The banks differ: ${nameOf(judged.channel)} ran at ${judged.level.toFixed(2)}, ${nameOf(second.channel)} at ${second.level.toFixed(2)}; the leaner is judged.`,
    });
  }
  marks.push(...againstTarget(context, judged.channel));
  return marks;
};

/** Most readings on one and the same extreme value, while a working sensor never repeats one so often. */
function isPinned(values: Float64Array): boolean {
  if (values.length < 20) return false;
  const [low, high] = [quantile(values, 0), quantile(values, 1)];
  const at = (end: number) => values.filter((value) => value === end).length;
  return (
    high - low < 1e-12 || (Math.max(at(low), at(high)) > 0.3 * values.length && high - low > 0.02)
  );
}

function againstTarget({ options, curve, span, speed }: CheckContext, channel: Channel): Mark[] {
  const target = options.lambdaTarget;
  if (target === undefined) return [];
  const [from, to] = options.bandRpm ?? [curve.spline.low, curve.spline.high];
  const inBand: number[] = [];
  for (let row = span.firstRow; row <= span.lastRow; row++) {
    const value = channel.values[row]!;
    const rpm = speed.values[row]!;
    if (Number.isFinite(value) && rpm >= from && rpm <= to) inBand.push(value);
  }
  if (inBand.length < 5) return [];
  const level = median(inBand);
  const off = level - target;
  if (Math.abs(off) <= LAMBDA_TOLERANCE) return [];
  return [
    {
      kind: 'lambda',
      severity: off > LAMBDA_LEAN_STOP ? 'stop' : 'look again',
      sentence: `Lambda ran at ${level.toFixed(2)} over the band, ${Math.abs(off).toFixed(2)} ${off > 0 ? 'leaner' : 'richer'} than its target of ${target.toFixed(2)} (${nameOf(channel)}).`,
    },
  ];
}

/** Where a blip took torque away and lambda goes lean within half a second after: a misfire's unburned air. */
function misfires(
  { curve, points, recording, span, blips }: CheckContext,
  channel: Channel,
): Mark[] {
  const [time] = channelsOf(recording, 'time');
  if (time === undefined || points.track === null || curve.residualSdNm === 0) return [];
  const usual = median(finiteIn(channel, span));
  const marks: Mark[] = [];
  for (const { fromS, toS, fromRpm, toRpm, sizeNm } of blips) {
    if (sizeNm >= 0) continue;
    const after: number[] = [];
    for (let row = span.firstRow; row <= span.lastRow; row++) {
      const t = time.values[row]!;
      if (t >= fromS && t <= toS + 0.5 && Number.isFinite(channel.values[row]!)) {
        after.push(channel.values[row]!);
      }
    }
    if (after.length < 3 || quantile(after, 0.8) - usual < 0.06) continue;
    marks.push({
      kind: 'lambda',
      severity: 'look again',
      sentence: `Lambda reads lean (${quantile(after, 0.8).toFixed(2)}) just where torque fell by ${(-sizeNm).toFixed(0)} N·m: that is the unburned air of a misfire, not a lean mixture.`,
      fromRpm,
      toRpm,
    });
  }
  return marks;
}
