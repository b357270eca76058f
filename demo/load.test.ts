import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type Plan, planSentence, tickedPlan } from '../src/build/index.ts';
import { openRecord, type PullbookRecord } from '../src/record/index.ts';
import { paperOf } from '../src/report/index.ts';
import { catalogueOf } from '../src/report/paper/say/index.ts';
import { importRunFile } from '../src/service/importRunFile.ts';
import { Curves } from '../src/service/work/curves.ts';
import { decide } from '../src/service/work/decisions.ts';
import { freezeHandOver } from '../src/service/work/handover.ts';
import { readLadder } from '../src/service/work/ladders.ts';
import { readPart } from '../src/service/work/partTests.ts';
import { makePlan } from '../src/service/work/plans.ts';
import { Readings } from '../src/service/work/readings.ts';
import { answerMeasured } from '../src/trade/index.ts';
import { demoCalibrations, READS_HIGH_PERCENT } from './calibrations.ts';
import { loadDemo } from './load.ts';
import { demoShop } from './shop.ts';
import { NO_CLEANER_GIVES_PERCENT } from './shop-four.ts';

describe('the demo shop in the record', () => {
  const folder = mkdtempSync(join(tmpdir(), 'pullbook-demo-'));
  const told: [number, number][] = [];
  let record: PullbookRecord;
  beforeAll(async () => {
    record = await openRecord(folder);
    const curves = new Curves(record, new Readings(record));
    await loadDemo(
      record,
      {
        importRunFile: (dayId, name, bytes) => importRunFile(record, dayId, name, bytes),
        decide: (ladderId, decision, change) => decide(record, curves, ladderId, decision, change),
        makePlan: (dayId, change, madeAt) => makePlan(record, dayId, change, madeAt),
      },
      (done, total) => told.push([done, total]),
    );
  }, 60_000);
  afterAll(async () => {
    await record.close();
    rmSync(folder, { recursive: true });
  });

  it('has every engine, build, day and pull of the shop', async () => {
    const summary = await record.summary();
    const { engines } = demoShop();
    const builds = engines.flatMap((one) => one.builds);
    const days = builds.flatMap((one) => one.days);
    const pulls = days.flatMap((one) => one.pulls);
    expect(summary.engineCount).toBe(engines.length);
    expect(summary.engines.flatMap((one) => one.builds)).toHaveLength(builds.length);
    expect(summary.dayCount).toBe(days.length);
    expect(summary.pullCount).toBe(pulls.length);
    expect(told.at(-1)).toEqual([pulls.length, pulls.length]);
  });

  it('puts what the operator set and saw to the pull of that file, in the order made', async () => {
    const made = demoShop().engines[0]!.builds[1]!.days[1]!;
    const days = (await record.summary()).latestDays;
    const day = days.find((one) => one.date === made.day.date)!;
    const pulls = await record.pulls.list({ dayId: day.id });
    expect(pulls.map((pull) => pull.leadDeg)).toEqual(made.pulls.map((pull) => pull.leadDeg));
    expect(pulls.map((pull) => pull.fileName)).toEqual(made.pulls.map((pull) => pull.file));
    expect(pulls.map((pull) => pull.note)).toEqual(made.pulls.map((pull) => pull.note));
    expect(pulls.every((pull) => pull.span !== null && pull.recordingSha256 !== null)).toBe(true);
  });

  it('has a part test that is done, whose interval holds what the part truly gives', async () => {
    const [test, ...others] = await record.partTests.list();
    expect(others).toEqual([]);
    const { look } = await readPart(record, new Curves(record, new Readings(record)), test!);
    expect(look.action).toBe('stop');
    expect(look.gain!.low).toBeGreaterThan(0);
    expect(look.gain!.low).toBeLessThan(NO_CLEANER_GIVES_PERCENT);
    expect(look.gain!.high).toBeGreaterThan(NO_CLEANER_GIVES_PERCENT);
  });

  it('can hand over every tested build in German, with no sentence of ours left in English', async () => {
    const builds = await record.builds.list();
    const { inEnglish } = catalogueOf('de').words.findings;
    let papers = 0;
    for (const [index, build] of builds.entries()) {
      const days = await record.days.list({ buildId: build.id });
      if (days.length === 0) continue;
      const before = builds.slice(0, index).findLast(({ engineId }) => engineId === build.engineId);
      const choice = {
        buildId: build.id,
        dayIds: days.map(({ id }) => id),
        comparedBuildId: before?.id ?? null,
        standard: 'SAE J1349',
        units: 'metric',
        stepRpm: 500,
        notes: '',
        by: '',
      } as const;
      const at = { madeAt: '2026-11-26T12:00:00.000Z', pullbook: 'test' };
      const handOver = await freezeHandOver(record, choice, at);
      for (const units of ['metric', 'us'] as const) {
        const { blocks } = paperOf({ ...handOver, choice: { ...choice, units } }, 'de', null);
        const texts = blocks.flatMap((block) => ('text' in block ? [block.text] : []));
        expect(texts, build.name).not.toContain(inEnglish);
        papers += 1;
      }
    }
    expect(papers).toBe(10);
  });

  it('gives each recording back byte for byte', async () => {
    for (const { builds } of demoShop().engines) {
      const day = builds.at(-1)!.days.at(-1)!;
      const stored = (await record.summary()).latestDays.find((one) => one.date === day.day.date)!;
      const pulls = await record.pulls.list({ dayId: stored.id });
      for (const [i, pull] of pulls.entries()) {
        const bytes = await record.recordings.bytes(pull.recordingSha256!);
        expect(Buffer.from(bytes).equals(day.files[i]!.bytes)).toBe(true);
      }
    }
  });

  it('keeps one ladder a day and what was decided', async () => {
    const days = (await record.summary()).latestDays;
    const decided = days.filter((one) => one.decisions.length > 0);
    expect(decided.map((one) => one.engineName).sort()).toEqual(['Rally six', 'Rescue boat V8']);
    for (const day of days) {
      expect(await record.ladders.list({ dayId: day.id })).toHaveLength(1);
    }
    const six = decided.find((one) => one.engineName === 'Rally six')!;
    expect(six.decisions).toEqual([{ kind: 'lead', use: 'bursts', setting: 28 }]);
    for (const decision of await record.decisions.list()) {
      expect(decision.advice!.value).not.toBeNull();
      expect(decision.advice!.evidence!.pullIds.length).toBeGreaterThan(3);
    }
  });
  it('reads the same stories out of the record', async () => {
    const curves = new Curves(record, new Readings(record));
    const readingOf = async (name: string) => {
      const days = (await record.summary()).latestDays;
      const day = days.find((one) => one.engineName === name)!;
      const [ladder] = await record.ladders.list({ dayId: day.id });
      return (await readLadder(record, curves, ladder!.id, {})).answer!;
    };
    const six = await readingOf('Rally six');
    expect(six.uses.bursts!.value).toBe(28);
    expect(six.next.action).toBe('stop');
    const v8 = await readingOf('Rescue boat V8');
    expect(v8.limitWatched).toBe(true);
    expect(v8.uses.sustained!.value).not.toBeNull();
    const single = await readingOf('Grass-track single');
    expect(single.next).toMatchObject({ action: 'pull', value: 30 });
    expect(single.uses.bursts!.value).toBeNull();
  }, 60_000);

  it('has its cells calibrated by what they truly read; the motorcycle stand is past its day', async () => {
    const curves = new Curves(record, new Readings(record));
    const { latestDays } = await record.summary();
    const stoodOn = async (engineName: string) => {
      const { id } = latestDays.find((one) => one.engineName === engineName)!;
      const all = (await curves.ofDay(id, {})).map(({ curve }) => curve!);
      const said = all.flatMap(({ marks }) =>
        marks.flatMap(({ kind, sentence }) => (kind === 'calibration' ? [sentence] : [])),
      );
      return { calibration: all[0]!.calibration, said: said.join(' ') };
    };
    const six = await stoodOn('Rally six');
    expect(six.calibration).toMatchObject({ doneOn: '2026-01-15', applied: false });
    expect(six.said).not.toContain('fell due');
    const v8 = await stoodOn('Rescue boat V8');
    expect(v8.calibration).toMatchObject({ doneOn: '2026-05-04', applied: true });
    expect(v8.said).toContain('corrected by');
    const single = await stoodOn('Grass-track single');
    expect(single.said).toContain('fell due on 2026-05-10, 24 days before this day');
    // What the weights say is what the simulated cell does.
    for (const { cell, measured } of demoCalibrations()) {
      if (measured.kind !== 'dead weights') continue;
      const { gain, expanded } = answerMeasured(measured);
      const off = Math.abs(gain - 1 - READS_HIGH_PERCENT[cell] / 100);
      expect(off, cell).toBeLessThan(expanded.fraction);
      expect(expanded.fraction).toBeLessThan(0.004);
    }
  }, 60_000);

  it('has a test plan with ticks, a struck item and one of its own, done under names', async () => {
    const day = (await record.summary()).latestDays.find((one) => one.date === '2026-04-08')!;
    const [made] = await record.plans.list({ dayId: day.id });
    const ticks = (await record.plans.ticks(made!.id)).map(({ itemId, who, tickedAt }) => ({
      itemId,
      by: who,
      at: tickedAt,
    }));
    const plan = tickedPlan(made!.plan as Plan, ticks);
    const items = plan.sections.flatMap((section) => section.items);
    expect(plan.openBeforeFirstStart).toEqual([]);
    expect(new Set(ticks.map(({ by }) => by)).size).toBe(2);
    expect(items.filter(({ struck }) => struck !== null)).toHaveLength(1);
    expect(items.filter(({ added }) => added !== null)).toHaveLength(1);
    // The use of the day stands in it, with the rule of the shop.
    const leave = items.find(({ id }) => id === 'ladder.leave')!;
    expect(planSentence(leave, 'us')).toContain('for bursts');
  });
});
