/** Freezes what the record says of a build into a hand-over: a pure function of the record, the choice and the hour. */
import {
  answerSheet,
  PLAN_VERSION,
  type Plan,
  SHEET_VERSION,
  type Sheet,
  type SheetAnswer,
  sheetChanges,
} from '../../build/index.ts';
import { COMPARE_VERSION } from '../../compare/index.ts';
import { InputError, PullbookError } from '../../errors.ts';
import { LADDER_VERSION, ladderOrder, SETTING_KINDS, settingsKnown } from '../../ladder/index.ts';
import { CURVE_VERSION, type Curve } from '../../pull/index.ts';
import {
  type Build,
  type EntityName,
  type Id,
  type Ladder,
  narrowed,
  type Portion,
  type Pull,
  type PullbookRecord,
  type Shop,
} from '../../record/index.ts';
import {
  type FinalCurve,
  HANDOVER_VERSION,
  type HandedBuild,
  type HandedDay,
  type HandedLadder,
  type HandedPull,
  type HandOver,
  type HandOverChoice,
  type Versions,
} from '../../report/index.ts';
import { cautionsOf } from './cautions.ts';
import { bringTogether, comparisonOf } from './compared.ts';
import { contextOf, type DayContext, engineSetup } from './context.ts';
import { Curves, type PullCurve } from './curves.ts';
import { finalCurve, type WorkedDay } from './finalCurve.ts';
import { readLadder } from './ladders.ts';
import { newestPlan } from './plans.ts';
import { Readings } from './readings.ts';

export interface Freezing {
  readonly madeAt: string;
  /** Version of the program. */
  readonly pullbook: string;
  readonly signal?: AbortSignal;
  readonly onDay?: (done: number, of: number) => void;
}

/** What `record.json` of a bundle holds: all that the hand-over was computed from, beside the recordings. */
export interface RecordPart {
  readonly format: 'record-part/1';
  readonly shop: Shop;
  readonly portion: Portion;
}

/** Of every computation that has a hand in a hand-over. */
export const versionsHere = (pullbook: string): Versions => ({
  pullbook,
  handover: HANDOVER_VERSION,
  curve: CURVE_VERSION,
  ladder: LADDER_VERSION,
  sheet: SHEET_VERSION,
  compare: COMPARE_VERSION,
  plan: PLAN_VERSION,
});

/**
 * @throws NotInRecordError  a build or day that is not there; InputError  a day of another build, none at all, or a
 *                           build of another engine to hold it against
 */
export async function freezeHandOver(
  record: PullbookRecord,
  choice: HandOverChoice,
  { madeAt, pullbook, signal, onDay }: Freezing,
): Promise<HandOver> {
  const build = await record.builds.get(choice.buildId);
  const engine = await record.engines.get(build.engineId);
  const shop = await record.shop.get();
  const curves = new Curves(record, new Readings(record));
  const days: WorkedDay[] = [];
  if (choice.dayIds.length === 0)
    throw new InputError('A hand-over needs one test day at least; choose which.');
  for (const [index, dayId] of choice.dayIds.entries()) {
    signal?.throwIfAborted();
    onDay?.(index, choice.dayIds.length);
    days.push(await workDay(record, curves, dayId, choice));
  }
  const answered = await answeredSheet(record, build.id);
  const final = finalCurve(days);
  return {
    format: 'handover/1',
    madeAt,
    choice,
    versions: versionsHere(pullbook),
    shop: {
      name: shop.name,
      isInvented: shop.invented,
      address: shop.address,
      mark: shop.mark,
    },
    engine: {
      id: engine.id,
      name: engine.name,
      serial: engine.serial,
      owner: engine.owner,
      notes: engine.notes,
      cycle: engine.cycle,
      aspiration: engine.aspiration,
      fuel: engine.fuel,
    },
    build: handedBuild(build, days[0]!.context),
    days: days.map(({ handed }) => handed),
    final,
    sheet: answered === null ? null : handedSheet(answered),
    sinceLast: await sinceLast(record, curves, choice, { build, answered, final }),
    cautions: cautionsOf(
      days.map(({ handed }) => handed),
      final,
    ),
  };
}

/** What an owner reads where the shop would be told how to make it a ladder. */
const NOTHING_STEPPED = 'No setting was stepped here.';

const handedBuild = (build: Build, context: Pick<DayContext, 'engine'>): HandedBuild => ({
  id: build.id,
  name: build.name,
  notes: build.notes,
  displacementM3: build.displacementM3 ?? context.engine.displacementM3,
  cylinders: build.cylinders ?? context.engine.cylinders,
  compressionRatio: build.compressionRatio ?? context.engine.compressionRatio,
});

