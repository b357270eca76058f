/** Lead and lambda of a day at once: the question for the surface, and its answers, one a load. */
import { SPARK_LEAD } from '../ladder/index.ts';
import {
  answerTwo,
  SHIPPED_TABLE,
  speedTable,
  type TableBlock,
  type TwoAnswer,
  type TwoInput,
  type TwoUse,
} from '../ladder/two/index.ts';
import { findFuel } from '../trade/index.ts';
import type { Table } from '../units/export/table.ts';
import { type DayPull, type LadderSettings, ladderInputOf, ladderPullOf } from './ladderInput.ts';
import { lambdasOf, type SetAt } from './pullSettings.ts';

/** A day's pull with both settings, wherever it stands. */
export type TwoDayPull = Omit<DayPull, 'setting'> & SetAt & { readonly day?: number };

/** The rules of both settings for one use. */
export function twoUses(
  lead: LadderSettings['uses'],
  lambda: LadderSettings['uses'],
): readonly TwoUse[] {
  return lead.flatMap(({ name, holdback, chancePastBest }) => {
    const mixture = lambda.find((one) => one.name === name);
    if (mixture === undefined) return [];
    return [{ name, holdbackDeg: holdback, holdbackLambda: mixture.holdback, chancePastBest }];
  });
}

/** What a surface is judged by: a lead ladder's settings, and the rules and step of the mixture beside them. */
export interface TwoSettings extends Omit<LadderSettings, 'uses' | 'kind'> {
  readonly uses: readonly TwoUse[];
  readonly stepLambda: number;
}

/** The surface's question from a day's pulls: plain data, the same for the command, the server and the browser. */
export function twoInputOf(
  pulls: readonly TwoDayPull[],
  settings: TwoSettings,
  bandRpm: readonly [number, number],
): TwoInput {
  const lambdas = lambdasOf(pulls, bandRpm);
  return {
    pulls: pulls.map((pull, i) => {
      const { lambdaTarget: _t, lambdaMeasured: _m, lambdaErrorSd: _e, jets, ...rest } = pull;
      const { loadPercent: _l, day = 0, leadDeg, ...one } = rest;
      return {
        ...ladderPullOf(one, bandRpm),
        setBy: jets,
        leadDeg,
        lambda: lambdas[i]!.lambda,
        lambdaSd: lambdas[i]!.sd,
        day,
      };
    }),
    bandRpm,
    uses: settings.uses,
    aspiration: settings.aspiration,
    stepDeg: settings.step,
    stepLambda: settings.stepLambda,
    worthPercent: settings.worthPercent,
    repeatabilityPercent: settings.repeatabilityPercent,
    exhaustLimitK: settings.exhaustLimitK ?? null,
    extraHoldbackDeg:
      (Math.max(0, settings.worstInletDeltaK) / 10) * settings.holdbackPer10K +
      Math.max(0, settings.worstFuelDeltaOctane) * settings.holdbackPerOctane,
    table: SHIPPED_TABLE,
  };
}

export interface LoadAnswer {
  /** Null: full throttle. */
  readonly loadPercent: number | null;
  readonly input: TwoInput;
  readonly answer: TwoAnswer;
}

/** One question a load, full throttle first, then from the highest: pulls at different loads share nothing but the engine. */
export function twoInputsByLoad(
  pulls: readonly TwoDayPull[],
  settings: TwoSettings,
): readonly Omit<LoadAnswer, 'answer'>[] {
  const loads = [...new Set(pulls.map(({ loadPercent }) => loadPercent))].sort(
    (a, b) => (b ?? 101) - (a ?? 101),
  );
  return loads.map((loadPercent) => {
    const own = pulls.filter((pull) => pull.loadPercent === loadPercent);
    const { bandRpm } = ladderInputOf(
      own.map((pull) => ({ ...pull, setting: pull.leadDeg })),
      { ...settings, kind: SPARK_LEAD, uses: [] },
    );
    return { loadPercent, input: twoInputOf(own, settings, bandRpm) };
  });
}

/** One surface a load. */
export const twoByLoad = (
  pulls: readonly TwoDayPull[],
  settings: TwoSettings,
): readonly LoadAnswer[] =>
  twoInputsByLoad(pulls, settings).map((one) => ({ ...one, answer: answerTwo(one.input) }));

/** The tables of one use at every load that has one; null: none has. */
export function twoTable(
  answers: readonly LoadAnswer[],
  use: string,
  fuelName: string,
): Table | null {
  const blocks = answers.flatMap(({ loadPercent, answer }): TableBlock[] => {
    const rows = answer.tables.find((table) => table.use === use)?.rows ?? null;
    return rows === null ? [] : [{ loadPercent, rows }];
  });
  const fuel = findFuel(fuelName);
  return blocks.length === 0
    ? null
    : speedTable(
        blocks,
        fuel === undefined ? null : { fuel: fuel.name, stoichiometricAfr: fuel.stoichiometricAfr },
      );
}
