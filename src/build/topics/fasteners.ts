import {
  BOLT_GRADES,
  boltStiffnessNPerM,
  GRIP_RANGE_DIAMETERS,
  JOINT_MODULUS_PA,
  jointStiffnessNPerM,
  NUT_FACTORS,
  type Preload,
  preloadFromAngle,
  preloadFromStretch,
  preloadFromTorque,
  ROD_BENDING_FACTOR,
  rodBoltMargin,
  THREADS,
  type Thread,
  tensileAreaM2,
  utilisation,
} from '../../trade/fastener/index.ts';
import {
  type Ask,
  eachOf,
  firstOf,
  type Need,
  NotMeasured,
  once,
  one,
  oneOr,
  type Row,
  textOf,
} from '../compute/ask.ts';
import type { CheckSpec, FigureSpec, Said } from '../compute/types.ts';
import { byPlace } from './basics.ts';
import { rodTension } from './motion.ts';

const plain = (text: string) =>
  text
    .toLowerCase()
    .replace(/×/g, 'x')
    .replace(/\s/g, '')
    .replace(/(\.\d*?)0+$/, '$1')
    .replace(/\.$/, '');
const BY_NAME = new Map<string, Thread>(THREADS.map((thread) => [plain(thread.id), thread]));

/** The thread that a text such as `7/16-20` or `M10x1.50` names; null where it is none of the handbook's. */
export const threadNamed = (text: string): Thread | null => BY_NAME.get(plain(text)) ?? null;

/** Words that people write for what is on the threads, the more particular first. */
const LUBRICANTS: readonly (readonly [RegExp, string])[] = [
  [/moly/, 'moly'],
  [/anti.?seize/, 'anti-seize'],
  [/phosphat/, 'phosphate-oil'],
  [/cadmium/, 'cadmium'],
  [/zinc/, 'zinc'],
  [/black/, 'black-dry'],
  [/oil/, 'engine-oil'],
  [/dry|none/, 'dry'],
];

function nutFactorOf(text: string): number | null {
  const lower = text.toLowerCase();
  const id = LUBRICANTS.find(([words]) => words.test(lower))?.[1];
  return NUT_FACTORS.find((factor) => factor.id === id)?.nutFactor ?? null;
}

interface Joint {
  readonly name: string;
  readonly remark: string | null;
  /** Null where neither torque with a known lubricant nor stretch tells it. */
  readonly preload: Preload | null;
  readonly shareOfProof: number | null;
  readonly clampOverLoad: number | null;
}

const textIn = (row: Row, id: string) => (typeof row[id] === 'string' ? (row[id] as string) : '');
const numberIn = (row: Row, id: string) =>
  typeof row[id] === 'number' ? (row[id] as number) : null;

/** Stretch first, for friction plays no part in it; else torque with what the lubricant leaves open. */
function preloadOf(row: Row, thread: Thread): Preload | null {
  const [stretchM, lengthM] = [numberIn(row, 'stretch'), numberIn(row, 'freeLength')];
  if (stretchM !== null && lengthM !== null && lengthM > 0)
    return preloadFromStretch(
      Math.max(0, stretchM),
      boltStiffnessNPerM({ sections: [{ lengthM, areaM2: tensileAreaM2(thread) }] }),
    );
  const [torqueNm, nutFactor] = [numberIn(row, 'torque'), nutFactorOf(textIn(row, 'lubricant'))];
  if (torqueNm === null || nutFactor === null) return null;
  const snug = preloadFromTorque(torqueNm, { majorM: thread.majorM, nutFactor });
  const angleDeg = numberIn(row, 'angle') ?? 0;
  return angleDeg > 0 ? preloadOfAngle(row, thread, snug, angleDeg) : snug;
}

/** What a protractor on a wrench leaves open either side [deg]: ours, no source. */
const ANGLE_OPEN_DEG = 3;

/** Turned on by an angle the bolt carries more than its torque says, by the stiffness of bolt and joint. */
function preloadOfAngle(row: Row, thread: Thread, snug: Preload, angleDeg: number): Preload | null {
  const gripM = numberIn(row, 'grip');
  const modulusPa = modulusOf(textIn(row, 'clamped'));
  if (gripM === null || gripM <= 0 || modulusPa === null) return null;
  // The part of the bolt that stretches is what it clamps, at stress area; a waisted or long shank gives more.
  const boltNPerM = boltStiffnessNPerM({
    sections: [{ lengthM: gripM, areaM2: tensileAreaM2(thread) }],
  });
  const jointNPerM = jointStiffnessNPerM({ majorM: thread.majorM, gripM, modulusPa });
  const turn = { snug, angleDeg, angleUncertaintyDeg: ANGLE_OPEN_DEG, pitchM: thread.pitchM };
  return preloadFromAngle(turn, { boltNPerM, jointNPerM });
}

