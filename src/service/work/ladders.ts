/** A ladder of the record as the ladder room's question, and its answer. */
import {
  answerLadder,
  type LadderAnswer,
  type LadderInput,
  SPARK_LEAD,
} from '../../ladder/index.ts';
import type { AirStandard, Curve } from '../../pull/index.ts';
import type { Configuration, Id, Ladder, Pull, PullbookRecord } from '../../record/index.ts';
import { configurationWords, type DayPull, ladderInputOf } from '../../report/index.ts';
import { type CurveWish, contextOf, type DayContext } from './context.ts';
import type { Curves } from './curves.ts';

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
  const all = (await record.pulls.list({ dayId: ladder.dayId })).filter(
    (pull) => pull.group === ladder.group,
  );
  const rungs = all.filter((pull) => pull.leadDeg !== null);
  const none = (whyNone: string): LadderReading => ({
    ladderId,
    standard,
    input: null,
    answer: null,
    whyNone,
  });
  if (all.length === 0)
    return none('No pull yet: drop the run files of the day here, or type peaks.');
  if (rungs.length === 0)
    return none('No pull has its lead yet: set the leads in the table of pulls.');
  const pulls: DayPull[] = [];
  for (const pull of rungs) {
    const { curve } = await curves.of(context, pull, { ...wish, standard });
    pulls.push(dayPullOf(pull, curve, rungs));
  }
  if (
    pulls.every(
      (pull) => pull.curve === null && pull.peakPowerW === null && pull.peakTorqueNm === null,
    )
  ) {
    return none('None of these pulls has a curve or a typed peak; each says why beside it.');
  }
  const input = ladderInputOf(pulls, settingsOf(ladder, context, pulls));
  return { ladderId, standard, input, answer: answerLadder(input), whyNone: null };
}

function dayPullOf(pull: Pull, curve: Curve | null, rungs: readonly Pull[]): DayPull {
  return {
    id: pull.id,
    order: pull.order,
    setting: pull.leadDeg!,
    curve,
    peakPowerW: pull.peakPowerW,
    peakTorqueNm: pull.peakTorqueNm,
    excludedBecause: pull.excludedBecause,
    watched: pull.watched,
    // Specks on a plug are knock that nobody heard.
    knockHeard: pull.knockHeard === false && pull.specksOnPlug ? true : pull.knockHeard,
    aborted: pull.aborted,
    configuration: configurationWords(
      wordsOf(pull.configuration),
      rungs.map((rung) => wordsOf(rung.configuration)),
    ),
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

const wordsOf = (configuration: Configuration): Record<string, string> =>
  Object.fromEntries(
    Object.entries(configuration).map(([field, value]) => [
      FIELD_WORDS[field as keyof Configuration],
      field === 'baseTimingDeg' ? `${value} deg` : String(value),
    ]),
  );

function settingsOf(ladder: Ladder, { shop, day, engine }: DayContext, pulls: readonly DayPull[]) {
  const worse = (worst: number | null, today: number | null, sign: 1 | -1) =>
    worst === null || today === null ? 0 : Math.max(0, sign * (worst - today));
  return {
    kind: SPARK_LEAD,
    bandRpm: ladder.bandRpm ?? day.bandRpm,
    uses: shop.uses.map(({ name, holdbackDeg, speedsRpm, chancePastBest, chancePastLimit }) => ({
      name,
      holdback: holdbackDeg,
      speedsRpm,
      chancePastBest,
      chancePastLimit,
    })),
    aspiration: engine.aspiration,
    step: ladder.stepDeg ?? shop.stepDeg,
    worthPercent: ladder.worthPercent ?? shop.worthPercent,
    repeatabilityPercent: ladder.repeatabilityPercent ?? shop.repeatabilityPercent,
    worstInletDeltaK: worse(
      day.worstInletTemperatureK,
      day.inletTemperatureK ?? meanInletK(pulls),
      1,
    ),
    worstFuelDeltaOctane: worse(day.worstOctane, day.octane, -1),
    holdbackPer10K: shop.holdbackDegPer10K,
    holdbackPerOctane: shop.holdbackDegPerOctane,
  };
}

/** Inlet temperature of the day as its pulls recorded it. */
function meanInletK(pulls: readonly DayPull[]): number | null {
  const temperatures = pulls
    .map((pull) => pull.curve?.conditions.airTemperatureK ?? null)
    .filter((value) => value !== null);
  if (temperatures.length === 0) return null;
  return temperatures.reduce((sum, value) => sum + value, 0) / temperatures.length;
}
