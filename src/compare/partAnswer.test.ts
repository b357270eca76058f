import { describe, expect, it } from 'vitest';
import { gaussian } from '../numerics/simulated.fixture.ts';
import { pullsOf } from './compared.fixture.ts';
import { answerPartTest, type PartAnswer, partPointsOf } from './partAnswer.ts';
import { byLeastSquares, type PartPoint } from './partDrift.ts';
import { type PartOrder, planPartTest } from './partTest.ts';

const REPEATABILITY = 0.4;
type Day = (place: number, of: number) => number;

/** Points in an order, with a gain [%] and a day of its own. */
function pointsOf(
  order: readonly ('a' | 'b')[],
  gain: number,
  day: Day,
  normal: () => number,
): PartPoint[] {
  return order.map((group, at) => ({
    group,
    day: 'one',
    order: at,
    logPowerPercent:
      1200 +
      (group === 'b' ? 100 * Math.log1p(gain / 100) : 0) +
      day(at, order.length) +
      REPEATABILITY * normal(),
  }));
}

/** One test made after its plan, looked at whenever the plan allows. */
function made(order: PartOrder, gain: number, day: Day, normal: () => number, seed: number) {
  const plan = planPartTest(1, REPEATABILITY, order, true, seed);
  const points = pointsOf(plan.order, gain, day, normal);
  for (let pulls = plan.isAba ? points.length : 2; pulls <= points.length; pulls += 2) {
    const answer = answerPartTest(points.slice(0, pulls), plan, REPEATABILITY);
    if (answer.action === 'stop') return answer;
  }
  throw new Error('the last look did not stop');
}

/** Days that drift steadily, that change at once, and that do nothing; by case. */
const DAYS: Record<string, (seed: number) => Day> = {
  steady: () => (place) => 0.1 * place,
  'a step of 1 %': (seed) => {
    const [at, size] = [((seed * 0.6180339887) % 1) as number, seed % 2 === 0 ? 1 : -1];
    return (place, of) => (place > at * of ? size : 0);
  },
};
const CASES = 400;

describe.each(['by turns', 'randomised', 'A/B/A'] as const)('a part test made %s', (order) => {
  it.each(Object.keys(DAYS))('keeps its error under its stopping rule on a day of %s', (kind) => {
    const normal = gaussian(11);
    const answers = Array.from({ length: CASES }, (_, i) =>
      made(order, 0, DAYS[kind]!(i), normal, i),
    );
    const called = answers.filter(({ word }) => word === 'gain').length;
    expect(called / CASES).toBeLessThanOrEqual(0.05);
    const held = answers.filter(({ gain }) => gain!.low <= 0 && gain!.high >= 0).length;
    // Of half A, all B, half A a step of the day can look like the part, and not every one is known for what it is.
    expect(held / CASES).toBeGreaterThanOrEqual(order === 'A/B/A' ? 0.9 : 0.95);
  });

  it('finds the planned gain in at least 80 %', () => {
    const normal = gaussian(12);
    const answers = Array.from({ length: CASES }, (_, i) =>
      made(order, 1, (place) => 0.02 * place, normal, i),
    );
    const found = answers.filter(({ word }) => word === 'gain').length;
    expect(found / CASES).toBeGreaterThanOrEqual(0.8);
    expect(answers.filter(({ word }) => word === 'loss')).toHaveLength(0);
  });
});

