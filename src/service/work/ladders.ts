/** A ladder of the record as the ladder room's question, and its answer. */
import {
  answerLadder,
  belongsTo,
  type LadderAnswer,
  type LadderInput,
  mixtureHoldback,
  SETTING_KINDS,
  SETTING_NAMES,
  type SettingName,
  settingIn,
} from '../../ladder/index.ts';
import type { AirStandard, Curve } from '../../pull/index.ts';
import type { Configuration, Id, Ladder, Pull, PullbookRecord, Shop } from '../../record/index.ts';
import {
  bandFromCurves,
  belowFullThrottle,
  configurationWords,
  type DayPull,
  ladderInputOf,
  lambdasOf,
  type SetAt,
} from '../../report/index.ts';
import { type CurveWish, contextOf, type DayContext } from './context.ts';
import type { Curves } from './curves.ts';
import { exhaustLimitOn } from './exhaustLimit.ts';

export interface LadderReading {
  readonly ladderId: Id;
  readonly standard: AirStandard;
  readonly input: LadderInput | null;
  readonly answer: LadderAnswer | null;
  readonly whyNone: string | null;
}

export async function readLadder(
  record: PullbookRecord,
  curves: Curves,
  ladderId: Id,
  wish: CurveWish,
): Promise<LadderReading> {
  const ladder = await record.ladders.get(ladderId);
  const context = await contextOf(record, ladder.dayId);
  const standard =
    wish.standard ?? ladder.standard ?? context.day.standard ?? context.shop.standard;
  const dayLambda = context.day.lambdaTarget;
  const ofDay = await record.pulls.list({ dayId: ladder.dayId });
  const all = ofDay.filter((pull) => belongsTo(ladder, pull, dayLambda));
  const rungs = await rungsOf(all, ladder, context, (pull) =>
    curves.of(context, pull, { ...wish, standard }).then(({ curve }) => curve),
  );
  const none = (whyNone: string): LadderReading => ({
    ladderId,
    standard,
    input: null,
    answer: null,
    whyNone,
  });
  const { word } = SETTING_KINDS[ladder.setting];
  if (ofDay.length === 0)
    return none('No pull yet: drop the run files of the day here, or type peaks.');
  if (all.length === 0)
    return none(
      'None of the pulls of the day is of this ladder: choose which are, or set them in the table of pulls.',
    );
  if (rungs.length === 0)
    return none(`No pull has its ${word} yet: set the ${word} of each in the table of pulls.`);
  const besides = rungs.map(({ pull }) => wordsOf(pull, ladder.setting, dayLambda));
  const pulls: DayPull[] = [];
  for (const [at, { pull, curve, setting, settingSd }] of rungs.entries()) {
    const one = dayPullOf(pull, setting, curve, configurationWords(besides[at]!, besides));
    pulls.push({
      ...one,
      excludedBecause: one.excludedBecause ?? belowFullThrottle(pull),
      ...(ladder.setting === 'lambda' ? { settingSd, setBy: pull.jets } : {}),
    });
  }
  if (
    pulls.every(
      (pull) => pull.curve === null && pull.peakPowerW === null && pull.peakTorqueNm === null,
    )
  ) {
    return none('None of these pulls has a curve or a typed peak; each says why beside it.');
  }
  const input = ladderInputOf(pulls, {
    ...settingsOf(ladder, context, pulls),
    exhaustLimitK: await exhaustLimitOn(record, ladder.dayId),
    remarks: context.calibration.state.remarks.map(({ sentence }) => sentence),
  });
  return { ladderId, standard, input, answer: answerLadder(input), whyNone: null };
}

interface Rung {
  readonly pull: Pull;
  readonly curve: Curve | null;
  readonly setting: number;
  /** 0 where it was set, not read. */
  readonly settingSd: number;
}

/** The pulls that say where they stand: in lead as set, in lambda as it was read, else set. */
async function rungsOf(
  pulls: readonly Pull[],
  { setting, bandRpm }: Ladder,
  { day }: DayContext,
  curveOf: (pull: Pull) => Promise<Curve | null>,
): Promise<readonly Rung[]> {
  const at: (SetAt & { readonly pull: Pull })[] = [];
  for (const pull of pulls) {
    if (setting === 'lead' && pull.leadDeg === null) continue;
    at.push({ pull, ...setAtOf(pull, day.lambdaTarget, await curveOf(pull)) });
  }
  const band = bandRpm ?? day.bandRpm ?? bandFromCurves(at.map(({ curve }) => curve));
  const lambdas = lambdasOf(at, band);
  return at.flatMap(({ pull, curve, leadDeg }, i) => {
    if (setting === 'lead') return [{ pull, curve, setting: leadDeg, settingSd: 0 }];
    const { lambda, sd } = lambdas[i]!;
    if (!Number.isFinite(lambda)) return [];
    return [{ pull, curve, setting: Number(lambda.toFixed(4)), settingSd: sd }];
  });
}

