/** The tables of a hand-over: the same figures as the report, for a spreadsheet or a program. */

import { csvOf } from '../../units/export/csv.ts';
import { dataPackage } from '../../units/export/describe.ts';
import { parquetOf } from '../../units/export/parquet.ts';
import {
  type Cell,
  type Column,
  counted,
  mixed,
  numbers,
  type Table,
  words,
  yesOrNo,
} from '../../units/export/table.ts';
import { insideUnit } from '../sheetObject.ts';
import type { MadeFile } from './bundle.ts';
import type { HandedPull, HandOver } from './types.ts';

/** Every table of it, as files of the bundle, with the description of all of them. */
export function tableFiles(handOver: HandOver): MadeFile[] {
  const tables = handOverTables(handOver);
  const encoder = new TextEncoder();
  const about = {
    name: 'hand-over',
    title: `${handOver.engine.name}, ${handOver.build.name}`,
    created: handOver.madeAt,
  };
  const described = tables.map((table) => ({ table, path: `${table.name}.csv` }));
  return [
    {
      path: 'tables/datapackage.json',
      what: 'every table with its columns and units',
      bytes: encoder.encode(`${JSON.stringify(dataPackage(about, described), null, 1)}\n`),
    },
    ...tables.flatMap((table): MadeFile[] => [
      { path: `tables/${table.name}.csv`, what: table.title, bytes: encoder.encode(csvOf(table)) },
      {
        path: `tables/${table.name}.parquet`,
        what: table.title,
        bytes: parquetOf(table),
        isPacked: true,
      },
    ]),
  ];
}

/** Those that have a row. */
export function handOverTables(handOver: HandOver): Table[] {
  return [
    curveTable(handOver),
    bySpeedTable(handOver),
    pullsTable(handOver),
    pullCurvesTable(handOver),
    marksTable(handOver),
    stepsTable(handOver),
    settingsTable(handOver),
    figuresTable(handOver),
    checksTable(handOver),
  ].filter(({ rows }) => rows.length > 0);
}

const SPEED = numbers('speedRpm', 'Engine speed');
const TORQUE = [
  numbers('torqueNm', 'Torque, corrected'),
  numbers('lowNm', 'Low end of its 95 % band'),
  numbers('highNm', 'High end of its 95 % band'),
];

function curveTable({ final, choice }: HandOver): Table {
  return {
    name: 'curve',
    title: 'Torque and power as handed over',
    description: `The mean of the pulls named in handover.json (final.pullIds), in the air of ${choice.standard}, with its absolute 95 % band.`,
    columns: [SPEED, ...TORQUE, numbers('powerW', 'Power, corrected')],
    rows:
      final === null
        ? []
        : final.speedRpm.map((speed, i) => [
            speed,
            final.torqueNm[i]!,
            final.lowNm[i]!,
            final.highNm[i]!,
            final.powerW[i]!,
          ]),
  };
}

/** The curve at whole steps of speed, between its points in a straight line. */
export function bySpeed({
  final,
  choice: { stepRpm },
}: Pick<HandOver, 'final' | 'choice'>): readonly (readonly [
  number,
  number,
  number,
  number,
  number,
])[] {
  if (final === null) return [];
  const { speedRpm, torqueNm, lowNm, highNm, powerW } = final;
  const [from, to] = [speedRpm[0]!, speedRpm.at(-1)!];
  const rows: [number, number, number, number, number][] = [];
  for (let speed = Math.ceil(from / stepRpm) * stepRpm; speed <= to; speed += stepRpm) {
    const after = Math.max(
      1,
      speedRpm.findIndex((one) => one >= speed),
    );
    const share = (speed - speedRpm[after - 1]!) / (speedRpm[after]! - speedRpm[after - 1]!);
    const at = (values: readonly number[]) =>
      values[after - 1]! + share * (values[after]! - values[after - 1]!);
    rows.push([speed, at(torqueNm), at(lowNm), at(highNm), at(powerW)]);
  }
  return rows;
}

function bySpeedTable(handOver: HandOver): Table {
  return {
    name: 'by-speed',
    title: 'Torque and power by speed',
    description: `The curve at steps of ${handOver.choice.stepRpm} rev/min.`,
    columns: [SPEED, ...TORQUE, numbers('powerW', 'Power, corrected')],
    rows: bySpeed(handOver),
  };
}

const eachPull = <T>(
  { days }: HandOver,
  read: (pull: HandedPull, place: readonly [string, number]) => readonly T[],
): T[] =>
  days.flatMap((day, at) =>
    day.pulls.flatMap((pull) =>
      read(pull, [day.date ?? (day.name || `day ${at + 1}`), pull.number]),
    ),
  );
const PULL = [words('day', 'Test day'), counted('pull', 'Pull of that day')];

