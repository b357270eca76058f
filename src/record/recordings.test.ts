import { createHash } from 'node:crypto';
import Database from 'better-sqlite3';
import { describe, expect, it } from 'vitest';
import { databaseFile } from './check.ts';
import { PIECE_BYTES } from './pack.ts';
import type { Import } from './repository.ts';
import { oneDay, withRecord } from './testing.ts';

const span = (firstRow: number) =>
  ({ firstRow, lastRow: firstRow + 9, direction: 'rising', fromRpm: 3000, toRpm: 6000 }) as const;
const file = (dayId: string, text: string): Import => ({
  dayId,
  fileName: 'pull-01.csv',
  bytes: Buffer.from(text),
  kind: 'time series',
  rows: 20,
  shape: 'shape',
  pulls: [{ span: span(0), leadDeg: 28 }, { span: span(10) }],
});

describe('recordings', () => {
  it('come back byte for byte, under their SHA-256, with the pulls found in them', () =>
    withRecord(async (record) => {
      const { day } = await oneDay(record);
      const text = 'speed,torque\r\n3000,400\r\n'.repeat(2000);
      const { recording, pulls, duplicate } = await record.recordings.import(file(day.id, text));
      expect(duplicate).toBe(false);
      expect(recording.sha256).toBe(createHash('sha256').update(text).digest('hex'));
      expect(recording.sizeBytes).toBe(text.length);
      expect(recording.storedBytes).toBeLessThan(text.length / 10);
      expect(Buffer.from(await record.recordings.bytes(recording.sha256)).toString()).toBe(text);
      expect(await record.recordings.find(recording.sha256)).toEqual(recording);
      expect(await record.pulls.list({ dayId: day.id })).toEqual(pulls);
      expect(pulls.map((pull) => [pull.order, pull.leadDeg, pull.fileName])).toEqual([
        [0, 28, 'pull-01.csv'],
        [1, null, 'pull-01.csv'],
      ]);
      expect((await record.events.list())[0]).toMatchObject({
        kind: 'import',
        summary: 'imported pull-01.csv: 2 pulls',
      });
    }));

  it('answer the same bytes again with the pulls that have them, and store nothing', () =>
    withRecord(async (record) => {
      const { day } = await oneDay(record);
      const first = await record.recordings.import(file(day.id, 'same'));
      const events = await record.events.list();
      const again = await record.recordings.import({
        ...file(day.id, 'same'),
        fileName: 'copy.csv',
      });
      expect(again).toEqual({ ...first, duplicate: true });
      expect(await record.events.list()).toEqual(events);
    }));

  it('keep their bytes when the import is taken back, and serve them when it comes again', () =>
    withRecord(async (record) => {
      const { day } = await oneDay(record);
      const { recording } = await record.recordings.import(file(day.id, 'kept'));
      await record.events.undo();
      expect(await record.pulls.list({ dayId: day.id })).toEqual([]);
      expect(Buffer.from(await record.recordings.bytes(recording.sha256)).toString()).toBe('kept');
      const again = await record.recordings.import(file(day.id, 'kept'));
      expect(again.duplicate).toBe(false);
      expect(await record.pulls.list({ dayId: day.id })).toHaveLength(2);
    }));

  it('pass through in pieces when they do not fit into one', () =>
    withRecord(async (record) => {
      const { day } = await oneDay(record);
      const bytes = new Uint8Array(2 * PIECE_BYTES + 12_345).map((_, index) => (index * 7919) >> 3);
      const sha256 = createHash('sha256').update(bytes).digest('hex');
      async function* read() {
        for (let from = 0; from < bytes.length; from += 100_001)
          yield bytes.subarray(from, from + 100_001);
      }
      const spooled = { sha256, sizeBytes: bytes.length, read };
      await record.recordings.import({ ...file(day.id, ''), bytes: spooled });
      expect(Buffer.compare(await record.recordings.bytes(sha256), bytes)).toBe(0);
      const lying = { sha256: '0'.repeat(64), sizeBytes: 3, read };
      await expect(record.recordings.import({ ...file(day.id, ''), bytes: lying })).rejects.toThrow(
        /nothing was stored/,
      );
      expect(await record.recordings.find('0'.repeat(64))).toBeNull();
    }));

  it('store nothing of a file whose day is not there', () =>
    withRecord(async (record) => {
      const bytes = Buffer.from('lost');
      await expect(record.recordings.import(file('day_none', 'lost'))).rejects.toThrow(
        /no test day/,
      );
      const sha256 = createHash('sha256').update(bytes).digest('hex');
      expect(await record.recordings.find(sha256)).toBeNull();
    }));

  it('are refused when somebody changed the stored bytes', () =>
    withRecord(async (record, folder) => {
      const { day } = await oneDay(record);
      const { recording } = await record.recordings.import(file(day.id, 'abc'));
      const other = await record.recordings.import(file(day.id, 'xyz'));
      const db = new Database(databaseFile(folder));
      db.prepare(
        'UPDATE recording_piece SET packed = (SELECT packed FROM recording_piece WHERE sha256 = ?) WHERE sha256 = ?',
      ).run(other.recording.sha256, recording.sha256);
      db.close();
      await expect(record.recordings.bytes(recording.sha256)).rejects.toThrow(
        /no longer match their SHA-256/,
      );
    }));
});

describe('derived results', () => {
  it('are found again only for the same question and version, NaN and all', () =>
    withRecord(async (record) => {
      const { day } = await oneDay(record);
      const { recording } = await record.recordings.import(file(day.id, 'curve'));
      const key = {
        recordingSha256: recording.sha256,
        question: '{"standard":"none"}',
        version: 1,
      };
      expect(await record.derived.find(key)).toBeNull();
      const result = { torqueNm: [1.5, Number.NaN], none: null };
      await record.derived.put({ key, result });
      expect(await record.derived.find(key)).toEqual(result);
      expect(await record.derived.find({ ...key, version: 2 })).toBeNull();
      expect(await record.derived.find({ ...key, question: '{}' })).toBeNull();
      await record.derived.put({ key: { ...key, version: 2 }, result: { torqueNm: [2] } });
      expect(await record.derived.find(key)).toBeNull();
      expect(await record.derived.find({ ...key, version: 2 })).toEqual({ torqueNm: [2] });
    }));

  it('do not grow without end when every change asks a new question', () =>
    withRecord(async (record) => {
      const { day } = await oneDay(record);
      const { recording } = await record.recordings.import(file(day.id, 'curve'));
      const key = (question: string) => ({
        recordingSha256: recording.sha256,
        question,
        version: 1,
      });
      for (let n = 0; n < 100; n += 1)
        await record.derived.put({ key: key(`question ${n}`), result: n });
      let kept = 0;
      for (let n = 0; n < 100; n += 1)
        if ((await record.derived.find(key(`question ${n}`))) !== null) kept += 1;
      expect(kept).toBeGreaterThan(0);
      expect(kept).toBeLessThanOrEqual(40);
      expect(await record.derived.find(key('question 99'))).toBe(99);
    }));
});
