import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { FormatError } from '../errors.ts';
import { readRunFile, UnknownColumnsError } from './index.ts';

/** Excerpts of Bosch Research's open engine datasets (CC BY-SA 4.0): see fixtures/open-bench-10hz/SOURCE.txt. */
const folder = join(import.meta.dirname, 'fixtures', 'open-bench-10hz');
const cellsOf = (name: string) =>
  readFileSync(join(folder, name), 'utf8')
    .trimEnd()
    .split('\n')
    .map((line) => line.split(','));

describe('files that a real bench wrote', () => {
  it('without a header: refused as a run file in so many words', async () => {
    const reading = readRunFile(join(folder, 'headerless.csv'), { fileName: 'headerless.csv' });
    await expect(reading).rejects.toThrow(UnknownColumnsError);
    await expect(reading).rejects.toThrow(
      /without a speed and with neither torque nor power: it has no header/,
    );
  });

  it('without a header but mapped: every cell as the language reads it', async () => {
    const { recording } = await readRunFile(join(folder, 'headerless.csv'), {
      fileName: 'headerless.csv',
      mapping: {
        'column 1': { quantity: 'speed', unit: 'rpm' },
        // Load stands in for the torque that the data do not have; only its reading is checked.
        'column 2': { quantity: 'torque', unit: 'N·m' },
      },
    });
    const cells = cellsOf('headerless.csv');
    expect(recording.rows).toBe(120);
    expect(recording.channels).toHaveLength(13);
    for (const [column, channel] of recording.channels.entries())
      expect([...channel.values]).toEqual(cells.map((row) => Number(row[column])));
    expect(recording.kind).toBe('time series');
  });

  it('names with a blank row under them: speed is found, and what is missing is said', async () => {
    const reading = readRunFile(join(folder, 'named-blank-row.csv'), { fileName: 'named.csv' });
    await expect(reading).rejects.toThrow(/a file with neither torque nor power/);
    const error = await reading.catch((refusal: unknown) => refusal);
    expect(error).toBeInstanceOf(FormatError);
    const { channels } = error as UnknownColumnsError;
    const speed = channels.find((channel) => channel.quantity === 'speed')!;
    const cells = cellsOf('named-blank-row.csv').slice(2);
    expect(speed.header).toBe('engine_speed');
    // No unit is stated, and nothing turns this slowly in rev/min: taken as rev/s until somebody answers.
    expect([...speed.values]).toEqual(cells.map((row) => Number(row[1]) * 60));
    const quantities = channels.map((channel) => [channel.header, channel.quantity]);
    expect(quantities).toContainEqual(['air_fuel_ratio', 'afr']);
    expect(quantities).toContainEqual(['HC', 'other']);
  });
});