/** What only some days say of the mixture; a hand-over of days that say none of it keeps its table as it was. */
const MIXTURE = [
  { column: numbers('lambdaMeasured', 'Lambda measured', '1'), of: (pull) => pull.lambdaMeasured },
  {
    column: numbers('lambdaErrorSd', 'Error of that reading, sd', '1'),
    of: (pull) => pull.lambdaErrorSd,
  },
  { column: words('jets', 'Jets'), of: (pull) => pull.jets },
  {
    column: numbers('loadPercent', 'Held load; empty: full throttle', '%'),
    of: (pull) => pull.loadPercent,
  },
] as const satisfies readonly {
  readonly column: Column;
  readonly of: (pull: HandedPull) => Cell | undefined;
}[];

function pullsTable(handOver: HandOver): Table {
  const mixture = MIXTURE.filter(({ of }) =>
    handOver.days.some(({ pulls }) => pulls.some((pull) => of(pull) !== undefined)),
  );
  const used = new Set(handOver.final?.pullIds ?? []);
  return {
    name: 'pulls',
    title: 'Every pull, used or left out',
    description: 'In the order made. A pull that was left out says why.',
    columns: [
      ...PULL,
      words('madeAt', 'When'),
      words('file', 'File'),
      words('sha256', 'SHA-256 of the file'),
      numbers('leadDeg', 'Spark lead'),
      numbers('lambda', 'Lambda target', '1'),
      ...mixture.map(({ column }) => column),
      yesOrNo('isInCurve', 'In the curve handed over'),
      words('excludedBecause', 'Left out because'),
      words('note', 'Note'),
      numbers('correctionFactor', 'Correction factor', '1'),
      numbers('airPressureAbsPa', 'Air pressure, absolute'),
      numbers('airTemperatureK', 'Air temperature'),
      numbers('humidity', 'Relative humidity', '1'),
      numbers('oilTemperatureK', 'Oil temperature'),
      numbers('waterTemperatureK', 'Water temperature'),
      numbers('sweepRateRpmPerS', 'Sweep rate'),
      numbers('peakTorqueNm', 'Peak torque, corrected'),
      numbers('peakTorqueLowNm', 'Peak torque, low end'),
      numbers('peakTorqueHighNm', 'Peak torque, high end'),
      numbers('peakTorqueSpeedRpm', 'Speed of peak torque'),
      numbers('peakPowerW', 'Peak power, corrected'),
      numbers('peakPowerLowW', 'Peak power, low end'),
      numbers('peakPowerHighW', 'Peak power, high end'),
      numbers('peakPowerSpeedRpm', 'Speed of peak power'),
    ],
    rows: eachPull(handOver, (pull, place) => {
      const { curve, typedPeaks } = pull;
      const air = curve?.conditions;
      return [
        [
          ...place,
          pull.madeAt,
          pull.fileName,
          pull.recordingSha256,
          pull.leadDeg,
          pull.lambdaTarget,
          ...mixture.map(({ of }) => of(pull) ?? null),
          used.has(pull.id),
          pull.excludedBecause ?? (pull.isAborted ? 'aborted' : null),
          pull.note === '' ? null : pull.note,
          curve?.correctionFactor ?? null,
          air?.pressureAbsPa ?? null,
          air?.airTemperatureK ?? null,
          air?.humidity ?? null,
          air?.oilTemperatureK ?? null,
          air?.waterTemperatureK ?? null,
          air?.sweepRateRpmPerS ?? null,
          curve?.peakTorque.value ?? typedPeaks?.torqueNm ?? null,
          curve?.peakTorque.low ?? null,
          curve?.peakTorque.high ?? null,
          curve?.peakTorque.speedRpm ?? typedPeaks?.torqueSpeedRpm ?? null,
          curve?.peakPower.value ?? typedPeaks?.powerW ?? null,
          curve?.peakPower.low ?? null,
          curve?.peakPower.high ?? null,
          curve?.peakPower.speedRpm ?? typedPeaks?.powerSpeedRpm ?? null,
        ] satisfies Cell[],
      ];
    }),
  };
}

function pullCurvesTable(handOver: HandOver): Table {
  return {
    name: 'pull-curves',
    title: 'The curve of every pull',
    description: `In the air of ${handOver.choice.standard}; low and high are absolute 95 % bands.`,
    columns: [...PULL, SPEED, ...TORQUE, numbers('powerW', 'Power, corrected')],
    rows: eachPull(handOver, ({ curve }, place) =>
      curve === null
        ? []
        : curve.speedRpm.map((speed, i): Cell[] => [
            ...place,
            speed,
            curve.torqueNm[i]!,
            curve.lowNm[i]!,
            curve.highNm[i]!,
            curve.powerW[i]!,
          ]),
    ),
  };
}

function marksTable(handOver: HandOver): Table {
  return {
    name: 'marks',
    title: 'What stood out in a pull',
    description: 'Blips, drift, missing channels and the like, as seen in each pull.',
    columns: [
      ...PULL,
      words('severity', 'How grave'),
      words('kind', 'Of what kind'),
      words('sentence', 'In words'),
      numbers('fromRpm', 'From speed'),
      numbers('toRpm', 'To speed'),
    ],
    rows: eachPull(handOver, ({ curve }, place) =>
      (curve?.marks ?? []).map((mark): Cell[] => [
        ...place,
        mark.severity,
        mark.kind,
        mark.sentence,
        mark.fromRpm ?? null,
        mark.toRpm ?? null,
      ]),
    ),
  };
}

