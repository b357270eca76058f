/** Which pictures the report asks for, out of the hand-over. */

import { differenceIn } from '../../compare/index.ts';
import type { CurvesFigure, DifferenceFigure, FigureWanted, GainFigure } from '../../figures.ts';
import { SETTING_KINDS, type SettingName } from '../../ladder/index.ts';
import { shortened } from '../../signs.ts';
import type { HandedCurve, HandedDay, HandedLadder, HandOver } from '../handover/types.ts';
import type { Teller } from './tell.ts';

const scenarioOf = ({ engine, build, choice }: HandOver): string =>
  [engine.name, build.name, choice.standard === 'none' ? '' : choice.standard]
    .filter((one) => one !== '')
    .join(', ');

/** What of a curve is drawn. */
export const linesOf = ({
  speedRpm,
  torqueNm,
  lowNm,
  highNm,
  powerW,
}: Pick<HandedCurve, 'speedRpm' | 'torqueNm' | 'lowNm' | 'highNm' | 'powerW'>) => ({
  speedRpm,
  torqueNm,
  lowNm,
  highNm,
  powerW,
});

/** The curve handed over, with the build before it where there is one. */
export function finalFigure(handOver: HandOver, tell: Teller): CurvesFigure {
  const { final, sinceLast } = handOver;
  const { findings } = tell.words;
  const before = sinceLast?.comparison?.before ?? null;
  return {
    kind: 'curves',
    id: 'curve',
    title: findings.curve,
    scenario: scenarioOf(handOver),
    units: tell.units,
    words: tell.words.charts,
    bandRpm: final?.bandRpm ?? null,
    series: [
      ...(final === null
        ? []
        : [
            {
              ...linesOf(final),
              id: 'now',
              label: before === null ? '' : findings.now,
              setting: null,
            },
          ]),
      ...(before === null
        ? []
        : [
            {
              ...linesOf(before),
              id: 'before',
              label: findings.before,
              setting: null,
              faint: true,
            },
          ]),
    ],
  };
}

/** Names that have room beside each half of a picture of a day. */
const MOST_NAMES = 7;

export function pullsFigure(handOver: HandOver, day: HandedDay, tell: Teller): CurvesFigure {
  const settings = new Set(day.pulls.map((pull) => pull.leadDeg));
  const drawn = day.pulls.filter((pull) => pull.curve !== null);
  // More names than have room: then each setting is named once, and of too many settings some, evenly.
  const first = new Map([...drawn].reverse().map((pull) => [pull.leadDeg, pull.id]));
  const isNamedOnce = drawn.length > MOST_NAMES;
  const apart = [...first.keys()].filter((one) => one !== null).sort((a, b) => a - b);
  const step = Math.ceil(apart.length / MOST_NAMES);
  const named = new Set(apart.filter((_, at) => at % step === 0));
  return {
    kind: 'curves',
    id: `pulls-${day.id}`,
    title: tell.words.evidence.curves(tell.day(day)),
    scenario: scenarioOf(handOver),
    units: tell.units,
    words: tell.words.charts,
    bandRpm: day.ladders[0]?.bandRpm ?? null,
    series: day.pulls.flatMap(({ id, number, leadDeg, excludedBecause, isAborted, curve }) =>
      curve === null
        ? []
        : [
            {
              ...linesOf(curve),
              id,
              label: isNamedOnce
                ? first.get(leadDeg) === id &&
                  settings.size > 1 &&
                  leadDeg !== null &&
                  named.has(leadDeg)
                  ? tell.setting(leadDeg, 'deg')
                  : ''
                : leadDeg !== null && settings.size > 1
                  ? `${number}: ${tell.setting(leadDeg, 'deg')}`
                  : String(number),
              setting: settings.size > 1 ? leadDeg : null,
              faint: excludedBecause !== null || isAborted,
            },
          ],
    ),
  };
}

/** Letters of the name of a use that have room in a picture. */
const MOST_LETTERS = 24;

export function ladderFigures(
  handOver: HandOver,
  { id, name, unit, setting, answer, bandRpm, decision }: HandedLadder,
  tell: Teller,
): FigureWanted[] {
  if (answer === null) return [];
  const about = {
    scenario: scenarioOf(handOver),
    units: tell.units,
    words: tell.words.charts,
  };
  const uses = Object.entries(answer.uses).flatMap(([use, { value }]) =>
    value === null
      ? []
      : [
          {
            name: shortened(tell.toldOrTyped(use), MOST_LETTERS),
            value,
            chosen: use === decision?.use,
          },
        ],
  );
  const all = answer.dots.map((dot) => dot.setting);
  const steps = answer.steps.filter((step) => step.bySpeed.speedRpm.length > 1);
  const speeds = steps.flatMap((step) => [
    step.bySpeed.speedRpm[0]!,
    step.bySpeed.speedRpm.at(-1)!,
  ]);
  const full = [Math.min(...speeds), Math.max(...speeds)] as const;
  return [
    ...(answer.response.setting.length < 2
      ? []
      : [
          {
            kind: 'response',
            id: `response-${id}`,
            title: tell.words.evidence.response(tell.toldOrTyped(name)),
            ...about,
            answer: {
              response: answer.response,
              dots: answer.dots,
              best: answer.best,
              knee: answer.knee,
              limit: answer.limit,
            },
            uses,
            settingUnit: unit,
            axis: tell.settingName(setting),
            safeDirection: SETTING_KINDS[setting as SettingName]?.safeDirection ?? 'lower',
          } as const,
        ]),
    ...(steps.length === 0
      ? []
      : [
          {
            kind: 'gain',
            id: `gain-${id}`,
            title: tell.words.evidence.gains(tell.toldOrTyped(name)),
            ...about,
            steps: steps.map((step) => ({
              ...step,
              besides: step.besides === null ? null : tell.stood(step.besides),
            })),
            settingUnit: unit,
            settings: [Math.min(...all), Math.max(...all)],
            bandRpm: bandRpm ?? full,
            fullRpm: full,
          } satisfies GainFigure,
        ]),
  ];
}

export function differenceFigure(handOver: HandOver, tell: Teller): DifferenceFigure | null {
  const comparison = handOver.sinceLast?.comparison ?? null;
  const pair = comparison?.answer.pairs[0];
  if (comparison === null || pair === undefined) return null;
  return {
    kind: 'difference',
    id: 'difference',
    title: tell.words.changes.gainBySpeed(handOver.build.name),
    scenario: scenarioOf(handOver),
    units: tell.units,
    words: tell.words.charts,
    letter: tell.words.findings.now,
    against: tell.words.findings.before,
    difference: differenceIn(pair.bySpeed, 'percent'),
    crossings: pair.crossings,
    gain: pair.gain,
    word: pair.word,
    bandRpm: comparison.answer.bandRpm,
  };
}