function modulusOf(clamped: string): number | null {
  const lower = clamped.toLowerCase();
  if (/alumin/.test(lower)) return JOINT_MODULUS_PA.aluminium;
  if (/iron/.test(lower)) return JOINT_MODULUS_PA['cast iron'];
  return /steel/.test(lower) ? JOINT_MODULUS_PA.steel : null;
}

/** Why a joint that was turned on by an angle has no preload here, or is told with less trust; null: nothing to say. */
function angleRemark(row: Row, name: string, thread: Thread | null): string | null {
  const stretched = numberIn(row, 'stretch') !== null && numberIn(row, 'freeLength') !== null;
  if ((numberIn(row, 'angle') ?? 0) <= 0 || stretched) return null;
  const gripM = numberIn(row, 'grip');
  const lacks = [
    ...(thread === null ? ['a thread of the handbook'] : []),
    ...(numberIn(row, 'torque') === null ? ['the snug torque'] : []),
    ...(nutFactorOf(textIn(row, 'lubricant')) === null ? ['a lubricant of the handbook'] : []),
    ...(gripM === null ? ['the clamped length'] : []),
    ...(modulusOf(textIn(row, 'clamped')) === null
      ? ['what it clamps (steel, cast iron or aluminium)']
      : []),
  ];
  if (lacks.length > 0) return `${name}: to tell its preload by angle, say ${lacks.join(', ')}.`;
  const [least, most] = GRIP_RANGE_DIAMETERS;
  const diameters = gripM! / thread!.majorM;
  const beyond =
    diameters < least || diameters > most
      ? ` Its clamped length is ${diameters.toFixed(1)} diameters; the stiffness rule is meant for ${least} to ${most}.`
      : '';
  return `${name}: by angle, as long as the bolt stays elastic; one that is meant to be turned past yield goes by its maker’s angle.${beyond}`;
}

function proofPa(row: Row, { majorM }: Thread): number | null {
  const grade = textIn(row, 'grade')
    .toLowerCase()
    .replace(/grade|class|sae|iso|\s/g, '');
  const hair = 1e-4;
  const line = BOLT_GRADES.find(
    ({ grade: name, majorRangeM: [least, most] }) =>
      name === grade && majorM >= least - hair && majorM <= most + hair,
  );
  return line?.proofPa ?? null;
}

function jointOf(row: Row, index: number): Joint {
  const name = textIn(row, 'joint') || `Row ${index + 1}`;
  const thread = threadNamed(textIn(row, 'thread'));
  const preload = thread === null ? null : preloadOf(row, thread);
  const remark = angleRemark(row, name, thread);
  if (thread === null || preload === null)
    return { name, remark, preload: null, shareOfProof: null, clampOverLoad: null };
  const proof = proofPa(row, thread);
  const apartN = numberIn(row, 'separating');
  return {
    name,
    remark,
    preload,
    shareOfProof:
      proof === null
        ? null
        : utilisation(preload.preloadN, tensileAreaM2(thread), proof).shareOfProof,
    clampOverLoad: apartN === null || apartN <= 0 ? null : preload.lowN / apartN,
  };
}

const joints: Need<readonly Joint[]> = once((ask) => {
  const rows = ask.rows('fasteners.joints');
  if (rows.length === 0) throw new NotMeasured(['fasteners.joints']);
  return rows.map(jointOf);
});

const NONE = [
  {
    sentence:
      'No joint says enough: thread and torque with a lubricant of the handbook, or stretch with free length; for an angle after a snug torque also the clamped length and what it clamps.',
    source: null,
  },
];

const byRow =
  (read: (joint: Joint) => number | null): Need<Said> =>
  (ask) => {
    const all = joints(ask);
    const value = all.map(read);
    const notes = all.flatMap(({ remark }) =>
      remark === null ? [] : [{ sentence: remark, source: null }],
    );
    if (value.every((one) => one === null)) return { value: null, notes: [...NONE, ...notes] };
    return { value, notes, rows: all.map(({ name }) => name) };
  };

