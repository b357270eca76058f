import { describe, expect, it } from 'vitest';
import { simulateDay } from '../../demo/cell.ts';
import { simulateCurveDay } from '../../demo/curve-day.ts';
import { dayMadeToPeaks } from '../../demo/made-to-peaks.ts';
import { answerLadder } from '../../src/ladder/index.ts';
import { curveOf, findPulls } from '../../src/pull/index.ts';
import { ladderInputOf } from '../../src/report/ladderInput.ts';

const WATT_PER_HP = 745.6998715822702;
/** Common practice, no source: the practitioner's V8. */
const PEAKS_HP = [775, 799, 818, 823];

/** Full recordings of a cell that repeats within 0.2 %, of an engine whose best lead is the same at every speed. */
function recordedDay(seed: number) {
  const options = dayMadeToPeaks(
    PEAKS_HP.map((hp, i) => ({ leadDeg: 32 + 2 * i, peakPowerW: hp * WATT_PER_HP })),
    {
      seed,
      wanderPercent: 0.15,
      slowWanderPercent: 0.05,
      engine: { cylinders: 8, bestLeadSlopeDegPerKrpm: 0, bestLeadBendDegPerKrpm2: 0 },
    },
  );
  const day = simulateDay(options);
  const { input } = simulateCurveDay(options);
  const curves = day.recordings.map((recording) =>
    curveOf(recording, findPulls(recording)[0]!, day.curveOptions),
  );
  return {
    peaksHp: curves.map((curve) => curve.peakPower.value / WATT_PER_HP),
    input: ladderInputOf(
      curves.map((curve, i) => ({ ...input.pulls[i]!, curve })),
      input,
    ),
  };
}

describe("the practitioner's ladder from full recordings", () => {
  const days = Array.from({ length: 8 }, (_, seed) => recordedDay(seed)).filter(({ peaksHp }) =>
    // A day on which a blip or wander moved a recorded peak by more than 0.7 % is another ladder.
    peaksHp.every((hp, i) => Math.abs(hp / PEAKS_HP[i]! - 1) < 0.007),
  );

  it('has recordings made to those peaks', () => {
    expect(days.length).toBeGreaterThanOrEqual(6);
  });

  for (const percent of [0.2, 0.3, 0.4, 0.5, null]) {
    it(`stops at 38 and leaves 36 and 34 (repeatability ${percent ?? 'not stated'})`, () => {
      for (const { input } of days) {
        const answer = answerLadder({ ...input, repeatabilityPercent: percent });
        expect([answer.uses.bursts!.value, answer.uses.sustained!.value]).toEqual([36, 34]);
        expect(answer.next.action).toBe('stop');
        expect(answer.steps[2]!.word).not.toBe('real');
      }
    });

    it(`asks for 36 after the first step (repeatability ${percent ?? 'not stated'})`, () => {
      for (const { input } of days) {
        const answer = answerLadder({
          ...input,
          pulls: input.pulls.slice(0, 2),
          repeatabilityPercent: percent,
        });
        expect(answer.next).toMatchObject({ action: 'pull', value: 36 });
        expect(answer.uses.bursts!.value).toBeNull();
      }
    });
  }
});
