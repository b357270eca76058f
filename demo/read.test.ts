import { describe, expect, it } from 'vitest';
import { readRunFile } from '../src/intake/read.ts';
import { simulateDay } from './cell.ts';
import { DIALECTS, runFileBytes } from './logger.ts';
import { demoShop } from './shop.ts';

describe('simulated run files through intake', () => {
  const day = simulateDay({ seed: 9, limit: {}, rateHz: 20, exhaustChannels: 4 });
  const pull = day.pulls[3]!;

  it.each(Object.values(DIALECTS))('come back as they were recorded ($name)', async (dialect) => {
    const { recording } = await readRunFile(runFileBytes(pull, dialect), {
      fileName: `run.${dialect.extension}`,
    });
    expect(recording.rows).toBe(pull.samples.rows);
    // Half the last digit that the logger writes, in inside units: 0.01 lb-ft is the coarser of the two for torque.
    const finest = { speed: 0.051, torque: 0.0068, lead: 0.051, knock: 0 } as const;
    for (const [quantity, most] of Object.entries(finest)) {
      const read = recording.channels.find((channel) => channel.quantity === quantity)!.values;
      const made = pull.samples.values.get(quantity as keyof typeof finest)!;
      const apart = made.reduce(
        (worst, value, i) => Math.max(worst, Math.abs(value - read[i]!)),
        0,
      );
      expect(apart, quantity).toBeLessThanOrEqual(most);
    }
    const timeS = recording.channels.find((channel) => channel.quantity === 'time')!.values;
    expect(timeS[100]! - timeS[0]!).toBeCloseTo(5, 6);
    expect(recording.channels.filter((one) => one.quantity === 'other')).toEqual([]);
  });

  it('of the demo shop are understood without a warning, and ask only what their cell answers', async () => {
    const shop = demoShop();
    for (const { builds } of shop.engines) {
      for (const { days } of builds) {
        for (const { files, cell } of days) {
          const { torqueIs } = shop.cells[cell]!;
          for (const { name, bytes } of files) {
            const read = await readRunFile(bytes, { fileName: name, torqueIs: torqueIs! });
            expect(read.questions, name).toEqual([]);
            expect(read.recording.kind).toBe('time series');
            expect(read.recording.channels.filter((one) => one.quantity === 'other')).toEqual([]);
          }
        }
      }
    }
  });
});
