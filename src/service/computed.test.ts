import { describe, expect, it, vi } from 'vitest';
import type { Curve } from '../pull/index.ts';
import { curve as curveSchema, ladderReading, pullCurve, trace } from './schema/results.ts';
import { withApp } from './testing.ts';
import { aDay, type ImportedFile, post, sweep } from './testingDays.ts';

describe('curves over HTTP', () => {
  it('come in any standard, the same again from the record, and follow the day', () =>
    withApp(async (asked) => {
      const { json, record } = asked;
      const { day, cell } = await aDay(asked);
      const answer = await post(asked, day.id, 'a.csv', sweep());
      const [pull] = ((await answer.json()) as ImportedFile).pulls;
      const path = `/pulls/${pull!.id}/curve`;
      const first = await json<{ curve: Record<string, unknown> }>('GET', path);
      pullCurve.parse(first);
      curveSchema.parse(first.curve);
      expect(first.curve.standard).toBe('SAE J1349');
      expect(await json('GET', path)).toEqual(first);
      const observed = await json<{ curve: { correctionFactor: number } }>(
        'GET',
        `${path}?standard=none`,
      );
      expect(observed.curve.correctionFactor).toBe(1);
      await record.days.update(day.id, { airPressureAbsPa: 96_000 });
      const thinner = await json<{ curve: { correctionFactor: number } }>('GET', path);
      expect(thinner.curve.correctionFactor).toBeGreaterThan(
        first.curve.correctionFactor as number,
      );
      await record.cells.update(cell.id, { inertiaKgM2: null });
      expect(await json('GET', path)).not.toEqual(thinner);
      expect(await json('GET', `/days/${day.id}/curves?standard=none`)).toHaveLength(1);
      await json('GET', `${path}?standard=made-up`, undefined, 400);
    }));

  it('say where the inertia is the cell’s and nobody said it of this engine, and remember who did', () =>
    withApp(async (asked) => {
      const { json } = asked;
      const { day } = await aDay(asked);
      const answer = await post(asked, day.id, 'a.csv', sweep());
      const [pull] = ((await answer.json()) as ImportedFile).pulls;
      type Marked = { curve: { torqueNm: number[]; marks: { sentence: string }[] } };
      const read = () => json<Marked>('GET', `/pulls/${pull!.id}/curve`);
      const assumed = await read();
      const said = (one: Marked) =>
        one.curve.marks.filter((mark) => mark.sentence.includes('right with this engine on it'));
      expect(said(assumed)).toHaveLength(1);
      expect(said(assumed)[0]!.sentence).toContain(
        'put back with 0.77 kg·m², the figure of the cell',
      );
      await json('PATCH', `/days/${day.id}`, { inertiaKgM2: 0.77 });
      const stated = await read();
      expect(said(stated)).toEqual([]);
      expect(stated.curve.torqueNm).toEqual(assumed.curve.torqueNm);
      await json('PATCH', `/days/${day.id}`, { inertiaKgM2: 1.4 });
      expect((await read()).curve.torqueNm[50]!).toBeGreaterThan(stated.curve.torqueNm[50]!);
      // The next day of this engine on this cell has it already; another engine's has not.
      const { buildId, cellId } = await asked.record.days.get(day.id);
      const next = await json('POST', `/builds/${buildId}/days`, { cellId }, 201);
      expect(next).toMatchObject({ inertiaKgM2: 1.4 });
      const other = await asked.record.engines.create({ name: 'Other' });
      const build = await asked.record.builds.create({ engineId: other.id, name: 'First' });
      const first = await json('POST', `/builds/${build.id}/days`, { cellId }, 201);
      expect(first).toMatchObject({ inertiaKgM2: null });
    }));

  it('are fitted once, whatever the standards they are asked for in', () =>
    withApp(async (asked) => {
      const { day, ladder } = await aDay(asked);
      const text = sweep({ lead: 'Spark Lead (deg)' });
      expect((await post(asked, day.id, 'a.csv', text)).status).toBe(201);
      const kept = vi.spyOn(asked.record.derived, 'put');
      const inStandard = (standard: string) =>
        asked.json<{ curve: Curve }[]>('GET', `/days/${day.id}/curves?standard=${standard}`);
      const [first] = await inStandard('SAE%20J1349');
      const { factors, torqueNm } = first!.curve;
      for (const [name, standard] of [
        ['ISO%201585', 'ISO 1585'],
        ['DIN%2070020', 'DIN 70020'],
        ['none', 'none'],
      ] as const) {
        const [other] = await inStandard(name);
        const ratio = factors[standard]! / factors['SAE J1349']!;
        expect(other!.curve.torqueNm[9]! / torqueNm[9]!).toBeCloseTo(ratio, 12);
        await asked.json('GET', `/ladders/${ladder.id}/reading?standard=${name}`);
      }
      expect(kept).toHaveBeenCalledTimes(1);
    }));

  it('say why there is none for typed peaks', () =>
    withApp(async (asked) => {
      const { day } = await aDay(asked);
      const pull = await asked.record.pulls.create({ dayId: day.id, peakPowerW: 3e5 });
      expect(await asked.json('GET', `/pulls/${pull.id}/curve`)).toEqual({
        pullId: pull.id,
        curve: null,
        whyNone: 'Typed peaks have no curve; a recording of the pull would.',
      });
    }));

  it('are marked for what stands out among the pulls of the day', () =>
    withApp(async (asked) => {
      const { day } = await aDay(asked);
      for (const [index, oilC] of [90, 91, 115].entries()) {
        const text = sweep({ oilC, scale: 1 + index / 1000 });
        expect((await post(asked, day.id, `${index}.csv`, text)).status).toBe(201);
      }
      type Marked = { pullId: string; curve: { marks: { kind: string; sentence: string }[] } };
      const curves = await asked.json<Marked[]>('GET', `/days/${day.id}/curves`);
      const hot = curves.map(({ curve }) =>
        curve.marks.filter(({ sentence }) => sentence.includes("above the day's other pulls")),
      );
      expect(hot.map((marks) => marks.length)).toEqual([0, 0, 1]);
      const alone = await asked.json<Marked>('GET', `/pulls/${curves[2]!.pullId}/curve`);
      expect(alone).toEqual(curves[2]);
    }));

  it('draw the recording with no spike lost', () =>
    withApp(async (asked) => {
      const { day } = await aDay(asked);
      const spiked = sweep().replace(/^5\.00,(\d+),[\d.]+/m, '5.00,$1,777.00');
      const answer = await post(asked, day.id, 'a.csv', spiked);
      const [pull] = ((await answer.json()) as ImportedFile).pulls;
      const drawn = trace.parse(
        await asked.json('GET', `/pulls/${pull!.id}/trace?points=20&whole=true`),
      );
      expect(drawn).toMatchObject({ rows: 400 });
      expect(drawn.row).toHaveLength(20);
      const torque = drawn.channels.find((channel) => channel.quantity === 'torque')!;
      expect(torque.insideUnit).toBe('N·m');
      // 1 lb-ft = 1.3558179483 N·m, exact by definition.
      expect(Math.max(...torque.high.map(Number))).toBeCloseTo(777 * 1.3558179483, 3);
    }));

  it('draw a window of the recording as finely as it has rows', () =>
    withApp(async (asked) => {
      const { day } = await aDay(asked);
      const answer = await post(asked, day.id, 'a.csv', sweep());
      const [pull] = ((await answer.json()) as ImportedFile).pulls;
      const path = `/pulls/${pull!.id}/trace?points=50&whole=true`;
      const whole = trace.parse(await asked.json('GET', path));
      expect(whole).toMatchObject({ rows: 400, lastRow: 399 });
      const close = trace.parse(await asked.json('GET', `${path}&fromRow=100&toRow=149`));
      expect(close).toMatchObject({ rows: 50, lastRow: 149 });
      expect(close.row).toEqual(Array.from({ length: 50 }, (_, at) => 100 + at));
      const torque = close.channels.find((channel) => channel.quantity === 'torque')!;
      // One row a bin: what is lowest there is what is highest.
      expect(torque.low).toEqual(torque.high);
      expect(trace.parse(await asked.json('GET', `${path}&fromRow=390&toRow=9000`)).rows).toBe(10);
      await asked.json('GET', `${path}&fromRow=20&toRow=10`, undefined, 422);
    }));
});