const eachLadder = <T>(
  { days }: HandOver,
  read: (ladder: HandOver['days'][number]['ladders'][number], day: string) => readonly T[],
): T[] =>
  days.flatMap((day, at) =>
    day.ladders.flatMap((ladder) => read(ladder, day.date ?? (day.name || `day ${at + 1}`))),
  );

function stepsTable(handOver: HandOver): Table {
  return {
    name: 'ladder-steps',
    title: 'What each step of a ladder gained',
    description: 'Gain of mean power over the band of the ladder, with its 95 % interval.',
    columns: [
      words('day', 'Test day'),
      words('ladder', 'Ladder'),
      words('unit', 'Unit of the setting'),
      mixed('from', 'From setting'),
      mixed('to', 'To setting'),
      numbers('gainPercent', 'Gain'),
      numbers('lowPercent', 'Low end'),
      numbers('highPercent', 'High end'),
      words('word', 'In a word'),
    ],
    rows: eachLadder(handOver, ({ name, unit, answer }, day) =>
      (answer?.steps ?? []).map((step): Cell[] => [
        day,
        name,
        unit === '' ? '1' : unit,
        step.from,
        step.to,
        step.gainPercent,
        step.lowPercent,
        step.highPercent,
        step.word,
      ]),
    ),
  };
}

function settingsTable(handOver: HandOver): Table {
  return {
    name: 'settings',
    title: 'Best, knee, limit, and the setting for each use',
    description: 'Empty means not known yet; the reason stands in the last column.',
    columns: [
      words('day', 'Test day'),
      words('ladder', 'Ladder'),
      words('what', 'What'),
      words('unit', 'Unit of the setting'),
      mixed('setting', 'Setting'),
      mixed('low', 'Low end'),
      mixed('high', 'High end'),
      words('why', 'Why'),
    ],
    rows: eachLadder(handOver, ({ name, unit, answer, decision }, day) => {
      const row = (
        what: string,
        value: number | null,
        low: number | null,
        high: number | null,
        why: string | null,
      ): Cell[] => [day, name, what, unit === '' ? '1' : unit, value, low, high, why];
      return [
        ...(answer === null
          ? []
          : [
              row('best', answer.best.value, answer.best.low, answer.best.high, null),
              row('knee', answer.knee.value, answer.knee.low, answer.knee.high, null),
              ...(answer.limit === null
                ? []
                : [row('limit', answer.limit.value, answer.limit.low, answer.limit.high, null)]),
              ...Object.entries(answer.uses).map(([use, one]) =>
                row(`for ${use}`, one.value, null, null, one.why),
              ),
            ]),
        ...(decision === null
          ? []
          : [
              row(
                `left in the engine, for ${decision.use}`,
                decision.setting,
                null,
                null,
                decision.why,
              ),
            ]),
      ];
    }),
  };
}

function figuresTable({ sheet }: HandOver): Table {
  return {
    name: 'sheet-figures',
    title: 'What follows from the build sheet',
    description:
      'In inside units (SI; speeds rev/min, angles degrees); the unit of each stands beside it.',
    columns: [
      words('id', 'Name of the figure'),
      words('label', 'Figure'),
      words('unit', 'Unit'),
      mixed('value', 'Value'),
      mixed('plusMinus', 'Half of its 95 % interval'),
      words('how', 'How it comes about'),
    ],
    rows: (sheet?.figures ?? [])
      .filter(({ value }) => value !== null)
      .map(({ id, label, shown, value, plusMinus, how }): Cell[] => [
        id,
        label,
        insideUnit(shown),
        value,
        plusMinus,
        how,
      ]),
  };
}

function checksTable({ sheet }: HandOver): Table {
  return {
    name: 'sheet-checks',
    title: 'Checks of the build sheet',
    description: 'Each with its window and where the window comes from, in inside units.',
    columns: [
      words('id', 'Name of the check'),
      words('label', 'Check'),
      words('verdict', 'Verdict'),
      words('unit', 'Unit'),
      mixed('value', 'Value'),
      mixed('low', 'Low end of the window'),
      mixed('high', 'High end of the window'),
      words('source', 'Where the window comes from'),
      words('remedy', 'What would bring it right'),
    ],
    rows: (sheet?.checks ?? [])
      .filter(({ verdict }) => verdict !== 'not known')
      .map(({ id, label, verdict, shown, value, window, remedy }): Cell[] => [
        id,
        label,
        verdict,
        insideUnit(shown),
        value,
        window?.low ?? null,
        window?.high ?? null,
        window?.source ?? null,
        remedy,
      ]),
  };
}