describe('a part test by its pulls', () => {
  const noise = gaussian(5);
  const orderOf = (text: string) => [...text] as ('a' | 'b')[];

  it('tells the drift of the day from the part, in any order that allows it', () => {
    for (const text of ['abbaabbaabba', 'abababababab', 'aaabbbbbbaaa']) {
      const answer = answerPartTest(
        pointsOf(orderOf(text), 2, (place) => 0.3 * place, noise),
        null,
        null,
      );
      expect(answer.by).toBe(text.startsWith('aaa') ? 'least squares' : 'blocks');
      expect(answer.driftPercent!.low).toBeLessThan(0.3);
      expect(answer.driftPercent!.high).toBeGreaterThan(0.3);
      expect(answer.gain!.low).toBeLessThan(2);
      expect(answer.gain!.high).toBeGreaterThan(2);
      expect(answer.gain!.high - answer.gain!.low).toBeLessThan(5);
      expect(answer.finding).toContain('The day itself drifted');
    }
  });

  it('takes a steady drift out of a test without noise wholly', () => {
    for (const text of ['abab', 'abba', 'abbaab', 'aba', 'abbbba']) {
      const points = orderOf(text).map(
        (group, at): PartPoint => ({
          group,
          day: 'one',
          order: at,
          logPowerPercent: (group === 'b' ? 2 : 0) + 0.7 * at,
        }),
      );
      const { gain, driftPercent, by } = answerPartTest(points, null, REPEATABILITY);
      expect(driftPercent!.value).toBeCloseTo(0.7, 6);
      expect(byLeastSquares(points, null).gain!.value).toBeCloseTo(2, 9);
      if (by === 'blocks') expect(gain!.value).toBeCloseTo(100 * Math.expm1(0.02), 6);
      // A step of the day stays possible on so few pulls, and pulls a little.
      else expect(Math.abs(gain!.value - 2)).toBeLessThan(0.25);
    }
  });

  it('lets a sudden change of the day speak: two halves of A that disagree leave the part open', () => {
    const order = orderOf('aabbbbaa');
    const agree = pointsOf(order, 1, () => 0, gaussian(21));
    const change = pointsOf(order, 1, (place) => (place > 5 ? 1.5 : 0), gaussian(21));
    const width = (points: PartPoint[]) => {
      const { gain } = answerPartTest(points, null, REPEATABILITY);
      return gain!.high - gain!.low;
    };
    expect(width(change)).toBeGreaterThan(1.1 * width(agree));
  });

  it('says what it cannot tell: A wholly before B, one day against another', () => {
    const two = pointsOf(orderOf('ab'), 1, () => 0, noise);
    const first = answerPartTest(two, null, REPEATABILITY);
    expect(first.gain).toBeNull();
    expect(first.finding).toContain('pull A again after B');
    const apart = pointsOf(orderOf('aaabbb'), 1, () => 0, noise);
    const days = answerPartTest(
      apart.map((point) => ({ ...point, day: point.group })),
      null,
      REPEATABILITY,
    );
    expect(days.gain).toBeNull();
    expect(days.warnings.join(' ')).toContain('more pulls do not shrink it');
    expect(() => answerPartTest(two.slice(0, 1), null, null)).toThrow('No pull of B');
  });

  it('says “no difference larger than” with odds, and what comes next', () => {
    const none = answerPartTest(
      pointsOf(orderOf('abbaabba'), 0, () => 0, gaussian(9)),
      null,
      null,
    );
    expect(none.noLargerThanPercent).toBeGreaterThan(0);
    expect(none.finding).toMatch(/no difference larger than [\d.]+ %.*The odds are \d/);
    const plan = planPartTest(1, REPEATABILITY, 'by turns', false);
    const begun = pointsOf(orderOf('abb'), 1, () => 0, noise);
    const answer = answerPartTest(begun, plan, REPEATABILITY, { a: 'old cam', b: 'new cam' });
    expect(answer.action).toBe('go on');
    expect(answer.finding).toMatch(
      /^After 1 pull of old cam and 2 of new cam nothing is said yet\./,
    );
    expect(answer.finding).toContain('Next: a pull of old cam.');
  });

  it('takes its points from pulls in the order made', () => {
    const [a, b] = [pullsOf(() => 500, [0, 3], 1), pullsOf(() => 515, [1, 2], 2)];
    const points = partPointsOf(a, b, [4500, 7000]);
    expect(points.map(({ group }) => group).join('')).toBe('abba');
    const answer: PartAnswer = answerPartTest(points, null, 0.3);
    expect(Math.abs(answer.gain!.value - 3)).toBeLessThan(1.5);
  });
});
