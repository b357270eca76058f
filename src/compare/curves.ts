import { stratifiedNormals } from '../numerics/draws.ts';
import {
  functionalCovariance,
  functionalValue,
  type KnotGrid,
  meanFunctional,
} from '../numerics/spline.ts';
import { RAD_PER_S_PER_RPM } from '../trade/power.ts';
import { groupMeans, type MeanPoint, type Part } from './means.ts';
import { type Tops, topsOf } from './measures.ts';
import { DAY_MEDIAN } from './priors.ts';
import { drawShapes, GRID, type ShapePull, type Shapes, shapeColumns, shapesOf } from './shapes.ts';
import type { CompareInput, ComparePull } from './types.ts';

/*
 * The groups' curves as equally likely draws. What a band of speeds does not change is made once: the shapes, each up
 * to a level, with all that is read off a shape alone. Over a band each draw of a group is then moved to a mean power
 * drawn from the law of the means there,
 *
 *   log T_ig(s) = shape_ig(s) + k_ig,   k_ig such that the mean of T·ω over the band is exp(μ_ig).
 */

/** Draws of the groups' curves; enough for 95 % ends that move by a few per cent of the band's width. */
export const DRAWS = 400;
const STRIDE = 149;

/** One group's shape: log torque up to a level, and what is read off it. */
export interface GroupShape {
  readonly middle: Float64Array;
  /** By draw and speed. */
  readonly draws: Float64Array;
  /** exp of the draws. */
  readonly torque: Float64Array;
  readonly middleTops: Tops;
  readonly drawTops: readonly Tops[];
}

/** One group's curve over a band. */
export interface DrawnGroup {
  readonly shape: GroupShape;
  /** Most likely log torque [log N·m] by speed. */
  readonly middle: Float64Array;
  /** Log mean power over the band, and what moves a draw's shape to it; by draw. */
  readonly level: Float64Array;
  readonly shift: Float64Array;
  readonly middleShift: number;
}

/** The groups' curves over one band, and the exact law of their mean powers. */
export interface GroupCurves {
  readonly speedRpm: readonly number[];
  readonly bandRpm: readonly [number, number];
  /** Weights over the speeds with which torque becomes its mean over the band. */
  readonly bandWeight: Float64Array;
  readonly groups: readonly DrawnGroup[];
  readonly parts: readonly Part[];
  readonly dayCount: number;
}

export interface PreparedCurves {
  over(bandRpm: readonly [number, number]): GroupCurves;
}

/** Means over a band by knots: pulls of one sweep have the same ones. */
function bandFunctionals(bandRpm: readonly [number, number]) {
  const known = new Map<string, Float64Array>();
  return (knots: KnotGrid) => {
    const key = `${knots.low} ${knots.high} ${knots.segments}`;
    const found = known.get(key) ?? meanFunctional(knots, bandRpm[0], bandRpm[1], 1);
    known.set(key, found);
    return found;
  };
}

/** Log mean power over a band [log W] of one curve with its relative sd. */
function bandPower(
  { torque }: ComparePull,
  functionalOn: (knots: KnotGrid) => Float64Array,
): { readonly z: number; readonly zSd: number } {
  const functional = functionalOn(torque);
  const value = functionalValue(torque, functional);
  const sd = Math.sqrt(Math.max(0, functionalCovariance(torque, functional)));
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
 * All of a comparison that its band does not change.
 * @param groups  counted pulls by group
 * @param speeds  the lowest and the highest speed that all of them cover
 */
export function prepareCurves(
  input: Omit<CompareInput, 'bandRpm'>,
  groups: readonly (readonly ComparePull[])[],
  speeds: readonly [number, number],
): PreparedCurves {
  const dayIndex = indexOf();
  const cellIndex = indexOf();
  const placed = groups.flatMap((pulls, group) =>
    pulls.map((pull) => ({
      pull,
      group,
      day: dayIndex(pull.day),
      cell: cellIndex(pull.cell),
      order: pull.order,
    })),
  );
  const dayCount = new Set(placed.map(({ day }) => day)).size;
  const references = referencePoints(input, groups.length, dayIndex, cellIndex);
  const cells: number[] = [];
  for (const pull of [...groups.flat(), ...input.reference.flatMap((one) => one.pulls)])
    cells[cellIndex(pull.cell)] = input.calibrationRelSd[pull.cell] ?? 0;
  const everyGroup = groups.length + new Set(references.map((point) => point.group)).size;
  const statedSd = input.repeatabilityPercent === null ? null : input.repeatabilityPercent / 100;
  const partsOver = (bandRpm: readonly [number, number]) => {
    const functionalOn = bandFunctionals(bandRpm);
    const points = placed.map(
      ({ pull, ...place }): MeanPoint => ({ ...place, ...bandPower(pull, functionalOn) }),
    );
    return groupMeans([...points, ...references], everyGroup, statedSd, cells);
  };
  const shapes = shapesOf(
    placed.map(({ pull, group, day }): ShapePull => ({ group, day, fit: pull.torque })),
    groups.length,
    dayCount,
    speeds,
  );
  const columns = groups.length + shapeColumns(shapes);
  const normals = stratifiedNormals(DRAWS, columns);
  // How far days differ in shape hardly depends on the band: it is taken from the mean power over all speeds. Of one
  // day all groups share that shape, and it does not matter which.
  const daySd = dayCount > 1 ? inOrder(byDaySd(partsOver(speeds))) : () => ({ daySd: DAY_MEDIAN });
  const made = shapeDraws(shapes, (draw) => daySd(draw).daySd, normals, columns);
  return {
    over: (bandRpm) => {
      const parts = partsOver(bandRpm);
      const bandWeight = bandWeights(shapes.speedRpm, bandRpm);
      return {
        speedRpm: shapes.speedRpm,
        bandRpm,
        bandWeight,
        groups: curvesOver(shapes.speedRpm, made, parts, bandWeight, { normals, columns }),
        parts,
        dayCount,
      };
    },
  };
}

/** Reference pulls as further groups: an unchanged engine on several days shows how days differ. */
function referencePoints(
  input: Omit<CompareInput, 'bandRpm'>,
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
    const functionalOn = bandFunctionals([low, high]);
    return counted.map((pull) => ({
      group: index,
      day: dayIndex(pull.day),
      cell: cellIndex(pull.cell),
      order: pull.order,
      ...bandPower(pull, functionalOn),
    }));
  });
}

