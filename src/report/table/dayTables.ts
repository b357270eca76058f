/** The pulls of a test day, and their curves, as tables that leave the shop. */
import type { Curve } from '../../pull/index.ts';
import type { Pull, TestDay } from '../../record/index.ts';
import { counted, numbers, type Table, words, yesOrNo } from '../../units/export/table.ts';

export interface DayOfTables {
  readonly engine: string;
  readonly build: string;
  readonly day: TestDay;
  readonly pulls: readonly Pull[];
  /** One for each pull. */
  readonly curves: readonly (Curve | null)[];
}

const aboutOf = ({ engine, build, day }: DayOfTables): string =>
  `${engine}, ${build}, ${[day.name, day.date].filter(Boolean).join(', ') || 'test day'}`;

/** One row a pull, in the order made, with the peaks of its curve or those that were typed. */
export function dayPullsTable(of: DayOfTables): Table {
  return {
    name: 'pulls',
    title: `Pulls: ${aboutOf(of)}`,
    description: 'In the order made. A pull that was left out says why.',
    columns: [
      counted('pull', 'Pull of that day'),
      words('madeAt', 'When'),
      words('file', 'File'),
      numbers('leadDeg', 'Spark lead'),
      numbers('lambda', 'Lambda target', '1'),
      numbers('lambdaMeasured', 'Lambda measured', '1'),
      numbers('lambdaErrorSd', 'Error of that reading, sd', '1'),
      words('jets', 'Jets'),
      numbers('loadPercent', 'Held load; empty: full throttle', '%'),
      words('group', 'Group'),
      words('watched', 'How knock was watched for'),
      yesOrNo('aborted', 'Aborted'),
      words('excludedBecause', 'Left out because'),
      words('note', 'Note'),
      words('standard', 'Air standard of the peaks'),
      numbers('correctionFactor', 'Correction factor', '1'),
      numbers('airPressureAbsPa', 'Air pressure, absolute'),
      numbers('airTemperatureK', 'Air temperature'),
      numbers('humidity', 'Relative humidity', '1'),
      numbers('sweepRateRpmPerS', 'Sweep rate'),
      numbers('peakTorqueNm', 'Peak torque'),
      numbers('peakTorqueLowNm', 'Low end of its 95 % interval'),
      numbers('peakTorqueHighNm', 'Peak torque, high end'),
      numbers('peakTorqueSpeedRpm', 'Speed of peak torque'),
      numbers('peakPowerW', 'Peak power'),
      numbers('peakPowerLowW', 'Low end of its 95 % interval'),
      numbers('peakPowerHighW', 'Peak power, high end'),
      numbers('peakPowerSpeedRpm', 'Speed of peak power'),
    ],
    rows: of.pulls.map((pull, at) => {
      const curve = of.curves[at] ?? null;
      const air = curve?.conditions;
      return [
        pull.order + 1,
        pull.madeAt,
        pull.fileName,
        pull.leadDeg,
        pull.lambdaTarget,
        pull.lambdaMeasured,
        pull.lambdaErrorSd,
        pull.jets,
        pull.loadPercent,
        pull.group,
        pull.watched,
        pull.aborted,
        pull.excludedBecause,
        pull.note,
        curve?.standard ?? pull.peaksAre?.air ?? null,
        curve?.correctionFactor ?? null,
        air?.pressureAbsPa ?? null,
        air?.airTemperatureK ?? null,
        air?.humidity ?? null,
        air?.sweepRateRpmPerS ?? null,
        curve?.peakTorque.value ?? pull.peakTorqueNm,
        curve?.peakTorque.low ?? null,
        curve?.peakTorque.high ?? null,
        curve?.peakTorque.speedRpm ?? pull.peakTorqueSpeedRpm,
        curve?.peakPower.value ?? pull.peakPowerW,
        curve?.peakPower.low ?? null,
        curve?.peakPower.high ?? null,
        curve?.peakPower.speedRpm ?? pull.peakPowerSpeedRpm,
      ];
    }),
  };
}

/** One row a point of a curve, pull after pull. */
export function dayCurvesTable(of: DayOfTables): Table {
  return {
    name: 'curves',
    title: `Curves: ${aboutOf(of)}`,
    description: 'Torque and power of each pull in the air of the standard, with its 95 % band.',
    columns: [
      counted('pull', 'Pull of that day'),
      numbers('leadDeg', 'Spark lead'),
      words('standard', 'Air standard'),
      numbers('speedRpm', 'Engine speed'),
      numbers('torqueNm', 'Torque'),
      numbers('lowNm', 'Low end of its 95 % band'),
      numbers('highNm', 'High end of its 95 % band'),
      numbers('powerW', 'Power'),
    ],
    rows: of.pulls.flatMap((pull, at) => {
      const curve = of.curves[at] ?? null;
      return curve === null
        ? []
        : curve.speedRpm.map((speed, i) => [
            pull.order + 1,
            pull.leadDeg,
            curve.standard,
            speed,
            curve.torqueNm[i]!,
            curve.lowNm[i]!,
            curve.highNm[i]!,
            curve.powerW[i]!,
          ]);
    }),
  };
}
