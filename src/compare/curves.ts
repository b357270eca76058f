import { gaussianTable } from '../numerics/draws.ts';
import { functionalCovariance, functionalValue, meanFunctional } from '../numerics/spline.ts';
import { RAD_PER_S_PER_RPM } from '../trade/power.ts';
import { groupMeans, type MeanPoint, type Part } from './means.ts';
import { drawShapes, type ShapePull, type Shapes, shapeColumns, shapesOf } from './shapes.ts';
import type { CompareInput, ComparePull } from './types.ts';

/** Draws of the groups' curves; enough for 95 % ends that move by a few per cent of the band's width. */
export const DRAWS = 400;
const STRIDE = 149;

/** The groups' curves as equally likely draws, and the exact law of their mean powers. */
export interface GroupCurves {
  readonly speedRpm: readonly number[];
  readonly bandRpm: readonly [number, number];
  /** Log torque [log N·m] of each group in each draw; by draw, group. */
  readonly draws: readonly (readonly Float64Array[])[];
  /** Most likely log torque of each group. */
  readonly middle: readonly Float64Array[];
  readonly parts: readonly Part[];
  readonly dayCount: number;
}

/** Log mean power over a band [log W] of one curve with its relative sd. */
export function bandPower(
  pull: ComparePull,
  bandRpm: readonly [number, number],
): { readonly z: number; readonly zSd: number } {
  const functional = meanFunctional(pull.torque, bandRpm[0], bandRpm[1], 1);
  const value = functionalValue(pull.torque, functional);
  const sd = Math.sqrt(Math.max(0, functionalCovariance(pull.torque, functional)));
  return { z: Math.log(value * RAD_PER_S_PER_RPM), zSd: sd / value };
}

/** Numbers from 0 for texts, in the order met. */
function indexOf(): (key: string) => number {
  const seen = new Map<string, number>();
  return (key) => {
    const known = seen.get(key);
    if (known !== undefined) return known;
    seen.set(key, seen.size);
    return seen.size - 1;
  };
}

/**
 * The groups' mean curves with all that is uncertain about them.
 * @param groups  counted pulls by group
 * @param band  speeds that all of them cover
 */
export function groupCurves(
  input: CompareInput,
  groups: readonly (readonly ComparePull[])[],
  band: readonly [number, number],
): GroupCurves {
  const dayIndex = indexOf();
  const cellIndex = indexOf();
  const points: MeanPoint[] = [];
  const shapePulls: ShapePull[] = [];
  groups.forEach((pulls, group) => {
    for (const pull of pulls) {
      const { z, zSd } = bandPower(pull, band);
      const day = dayIndex(pull.day);
      points.push({ group, day, cell: cellIndex(pull.cell), order: pull.order, z, zSd });
      shapePulls.push({ group, day, fit: pull.torque, z });
    }
  });
  const dayCount = new Set(points.map((point) => point.day)).size;
  const references = referencePoints(input, groups.length, dayIndex, cellIndex);
  const cells: number[] = [];
  for (const pull of [...groups.flat(), ...input.reference.flatMap((one) => one.pulls)])
    cells[cellIndex(pull.cell)] = input.calibrationRelSd[pull.cell] ?? 0;
  const everyGroup = groups.length + new Set(references.map((point) => point.group)).size;
  const parts = groupMeans(
    [...points, ...references],
    everyGroup,
    input.repeatabilityPercent === null ? null : input.repeatabilityPercent / 100,
    cells,
  );
  const shapes = shapesOf(shapePulls, groups.length, dayCount, band, DRAWS);
  return {
    speedRpm: shapes.speedRpm,
    bandRpm: band,
    draws: drawsOf(shapes, parts, groups.length, dayCount, everyGroup),
    middle: shapes.mean.map((curve, g) => {
      const level = parts.reduce((sum, part) => sum + part.weight * part.mean[g]!, 0);
      return curve.map((value) => value + level);
    }),
    parts,
    dayCount,
  };
}

/** Reference pulls as further groups: an unchanged engine on several days shows how days differ. */
function referencePoints(
  input: CompareInput,
  first: number,
  dayIndex: (key: string) => number,
  cellIndex: (key: string) => number,
): MeanPoint[] {
  let next = first;
  return input.reference.flatMap((group) => {
    const counted = group.pulls.filter((pull) => pull.excludedBecause === null);
    const low = Math.max(...counted.map((pull) => pull.torque.low));
    const high = Math.min(...counted.map((pull) => pull.torque.high));
    if (counted.length < 2 || !(high > low)) return [];
    const index = next++;
    return counted.map((pull) => ({
      group: index,
      day: dayIndex(pull.day),
      cell: cellIndex(pull.cell),
      order: pull.order,
      ...bandPower(pull, [low, high]),
    }));
  });
}

function drawsOf(
  shapes: Shapes,
  parts: readonly Part[],
  groups: number,
  days: number,
  everyGroup: number,
): Float64Array[][] {
  const columns = everyGroup + shapeColumns(groups, days);
  const normals = gaussianTable(DRAWS, columns);
  let at = 0;
  let before = 0;
  return normals.map((row, i) => {
    // Pairs of opposite sign share a part of the mixture, so that means stay exact.
    const target = (Math.floor(i / 2) + 0.5) / (DRAWS / 2);
    while (at < parts.length - 1 && before + parts[at]!.weight < target)
      before += parts[at++]!.weight;
    const part = parts[at]!;
    // Both are in order of size: a stride that is prime to the draws takes the order out of one of them.
    const curves = drawShapes(shapes, (i * STRIDE) % DRAWS, part.daySd, row, everyGroup);
    return curves.map((curve, g) => {
      let level = part.mean[g]!;
      for (let k = 0; k <= g; k++) level += part.factor[g * everyGroup + k]! * row[k]!;
      return curve.map((value) => value + level);
    });
  });
}
