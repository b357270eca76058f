import type { Banded } from '../../pull/types.ts';
import type { DrawnCurve } from '../drawn.ts';
import { differenceOf } from './answer.ts';
import { FIGURES, figuredRun, type GoalId } from './figures.ts';
import { drawnRun, engineOfCurve } from './sensitivity.ts';
import { chanceText } from './sentences.ts';
import type { Vehicle } from './types.ts';

/** Final drives are looked at from this part of the present one to that. */
const [LEAST, MOST] = [0.6, 1.7];
const PLACES = 34;
const REFINED = 16;
/** Final drives that cost less than this against the best are as good. */
export const AS_GOOD_S = 0.02;

/** The final drive that suits a build. */
export interface BestGearing {
  readonly name: string;
  readonly finalDrive: number;
  readonly timeS: number;
  /** What it is with the present one. */
  readonly presentTimeS: number;
  /** All final drives about the best within AS_GOOD_S of it. */
  readonly asGood: readonly [number, number];
  /** The best stands at the end of what was looked at. */
  readonly atEdge: boolean;
  /** Time by final drive; null: the goal is not reached. */
  readonly places: readonly { readonly finalDrive: number; readonly timeS: number | null }[];
}

export interface GearingAnswer {
  readonly goal: GoalId;
  readonly builds: readonly BestGearing[];
  /** Each later build less the first, each with its own best final drive. */
  readonly pairs: readonly {
    readonly a: string;
    readonly b: string;
    readonly value: Banded;
    readonly chanceBetter: number;
  }[];
  readonly finding: string;
}

/**
 * The final drive by time for each build, and which is quicker where each has its own.
 * @returns null where a build does not reach the goal with any
 */
export function answerGearing(
  vehicle: Vehicle,
  curves: readonly DrawnCurve[],
  goal: GoalId = 'quarterMile',
): GearingAnswer | null {
  const builds = curves.map((curve) => bestGearing(vehicle, curve, goal));
  if (builds.some((build) => build === null)) return null;
  const best = builds as BestGearing[];
  const f = FIGURES.findIndex(({ id }) => id === goal);
  const drawn =
    curves.length < 2
      ? []
      : curves.map((curve, i) => drawnRun({ ...vehicle, finalDrive: best[i]!.finalDrive }, curve));
  const pairs = drawn.slice(1).map((one, i) => ({
    a: curves[0]!.name,
    b: curves[i + 1]!.name,
    ...differenceOf(
      drawn[0]!.draws[f]!,
      one.draws[f]!,
      one.values[f]! - drawn[0]!.values[f]!,
      'time',
    ),
  }));
  return { goal, builds: best, pairs, finding: findingOf(vehicle, best, pairs, goal) };
}

function bestGearing(vehicle: Vehicle, curve: DrawnCurve, goal: GoalId): BestGearing | null {
  const engine = engineOfCurve(curve);
  const f = FIGURES.findIndex(({ id }) => id === goal);
  const timeOf = (finalDrive: number): number | null => {
    try {
      return figuredRun({ ...vehicle, finalDrive }, engine, { relative: 1e-5 }).values[f]!;
    } catch {
      // Too long a gear to move away or hold its speed with: no time at all.
      return null;
    }
  };
  const ratioAt = (i: number) => vehicle.finalDrive * LEAST * (MOST / LEAST) ** (i / (PLACES - 1));
  const places = Array.from({ length: PLACES }, (_, i) => ({
    finalDrive: ratioAt(i),
    timeS: timeOf(ratioAt(i)),
  }));
  const presentTimeS = timeOf(vehicle.finalDrive);
  if (presentTimeS === null) return null;
  const order = places.map(({ timeS }) => timeS ?? Number.POSITIVE_INFINITY);
  const least = order.indexOf(Math.min(...order));
  const refined = golden(
    (finalDrive) => timeOf(finalDrive) ?? Number.POSITIVE_INFINITY,
    ratioAt(Math.max(0, least - 1)),
    ratioAt(Math.min(PLACES - 1, least + 1)),
  );
  const [finalDrive, timeS] = [
    [refined.x, refined.value] as const,
    [ratioAt(least), order[least]!] as const,
    [vehicle.finalDrive, presentTimeS] as const,
  ].reduce((a, b) => (b[1] < a[1] - 1e-6 ? b : a));
  return {
    name: curve.name,
    finalDrive,
    timeS,
    presentTimeS,
    asGood: asGoodAbout(places, finalDrive, timeS),
    atEdge: least === 0 || least === PLACES - 1,
    places,
  };
}

