import { describe, expect, it } from 'vitest';
import { importRunFile } from './importRunFile.ts';
import { imported as importedSchema, understood as understoodSchema } from './schema/record.ts';
import { curve as curveSchema, ladderReading, pullCurve, trace } from './schema/results.ts';
import { type Asked, withApp } from './testing.ts';

type WithId = { id: string };
interface ImportedFile {
  duplicate: boolean;
  pulls: (WithId & { leadDeg: number | null })[];
  recording: { sha256: string };
  understood: { shape: string; questions: { key: string }[]; answers: object };
}

/** A sweep of 6 s from 3000 to 6000 rev/min with a little seeded roughness, after two seconds held at 3000. */
function sweep(
  columns: { torque?: string; lead?: string; scale?: number; oilC?: number } = {},
): string {
  const { torque = 'Torque (lb-ft)', lead, scale = 1, oilC } = columns;
  const more = [
    ...(lead === undefined ? [] : [lead]),
    ...(oilC === undefined ? [] : ['Oil Temp (°C)']),
  ];
  const lines = [['Time (s)', 'Engine Speed (rpm)', torque, ...more].join(',')];
  let wander = 0;
  for (let step = 0; step < 400; step += 1) {
    const time = step * 0.02;
    const rpm = time < 2 ? 3000 : 3000 + 500 * (time - 2);
    wander = 0.9 * wander + ((step * 7919) % 101) / 101 - 0.5;
    const shape = 300 * (1 - ((rpm - 4600) / 5000) ** 2) * scale + wander;
    const cells = [time.toFixed(2), rpm.toFixed(0), shape.toFixed(2)];
    if (lead !== undefined) cells.push('28.0');
    if (oilC !== undefined) cells.push((oilC + 0.01 * step).toFixed(2));
    lines.push(cells.join(','));
  }
  return `${lines.join('\n')}\n`;
}

async function aDay({ record }: Asked) {
  const cell = await record.cells.create({
    name: 'Cell',
    inertiaKgM2: 0.77,
    torqueIs: { air: 'observed', inertia: 'out' },
  });
  const engine = await record.engines.create({
    name: 'Eight',
    cylinders: 8,
    displacementM3: 0.0054,
  });
  const build = await record.builds.create({ engineId: engine.id, name: 'First' });
  const day = await record.days.create({
    buildId: build.id,
    cellId: cell.id,
    airPressureAbsPa: 98_000,
    airTemperatureK: 300,
    airHumidity: 0.4,
  });
  const [ladder] = await record.ladders.list({ dayId: day.id });
  return { cell, engine, day, ladder: ladder! };
}

const post = (
  { ask }: Asked,
  dayId: string,
  name: string,
  text: string | Uint8Array,
  headers = {},
) =>
  ask(
    'POST',
    `/api/v1/days/${dayId}/recordings?name=${encodeURIComponent(name)}`,
    typeof text === 'string' ? new TextEncoder().encode(text) : text,
    { 'content-type': 'application/octet-stream', ...headers },
  );

