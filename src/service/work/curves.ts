/**
 * Curves of pulls: fitted once from the recording and kept; the air in which one is shown only scales the fit, so
 * a change of standard reads no recording.
 */
import { PullbookError } from '../../errors.ts';
import {
  CURVE_VERSION,
  type Curve,
  checkDay,
  curveIn,
  fitPull,
  type PullFit,
} from '../../pull/index.ts';
import type { DerivedResult, Id, Pull, PullbookRecord, PullPeak } from '../../record/index.ts';
import {
  type CurveWish,
  contextOf,
  curveOptions,
  type DayContext,
  engineSetup,
  shownIn,
} from './context.ts';
import type { Readings } from './readings.ts';

export interface PullCurve {
  readonly pullId: Id;
  readonly curve: Curve | null;
  readonly whyNone: string | null;
}

export type Fitted = { readonly fit: PullFit } | { readonly whyNone: string };

/** Fits held in memory, the last used of them: a report asks for each pull by itself, in its ladders and in its comparison. */
const MOST_HELD = 128;
/** So many fits are kept at a time: a kill loses no more of them, and the disk is waited for once. */
const KEPT_AT_ONCE = 32;

export class Curves {
  readonly #record: PullbookRecord;
  readonly #readings: Readings;
  readonly #held = new Map<string, PullFit>();
  #fresh: DerivedResult[] = [];
  /** Questions being computed, so that two that ask at once wait for one answer. */
  readonly #running = new Map<string, Promise<Fitted>>();

  constructor(record: PullbookRecord, readings: Readings) {
    this.#record = record;
    this.#readings = readings;
  }

  /** The marks of a pull depend on the others of its day, so the whole day is looked at. */
  async ofPull(pullId: Id, wish: CurveWish): Promise<PullCurve> {
    const pull = await this.#record.pulls.get(pullId);
    const day = await this.ofDay(pull.dayId, wish);
    return day.find((one) => one.pullId === pullId)!;
  }

