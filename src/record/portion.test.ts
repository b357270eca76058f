import { describe, expect, it } from 'vitest';
import { ConflictError } from './errors.ts';
import type { PullbookRecord } from './repository.ts';
import { oneDay, withRecord } from './testing.ts';

const bytes = new TextEncoder().encode('speed,torque\n3000,400\n');
const photo = new Uint8Array([0x89, 0x50, 0x4e, 0x47, 1, 2, 3]);

/** An engine with something of everything under it, and another that has to stay where it is. */
async function filled(record: PullbookRecord) {
  const { engine, cell, day } = await oneDay(record);
  await record.mappings.put(cell.id, 'shape', {});
  const { pulls } = await record.recordings.import({
    dayId: day.id,
    fileName: 'pull-01.csv',
    bytes,
    kind: 'time series',
    rows: 1,
    shape: 'shape',
    pulls: [{ leadDeg: 28 }],
  });
  const [ladder] = await record.ladders.list({ dayId: day.id });
  await record.decisions.create({
    ladderId: ladder!.id,
    use: 'circuit',
    setting: 27,
    who: 'Ada',
    why: 'below the knee',
  });
  await record.sheets.save(
    day.buildId,
    { format: 'sheet/1', layout: { cylinders: 4 } } as never,
    0,
  );
  await record.buildFiles.put({
    buildId: day.buildId,
    bytes: photo,
    fileName: 'deck.png',
    mediaType: 'image/png',
  });
  const plan = await record.plans.create({ dayId: day.id, version: 1, plan: { sections: [] } });
  await record.plans.tick(plan.id, 'guard', true, { who: 'Ada' });
  const other = await record.engines.create({ name: 'Stays here' });
  const portion = await record.portions.of([engine.id]);
  return { engine, day, pull: pulls[0]!, other, portion };
}

const bytesFrom = (record: PullbookRecord) => async (sha256: string) => {
  if ((await record.recordings.find(sha256)) !== null) return record.recordings.bytes(sha256);
  const parts: Uint8Array[] = [];
  for await (const piece of record.files.pieces(sha256)) parts.push(piece.slice());
  return new Uint8Array(Buffer.concat(parts));
};

describe('a part of a shop in another shop', () => {
  it('stands there with its ids, its bytes and everything under it', () =>
    withRecord((here) =>
      withRecord(async (there) => {
        const { engine, portion, pull } = await filled(here);
        const { taken } = await there.portions.take(portion, bytesFrom(here), { who: 'Ada' });
        expect(taken).toBe(Object.values(portion.rows).flat().length);
        expect(await there.portions.of([engine.id])).toEqual({
          ...portion,
          recordings: portion.recordings.map((one) => ({ ...one, importedAt: expect.any(String) })),
          files: portion.files.map((one) => ({ ...one, storedAt: expect.any(String) })),
        });
        expect(await there.recordings.bytes(pull.recordingSha256!)).toEqual(bytes);
        expect(await there.engines.list()).toHaveLength(1);
      }),
    ));

  it('is passed over where it stands already, and goes again by undo', () =>
    withRecord((here) =>
      withRecord(async (there) => {
        const { engine, portion } = await filled(here);
        await there.portions.take(portion, bytesFrom(here));
        expect(await there.portions.take(portion, bytesFrom(here))).toMatchObject({ taken: 0 });
        await there.events.undo();
        expect(await there.engines.find(engine.id)).toBeNull();
        expect((await there.portions.of('all')).rows.pull).toEqual([]);
      }),
    ));

  it('is refused whole where one thing was changed on one side', () =>
    withRecord((here) =>
      withRecord(async (there) => {
        const { portion, pull, day } = await filled(here);
        await there.portions.take(portion, bytesFrom(here));
        await there.days.remove(day.id);
        await there.events.undo();
        await there.pulls.update(pull.id, { leadDeg: 30 });
        const refused = there.portions.take(portion, bytesFrom(here));
        await expect(refused).rejects.toThrow(ConflictError);
        await expect(refused).rejects.toThrow(/leadDeg was changed on one side/);
        expect((await there.pulls.get(pull.id)).leadDeg).toBe(30);
      }),
    ));

  it('is refused where bytes are not those of their digest', () =>
    withRecord((here) =>
      withRecord(async (there) => {
        const { portion, engine } = await filled(here);
        await expect(there.portions.take(portion, async () => photo.slice(1))).rejects.toThrow();
        expect(await there.engines.find(engine.id)).toBeNull();
      }),
    ));
});