describe('importing over HTTP', () => {
  it('stores the file with its pull, and answers the same bytes with the pull that has them', () =>
    withApp(async (asked) => {
      const { day } = await aDay(asked);
      const answer = await post(asked, day.id, 'pull 1.csv', sweep());
      const text = await answer.text();
      expect(answer.status, text).toBe(201);
      const first = JSON.parse(text) as ImportedFile;
      importedSchema.parse(first);
      expect(first).toMatchObject({ duplicate: false, fileName: 'pull 1.csv' });
      expect(first.pulls).toHaveLength(1);
      const again = await post(asked, day.id, 'copy.csv', sweep());
      expect(again.status).toBe(200);
      expect(await again.json()).toMatchObject({
        duplicate: true,
        pulls: [{ id: first.pulls[0]!.id, fileName: 'pull 1.csv' }],
      });
      const bytes = await asked.ask('GET', `/api/v1/recordings/${first.recording.sha256}/bytes`);
      expect(await bytes.text()).toBe(sweep());
      expect(bytes.headers.get('content-disposition')).toBe(
        "attachment; filename*=UTF-8''pull%201.csv",
      );
    }));

  it("takes a logger's file into the day that was made last", () =>
    withApp(async (asked) => {
      expect((await post(asked, 'latest', 'a.csv', sweep())).status).toBe(422);
      const { day } = await aDay(asked);
      const { buildId, cellId } = day;
      const later = await asked.record.days.create({ buildId, cellId, date: '2020-01-01' });
      expect((await post(asked, 'latest', 'a.csv', sweep())).status).toBe(201);
      expect(await asked.record.pulls.list({ dayId: day.id })).toEqual([]);
      expect(await asked.record.pulls.list({ dayId: later.id })).toHaveLength(1);
    }));

  it('keeps a hostile file name as text, everywhere it comes back', () =>
    withApp(async (asked) => {
      const { day } = await aDay(asked);
      const name = `a"b'\r\nset-cookie: x=1<script>alert(1)</script>/../../*.csv`;
      const answer = await post(asked, day.id, name, sweep());
      expect(answer.status).toBe(201);
      const { recording, pulls } = (await answer.json()) as ImportedFile;
      expect(await asked.json('GET', `/pulls/${pulls[0]!.id}`)).toMatchObject({ fileName: name });
      const bytes = await asked.ask('GET', `/api/v1/recordings/${recording.sha256}/bytes`);
      expect(bytes.headers.get('set-cookie')).toBeNull();
      const header = bytes.headers.get('content-disposition')!;
      expect(header).toMatch(/^attachment; filename\*=UTF-8''[\w.%!~-]+$/);
      expect(decodeURIComponent(header.split("''")[1]!)).toBe(name);
    }));

  it('takes the lead from a channel that holds one', () =>
    withApp(async (asked) => {
      const { day } = await aDay(asked);
      const answer = await post(asked, day.id, 'a.csv', sweep({ lead: 'Spark Lead (deg)' }));
      const { pulls } = (await answer.json()) as ImportedFile;
      expect(pulls[0]!.leadDeg).toBe(28);
    }));

  it.each([
    ['an empty file', ''],
    ['words', 'this is a letter about an engine\nand nothing else\n'],
    ['no speed', 'Time (s),Torque (Nm)\n0,1\n1,2\n'],
    ['bytes of no text', new Uint8Array(3000).map((_, index) => (index * 151) % 256)],
  ])('refuses %s with its place, and stores nothing', (_, content) =>
    withApp(async (asked) => {
      const { day } = await aDay(asked);
      const before = await asked.record.events.list();
      const answer = await post(asked, day.id, 'odd.csv', content);
      expect(answer.status).toBe(422);
      const { error } = (await answer.json()) as { error: Record<string, string> };
      expect(error.file).toBe('odd.csv');
      expect(error.message).toMatch(/\S/);
      expect(await asked.record.events.list()).toEqual(before);
      expect(await asked.record.pulls.list()).toEqual([]);
    }),
  );

  it('says line after line how far it is, and ends with done or refused', () =>
    withApp(async (asked) => {
      const { day } = await aDay(asked);
      const lines = async (text: string) => {
        const answer = await post(asked, day.id, 'a.csv', text, { accept: 'application/x-ndjson' });
        expect(answer.headers.get('content-type')).toBe('application/x-ndjson');
        const body = (await answer.text()).trim().split('\n');
        return body.map((line) => JSON.parse(line) as { stage: string; error?: object });
      };
      const good = await lines(sweep());
      expect(good[0]!.stage).toBe('receiving');
      expect(good.map((line) => line.stage)).toContain('storing');
      expect(good.at(-1)).toMatchObject({ stage: 'done', imported: { duplicate: false } });
      const bad = await lines('nothing\n');
      expect(bad.at(-1)).toMatchObject({ stage: 'refused', error: { file: 'a.csv' } });
    }));

  it('takes many files at once, each whole, the bad one not hindering the others', () =>
    withApp(async (asked) => {
      const { day } = await aDay(asked);
      const texts = [1, 1.01, 1.02, 1.03].map((scale) => sweep({ scale }));
      const answers = await Promise.all(
        [...texts, 'no run file\n'].map((text, index) => post(asked, day.id, `${index}.csv`, text)),
      );
      expect(answers.map((answer) => answer.status)).toEqual([201, 201, 201, 201, 422]);
      const pulls = await asked.record.pulls.list({ dayId: day.id });
      expect(pulls.map((pull) => pull.order)).toEqual([0, 1, 2, 3]);
      expect(new Set(pulls.map((pull) => pull.recordingSha256)).size).toBe(4);
    }));

  it('stores nothing of a file that is cancelled while it waits or is read', () =>
    withApp(async ({ record }) => {
      const cell = await record.cells.create({ name: 'C' });
      const engine = await record.engines.create({ name: 'E' });
      const build = await record.builds.create({ engineId: engine.id, name: 'B' });
      const day = await record.days.create({ buildId: build.id, cellId: cell.id });
      const stop = new AbortController();
      const bytes = new TextEncoder().encode(sweep());
      const taken = importRunFile(
        record,
        day.id,
        'a.csv',
        bytes,
        {},
        {
          signal: stop.signal,
          onStage: (stage) => {
            if (stage === 'finding pulls') stop.abort();
          },
        },
      );
      await expect(taken).rejects.toMatchObject({ name: 'AbortError' });
      expect(await record.pulls.list()).toEqual([]);
      const early = importRunFile(record, day.id, 'a.csv', bytes, {}, { signal: stop.signal });
      await expect(early).rejects.toMatchObject({ name: 'AbortError' });
      expect(await record.pulls.list()).toEqual([]);
    }));

  it('refuses what is larger than the limit, by its length or as it comes', () =>
    withApp(
      async (asked) => {
        const { day } = await aDay(asked);
        const byCount = await post(asked, day.id, 'big.csv', 'x'.repeat(2000));
        expect(byCount.status).toBe(413);
        const byLength = await post(asked, day.id, 'big.csv', 'x', { 'content-length': '5000' });
        expect(byLength.status).toBe(413);
        expect(await byLength.json()).toMatchObject({
          error: { code: 'too-large', file: 'big.csv' },
        });
        expect(await asked.record.pulls.list()).toEqual([]);
      },
      { maxUploadBytes: 1000 },
    ));

  it('remembers what a person said of a shape, for the next file and for those stored', () =>
    withApp(async (asked) => {
      const { json, record } = asked;
      const { cell, day } = await aDay(asked);
      await record.cells.update(cell.id, { torqueIs: { air: 'unknown', inertia: 'unknown' } });
      const answer = await post(asked, day.id, 'a.csv', sweep());
      const { understood, pulls, recording } = (await answer.json()) as ImportedFile;
      expect(understood.questions.map((one) => one.key)).toContain('torqueIs');
      const path = `/pulls/${pulls[0]!.id}/curve`;
      const before = await json<{ curve: { basis: object } }>('GET', path);
      expect(before.curve.basis).toMatchObject({ air: 'unknown' });
      const answers = { torqueIs: { air: 'observed', inertia: 'out' } };
      await json('PUT', `/cells/${cell.id}/mappings/${understood.shape}`, { answers });
      const after = await json<{ curve: { basis: object } }>('GET', path);
      // Known to be observed, so it is brought to the shop's standard.
      expect(after.curve.basis).toEqual({ air: 'SAE J1349', inertia: 'in' });
      const again = understoodSchema.parse(
        await json('GET', `/recordings/${recording.sha256}/understood?cellId=${cell.id}`),
      );
      expect(again.answers).toEqual(answers);
      expect(again.questions.map((one) => one.key)).not.toContain('torqueIs');
      const next = await post(asked, day.id, 'b.csv', sweep({ scale: 1.01 }));
      expect(((await next.json()) as ImportedFile).understood.answers).toEqual(answers);
    }));

  it('reads a refused file once its columns were named', () =>
    withApp(async (asked) => {
      const { cell, day } = await aDay(asked);
      const odd = sweep({ torque: 'Zugkraft' });
      const refused = await post(asked, day.id, 'odd.csv', odd);
      expect(refused.status).toBe(422);
      const { understood } = (await refused.json()) as { understood: unknown };
      const { shape, channels } = understoodSchema.parse(understood);
      expect(channels.find(({ header }) => header === 'Zugkraft')!.quantity).toBe('other');
      const answers = { mapping: { Zugkraft: { quantity: 'torque', unit: 'lb-ft' } } };
      await asked.json('PUT', `/cells/${cell.id}/mappings/${shape}`, { answers });
      const again = await post(asked, day.id, 'odd.csv', odd);
      expect(again.status).toBe(201);
      expect(((await again.json()) as ImportedFile).understood.answers).toEqual(answers);
    }));
});