/** How far the final drive may stand to either side before it costs AS_GOOD_S, between places by straight lines. */
function asGoodAbout(
  places: BestGearing['places'],
  finalDrive: number,
  timeS: number,
): readonly [number, number] {
  const most = timeS + AS_GOOD_S;
  const reach = (side: BestGearing['places']) => {
    let last = { finalDrive, timeS };
    for (const place of side) {
      if (place.timeS === null) break;
      if (place.timeS > most) {
        const part = (most - last.timeS) / (place.timeS - last.timeS);
        return last.finalDrive + part * (place.finalDrive - last.finalDrive);
      }
      last = { finalDrive: place.finalDrive, timeS: place.timeS };
    }
    return last.finalDrive;
  };
  return [
    reach(places.filter((place) => place.finalDrive < finalDrive).reverse()),
    reach(places.filter((place) => place.finalDrive > finalDrive)),
  ];
}

/** Least of a function with one low between two ends, by the golden section. */
function golden(f: (x: number) => number, from: number, to: number): { x: number; value: number } {
  const part = (Math.sqrt(5) - 1) / 2;
  let [low, high] = [from, to];
  let [a, b] = [high - part * (high - low), low + part * (high - low)];
  let [fa, fb] = [f(a), f(b)];
  for (let i = 0; i < REFINED; i++) {
    if (fa < fb) {
      [high, b, fb] = [b, a, fa];
      a = high - part * (high - low);
      fa = f(a);
    } else {
      [low, a, fa] = [a, b, fb];
      b = low + part * (high - low);
      fb = f(b);
    }
  }
  return fa < fb ? { x: a, value: fa } : { x: b, value: fb };
}

function findingOf(
  vehicle: Vehicle,
  builds: readonly BestGearing[],
  pairs: GearingAnswer['pairs'],
  goal: GoalId,
): string {
  const { name } = FIGURES.find(({ id }) => id === goal)!;
  const over = goal.includes('-') ? `from ${name}` : `over the ${name}`;
  const out = builds.map(({ name: build, finalDrive, timeS, presentTimeS, asGood, atEdge }) => {
    const gain = presentTimeS - timeS;
    const range = `anything from ${asGood[0].toFixed(2)} to ${asGood[1].toFixed(2)} is within ${AS_GOOD_S.toFixed(2)} s of it`;
    if (gain < AS_GOOD_S)
      return `For ${build} the present final drive of ${vehicle.finalDrive.toFixed(2)} is as good as any ${over}.`;
    const edge = atEdge ? ' (the end of what was looked at)' : '';
    return `For ${build} a final drive of ${finalDrive.toFixed(2)}${edge} in place of ${vehicle.finalDrive.toFixed(2)} would save ${gain.toFixed(2)} s ${over}; ${range}.`;
  });
  for (const { a, b, value, chanceBetter } of pairs) {
    const told = value.low > 0 || value.high < 0;
    const [quicker, slower] = value.value <= 0 ? [b, a] : [a, b];
    const chance = value.value <= 0 ? chanceBetter : 1 - chanceBetter;
    out.push(
      told
        ? `Each with its own final drive, ${quicker} is quicker than ${slower} by ${Math.abs(value.value).toFixed(2)} s (95 %: ${Math.min(Math.abs(value.low), Math.abs(value.high)).toFixed(2)} to ${Math.max(Math.abs(value.low), Math.abs(value.high)).toFixed(2)} s; chance ${chanceText(chance)}).`
        : `Each with its own final drive, ${b} cannot be told from ${a}: no difference larger than ${Math.max(Math.abs(value.low), Math.abs(value.high)).toFixed(2)} s.`,
    );
  }
  return out.join(' ');
}
