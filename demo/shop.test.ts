import { createHash } from 'node:crypto';
import { describe, expect, it } from 'vitest';
import { demoShop } from './shop.ts';

const shop = demoShop();
const daysOf = (name: string) =>
  shop.engines.find((one) => one.engine.name === name)!.builds.flatMap((build) => build.days);
const allDays = shop.engines.flatMap((one) => one.builds.flatMap((build) => build.days));

describe('the demo shop as it is written', () => {
  it('is the same bytes each time', () => {
    const digest = (what: ReturnType<typeof demoShop>) => {
      const hash = createHash('sha256');
      for (const engine of what.engines)
        for (const build of engine.builds)
          for (const day of build.days) for (const file of day.files) hash.update(file.bytes);
      return hash.digest('hex');
    };
    expect(digest(demoShop())).toBe(digest(shop));
  });

  it('has four engines on three cells whose files differ in dialect', () => {
    expect(shop.engines).toHaveLength(4);
    const heads = shop.engines.map((one) =>
      Buffer.from(one.builds.at(-1)!.days.at(-1)!.files[0]!.bytes).toString('latin1').slice(0, 400),
    );
    expect(heads.map((head) => ['\t', ';', ','].find((mark) => head.includes(mark)))).toEqual([
      ';',
      ',',
      '\t',
      ';',
    ]);
    for (const day of allDays) {
      expect(Object.keys(shop.cells)).toContain(day.cell);
      expect(day.pulls.map((pull) => pull.file)).toEqual(day.files.map((file) => file.name));
    }
  });

  it('has no two files of the same bytes, which the record would take for one', () => {
    const digests = allDays.flatMap((day) =>
      day.files.map((file) => createHash('sha256').update(file.bytes).digest('hex')),
    );
    expect(new Set(digests).size).toBe(digests.length);
  });

  it('is true to its stories: six past its best with a repeat, V8 stopped by its limit, single short of its best', () => {
    const six = daysOf('Rally six');
    expect(six).toHaveLength(3);
    const ladder = six[2]!;
    const leads = ladder.pulls.map((pull) => pull.leadDeg!);
    expect(Math.max(...leads)).toBeGreaterThan(ladder.truth.bestLeadOverBandDeg + 2);
    expect(new Set(leads).size).toBe(leads.length - 1);

    const v8 = daysOf('Rescue boat V8')[0]!;
    const top = Math.max(...v8.pulls.map((pull) => pull.leadDeg!));
    expect(v8.truth.limitLeadDeg!).toBeLessThan(v8.truth.bestLeadOverBandDeg - 2);
    expect(top).toBeGreaterThan(v8.truth.limitLeadDeg!);

    const single = daysOf('Grass-track single')[0]!;
    expect(single.pulls).toHaveLength(3);
    expect(Math.max(...single.pulls.map((pull) => pull.leadDeg!))).toBeLessThan(
      single.truth.bestLeadOverBandDeg - 4,
    );
  });

  it('decides no setting that its own truth would call past the best or the limit', () => {
    for (const day of allDays) {
      for (const decision of day.decisions) {
        const { bestLeadOverBandDeg, limitLeadDeg } = day.truth;
        expect(decision.setting!).toBeLessThan(Math.min(bestLeadOverBandDeg, limitLeadDeg ?? 99));
      }
    }
  });
});
