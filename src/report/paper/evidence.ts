/** The pages after the first: everything that the findings rest on. */
import type { LadderAnswer } from '../../ladder/types.ts';
import { bySpeed } from '../handover/tables.ts';
import type { HandedDay, HandedLadder, HandedPull, HandOver } from '../handover/types.ts';
import { type Block, left, right, wide, withoutUnknown } from './blocks.ts';
import { differenceFigure, ladderFigures, pullsFigure } from './pictures.ts';
import { planBlocks } from './planBlocks.ts';
import { changesBlocks, sheetBlocks } from './sheetBlocks.ts';
import type { Teller } from './tell.ts';

/** Which recordings stand in the bundle, and who signed it. */
export interface Signed {
  readonly publicKey: string;
  readonly keyName: string;
}

export function evidence(handOver: HandOver, signed: Signed | null, tell: Teller): Block[] {
  return [
    { kind: 'newPage' },
    { kind: 'heading', level: 1, text: tell.words.evidence.title, contents: true },
    ...handOver.days.flatMap((day) => dayBlocks(handOver, day, tell)),
    ...speedTable(handOver, tell),
    ...sheetBlocks(handOver, tell),
    ...changes(handOver, tell),
    ...handOver.days.flatMap((day) => planBlocks(day, tell)),
    ...notes(handOver, tell),
    ...howToCheck(handOver, signed, tell),
  ];
}

function dayBlocks(handOver: HandOver, day: HandedDay, tell: Teller): Block[] {
  const say = tell.words.evidence;
  const name = tell.day(day);
  const hasCurves = day.pulls.some(({ curve }) => curve !== null);
  return [
    { kind: 'heading', level: 2, text: say.day(name) },
    { kind: 'facts', rows: dayRows(handOver, day, tell), beside: true },
    ...longRows(day, tell),
    ...(day.pulls.length === 0
      ? [{ kind: 'paragraph', text: say.noPull } as const]
      : [pullsTable(handOver, day, tell), ...marks(day, tell)]),
    ...(hasCurves
      ? [
          {
            kind: 'figure',
            figure: pullsFigure(handOver, day, tell),
            caption: say.curvesCaption,
            height: 320,
          } as const,
        ]
      : []),
    ...day.ladders.flatMap((ladder) => ladderBlocks(handOver, ladder, tell)),
  ];
}

function dayRows(
  { choice }: HandOver,
  { date, cell, fuel, octane, fuelBatch }: HandedDay,
  tell: Teller,
): (readonly [string, string])[] {
  const say = tell.words.evidence;
  return [
    [say.date, tell.date(date)],
    [say.cell, cell.name],
    [
      say.inertia,
      cell.inertiaKgM2 === null ? say.inertiaUnknown : tell.quantity(cell.inertiaKgM2, 'inertia'),
    ],
    ...(cell.remarks.length === 0 ? [calibratedRow(cell, tell)] : []),
    [say.air, tell.air(choice.standard)],
    [
      say.fuel,
      [
        tell.toldOrTyped(fuel),
        ...(octane === null ? [] : [`${say.octane} ${octane}`]),
        ...(fuelBatch === '' ? [] : [`${say.batch} ${fuelBatch}`]),
      ].join(', '),
    ],
  ];
}

/** How the cell's torque stood to its calibration; what the cell has to say of it makes a row a long one. */
function calibratedRow(
  { calibratedOn, calibrationDue, remarks }: HandedDay['cell'],
  tell: Teller,
): readonly [string, string] {
  const say = tell.words.evidence;
  const calibrated =
    calibratedOn === null
      ? say.neverCalibrated
      : say.calibratedOn(
          tell.date(calibratedOn),
          calibrationDue === null ? null : tell.date(calibrationDue),
        );
  return [say.calibrated, [calibrated, ...remarks.map((one) => tell.told(one))].join('. ')];
}

