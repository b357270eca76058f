import type { Curve, Pull, PullCurve } from '../../api/types.gen.ts';
import type { CurveSeries } from '../../charts/index.ts';

/** A pull of the day with its curve, or with the sentence that says why it has none. */
export interface PullWithCurve {
  readonly pull: Pull;
  readonly curve: Curve | null;
  readonly whyNone: string | null;
}

/** Joins pulls and curves in the order the pulls were made. */
export function withCurves(
  pulls: readonly Pull[],
  curves: readonly PullCurve[],
): readonly PullWithCurve[] {
  const byId = new Map(curves.map((one) => [one.pullId, one]));
  return [...pulls]
    .sort((a, b) => a.order - b.order)
    .map((pull) => ({
      pull,
      curve: byId.get(pull.id)?.curve ?? null,
      whyNone: byId.get(pull.id)?.whyNone ?? null,
    }));
}

/** Short name of a pull: its lead, and its number where another pull has the same or none is set. */
export function labelOf(pull: Pull, pulls: readonly Pull[]): string {
  const number = `pull ${pull.order + 1}`;
  if (pull.leadDeg === null) return number;
  const twins = pulls.filter((one) => one.leadDeg === pull.leadDeg).length;
  return twins === 1 ? `${pull.leadDeg}°` : `${pull.leadDeg}°, ${number}`;
}

/** One curve as the chart draws it; blips carry their word. */
export function seriesOf(one: PullWithCurve, label: string): CurveSeries | null {
  const { pull, curve } = one;
  if (curve === null) return null;
  return {
    id: pull.id,
    label,
    setting: pull.leadDeg,
    faint: pull.excludedBecause !== null,
    speedRpm: curve.speedRpm,
    torqueNm: curve.torqueNm,
    lowNm: curve.lowNm,
    highNm: curve.highNm,
    powerW: curve.powerW,
    marks: curve.marks.flatMap((mark) =>
      mark.kind === 'blip' && mark.fromRpm !== undefined && mark.toRpm !== undefined
        ? [{ fromRpm: mark.fromRpm, toRpm: mark.toRpm, word: 'blip' }]
        : [],
    ),
  };
}

/** Lowest and highest speed that any curve of the day covers. */
export function speedsOf(all: readonly PullWithCurve[]): readonly [number, number] | null {
  const speeds = all.flatMap(({ curve }) =>
    curve === null ? [] : [curve.speedRpm[0]!, curve.speedRpm.at(-1)!],
  );
  return speeds.length === 0 ? null : [Math.min(...speeds), Math.max(...speeds)];
}
