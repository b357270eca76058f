import { describe, expect, it } from 'vitest';
import { InputError } from '../errors.ts';
import { gaussian } from '../numerics/simulated.fixture.ts';
import { lookAtPartTest, type PartLook, planPartTest } from './partTest.ts';

const REPEATABILITY = 0.4;

/** One test made pull by pull, with a steady drift of the day. */
function made(gain: number, normal: () => number, drift = 0.05): PartLook {
  const plan = planPartTest(1, REPEATABILITY, 'by turns', false);
  const differences: number[] = [];
  for (let k = 0; k < plan.blocks; k++) {
    const pair = { a: 0, b: gain };
    for (const at of [2 * k, 2 * k + 1])
      pair[plan.order[at]!] += REPEATABILITY * normal() + drift * at;
    differences.push(pair.b - pair.a);
    const look = lookAtPartTest(plan, differences);
    if (look.action === 'stop') return look;
  }
  throw new Error('the last look did not stop');
}

describe('a fair test of a part', () => {
  it('calls a true zero a difference in at most 5 % under its own stopping rule', () => {
    const normal = gaussian(1);
    const looks = Array.from({ length: 2000 }, () => made(0, normal));
    const wrong = looks.filter(({ gain }) => gain!.low > 0 || gain!.high < 0).length;
    expect(wrong / looks.length).toBeLessThanOrEqual(0.05);
    expect(wrong).toBeGreaterThan(0);
  });

  it('finds the planned gain in at least 80 %, and its interval holds the truth in at least 95 %', () => {
    const normal = gaussian(2);
    const looks = Array.from({ length: 1000 }, () => made(1, normal));
    expect(looks.filter(({ gain }) => gain!.low > 0).length).toBeGreaterThanOrEqual(800);
    const held = looks.filter(({ gain }) => gain!.low <= 1 && gain!.high >= 1).length;
    expect(held).toBeGreaterThanOrEqual(950);
  });

  it('takes more pulls for less, and begins blocks by turns', () => {
    const plan = planPartTest(1, REPEATABILITY, 'by turns', false);
    expect(plan.order.slice(0, 8).join('')).toBe('abbaabba');
    expect(plan.order).toHaveLength(2 * plan.blocks);
    expect(planPartTest(0.5, REPEATABILITY, 'by turns', false).blocks).toBeGreaterThan(plan.blocks);
  });

  it('draws an order from the seed, only of settings proven clean', () => {
    const drawn = (seed: number) =>
      planPartTest(0.5, REPEATABILITY, 'randomised', true, seed).order.join('');
    expect(drawn(7)).toBe(drawn(7));
    expect(drawn(7)).not.toBe(drawn(8));
    expect(() => planPartTest(1, REPEATABILITY, 'randomised', false)).toThrow(InputError);
    expect(() => planPartTest(0.01, REPEATABILITY, 'by turns', false)).toThrow('120 pulls');
  });

  it('is not planned as a long A/B/A, and names the order by turns instead', () => {
    expect(planPartTest(1, REPEATABILITY, 'A/B/A', false)).toMatchObject({
      isAba: true,
      blocks: 6,
    });
    expect(() => planPartTest(0.5, REPEATABILITY, 'A/B/A', false)).toThrow(
      /more than 8 pulls of each .* Make the pulls by turns, A B B A: at most \d+ of each\./,
    );
    expect(() => planPartTest(0.01, REPEATABILITY, 'A/B/A', false)).toThrow('120 pulls');
    // Any plan there is has 8 of each at most; where none is, by turns still has one.
    for (let gain = 0.4; gain < 3; gain += 0.05) {
      const blocks = () => planPartTest(gain, REPEATABILITY, 'A/B/A', false).blocks;
      if (gain < 0.64) expect(blocks).toThrow(InputError);
      else expect(blocks()).toBeLessThanOrEqual(8);
      expect(planPartTest(gain, REPEATABILITY, 'by turns', false).isAba).toBeUndefined();
    }
  });

  it('says how large a difference can still be where none is found', () => {
    const plan = planPartTest(1, REPEATABILITY, 'by turns', false);
    const even = Array.from({ length: plan.blocks }, (_, k) => (k % 2 === 0 ? 0.1 : -0.1));
    expect(lookAtPartTest(plan, even.slice(0, 2)).gain).toBeNull();
    expect(lookAtPartTest(plan, even).finding).toMatch(/no difference larger than 0\.\d %/);
  });
});