  /** Curves of all pulls in their order, each marked for what stands out among the others. */
  async ofDay(dayId: Id, wish: CurveWish): Promise<readonly PullCurve[]> {
    const context = await contextOf(this.#record, dayId);
    const pulls = await this.#record.pulls.list({ dayId });
    const fitted: Fitted[] = [];
    for (const pull of pulls) fitted.push(await this.#fitted(context, pull));
    await this.#keep();
    const curves = pulls.map((pull, at) => curveFrom(fitted[at]!, context, pull, wish));
    const usual = context.day.standard ?? context.shop.standard;
    if ((wish.standard ?? usual) === usual && wish.correctBoosted !== true)
      await this.#record.peaks.put(peaksOf(pulls, curves));
    return markedByDay(pulls, curves);
  }

  async of(context: DayContext, pull: Pull, wish: CurveWish): Promise<PullCurve> {
    return curveFrom(await this.fitOf(context, pull), context, pull, wish);
  }

  /** A pull fitted, before anyone has said in which air it is wanted. */
  async fitOf(context: DayContext, pull: Pull): Promise<Fitted> {
    const fitted = await this.#fitted(context, pull);
    await this.#keep();
    return fitted;
  }

  async #fitted(context: DayContext, pull: Pull): Promise<Fitted> {
    if (pull.recordingSha256 === null || pull.span === null) {
      return { whyNone: 'Typed peaks have no curve; a recording of the pull would.' };
    }
    const recording = await this.#record.recordings.find(pull.recordingSha256);
    if (recording === null) return { whyNone: 'The recording of this pull is not in the record.' };
    const { standard: _, correctBoosted: __, ...options } = curveOptions(context, pull, {});
    const told = await this.#readings.toldFor(recording, context.cell, engineSetup(context).fuel);
    const question = JSON.stringify({ span: pull.span, options, told: told.told });
    const key = { recordingSha256: recording.sha256, question, version: CURVE_VERSION };
    const named = `${key.recordingSha256} ${question}`;
    return this.#once(named, async () => {
      const known =
        this.#held.get(named) ?? ((await this.#record.derived.find(key)) as PullFit | null);
      if (known !== null) return { fit: this.#hold(named, known) };
      try {
        const { run } = await this.#readings.stored(recording, told);
        const fit = fitPull(run.recording, pull.span!, options);
        this.#fresh.push({ key, result: fit });
        if (this.#fresh.length >= KEPT_AT_ONCE) await this.#keep();
        return { fit: this.#hold(named, fit) };
      } catch (error) {
        // A pull that cannot be read as a curve is said beside the others, and does not hide them.
        if (error instanceof PullbookError && error.code !== 'store')
          return { whyNone: error.message };
        throw error;
      }
    });
  }

  /** Last used goes last, so that the first is the one to let go. */
  #hold(named: string, fit: PullFit): PullFit {
    this.#held.delete(named);
    this.#held.set(named, fit);
    if (this.#held.size > MOST_HELD) this.#held.delete(this.#held.keys().next().value!);
    return fit;
  }

  async #keep(): Promise<void> {
    if (this.#fresh.length > 0) await this.#record.derived.put(...this.#fresh.splice(0));
  }

  #once(question: string, work: () => Promise<Fitted>): Promise<Fitted> {
    const running = this.#running.get(question);
    if (running !== undefined) return running;
    const started = work().finally(() => this.#running.delete(question));
    this.#running.set(question, started);
    return started;
  }
}

/** A fit in the air that is wished for, with what its day says of it. */
function curveFrom(fitted: Fitted, context: DayContext, pull: Pull, wish: CurveWish): PullCurve {
  if ('whyNone' in fitted) return { pullId: pull.id, curve: null, whyNone: fitted.whyNone };
  const curve = curveIn(fitted.fit, shownIn(context, wish));
  // Of the day, not of the recording: a fit that is kept knows nothing of what has fallen due since.
  const marks = [...curve.marks, ...context.calibration.state.remarks];
  return { pullId: pull.id, curve: { ...curve, marks }, whyNone: null };
}

/** What pulls are found by; typed peaks stand in the record already. */
function peaksOf(pulls: readonly Pull[], curves: readonly PullCurve[]): PullPeak[] {
  return pulls.flatMap((pull, at) =>
    pull.recordingSha256 === null
      ? []
      : [
          {
            pullId: pull.id,
            powerW: curves[at]!.curve?.peakPower.value ?? null,
            torqueNm: curves[at]!.curve?.peakTorque.value ?? null,
          },
        ],
  );
}

function markedByDay(pulls: readonly Pull[], curves: readonly PullCurve[]): PullCurve[] {
  const known = curves.flatMap(({ pullId, curve }, at) =>
    curve === null
      ? []
      : [{ id: pullId, curve, sinceLastPullS: sinceLastPullS(pulls, curves, at) }],
  );
  const marks = new Map(checkDay(known).map((found, at) => [known[at]!.id, found]));
  return curves.map((one) => {
    const found = marks.get(one.pullId) ?? [];
    if (one.curve === null || found.length === 0) return one;
    return { ...one, curve: { ...one.curve, marks: [...one.curve.marks, ...found] } };
  });
}

/** From the end of the pull before, where both have the time they were made. */
function sinceLastPullS(
  pulls: readonly Pull[],
  curves: readonly PullCurve[],
  at: number,
): number | null {
  const before = pulls[at - 1];
  const madeAt = pulls[at]!.madeAt;
  if (before === undefined || before.madeAt === null || madeAt === null) return null;
  const { fromRpm, toRpm } = before.span ?? { fromRpm: 0, toRpm: 0 };
  const rate = Math.abs(curves[at - 1]!.curve?.conditions.sweepRateRpmPerS ?? 0);
  const tookS = rate > 0 ? Math.abs(toRpm - fromRpm) / rate : 0;
  const apartS = (Date.parse(madeAt) - Date.parse(before.madeAt)) / 1000 - tookS;
  return apartS >= 0 ? apartS : null;
}
