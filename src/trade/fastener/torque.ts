import { notNegative, positive, within } from '../possible.ts';

/** A preload and the span in which it may stand. */
export interface Preload {
  readonly lowN: number;
  readonly preloadN: number;
  readonly highN: number;
}

export interface NutFactor {
  readonly id: string;
  readonly name: string;
  readonly nutFactor: number;
  /** Span seen in practice, where the source states one. */
  readonly range: readonly [low: number, high: number] | null;
  readonly source: string;
  readonly tag: 'F' | 'M';
}

const S52 = 'nut factors of a fastener house (S52)';
const SHIGLEY = 'Shigley, Table 8-15';

/** Nut factors by what is on the threads and under the head. The fastener maker's figure always wins. */
export const NUT_FACTORS: readonly NutFactor[] = [
  { id: 'dry', name: 'dry steel', nutFactor: 0.2, range: [0.18, 0.27], source: S52, tag: 'F' },
  {
    id: 'engine-oil',
    name: 'engine oil on steel',
    nutFactor: 0.15,
    range: [0.1, 0.26],
    source: `range ${S52}; 0.15 as in S51`,
    tag: 'F',
  },
  {
    id: 'phosphate-oil',
    name: 'phosphated and oiled',
    nutFactor: 0.18,
    range: [0.15, 0.22],
    source: `range ${S52}; 0.18 is “lubricated” of ${SHIGLEY}`,
    tag: 'F',
  },
  {
    id: 'zinc',
    name: 'zinc-plated, dry',
    nutFactor: 0.2,
    range: [0.17, 0.35],
    source: `${SHIGLEY}; range ${S52}`,
    tag: 'F',
  },
  {
    id: 'cadmium',
    name: 'cadmium-plated',
    nutFactor: 0.16,
    range: [0.15, 0.19],
    source: `${SHIGLEY}; range ${S52}`,
    tag: 'F',
  },
  {
    id: 'anti-seize',
    name: 'anti-seize paste',
    nutFactor: 0.12,
    range: null,
    source: SHIGLEY,
    tag: 'F',
  },
  {
    id: 'moly',
    name: 'molybdenum assembly paste',
    nutFactor: 0.12,
    range: null,
    source: 'from memory, low confidence: take the paste maker’s figure',
    tag: 'M',
  },
  {
    id: 'black-dry',
    name: 'black finish, unplated, dry',
    nutFactor: 0.3,
    range: null,
    source: SHIGLEY,
    tag: 'F',
  },
];

/** What a torque wrench leaves open of the nut factor, as a share either side (S51: ±30 %). */
export const TORQUE_SCATTER = 0.3;
/** Nut factors outside this range are no thread known to us. */
export const NUT_FACTOR_RANGE = [0.05, 0.6] as const;

export interface Tightening {
  readonly majorM: number;
  readonly nutFactor: number;
  /** Share either side of the nut factor; TORQUE_SCATTER unless measured on these very parts. */
  readonly scatter?: number;
}

/**
 * Preload [N] that a torque leaves in a bolt, with its scatter: F = T / (K d), K (1 ± scatter).
 * The span is lopsided: 30 % less friction gives 43 % more load, 30 % more friction 23 % less.
 * @source   S51, S52; Shigley eq. 8-27
 * @throws NonPhysicalError  torque below 0, nut factor outside NUT_FACTOR_RANGE, scatter not in 0 to 0.9
 */
export function preloadFromTorque(torqueNm: number, how: Tightening): Preload {
  const perN = torquePerPreloadM(how);
  const torque = notNegative('torque', torqueNm, 'N·m');
  const scatter = scatterOf(how);
  return {
    lowN: torque / (perN * (1 + scatter)),
    preloadN: torque / perN,
    highN: torque / (perN * (1 - scatter)),
  };
}

/** Torque [N·m] for a preload: T = K F d; and the torques that would give it at both ends of the scatter. */
export function torqueForPreload(
  preloadN: number,
  how: Tightening,
): { readonly lowNm: number; readonly torqueNm: number; readonly highNm: number } {
  const torqueNm = torquePerPreloadM(how) * notNegative('preload', preloadN, 'N');
  const scatter = scatterOf(how);
  return { lowNm: torqueNm * (1 - scatter), torqueNm, highNm: torqueNm * (1 + scatter) };
}

function torquePerPreloadM(how: Tightening): number {
  return (
    within('nut factor', how.nutFactor, '', NUT_FACTOR_RANGE) *
    positive('thread diameter', how.majorM, 'm')
  );
}

function scatterOf({ scatter = TORQUE_SCATTER }: Tightening): number {
  return within('scatter of the nut factor', scatter, '', [0, 0.9]);
}
