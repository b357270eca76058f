import { describe, expect, it } from 'vitest';
import { answerSheet } from '../src/build/index.ts';
import { demoSheets } from './sheets.ts';
import { demoShop } from './shop.ts';

const shop = demoShop();
const sheets = demoSheets();

describe('the demo shop’s build sheets', () => {
  it('are one for each of its builds', () => {
    expect(sheets.map(({ engine, build }) => [engine, build])).toEqual(
      // The four came for its tables alone; nobody has begun a sheet of it.
      shop.engines
        .filter(({ engine }) => engine.name !== 'Sports four')
        .flatMap(({ engine, builds }) => builds.map(({ build }) => [engine.name, build.name])),
    );
  });

  it.each(sheets)(
    '$engine, $build: displacement, ratio and use are the shop’s',
    ({ engine, build, sheet }) => {
      const of = shop.engines.find((one) => one.engine.name === engine)!;
      const made = of.builds.find((one) => one.build.name === build)!;
      const figure = (id: string) =>
        answerSheet(sheet).figures.find((one) => one.id === id)!.value!;
      expect(sheet.layout.cylinders).toBe(of.engine.cylinders);
      expect(figure('displacement') / of.engine.displacementM3!).toBeCloseTo(1, 3);
      const ratio = made.build.compressionRatio ?? of.engine.compressionRatio!;
      expect(Math.abs(figure('compressionRatio') - ratio)).toBeLessThan(0.05);
      expect(sheet.use).toBe(made.days[0]!.day.use);
      expect(sheet.sections.fuelSystem?.values?.fuel ?? { value: of.engine.fuel }).toMatchObject({
        value: of.engine.fuel,
      });
    },
  );

  it.each(sheets)(
    '$engine, $build: nothing on it is impossible, and something is left to measure',
    ({ sheet }) => {
      const answer = answerSheet(sheet);
      expect([...answer.figures, ...answer.checks].filter((one) => one.problem !== null)).toEqual(
        [],
      );
      expect(answer.measureNext.length).toBeGreaterThan(3);
    },
  );

  it('show checks that are fine and some that are not', () => {
    const verdicts = sheets.flatMap(({ sheet }) =>
      answerSheet(sheet).checks.map((check) => check.verdict),
    );
    expect(verdicts).toContain('fine');
    expect(verdicts).toContain('look again');
  });
});