/** What takes more than half a line. */
function longRows({ cell, configuration, notes }: HandedDay, tell: Teller): Block[] {
  const say = tell.words.evidence;
  const stood = Object.entries(configuration).map(
    ([what, how]) => `${say.configured[what] ?? what}: ${how}`,
  );
  const rows: (readonly [string, string])[] = [
    ...(cell.remarks.length === 0 ? [] : [calibratedRow(cell, tell)]),
    ...(stood.length === 0 ? [] : [[say.configuration, stood.join('; ')] as const]),
    ...(notes === '' ? [] : [[say.notes, notes] as const]),
  ];
  return rows.length === 0 ? [] : [{ kind: 'facts', rows }];
}

function pullsTable({ final }: HandOver, { pulls }: HandedDay, tell: Teller): Block {
  const say = tell.words.evidence;
  const inCurve = new Set(final?.pullIds ?? []);
  const lambdaOf = ({ lambdaMeasured, lambdaTarget }: HandedPull) => lambdaMeasured ?? lambdaTarget;
  const withLambda = pulls.some((pull) => lambdaOf(pull) !== null);
  const peak = (pull: HandedPull, kind: 'torque' | 'power') => {
    const typed = kind === 'torque' ? pull.typedPeaks?.torqueNm : pull.typedPeaks?.powerW;
    const curve = kind === 'torque' ? pull.curve?.peakTorque : pull.curve?.peakPower;
    return tell.number(curve?.value ?? typed ?? null, kind);
  };
  const table = {
    kind: 'table',
    caption: say.pulls,
    columns: [
      right(say.pull),
      right(say.lead),
      ...(withLambda ? [right(say.lambda)] : []),
      right(tell.headed(say.airPressure, 'barometer')),
      right(tell.headed(say.airTemperature, 'temperature')),
      right(`${say.humidity}, %`),
      right(say.factor),
      right(say.sweep),
      right(tell.headed(say.peakTorque, 'torque')),
      right(tell.headed(say.peakPower, 'power')),
      wide(say.counted),
    ],
    rows: pulls.map((pull) => {
      const air = pull.curve?.conditions;
      const why = pull.excludedBecause;
      return [
        String(pull.number),
        tell.setting(pull.leadDeg, 'deg').replace(tell.words.notKnown, '–'),
        ...(withLambda ? [tell.plain(lambdaOf(pull), 3)] : []),
        tell.number(air?.pressureAbsPa ?? null, 'barometer'),
        tell.number(air?.airTemperatureK ?? null, 'temperature'),
        tell.plain(air?.humidity == null ? null : 100 * air.humidity, 0),
        tell.plain(pull.curve?.correctionFactor ?? null, 4),
        tell.plain(air?.sweepRateRpmPerS == null ? null : Math.abs(air.sweepRateRpmPerS), 0),
        peak(pull, 'torque'),
        peak(pull, 'power'),
        why !== null
          ? say.leftOut(tell.toldOrTyped(why))
          : pull.isAborted
            ? say.aborted
            : pull.whyNoCurve !== null
              ? tell.told(pull.whyNoCurve)
              : inCurve.has(pull.id)
                ? say.inCurve
                : say.usedToo,
      ];
    }),
    note: say.pullsNote,
  } as const;
  return withoutUnknown(table, tell.words.notKnown);
}

/** What stood out, said once for the pulls that share it. */
function marks({ pulls }: HandedDay, tell: Teller): Block[] {
  const say = tell.words.evidence;
  const bySentence = new Map<string, number[]>();
  for (const { number, curve } of pulls)
    for (const { sentence } of curve?.marks ?? [])
      bySentence.set(sentence, [...(bySentence.get(sentence) ?? []), number]);
  if (bySentence.size === 0) return [];
  return [
    { kind: 'heading', level: 3, text: say.marks },
    {
      kind: 'list',
      items: [...bySentence].map(
        ([sentence, numbers]) =>
          `${capital(say.pullsNamed([...new Set(numbers)].map(String)))}: ${tell.told(sentence)}`,
      ),
    },
  ];
}