async function workDay(
  record: PullbookRecord,
  curves: Curves,
  dayId: Id,
  choice: HandOverChoice,
  buildId: Id = choice.buildId,
): Promise<WorkedDay> {
  const context = await contextOf(record, dayId);
  const { day, cell } = context;
  const calibration = context.calibration.state;
  if (day.buildId !== buildId)
    throw new InputError(
      `The test day ${day.name || day.date || day.id} is of another build; hand over days of one build.`,
    );
  const pulls = await record.pulls.list({ dayId });
  const ofDay = await curves.ofDay(dayId, { standard: choice.standard });
  const inOrder = ladderOrder(await record.ladders.list({ dayId }), pulls, day.lambdaTarget);
  const known = inOrder.map((ladder) => settingsKnown(ladder, pulls, day.lambdaTarget));
  const stepsSome = known.some((settings) => settings > 1);
  const ladders: Ladder[] = [];
  const readings: HandedLadder[] = [];
  for (const [index, ladder] of inOrder.entries()) {
    const reading = await handedLadder(record, curves, ladder, choice);
    // One whose pulls step nothing has nothing to tell an owner, unless somebody decided on it.
    if (reading.decision === null && known[index]! < (stepsSome ? 2 : 1)) continue;
    ladders.push(ladder);
    readings.push(known[index] === 0 ? { ...reading, whyNone: NOTHING_STEPPED } : reading);
  }
  return {
    context,
    pulls,
    curves: ofDay,
    ladders,
    handed: {
      id: day.id,
      name: day.name,
      date: day.date,
      notes: day.notes,
      fuel: engineSetup(context).fuel,
      octane: day.octane,
      fuelBatch: day.fuelBatch,
      cell: {
        id: cell.id,
        name: cell.name,
        inertiaKgM2: day.inertiaKgM2 ?? cell.inertiaKgM2,
        calibratedOn: calibration.torque?.doneOn ?? null,
        calibrationDue: calibration.torque?.due?.dueIso ?? null,
        remarks: calibration.remarks.map(({ sentence }) => sentence),
      },
      configuration: { ...day.configuration },
      pulls: pulls.map((pull, index) => handedPull(pull, index, ofDay[index]!, context)),
      ladders: readings,
      plan: await planOf(record, dayId),
    },
  };
}

function handedPull(
  pull: Pull,
  index: number,
  { curve, whyNone }: PullCurve,
  { day }: DayContext,
): HandedPull {
  const hasPeaks = pull.peakPowerW !== null || pull.peakTorqueNm !== null;
  const own = Object.entries(pull.configuration).map(([name, said]) => `${name}: ${said}`);
  return {
    id: pull.id,
    number: index + 1,
    madeAt: pull.madeAt,
    fileName: pull.fileName,
    recordingSha256: pull.recordingSha256,
    rows: pull.span === null ? null : { first: pull.span.firstRow, last: pull.span.lastRow },
    leadDeg: pull.leadDeg,
    lambdaTarget: pull.lambdaTarget ?? day.lambdaTarget,
    ...(pull.lambdaMeasured === null ? {} : { lambdaMeasured: pull.lambdaMeasured }),
    ...(pull.lambdaErrorSd === null ? {} : { lambdaErrorSd: pull.lambdaErrorSd }),
    ...(pull.jets === null ? {} : { jets: pull.jets }),
    ...(pull.loadPercent === null ? {} : { loadPercent: pull.loadPercent }),
    note: pull.note,
    excludedBecause: pull.excludedBecause,
    isAborted: pull.aborted,
    watched: pull.watched,
    knockHeard: pull.knockHeard === false && pull.specksOnPlug ? true : pull.knockHeard,
    configuration: own.length === 0 ? null : own.join('; '),
    curve: curve === null ? null : handedCurve(curve),
    whyNoCurve: curve === null ? whyNone : null,
    typedPeaks: hasPeaks
      ? {
          torqueNm: pull.peakTorqueNm,
          torqueSpeedRpm: pull.peakTorqueSpeedRpm,
          powerW: pull.peakPowerW,
          powerSpeedRpm: pull.peakPowerSpeedRpm,
          air: pull.peaksAre?.air ?? 'unknown',
        }
      : null,
  };
}

const handedCurve = ({
  standard,
  correctionFactor,
  speedRpm,
  torqueNm,
  lowNm,
  highNm,
  powerW,
  peakTorque,
  peakPower,
  conditions,
  marks,
}: Curve): HandedPull['curve'] => ({
  standard,
  correctionFactor,
  speedRpm,
  torqueNm,
  lowNm,
  highNm,
  powerW,
  peakTorque,
  peakPower,
  conditions,
  marks,
});

async function handedLadder(
  record: PullbookRecord,
  curves: Curves,
  ladder: Ladder,
  choice: HandOverChoice,
): Promise<HandedLadder> {
  const { input, answer, whyNone } = await readLadder(record, curves, ladder.id, {
    standard: choice.standard,
  });
  const decision = (await record.decisions.list({ ladderId: ladder.id })).at(-1);
  return {
    id: ladder.id,
    name: ladder.name,
    setting: ladder.setting,
    unit: SETTING_KINDS[ladder.setting].unit,
    bandRpm: input?.bandRpm ?? null,
    answer,
    whyNone,
    decision:
      decision === undefined
        ? null
        : {
            use: decision.use,
            setting: decision.setting,
            who: decision.who,
            decidedAt: decision.decidedAt,
            why: decision.why,
            advised: decision.advice?.value ?? null,
            advisedWhy: decision.advice?.why ?? null,
          },
  };
}

