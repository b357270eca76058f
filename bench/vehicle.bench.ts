import { flowLaw, type Phase, V, X } from '../src/compare/vehicle/flow.ts';
import { inputRpm } from '../src/compare/vehicle/forces.ts';
import { AUTOMATIC, COUPE, humpEngine } from '../src/compare/vehicle/made.fixture.ts';
import { marksOf } from '../src/compare/vehicle/marks.ts';
import { runVehicle } from '../src/compare/vehicle/run.ts';
import { shiftPoints } from '../src/compare/vehicle/shifts.ts';
import type { Vehicle } from '../src/compare/vehicle/types.ts';
import type { BenchCase } from './case.ts';

const ROUNDS = 25;
const TARGET_MS = 5;
const STEP_S = 0.001;

const median = (values: number[]) => values.sort((a, b) => a - b)[values.length >> 1]!;

/** The ordinary way: the same law in steps of a millisecond, by Euler, each event taken at the step after it. */
function stepwise(vehicle: Vehicle): number {
  const shifts = shiftPoints(vehicle, humpEngine);
  const launch = 3500;
  let [v, x, t, gear, shiftedAt] = [0, 0, 0, 0, 0];
  let phase = 'slipping' as Phase;
  let law = flowLaw(vehicle, humpEngine, phase, gear, launch);
  const state = [0, 0, 0, 0, 0, 0, 0];
  const to = (next: Phase) => {
    phase = next;
    law = flowLaw(vehicle, humpEngine, phase, gear, launch);
  };
  for (; x < 1000 && t < 100; t += STEP_S) {
    [state[V], state[X]] = [v, x];
    const { a } = law(state);
    x += v * STEP_S;
    v += a * STEP_S;
    const turns = inputRpm(vehicle, gear, v);
    if (phase === 'slipping' && turns >= launch) to('locked');
    else if (phase === 'locked' && gear < shifts.length && turns >= shifts[gear]!.speedRpm) {
      gear += 1;
      shiftedAt = t;
      to('shifting');
    } else if (phase === 'shifting' && t - shiftedAt >= vehicle.shift.timeS) to('locked');
  }
  return t;
}

const caseOf = (vehicle: Vehicle, hasPeer: boolean): BenchCase => ({
  name: `a run of a vehicle with a ${vehicle.coupling.kind} over a kilometre, its shift speeds, times and trap speeds`,
  peer: hasPeer ? 'the same law by Euler in steps of 1 ms, without its times' : '',
  target: `under ${TARGET_MS} ms`,
  run: () => {
    const [oursMs, peerMs]: [number[], number[]] = [[], []];
    let open = 0;
    for (let round = 0; round < 2 * ROUNDS; round++) {
      const start = performance.now();
      // The final drive moves with every round, as it does under a dragging hand.
      const run = runVehicle({ ...vehicle, finalDrive: 3.4 + 0.01 * round }, humpEngine);
      marksOf(run);
      const middle = performance.now();
      if (hasPeer) stepwise({ ...vehicle, finalDrive: 3.4 + 0.01 * round });
      const end = performance.now();
      open = Math.max(open, Math.abs(run.energy.openPart));
      if (round < ROUNDS) continue;
      oursMs.push(middle - start);
      peerMs.push(end - middle);
    }
    const ours = median(oursMs);
    return Promise.resolve({
      oursMs: ours,
      peerMs: hasPeer ? median(peerMs) : null,
      met: ours < TARGET_MS,
      note: `energy closes to ${open.toExponential(0)}`,
    });
  },
});

export default [caseOf(COUPE, true), caseOf(AUTOMATIC, false)];