const capital = (text: string) => text.charAt(0).toUpperCase() + text.slice(1);

function ladderBlocks(handOver: HandOver, ladder: HandedLadder, tell: Teller): Block[] {
  const say = tell.words.settings;
  const { name, answer, unit, whyNone, decision } = ladder;
  // Nothing was stepped: what the shop could try next is nothing for its reader.
  if (answer !== null && decision === null && !stepsSome(answer)) return [];
  const title = { kind: 'heading', level: 3, text: tell.toldOrTyped(name) } as const;
  if (answer === null)
    return [
      title,
      { kind: 'paragraph', text: whyNone === null ? tell.words.notKnown : tell.told(whyNone) },
    ];
  const span = ({ low, high }: { low: number | null; high: number | null }) => {
    const at = (setting: number) => tell.setting(setting, unit, true);
    if (low !== null && high !== null) return tell.words.range(at(low), at(high), '').trim();
    return low !== null ? say.above(at(low)) : high !== null ? say.below(at(high)) : '–';
  };
  const row = (
    what: string,
    value: number | null,
    interval: string,
    gives: string,
    why: string,
  ) => [what, tell.setting(value, unit, true), interval, gives, tell.told(why)];
  return [
    title,
    {
      kind: 'paragraph',
      text: [answer.headline, answer.summary]
        .filter((one) => one !== '')
        .map((one) => tell.told(one))
        .join(' '),
    },
    ...(isAnythingKnown(answer)
      ? [
          {
            kind: 'table',
            caption: say.title,
            columns: [
              left(say.what),
              right(say.setting),
              left(say.interval),
              right(say.givesUp),
              wide(say.why),
            ],
            rows: [
              row(say.best, answer.best.value, span(answer.best), '', ''),
              row(say.knee, answer.knee.value, span(answer.knee), '', ''),
              ...(answer.limit === null
                ? []
                : [row(say.limit, answer.limit.value, span(answer.limit), '', '')]),
              ...Object.entries(answer.uses).map(([use, one]) =>
                row(
                  say.forUse(tell.toldOrTyped(use)),
                  one.value,
                  '',
                  one.givesUpPercent === null ? '–' : `${tell.percent(one.givesUpPercent)} %`,
                  one.why,
                ),
              ),
            ],
            ...(answer.limitWatched ? {} : { note: say.notWatched }),
          } as const,
        ]
      : answer.limitWatched
        ? []
        : [{ kind: 'paragraph', text: say.notWatched } as const]),
    ...picturesOf(handOver, ladder, tell).map(
      (figure): Block => ({
        kind: 'figure',
        figure,
        caption:
          figure.kind === 'gain'
            ? tell.words.evidence.gainsCaption
            : tell.words.evidence.responseCaption(unit === 'deg' ? '°' : unit),
        height: figure.kind === 'gain' ? 90 + 80 * figure.steps.length : 260,
      }),
    ),
    ...(answer.steps.length === 0
      ? []
      : [
          {
            kind: 'table',
            caption: tell.words.evidence.steps,
            columns: [
              left(say.step),
              right(`${say.gain}, %`),
              left(`${say.interval}, %`),
              wide(say.word),
            ],
            rows: answer.steps.map((step) => [
              tell.words
                .range(tell.setting(step.from, unit), tell.setting(step.to, unit), '')
                .trim(),
              tell.percent(step.gainPercent, true),
              tell.words
                .range(
                  tell.percent(step.lowPercent, true),
                  tell.percent(step.highPercent, true),
                  '',
                )
                .trim(),
              [
                say.words[step.word],
                ...(step.besides === null ? [] : [tell.stood(step.besides)]),
              ].join('; '),
            ]),
          } as const,
        ]),
  ];
}

