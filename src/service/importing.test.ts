import { describe, expect, it } from 'vitest';
import { importRunFile } from './importRunFile.ts';
import { imported as importedSchema, understood as understoodSchema } from './schema/record.ts';
import { withApp } from './testing.ts';
import { aDay, type ImportedFile, post, sweep } from './testingDays.ts';

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
