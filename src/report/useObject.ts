import { type Use, usesFinding, type VehicleAnswer } from '../compare/index.ts';
import type { Banded } from '../pull/types.ts';
import type { UseWork } from './useWork.ts';

/** Builds under uses and in a vehicle, as `pullbook use --json` publishes it. Gains are over the first build. */
export interface UseObject {
  readonly format: 'use-answer/1';
  readonly builds: readonly string[];
  readonly standard: string;
  readonly uses: readonly PublishedUse[];
  readonly vehicle: PublishedVehicle | null;
  /** All that is to be told the owner, as one paragraph. */
  readonly finding: string;
  readonly warnings: readonly string[];
}

export interface PublishedUse {
  readonly use: string;
  readonly from: Use['from'];
  readonly reason: string;
  /** Why these pulls cannot answer for it; then nothing else is there. */
  readonly refused: string | null;
  /** Part of the use inside the measured speeds. */
  readonly coverage: number | null;
  readonly builds: readonly { readonly name: string; readonly meanPowerW: Banded }[];
  readonly pairs: readonly {
    readonly a: string;
    readonly b: string;
    readonly gainPercent: Banded;
    readonly word: string;
    readonly chanceAhead: number;
    readonly dragged: {
      readonly aboveRpm: number;
      readonly shareNow: number;
      readonly evenShare: Banded | null;
      readonly points: readonly ({ readonly shareAbove: number } & Banded)[];
    } | null;
    readonly finding: string;
  }[];
  readonly distribution: readonly {
    readonly speedRpm: number;
    readonly share: number;
    readonly load: number;
  }[];
}

export interface PublishedVehicle {
  readonly name: string;
  readonly builds: readonly {
    readonly name: string;
    readonly figures: readonly {
      readonly id: string;
      readonly name: string;
      readonly unit: 's' | 'm/s';
      readonly value: number | null;
      readonly low: number | null;
      readonly high: number | null;
    }[];
    readonly topSpeed: {
      readonly speedMPerS: number;
      readonly gear: number;
      readonly by: string;
    } | null;
    readonly shifts: readonly {
      readonly fromGear: number;
      readonly speedRpm: number;
      readonly nextRpm: number;
      readonly speedMPerS: number;
    }[];
    readonly timeShare: VehicleAnswer['builds'][number]['timeShare'];
    /** (engine's work − all that it became) / engine's work. */
    readonly energyOpenPart: number;
  }[];
  readonly pairs: readonly {
    readonly a: string;
    readonly b: string;
    readonly differences: readonly {
      readonly id: string;
      readonly name: string;
      readonly unit: 's' | 'm/s';
      readonly value: number | null;
      readonly low: number | null;
      readonly high: number | null;
      readonly chanceBetter: number | null;
    }[];
    readonly finding: string;
  }[];
  readonly gearing: {
    readonly goal: string;
    readonly builds: readonly {
      readonly name: string;
      readonly finalDrive: number;
      readonly asGoodFrom: number;
      readonly asGoodTo: number;
      readonly timeS: number;
      readonly presentTimeS: number;
    }[];
    readonly pairs: readonly ({
      readonly a: string;
      readonly b: string;
      readonly chanceBetter: number;
    } & Banded)[];
    readonly finding: string;
  } | null;
  readonly assumed: readonly string[];
}

const NONE = { value: null, low: null, high: null } as const;

/**
 * The published object of uses and vehicle.
 * @param assumed  what was taken of the vehicle because nothing was said
 */
export function publishedUses(work: UseWork, assumed: readonly string[]): UseObject {
  const { question, curves, uses, vehicle, gearing } = work;
  const findings = [
    ...usesSaid(uses),
    ...(gearing === null ? [] : [gearing.finding]),
    ...(vehicle === null ? [] : [vehicle.finding]),
  ];
  return {
    format: 'use-answer/1',
    builds: curves.curves.map(({ name }) => name),
    standard: question.standard,
    uses: uses.map(publishedUse),
    vehicle: vehicle === null ? null : publishedVehicle(vehicle, gearing, assumed),
    finding: [...findings, question.taken.sentence].join(' '),
    warnings: [
      ...new Set([
        ...question.warnings,
        ...uses.flatMap((one) => (one.ok ? one.answer.warnings : [])),
        ...(vehicle?.warnings ?? []),
      ]),
    ],
  };
}

/** Of one use all that is to be said, of many which build is ahead for which. */
function usesSaid(uses: UseWork['uses']): string[] {
  const pairs = uses.flatMap((one) =>
    one.ok ? one.answer.pairs.map((pair) => ({ use: one.answer.use.name, pair })) : [],
  );
  if (uses.length === 1) return pairs.map(({ pair }) => pair.finding);
  return pairs.length === 0 ? [] : [usesFinding(pairs)];
}

function publishedUse(one: UseWork['uses'][number]): PublishedUse {
  const { name, from, reason, points } = one.ok ? one.answer.use : one.use;
  return {
    use: name,
    from,
    reason,
    refused: one.ok ? null : one.why,
    coverage: one.ok ? one.answer.coverage : null,
    builds: one.ok ? one.answer.builds : [],
    pairs: one.ok
      ? one.answer.pairs.map(({ sensitivity, ...pair }) => ({ ...pair, dragged: sensitivity }))
      : [],
    distribution: points,
  };
}

function publishedVehicle(
  { vehicle, builds, pairs }: VehicleAnswer,
  gearing: UseWork['gearing'],
  assumed: readonly string[],
): PublishedVehicle {
  const unitOf = (kind: 'time' | 'speed') => (kind === 'time' ? ('s' as const) : ('m/s' as const));
  return {
    name: vehicle.name,
    builds: builds.map(({ name, figures, topSpeed, shifts, timeShare, drawn }) => ({
      name,
      figures: figures.map((figure) => ({
        id: figure.id,
        name: figure.name,
        unit: unitOf(figure.kind),
        ...(figure.value ?? NONE),
      })),
      topSpeed:
        topSpeed === null
          ? null
          : { speedMPerS: topSpeed.speedMPerS, gear: topSpeed.gear + 1, by: topSpeed.by },
      shifts: shifts.map(({ fromGear, speedRpm, nextRpm, speedMPerS }) => ({
        fromGear: fromGear + 1,
        speedRpm,
        nextRpm,
        speedMPerS,
      })),
      timeShare,
      energyOpenPart: drawn.run.energy.openPart,
    })),
    pairs: pairs.map(({ a, b, differences, finding }) => ({
      a,
      b,
      differences: differences.map((one) => ({
        id: one.id,
        name: one.name,
        unit: unitOf(one.kind),
        ...(one.value ?? NONE),
        chanceBetter: one.value === null ? null : one.chanceBetter,
      })),
      finding,
    })),
    gearing:
      gearing === null
        ? null
        : {
            goal: gearing.goal,
            builds: gearing.builds.map((one) => ({
              name: one.name,
              finalDrive: one.finalDrive,
              asGoodFrom: one.asGood[0],
              asGoodTo: one.asGood[1],
              timeS: one.timeS,
              presentTimeS: one.presentTimeS,
            })),
            pairs: gearing.pairs.map(({ value, ...pair }) => ({ ...pair, ...value })),
            finding: gearing.finding,
          },
    assumed,
  };
}