async function planOf(record: PullbookRecord, dayId: Id): Promise<HandedDay['plan']> {
  const newest = await newestPlan(record, dayId);
  if (newest === undefined) return null;
  const ticks = await record.plans.ticks(newest.id);
  return {
    plan: newest.plan as Plan,
    madeAt: newest.madeAt,
    ticks: ticks.map(({ itemId, who, tickedAt }) => ({ itemId, by: who, at: tickedAt })),
  };
}

interface AnsweredSheet {
  readonly sheet: Sheet;
  readonly answer: SheetAnswer;
}

async function answeredSheet(record: PullbookRecord, buildId: Id): Promise<AnsweredSheet | null> {
  const { sheet } = await record.sheets.get(buildId);
  if (sheet === null) return null;
  const { windows } = await record.shop.get();
  return { sheet, answer: answerSheet(sheet, windows) };
}

const handedSheet = ({ sheet, answer }: AnsweredSheet): HandOver['sheet'] => ({
  figures: answer.figures,
  checks: answer.checks,
  measured: Object.values(sheet.sections).reduce(
    (sum, section) => sum + Object.keys(section.values ?? {}).length,
    0,
  ),
  toMeasure: answer.measureNext.map(({ path, label }) => ({ path, label })),
});

interface Handed {
  readonly build: Build;
  readonly answered: AnsweredSheet | null;
  readonly final: FinalCurve | null;
}

async function sinceLast(
  record: PullbookRecord,
  curves: Curves,
  choice: HandOverChoice,
  { build, answered, final }: Handed,
): Promise<HandOver['sinceLast']> {
  const { comparedBuildId } = choice;
  if (comparedBuildId === null) return null;
  const other = await record.builds.get(comparedBuildId);
  const engine = await record.engines.get(other.engineId);
  if (other.engineId !== build.engineId)
    throw new InputError('A hand-over is held against another build of the same engine.');
  const before = answered === null ? null : await answeredSheet(record, other.id);
  return {
    build: handedBuild(other, { engine }),
    changes:
      before === null || answered === null
        ? null
        : sheetChanges(before.sheet, answered.sheet, before.answer, answered.answer),
    ...(await held(record, curves, choice, { build, final, other })),
  };
}

/** The pulls that stand for each build, side by side; how days differ is learned from the days of the two alone. */
async function held(
  record: PullbookRecord,
  curves: Curves,
  choice: HandOverChoice,
  { build, final, other }: { build: Build; final: FinalCurve | null; other: Build },
): Promise<Pick<NonNullable<HandOver['sinceLast']>, 'comparison' | 'whyNoComparison'>> {
  const none = (whyNoComparison: string) => ({ comparison: null, whyNoComparison });
  if (final === null) return none(`${build.name} has no pull with a curve.`);
  const days: WorkedDay[] = [];
  for (const day of await record.days.list({ buildId: other.id }))
    days.push(await workDay(record, curves, day.id, choice, other.id));
  const before = finalCurve(days);
  if (before === null) return none(`${other.name} has no pull with a curve in the record.`);
  try {
    const brought = await bringTogether(record, curves, {
      sides: [
        { kind: 'pulls', pullIds: before.pullIds, name: other.name },
        { kind: 'pulls', pullIds: final.pullIds, name: build.name },
      ],
      standard: choice.standard,
      referenceDays: new Set([...choice.dayIds, ...days.map(({ context }) => context.day.id)]),
    });
    const { answer, finding, dayToDay, warnings } = comparisonOf(brought);
    if (answer === null) return none(finding);
    return {
      comparison: {
        answer,
        finding,
        why: before.why,
        before,
        dayToDay: dayToDay.sentence,
        warnings,
      },
      whyNoComparison: null,
    };
  } catch (error) {
    if (error instanceof PullbookError && error.code !== 'store') return none(error.message);
    throw error;
  }
}

/** The rows of the record that a hand-over rests on, and no others: its builds, its days, their cells. */
export async function recordPartFor(
  record: PullbookRecord,
  choice: HandOverChoice,
): Promise<RecordPart> {
  const { engineId } = await record.builds.get(choice.buildId);
  const all = await record.portions.of([engineId]);
  const builds = new Set([choice.buildId, choice.comparedBuildId]);
  const days = (all.rows.day ?? []).filter(
    (day) => choice.dayIds.includes(day.id as Id) || day.buildId === choice.comparedBuildId,
  );
  const wanted: Partial<Record<EntityName, ReadonlySet<unknown>>> = {
    build: builds,
    day: new Set(days.map((day) => day.id)),
    cell: new Set(days.map((day) => day.cellId)),
    handOver: new Set(),
  };
  const portion = narrowed(all, (entity, { id }) => wanted[entity]?.has(id) ?? true);
  return { format: 'record-part/1', shop: await record.shop.get(), portion };
}