/** Best, knee or limit, if on one side alone, or a setting for any use; where nothing is, the sentence above has said so. */
const isAnythingKnown = ({ best, knee, limit, uses }: LadderAnswer): boolean =>
  [best, knee, limit].some((one) => one !== null && (one.value ?? one.low ?? one.high) !== null) ||
  Object.values(uses).some(({ value }) => value !== null);

const stepsSome = ({ dots }: Pick<LadderAnswer, 'dots'>): boolean =>
  new Set(dots.map(({ setting }) => setting)).size > 1;

/** One setting alone draws no response: all beside its dots would be what was assumed. */
const picturesOf = (handOver: HandOver, ladder: HandedLadder, tell: Teller) =>
  ladderFigures(handOver, ladder, tell).filter(
    (figure) => figure.kind !== 'response' || stepsSome(figure.answer),
  );

function speedTable(handOver: HandOver, tell: Teller): Block[] {
  const say = tell.words.evidence;
  const rows = bySpeed(handOver);
  if (rows.length === 0) return [];
  return [
    {
      kind: 'table',
      caption: say.bySpeed,
      columns: [
        right(say.speed),
        right(tell.headed(say.torque, 'torque')),
        right(tell.headed(say.low, 'torque')),
        right(tell.headed(say.high, 'torque')),
        right(tell.headed(say.power, 'power')),
      ],
      rows: rows.map(([speed, torque, low, high, power]) => [
        tell.plain(speed, 0),
        tell.number(torque, 'torque'),
        tell.number(low, 'torque'),
        tell.number(high, 'torque'),
        tell.number(power, 'power'),
      ]),
      note: say.bySpeedNote(handOver.choice.standard),
      halves: true,
    },
  ];
}

function changes(handOver: HandOver, tell: Teller): Block[] {
  const figure = differenceFigure(handOver, tell);
  return [
    ...changesBlocks(handOver, tell),
    ...(figure === null
      ? []
      : [
          {
            kind: 'figure',
            figure,
            caption: tell.words.changes.gainBySpeedCaption,
            height: 240,
          } as const,
        ]),
  ];
}

function notes({ choice, build }: HandOver, tell: Teller): Block[] {
  const texts = [choice.notes, build.notes]
    .flatMap((text) => text.split(/\n\s*\n/))
    .map((text) => text.trim())
    .filter((text) => text !== '');
  if (texts.length === 0) return [];
  return [
    { kind: 'heading', level: 2, text: tell.words.notes },
    ...texts.map((text) => ({ kind: 'paragraph', text }) as const),
  ];
}

function howToCheck(handOver: HandOver, signed: Signed | null, tell: Teller): Block[] {
  const say = tell.words.check;
  const { versions, days, choice } = handOver;
  const recordings = new Map(
    days.flatMap(({ pulls }) =>
      pulls.flatMap(({ recordingSha256, fileName }) =>
        recordingSha256 === null ? [] : [[recordingSha256, fileName ?? ''] as const],
      ),
    ),
  );
  return [
    { kind: 'heading', level: 2, text: say.title },
    { kind: 'paragraph', text: say.how },
    { kind: 'paragraph', text: say.bands },
    {
      kind: 'facts',
      rows: [
        [say.standard, tell.air(choice.standard)],
        [
          say.versions,
          Object.entries(versions)
            .map(([name, version]) => `${name}\u00a0${version}`)
            .join(', '),
        ],
        ...(signed === null
          ? []
          : ([
              [say.key, signed.publicKey],
              [say.keyName, signed.keyName],
            ] as const)),
      ],
    },
    ...(recordings.size === 0
      ? []
      : [
          {
            kind: 'table',
            caption: say.recordings,
            columns: [wide(say.recording), left(say.digest)],
            rows: [...recordings].map(([digest, file]) => [file, digest]),
          } as const,
        ]),
  ];
}