describe('ladders over HTTP', () => {
  it('say what is missing before they can answer', () =>
    withApp(async (asked) => {
      const { ladder, day } = await aDay(asked);
      const path = `/ladders/${ladder.id}/reading`;
      expect(await asked.json('GET', path)).toMatchObject({
        answer: null,
        whyNone: expect.stringContaining('No pull yet'),
      });
      await asked.record.pulls.create({ dayId: day.id, peakPowerW: 3e5 });
      expect(await asked.json('GET', path)).toMatchObject({
        whyNone: expect.stringContaining('No pull has its lead'),
      });
    }));

  it('answer a sample day as the ladder room does', () =>
    withApp(async (asked) => {
      const { ladder, day } = await aDay(asked);
      const peaks = [
        [32, 775],
        [34, 799],
        [36, 818],
        [38, 823],
      ] as const;
      // 1 hp = 745.69987158 W, derived from its definition.
      for (const [leadDeg, hp] of peaks)
        await asked.record.pulls.create({ dayId: day.id, leadDeg, peakPowerW: hp * 745.69987158 });
      const reading = ladderReading.parse(await asked.json('GET', `/ladders/${ladder.id}/reading`));
      expect(reading.input!.pulls.map((pull) => pull.setting)).toEqual([32, 34, 36, 38]);
      // Common practice to check against, no source: 36 for short bursts, 34 for a minute and more.
      expect(reading.answer!.uses.bursts!.value).toBe(36);
      expect(reading.answer!.uses.sustained!.value).toBe(34);
    }));

  it('take specks on a plug for knock, and leave out what was left out', () =>
    withApp(async (asked) => {
      const { ladder, day } = await aDay(asked);
      for (const [leadDeg, peakPowerW] of [
        [30, 3e5],
        [32, 3.1e5],
        [34, 3.12e5],
      ] as const)
        await asked.record.pulls.create({ dayId: day.id, leadDeg, peakPowerW });
      const pulls = await asked.record.pulls.list({ dayId: day.id });
      await asked.record.pulls.update(pulls[2]!.id, { specksOnPlug: true, watched: 'plug' });
      await asked.record.pulls.update(pulls[0]!.id, { excludedBecause: 'cold oil' });
      const reading = ladderReading.parse(await asked.json('GET', `/ladders/${ladder.id}/reading`));
      expect(reading.input!.pulls[2]!.knockHeard).toBe(true);
      expect(reading.input!.pulls[0]!.excludedBecause).toBe('cold oil');
      expect(reading.answer!.limit).not.toBeNull();
    }));
});
