/** Curves of pulls: from the record where they were computed before, else from the recording. */
import { PullbookError } from '../../errors.ts';
import { CURVE_VERSION, type Curve, curveOf } from '../../pull/index.ts';
import type { Id, Pull, PullbookRecord } from '../../record/index.ts';
import {
  type CurveWish,
  contextOf,
  curveOptions,
  type DayContext,
  engineSetup,
} from './context.ts';
import type { Readings } from './readings.ts';

export interface PullCurve {
  readonly pullId: Id;
  readonly curve: Curve | null;
  readonly whyNone: string | null;
}

export class Curves {
  readonly #record: PullbookRecord;
  readonly #readings: Readings;
  /** Questions being computed, so that two that ask at once wait for one answer. */
  readonly #running = new Map<string, Promise<PullCurve>>();

  constructor(record: PullbookRecord, readings: Readings) {
    this.#record = record;
    this.#readings = readings;
  }

  async ofPull(pullId: Id, wish: CurveWish): Promise<PullCurve> {
    const pull = await this.#record.pulls.get(pullId);
    return this.of(await contextOf(this.#record, pull.dayId), pull, wish);
  }

  async ofDay(dayId: Id, wish: CurveWish): Promise<readonly PullCurve[]> {
    const context = await contextOf(this.#record, dayId);
    const curves: PullCurve[] = [];
    for (const pull of await this.#record.pulls.list({ dayId })) {
      curves.push(await this.of(context, pull, wish));
    }
    return curves;
  }

  async of(context: DayContext, pull: Pull, wish: CurveWish): Promise<PullCurve> {
    const none = (whyNone: string): PullCurve => ({ pullId: pull.id, curve: null, whyNone });
    if (pull.recordingSha256 === null || pull.span === null) {
      return none('Typed peaks have no curve; a recording of the pull would.');
    }
    const recording = await this.#record.recordings.find(pull.recordingSha256);
    if (recording === null) return none('The recording of this pull is not in the record.');
    const options = curveOptions(context, pull, wish);
    const told = await this.#readings.toldFor(recording, context.cell, engineSetup(context).fuel);
    const question = JSON.stringify({ span: pull.span, options, told: told.told });
    const key = { recordingSha256: recording.sha256, question, version: CURVE_VERSION };
    const running = this.#running.get(`${key.recordingSha256} ${question}`);
    if (running !== undefined) return { ...(await running), pullId: pull.id };
    const work = async (): Promise<PullCurve> => {
      const kept = (await this.#record.derived.find(key)) as Curve | null;
      if (kept !== null) return { pullId: pull.id, curve: kept, whyNone: null };
      try {
        const { run } = await this.#readings.stored(recording, told);
        const curve = curveOf(run.recording, pull.span!, options);
        await this.#record.derived.put(key, curve);
        return { pullId: pull.id, curve, whyNone: null };
      } catch (error) {
        // A pull that cannot be read as a curve is said beside the others, and does not hide them.
        if (error instanceof PullbookError && error.code !== 'store') return none(error.message);
        throw error;
      }
    };
    const started = work().finally(() =>
      this.#running.delete(`${key.recordingSha256} ${question}`),
    );
    this.#running.set(`${key.recordingSha256} ${question}`, started);
    return started;
  }
}