/** Steps through weighted values in their order, one for each of the draws. */
function inOrder<T extends { readonly weight: number }>(values: readonly T[]): (draw: number) => T {
  const taken: T[] = [];
  let [at, before] = [0, 0];
  for (let i = 0; i < DRAWS; i++) {
    const target = (i + 0.5) / DRAWS;
    while (at < values.length - 1 && before + values[at]!.weight < target)
      before += values[at++]!.weight;
    taken.push(values[at]!);
  }
  return (draw) => taken[draw]!;
}

const byDaySd = (parts: readonly Part[]) => [...parts].sort((a, b) => a.daySd - b.daySd);

function shapeDraws(
  shapes: Shapes,
  daySdOf: (draw: number) => number,
  normals: Float64Array,
  columns: number,
): GroupShape[] {
  const groups = shapes.mean.length;
  const draws = shapes.mean.map(() => new Float64Array(DRAWS * GRID));
  const wanderOf = inOrder(shapes.wander);
  for (let i = 0; i < DRAWS; i++) {
    // Both are in order of size: a stride that is prime to the draws takes the order out of one of them.
    const sds = { wander: wanderOf((i * STRIDE) % DRAWS).sd, day: daySdOf(i) };
    drawShapes(
      shapes,
      sds,
      normals.subarray(i * columns, (i + 1) * columns),
      groups,
      draws,
      i * GRID,
    );
  }
  return draws.map((own, g) => {
    const torque = own.map(Math.exp);
    const middle = shapes.mean[g]!;
    const read = topsOf(shapes.speedRpm, middle.map(Math.exp));
    return {
      middle,
      draws: own,
      torque,
      middleTops: read(middle.map(Math.exp)),
      drawTops: Array.from({ length: DRAWS }, (_, i) =>
        read(torque.subarray(i * GRID, (i + 1) * GRID)),
      ),
    };
  });
}

/** Weights w with Σ w f = mean over the band of f, straight lines between the speeds. */
function bandWeights(
  speedRpm: readonly number[],
  [from, to]: readonly [number, number],
): Float64Array {
  const weight = new Float64Array(GRID);
  for (let m = 0; m + 1 < GRID; m++) {
    const [left, right] = [speedRpm[m]!, speedRpm[m + 1]!];
    const [low, high] = [Math.max(left, from), Math.min(right, to)];
    if (high <= low) continue;
    const part = (high - low) / (to - from);
    const u = ((low + high) / 2 - left) / (right - left);
    weight[m]! += part * (1 - u);
    weight[m + 1]! += part * u;
  }
  return weight;
}

function curvesOver(
  speedRpm: readonly number[],
  shapes: readonly GroupShape[],
  parts: readonly Part[],
  bandWeight: Float64Array,
  { normals, columns }: { readonly normals: Float64Array; readonly columns: number },
): DrawnGroup[] {
  const toPower = bandWeight.map((weight, m) => weight * speedRpm[m]! * RAD_PER_S_PER_RPM);
  const logMeanPower = (torque: Float64Array, at: number) => {
    let sum = 0;
    for (let m = 0; m < GRID; m++) sum += toPower[m]! * torque[at + m]!;
    return Math.log(sum);
  };
  const partOf = inOrder(byDaySd(parts));
  const everyGroup = parts[0]!.mean.length;
  return shapes.map((shape, g) => {
    const level = new Float64Array(DRAWS);
    const shift = new Float64Array(DRAWS);
    for (let i = 0; i < DRAWS; i++) {
      const { mean, factor } = partOf(i);
      let value = mean[g]!;
      for (let k = 0; k <= g; k++) value += factor[g * everyGroup + k]! * normals[i * columns + k]!;
      level[i] = value;
      shift[i] = value - logMeanPower(shape.torque, i * GRID);
    }
    const likely = parts.reduce((sum, part) => sum + part.weight * part.mean[g]!, 0);
    const middleShift = likely - logMeanPower(shape.middle.map(Math.exp), 0);
    return {
      shape,
      middle: shape.middle.map((value) => value + middleShift),
      level,
      shift,
      middleShift,
    };
  });
}