const preloadFigure = (id: string, label: string, read: keyof Preload): FigureSpec => ({
  id,
  section: 'fasteners',
  label,
  shown: 'force',
  how: 'Stretch × stiffness of the bolt, all of it at stress area; else torque ÷ (nut factor × diameter), nut factor ± 30 % (handbook of nut factors, Shigley eq. 8-27); turned on by an angle: + angle ÷ 360 × pitch × stiffness of bolt and joint in series, the joint by a 30° cone (Shigley eq. 8-22, from memory).',
  compute: byRow(({ preload }) => preload?.[read] ?? null),
});

/** Preload of the weaker bolt of each rod [N], from its stretch. */
const rodPreloadsN: Need<readonly (number | null)[]> = once((ask) => {
  const needs = ask.all({
    size: textOf('rods.boltSize'),
    length: one('rods.boltStretchedLength'),
    a: eachOf('rods.boltStretchA'),
    b: firstOf(eachOf('rods.boltStretchB'), eachOf('rods.boltStretchA')),
  });
  const thread = threadNamed(needs.size);
  if (thread === null) return needs.a.map(() => null);
  const stiffness = boltStiffnessNPerM({
    sections: [{ lengthM: needs.length, areaM2: tensileAreaM2(thread) }],
  });
  return byPlace(
    { a: needs.a, b: needs.b },
    ({ a, b }) => preloadFromStretch(Math.max(0, Math.min(a, b)), stiffness).preloadN,
  );
});

const knownOr = (values: readonly (number | null)[], sentence: string): Said =>
  values.every((value) => value === null)
    ? { value: null, notes: [{ sentence, source: null }] }
    : { value: values };

const NO_THREAD = 'The bolt size is no thread of the handbook: write it such as 7/16-20 or M9x1.';

const clampOverPull = (ask: Ask): Said => {
  const needs = ask.all({
    preloads: rodPreloadsN,
    pull: rodTension,
    bolts: oneOr('rods.boltsPerRod', 2),
  });
  const margins = needs.preloads.map((preloadPerBoltN) =>
    preloadPerBoltN === null
      ? null
      : rodBoltMargin({
          preloadPerBoltN,
          separatingForceN: needs.pull.rodN,
          bolts: needs.bolts,
        }).margin,
  );
  return knownOr(margins, NO_THREAD);
};

export const FASTENER_FIGURES: readonly FigureSpec[] = [
  preloadFigure('jointPreload', 'Preload of a bolt', 'preloadN'),
  preloadFigure('jointPreloadLow', 'Preload of a bolt, least that friction leaves', 'lowN'),
  preloadFigure('jointPreloadHigh', 'Preload of a bolt, most that friction leaves', 'highN'),
  {
    id: 'rodBoltPreload',
    section: 'rods',
    label: 'Preload of the weaker rod bolt',
    shown: 'force',
    per: 'cylinder',
    how: 'Stretch × stiffness of the stretching length at stress area; a waisted shank gives less.',
    compute: (ask) => knownOr(rodPreloadsN(ask), NO_THREAD),
  },
];

export const FASTENER_CHECKS: readonly CheckSpec[] = [
  {
    id: 'jointShareOfProof',
    section: 'fasteners',
    label: 'Preload as a share of the proof load',
    shown: 'percent',
    how: 'Preload ÷ (stress area × proof stress of the grade: SAE J429, ISO 898-1).',
    window: 'preloadShare',
    compute: byRow(({ shareOfProof }) => shareOfProof),
    remedy: {
      low: 'More torque, or a slipperier lubricant, as the part’s maker allows.',
      high: 'Less torque for this lubricant; a bolt past its proof load is replaced.',
    },
    weight: 2,
  },
  {
    id: 'jointClampOverLoad',
    section: 'fasteners',
    label: 'Least clamp over what pulls it apart',
    shown: 'ratio',
    how: 'Least preload that friction leaves ÷ separating force of a bolt.',
    window: 'clampOverLoad',
    compute: byRow(({ clampOverLoad }) => clampOverLoad),
    remedy: { low: 'More or stronger bolts, or set them by stretch.', high: '' },
    weight: 2,
  },
  {
    id: 'rodClampOverLoad',
    section: 'rods',
    label: 'Clamp of a rod cap over the pull on it, highest speed',
    shown: 'ratio',
    per: 'cylinder',
    how: `Both bolts at the preload of the weaker ÷ (pull on the rod × ${ROD_BENDING_FACTOR} for bending of the cap; from memory).`,
    window: 'clampOverLoad',
    compute: clampOverPull,
    remedy: { low: 'Stronger bolts, lighter pistons, or a lower limit of speed.', high: '' },
    weight: 3,
  },
];