describe('a column that was taken for something else', () => {
  it('moves the pulls once it is said which one the speed is', () =>
    withApp(async (asked) => {
      const { cell, day } = await aDay(asked);
      // The brake turns at half the crank's speed, and its column comes first under a bare name.
      const text = sweep()
        .split('\n')
        .map((line, row) => {
          const [time, rpm, torque] = line.split(',');
          if (torque === undefined) return line;
          return row === 0
            ? `${time},Speed (rpm),Shaft B,${torque}`
            : `${time},${2 * row},${rpm},${torque}`;
        })
        .join('\n');
      const answer = await post(asked, day.id, 'two.csv', text);
      const told = await answer.text();
      expect(answer.status, told).toBe(201);
      const { pulls, understood } = JSON.parse(told) as ImportedFile;
      const before = await asked.record.pulls.get(pulls[0]!.id);
      const answers = {
        mapping: {
          'Speed (rpm)': { quantity: 'other' },
          'Shaft B': { quantity: 'speed', unit: 'rpm' },
        },
      };
      await asked.json('PUT', `/cells/${cell.id}/mappings/${understood.shape}`, { answers });
      const after = await asked.record.pulls.get(before.id);
      expect(before.span!.toRpm).toBeLessThan(1000);
      expect(after.span!.toRpm).toBeGreaterThan(5000);
      expect((await asked.record.events.list())[0]!.summary).toBe(
        '1 pull found again with the new answers',
      );
    }));
});

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
