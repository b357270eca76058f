/** Which pulls of a build stand for it, and their mean: the curve that is handed over. */
import { SETTING_KINDS, settingIn } from '../../ladder/index.ts';
import { meanCurve } from '../../pull/index.ts';
import type { Ladder, Pull } from '../../record/index.ts';
import {
  bandFromCurves,
  belowFullThrottle,
  type FinalCurve,
  type HandedDay,
} from '../../report/index.ts';
import type { DayContext } from './context.ts';
import type { PullCurve } from './curves.ts';

/** A test day with all that was worked out of it. */
export interface WorkedDay {
  readonly context: DayContext;
  readonly pulls: readonly Pull[];
  readonly curves: readonly PullCurve[];
  readonly ladders: readonly Ladder[];
  readonly handed: HandedDay;
}

/** The pulls at the setting that was left in the engine; where nobody decided, those at the last pull's setting. */
export function finalCurve(days: readonly WorkedDay[]): FinalCurve | null {
  const candidates = [...days].reverse().flatMap((day) => {
    const decided = day.handed.ladders
      .map((ladder, index) => ({ ladder, of: day.ladders[index]! }))
      .filter(({ ladder }) => ladder.decision !== null && ladder.decision.setting !== null)
      .map(({ ladder, of }) => ({
        day,
        ladder: of,
        setting: ladder.decision!.setting!,
        bandRpm: ladder.bandRpm,
        word: (said: string) => `the pulls at ${said}, the setting left in the engine`,
      }));
    return decided;
  });
  for (const one of candidates) {
    const final = meanAt(one.day, one.ladder, one.setting, one.bandRpm, one.word);
    if (final !== null) return final;
  }
  for (const day of [...days].reverse()) {
    const setting = day.ladders[0]?.setting ?? 'lead';
    const settings = day.pulls.flatMap((pull, index) =>
      counts(pull) && day.curves[index]!.curve !== null
        ? [settingIn(setting, pull, day.context.day.lambdaTarget)]
        : [],
    );
    if (settings.length === 0) continue;
    const last = settings.at(-1)!;
    const band = day.handed.ladders[0]?.bandRpm ?? null;
    const final = meanAt(day, { setting }, last, band, (said) =>
      last === null
        ? 'the pulls of the last day; nobody has decided on a setting yet'
        : `the pulls at ${said}, the last setting that was run; nobody has decided on one yet`,
    );
    if (final !== null) return final;
  }
  return null;
}

const counts = (pull: Pull): boolean =>
  pull.excludedBecause === null && !pull.aborted && belowFullThrottle(pull) === null;

function meanAt(
  day: WorkedDay,
  ladder: Pick<Ladder, 'setting'>,
  setting: number | null,
  bandRpm: readonly [number, number] | null,
  why: (setting: string) => string,
): FinalCurve | null {
  const { unit, defaultStep } = SETTING_KINDS[ladder.setting];
  const chosen = day.pulls.flatMap((pull, index) => {
    const { curve } = day.curves[index]!;
    if (!counts(pull) || curve === null) return [];
    const stood = settingIn(ladder.setting, pull, day.context.day.lambdaTarget);
    const isAt =
      setting === null
        ? stood === null
        : stood !== null && Math.abs(stood - setting) < defaultStep / 2;
    return isAt ? [{ id: pull.id, curve }] : [];
  });
  if (chosen.length === 0) return null;
  const { repeatabilityPercent } = day.context.shop;
  const mean = meanCurve(
    chosen.map(({ curve }) => curve),
    ...(repeatabilityPercent === null ? [] : [repeatabilityPercent / 100]),
  );
  const [from, to] = [mean.speedRpm[0]!, mean.speedRpm.at(-1)!];
  const wanted = bandRpm ?? bandFromCurves(chosen.map(({ curve }) => curve)) ?? [from, to];
  const band = [Math.max(from, wanted[0]), Math.min(to, wanted[1])] as const;
  const within = band[1] > band[0] ? band : ([from, to] as const);
  const means = mean.over(within);
  const { peakTorque, peakPower } = mean;
  return {
    pullIds: chosen.map(({ id }) => id),
    why: why(`${setting}${unit === '' ? '' : ` ${unit}`}`),
    speedRpm: mean.speedRpm,
    torqueNm: mean.torqueNm,
    lowNm: mean.lowNm,
    highNm: mean.highNm,
    powerW: mean.powerW,
    peakTorqueNm: peakTorque,
    peakPowerW: peakPower,
    bandRpm: within,
    meanTorqueNm: means.torqueNm,
    meanPowerW: means.powerW,
  };
}
