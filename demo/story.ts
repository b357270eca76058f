import { readRunFile } from '../src/intake/read.ts';
import {
  answerLadder,
  type LadderAnswer,
  type LadderInput,
  type LadderPull,
  SHIPPED_USES,
  SPARK_LEAD,
} from '../src/ladder/index.ts';
import { type Curve, curveOf, findPulls } from '../src/pull/index.ts';
import type { DemoDay, DemoEngine, DemoPull, DemoShop } from './shop.ts';

export interface Story {
  readonly curves: readonly Curve[];
  readonly input: LadderInput;
  readonly answer: LadderAnswer;
}

/** One day of the shop from its bytes to its answer, without a record in between: intake, pull, ladder. */
export async function storyOf(
  shop: DemoShop,
  { engine }: Pick<DemoEngine, 'engine'>,
  demo: DemoDay,
): Promise<Story> {
  const cell = shop.cells[demo.cell]!;
  const curves: Curve[] = [];
  for (const { name, bytes } of demo.files) {
    const { recording } = await readRunFile(bytes, {
      fileName: name,
      torqueIs: cell.torqueIs!,
      brakeRatio: cell.ratio ?? 1,
    });
    const [span] = findPulls(recording);
    curves.push(
      curveOf(recording, span!, {
        standard: 'SAE J1349',
        cell: {
          inertiaKgM2: cell.inertiaKgM2 ?? null,
          sensorLagS: cell.sensorLagS ?? null,
          ratio: cell.ratio ?? 1,
          torqueIs: cell.torqueIs!,
          calibrationRelSd: cell.calibrationRelSd!,
        },
        engine: {
          name: engine.name,
          cylinders: engine.cylinders ?? null,
          displacementM3: engine.displacementM3 ?? null,
          strokeM: engine.strokeM ?? null,
          compressionRatio: engine.compressionRatio ?? null,
          cycle: engine.cycle ?? 4,
          aspiration: engine.aspiration ?? 'natural',
          fuel: engine.fuel ?? 'gasoline',
        },
        lambdaTarget: demo.day.lambdaTarget!,
      }),
    );
  }
  const { inletTemperatureK: today, worstInletTemperatureK: worst, bandRpm } = demo.day;
  const input: LadderInput = {
    kind: SPARK_LEAD,
    pulls: demo.pulls.map((pull, i) => ladderPull(pull, i, curves[i]!)),
    bandRpm: bandRpm!,
    uses: SHIPPED_USES,
    aspiration: 'natural',
    step: 1,
    worthPercent: 0.75,
    repeatabilityPercent: null,
    worstInletDeltaK: today && worst ? Math.max(0, worst - today) : 0,
    worstFuelDeltaOctane: 0,
    holdbackPer10K: 1.5,
    holdbackPerOctane: 1,
  };
  return { curves, input, answer: answerLadder(input) };
}

function ladderPull(pull: DemoPull, order: number, curve: Curve): LadderPull {
  const { speedRpm, knock } = curve.bySpeed;
  const filled = speedRpm.flatMap((rpm, i) => {
    const level = knock?.[i] ?? null;
    return level === null ? [] : [{ rpm, level }];
  });
  return {
    id: pull.file,
    setting: pull.leadDeg!,
    order,
    torque: curve.spline,
    peakPowerW: null,
    peakTorqueNm: null,
    excludedBecause: pull.excludedBecause ?? null,
    watched: pull.watched ?? null,
    knockHeard: pull.knockHeard ?? false,
    aborted: pull.aborted ?? false,
    knock:
      filled.length === 0
        ? null
        : { speedRpm: filled.map((bin) => bin.rpm), level: filled.map((bin) => bin.level) },
    airTemperatureK: curve.conditions.airTemperatureK,
    configuration: null,
  };
}
