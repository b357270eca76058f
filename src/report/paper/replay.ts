/** A curve drawn in the time of its pull: what is shown, each line with its own time. */
import { InputError } from '../../errors.ts';
import type { CurvesFigure, ReplayWanted, ShownWanted } from '../../figures.ts';
import { type Curve, durationOf, type Pace } from '../../pull/index.ts';
import type { UnitSystem } from '../../units/index.ts';
import type { HandOver } from '../handover/types.ts';
import { linesOf } from './pictures.ts';
import { catalogueOf, type Language } from './say/index.ts';
import { headlinesOf, shownOf } from './shown.ts';
import { Teller } from './tell.ts';

/** A pull whose recording knows its time. */
export interface PacedPull {
  readonly number: number;
  readonly day: { readonly name: string; readonly date: string | null };
  readonly pace: Pace;
}

/**
 * The curve handed over in the time of one of its pulls, that of the build before beside it.
 * @throws InputError  no pull has a curve; no pull that the curve is the mean of has a time of its own
 */
export function replayOf(
  handOver: HandOver,
  { now, before }: { readonly now: PacedPull | null; readonly before: PacedPull | null },
  language: Language,
  units: UnitSystem = handOver.choice.units,
): ReplayWanted {
  const shown = shownOf(handOver, language, units);
  if (now === null)
    throw new InputError(
      'No pull of this curve has a recording with time in it, so nothing is known of its own time.',
    );
  return replayIn(new Teller(catalogueOf(language), units), shown, { now, before });
}

/** One pull, and what it is called where it is drawn. */
export interface PullShown {
  readonly number: number;
  readonly day: PacedPull['day'];
  readonly curve: Curve;
  /** Null: its recording has no time. */
  readonly pace: Pace | null;
}

/**
 * One pull in its own time, another of the shop beside it where one is chosen.
 * @throws InputError  its recording has no time
 */
export function replayOfPull(
  about: Omit<ShownWanted, 'headlines' | 'figure' | 'scenario'>,
  pull: PullShown,
  beside: PullShown | null,
  language: Language,
  units: UnitSystem,
): ReplayWanted {
  const { pace } = pull;
  if (pace === null)
    throw new InputError(
      'The recording of this pull has no time in it (a table by speed), so it has no time of its own to be drawn in.',
    );
  const tell = new Teller(catalogueOf(language), units);
  const { words } = tell;
  const name = ({ number }: PullShown) => words.evidence.pullsNamed([String(number)]);
  const scenario = words.findings.air(pull.curve.standard);
  const shown = {
    ...about,
    scenario,
    headlines: headlinesOf(tell, pull.curve.peakPower, pull.curve.peakTorque),
    figure: {
      kind: 'curves',
      id: 'curve',
      title: words.findings.curve,
      scenario,
      units,
      words: words.charts,
      bandRpm: null,
      series: [
        {
          ...linesOf(pull.curve),
          id: 'now',
          label: beside === null ? '' : name(pull),
          setting: null,
        },
        ...(beside === null
          ? []
          : [
              {
                ...linesOf(beside.curve),
                id: 'before',
                label: name(beside),
                setting: null,
                faint: true,
              },
            ]),
      ],
    },
  } as const satisfies ReplayWanted['shown'];
  const paced = (one: PullShown): PacedPull | null =>
    one.pace === null ? null : { ...one, pace: one.pace };
  return replayIn(tell, shown, {
    now: { ...pull, pace },
    before: beside === null ? null : paced(beside),
  });
}

function replayIn(
  tell: Teller,
  shown: ShownWanted & { readonly figure: CurvesFigure },
  { now, before }: { readonly now: PacedPull; readonly before: PacedPull | null },
): ReplayWanted {
  const say = tell.words.replay;
  const [, other] = shown.figure.series;
  const inTime = (line: string, { number, day }: PacedPull) => {
    const pull = tell.words.evidence.pullsNamed([String(number)]);
    return say.inTime({ line, pull: line === pull ? '' : pull, day: tell.day(day) });
  };
  const told = [
    inTime(shown.figure.series[0]!.label, now),
    ...(other === undefined
      ? []
      : [before === null ? say.atSameSpeed(other.label) : inTime(other.label, before)]),
  ];
  return {
    shown,
    durationS: Math.max(durationOf(now.pace), before === null ? 0 : durationOf(before.pace)),
    paces: { now: now.pace, ...(other === undefined ? {} : { [other.id]: before?.pace ?? null }) },
    told: told.map((line) => line.charAt(0).toUpperCase() + line.slice(1)),
    words: { time: say.time, speed: say.speed, readme: say.readme },
  };
}
