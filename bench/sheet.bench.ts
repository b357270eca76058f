import { answerSheet, answerSheetAtOnce, parseSheet } from '../src/build/index.ts';
import { WHOLE_SHEET } from '../src/build/topics/whole.fixture.ts';
import type { BenchCase } from './case.ts';

const ROUNDS = 60;
const TARGET_MS = 10;
/** Copies a turn, so that no clock's grain is in it. */
const COPIES = 20;

const medianOf = (times: number[]) => times.sort((a, b) => a - b)[times.length >> 1]!;

/** Both sides on the same sheet, turn about. The peer only copies it: the least that can be done with all of it. */
const bench: BenchCase = {
  name: 'a whole sheet to its figures and checks, at a keystroke',
  peer: `structuredClone of the same sheet, Node ${process.versions.node}`,
  target: `under ${TARGET_MS} ms`,
  run() {
    const sheet = parseSheet(WHOLE_SHEET);
    const [oursMs, wholeMs, peerMs]: [number[], number[], number[]] = [[], [], []];
    const cold = performance.now();
    const answer = answerSheet(sheet);
    const coldMs = performance.now() - cold;
    for (let round = 0; round < 2 * ROUNDS; round++) {
      const start = performance.now();
      answerSheetAtOnce(sheet);
      const before = performance.now();
      answerSheet(sheet);
      const middle = performance.now();
      for (let copy = 0; copy < COPIES; copy++) structuredClone(sheet);
      const end = performance.now();
      // The first half warms both sides up.
      if (round < ROUNDS) continue;
      oursMs.push(before - start);
      wholeMs.push(middle - before);
      peerMs.push((end - middle) / COPIES);
    }
    const ours = medianOf(oursMs);
    return Promise.resolve({
      oursMs: ours,
      peerMs: medianOf(peerMs),
      met: ours < TARGET_MS,
      note: `quickest ${Math.min(...oursMs).toFixed(1)} ms; ${answer.figures.length} figures, ${answer.checks.length} checks; with what tolerances leave open ${medianOf(wholeMs).toFixed(1)} ms; the first of all ${coldMs.toFixed(0)} ms`,
    });
  },
};

export default bench;