/** Both settings of a pull, the day's lambda where it names none; NaN: its lead is not known. */
export const setAtOf = (pull: Pull, dayLambda: number | null, curve: Curve | null): SetAt => ({
  leadDeg: pull.leadDeg ?? Number.NaN,
  lambdaTarget: pull.lambdaTarget ?? dayLambda,
  lambdaMeasured: pull.lambdaMeasured,
  lambdaErrorSd: pull.lambdaErrorSd,
  jets: pull.jets,
  loadPercent: pull.loadPercent,
  curve,
});

export function dayPullOf(
  pull: Pull,
  setting: number,
  curve: Curve | null,
  configuration: string | null,
): DayPull {
  return {
    id: pull.id,
    order: pull.order,
    setting,
    curve,
    peakPowerW: pull.peakPowerW,
    peakTorqueNm: pull.peakTorqueNm,
    excludedBecause: pull.excludedBecause,
    watched: pull.watched,
    // Specks on a plug are knock that nobody heard.
    knockHeard: pull.knockHeard === false && pull.specksOnPlug ? true : pull.knockHeard,
    aborted: pull.aborted,
    configuration,
  };
}

const FIELD_WORDS: Readonly<Record<keyof Configuration, string>> = {
  exhaust: 'exhaust',
  airCleaner: 'air cleaner',
  accessories: 'accessories',
  oil: 'oil',
  plugs: 'plugs',
  baseTimingDeg: 'base timing',
  leadSetBy: 'lead set by',
  distributorCurve: 'distributor curve',
  other: 'configuration',
};

/** A configuration as names and words. */
export const configurationFields = (
  configuration: Configuration,
): Readonly<Record<string, string>> =>
  Object.fromEntries(
    Object.entries(configuration).map(([field, value]) => [
      FIELD_WORDS[field as keyof Configuration],
      field === 'baseTimingDeg' ? `${value} deg` : String(value),
    ]),
  );

/** How the engine stood at a pull: its configuration, and the settings that the ladder does not step. */
function wordsOf(
  pull: Pull,
  stepped: SettingName,
  dayLambda: number | null,
): Readonly<Record<string, string>> {
  const others = SETTING_NAMES.filter((name) => name !== stepped).flatMap((name) => {
    const { word, unit } = SETTING_KINDS[name];
    const stood = settingIn(name, pull, dayLambda);
    return stood === null ? [] : [[word, unit === '' ? String(stood) : `${stood} ${unit}`]];
  });
  return {
    ...configurationFields(pull.configuration),
    ...(stepped === 'lambda' || pull.jets === null ? {} : { jets: pull.jets }),
    ...Object.fromEntries(others),
  };
}

/** What of a ladder of the record settles how it is judged. */
type JudgedBy = Pick<
  Ladder,
  'setting' | 'bandRpm' | 'step' | 'worthPercent' | 'repeatabilityPercent'
>;

export function settingsOf(
  ladder: JudgedBy,
  { shop, day, engine }: DayContext,
  pulls: readonly DayPull[],
) {
  const worse = (worst: number | null, today: number | null, sign: 1 | -1) =>
    worst === null || today === null ? 0 : Math.max(0, sign * (worst - today));
  const kind = SETTING_KINDS[ladder.setting];
  const isLead = ladder.setting === 'lead';
  return {
    kind,
    bandRpm: ladder.bandRpm ?? day.bandRpm,
    uses: usesFor(ladder.setting, shop),
    aspiration: engine.aspiration,
    step: ladder.step ?? (isLead ? shop.stepDeg : kind.defaultStep),
    worthPercent: ladder.worthPercent ?? shop.worthPercent,
    repeatabilityPercent: ladder.repeatabilityPercent ?? shop.repeatabilityPercent,
    worstInletDeltaK: worse(
      day.worstInletTemperatureK,
      day.inletTemperatureK ?? meanInletK(pulls),
      1,
    ),
    worstFuelDeltaOctane: worse(day.worstOctane, day.octane, -1),
    // The shop's rules for inlet and fuel are of lead; how mixture should follow them nobody has said.
    holdbackPer10K: isLead ? shop.holdbackDegPer10K : 0,
    holdbackPerOctane: isLead ? shop.holdbackDegPerOctane : 0,
  };
}

/** The uses that have a rule for this kind of setting. */
export function usesFor(setting: SettingName, { uses }: Shop): LadderInput['uses'] {
  return uses.flatMap(
    ({ name, holdbackDeg, holdbackLambda, speedsRpm, chancePastBest, chancePastLimit }) => {
      const holdback = setting === 'lead' ? holdbackDeg : mixtureHoldback(name, holdbackLambda);
      if (holdback === null) return [];
      return [{ name, holdback, speedsRpm, chancePastBest, chancePastLimit }];
    },
  );
}

/** Inlet temperature of the day as its pulls recorded it. */
function meanInletK(pulls: readonly DayPull[]): number | null {
  const temperatures = pulls
    .map((pull) => pull.curve?.conditions.airTemperatureK ?? null)
    .filter((value) => value !== null);
  if (temperatures.length === 0) return null;
  return temperatures.reduce((sum, value) => sum + value, 0) / temperatures.length;
}
