/** The first page: what was found, in sentences that an owner understands, with one picture. */
import type { Banded } from '../../pull/index.ts';
import type { HandOver } from '../handover/types.ts';
import type { Block } from './blocks.ts';
import { finalFigure } from './pictures.ts';
import type { Teller } from './tell.ts';

export function findings(handOver: HandOver, tell: Teller): Block[] {
  const { words } = tell;
  return [
    {
      kind: 'heading',
      level: 1,
      text: `${handOver.engine.name}, ${handOver.build.name}`,
      over: words.title,
    },
    ...(handOver.shop.isInvented
      ? [{ kind: 'paragraph', text: words.invented, quiet: true } as const]
      : []),
    { kind: 'facts', rows: headRows(handOver, tell), beside: true },
    { kind: 'heading', level: 2, text: words.findings.title },
    ...whatItGave(handOver, tell),
    ...whatWasLeft(handOver, tell),
    ...gained(handOver, tell),
    ...cautions(handOver, tell),
    { kind: 'paragraph', text: words.findings.limits, quiet: true },
  ];
}

function headRows(handOver: HandOver, tell: Teller): (readonly [string, string])[] {
  const { engine, build, shop, madeAt, choice, days } = handOver;
  const { head } = tell.words;
  const known = (label: string, text: string): (readonly [string, string])[] =>
    text === '' ? [] : [[label, text]];
  const dates = [...new Set(days.flatMap(({ date }) => (date === null ? [] : [date])))];
  const by = [choice.by, shop.name, shop.address ?? ''].filter((one) => one !== '').join(', ');
  return [
    ...known(head.serial, engine.serial),
    ...known(head.owner, engine.owner),
    ...known(
      head.displacement,
      build.displacementM3 === null ? '' : tell.quantity(build.displacementM3, 'displacement'),
    ),
    ...known(head.cylinders, build.cylinders === null ? '' : String(build.cylinders)),
    ...known(
      head.compressionRatio,
      build.compressionRatio === null ? '' : `${tell.plain(build.compressionRatio, 1)} : 1`,
    ),
    ...known(head.fuel, [...new Set(days.map(({ fuel }) => tell.toldOrTyped(fuel)))].join(', ')),
    ...known(head.tested, tell.words.list(dates.map((date) => tell.date(date)))),
    [head.madeOn, tell.date(madeAt)],
    ...known(head.madeBy, by),
  ];
}

function whatItGave(handOver: HandOver, tell: Teller): Block[] {
  const { findings: say } = tell.words;
  const { final, choice } = handOver;
  if (final === null) return typedPeaks(handOver, tell);
  const { peakPowerW, peakTorqueNm, meanPowerW, meanTorqueNm } = final;
  const band = tell.band(final.bandRpm);
  const figure = (label: string, banded: Banded, kind: 'power' | 'torque', where: string) => ({
    label,
    ...tell.bandedParts(banded, kind),
    where,
  });
  const at = (rpm: number) => tell.words.at(tell.speed(rpm));
  return [
    {
      kind: 'headline',
      figures: [
        figure(say.peakPower, peakPowerW, 'power', at(peakPowerW.speedRpm)),
        figure(say.peakTorque, peakTorqueNm, 'torque', at(peakTorqueNm.speedRpm)),
        figure(say.meanPower, meanPowerW, 'power', band),
        figure(say.meanTorque, meanTorqueNm, 'torque', band),
      ],
    },
    {
      kind: 'paragraph',
      text: say.basis({ air: say.air(choice.standard), pulls: final.pullIds.length }),
    },
    {
      kind: 'figure',
      figure: finalFigure(handOver, tell),
      caption: say.curveCaption(pullNames(handOver, final.pullIds, tell)),
      height: 300,
    },
  ];
}

/** Typed peaks that the first page has room for; the table of pulls has all. */
const MOST_PEAKS = 6;

/**
 * A build that nobody recorded a pull of: the peaks as somebody typed them, at the setting left in the engine where that
 * was decided, without a band.
 */
function typedPeaks({ days }: HandOver, tell: Teller): Block[] {
  const { findings: say } = tell.words;
  const typed = days.flatMap((day) =>
    day.pulls.flatMap((pull) => {
      const { typedPeaks: peaks, excludedBecause, isAborted } = pull;
      return peaks === null || excludedBecause !== null || isAborted ? [] : [{ day, pull, peaks }];
    }),
  );
  if (typed.length === 0) return [{ kind: 'paragraph', text: say.noCurve }];
  const left = typed.filter(({ day, pull }) =>
    day.ladders.some(
      ({ setting, decision }) =>
        decision !== null &&
        decision.setting !== null &&
        decision.setting === (setting === 'lead' ? pull.leadDeg : pull.lambdaTarget),
    ),
  );
  const of = left.length === 0 ? typed : left;
  const figure = (value: number | null, kind: 'power' | 'torque', rpm: number | null) =>
    value === null
      ? ''
      : `${tell.quantity(value, kind)}${rpm === null ? '' : ` ${tell.words.at(tell.speed(rpm))}`}`;
  const items = of.slice(0, MOST_PEAKS).map(({ day, pull, peaks }) => {
    const power = figure(peaks.powerW, 'power', peaks.powerSpeedRpm);
    const torque = figure(peaks.torqueNm, 'torque', peaks.torqueSpeedRpm);
    const at = [
      ...(days.length > 1 ? [tell.day(day)] : []),
      ...(pull.leadDeg === null ? [] : [tell.setting(pull.leadDeg, 'deg')]),
      ...(pull.lambdaTarget === null ? [] : [`${say.lambda} ${tell.plain(pull.lambdaTarget, 2)}`]),
      say.typedAir(peaks.air ?? 'unknown'),
    ].join(', ');
    const said = [
      ...(power === '' ? [] : [`${say.peakPower} ${power}`]),
      ...(torque === '' ? [] : [`${say.peakTorque} ${torque}`]),
    ].join(', ');
    return `${tell.words.evidence.pull} ${pull.number} (${at}): ${said}.`;
  });
  return [
    { kind: 'paragraph', text: say.typedPeaks },
    { kind: 'list', items },
    ...(of.length > items.length
      ? [{ kind: 'paragraph', text: say.moreTyped(of.length - items.length), quiet: true } as const]
      : []),
  ];
}

/** `pulls 3 and 4`, with their day where there are several. */
function pullNames({ days }: HandOver, ids: readonly string[], tell: Teller): string {
  const told = days.flatMap((day) => {
    const own = day.pulls.filter(({ id }) => ids.includes(id)).map(({ number }) => String(number));
    if (own.length === 0) return [];
    const pulls = tell.words.evidence.pullsNamed(own);
    return [days.length > 1 ? `${pulls} (${tell.day(day)})` : pulls];
  });
  return tell.words.list(told);
}

function whatWasLeft({ days }: HandOver, tell: Teller): Block[] {
  const { findings: say } = tell.words;
  const decided = days.flatMap((day) =>
    day.ladders.flatMap((ladder) => {
      const { decision, unit, answer } = ladder;
      if (decision === null || decision.setting === null) return [];
      const setting = `${tell.settingName(ladder.setting)} ${tell.setting(decision.setting, unit)}`;
      return [
        [
          say.left({
            setting,
            use: tell.toldOrTyped(decision.use),
            who: decision.who,
            date: tell.date(decision.decidedAt),
            why: decision.why,
          }),
          say.advised(decision.advised === null ? null : tell.setting(decision.advised, unit)),
          ...(answer !== null && !answer.limitWatched ? [tell.words.settings.notWatched] : []),
        ].join(' '),
      ];
    }),
  );
  return [
    { kind: 'heading', level: 2, text: say.settings },
    decided.length === 0
      ? { kind: 'paragraph', text: say.noDecision }
      : { kind: 'list', items: decided },
  ];
}

function gained({ sinceLast }: HandOver, tell: Teller): Block[] {
  const { findings: say } = tell.words;
  if (sinceLast === null) return [];
  const { comparison, whyNoComparison, build } = sinceLast;
  const title = { kind: 'heading', level: 2, text: say.gainTitle(build.name) } as const;
  const pair = comparison?.answer.pairs[0];
  if (pair === undefined)
    return [
      title,
      {
        kind: 'paragraph',
        text: whyNoComparison === null ? say.noComparison : tell.told(whyNoComparison),
      },
    ];
  const { gain, word, regions, crossings } = pair;
  return [
    title,
    {
      kind: 'list',
      items: [
        say.gain({
          before: build.name,
          // "16.6 % more" needs no sign; a difference that may be either way does.
          percent: tell.percent(gain.value, !isMore(word)),
          low: tell.percent(gain.low, !isMore(word)),
          high: tell.percent(gain.high, !isMore(word)),
          band: tell.band(comparison!.answer.bandRpm),
          word,
        }),
        ...(regions.length === 0
          ? [say.noRegion]
          : regions.map((region) =>
              say.region({
                gain: region.word === 'gain',
                from: tell.speed(region.fromRpm),
                to: tell.speed(region.toRpm),
                most: tell.percent(Math.abs(region.mostPercent)),
                at: tell.speed(region.mostAtRpm),
              }),
            )),
        ...crossings.map(({ speedRpm, lowRpm, highRpm }) =>
          say.crossing(tell.speed(speedRpm), tell.speed(lowRpm), tell.speed(highRpm)),
        ),
        ...(pair.besides === null ? [] : [tell.told(pair.besides)]),
      ],
    },
  ];
}

const isMore = (word: string): boolean => word === 'real' || word === 'small';

function cautions({ cautions: all, sinceLast }: HandOver, tell: Teller): Block[] {
  const { findings: say } = tell.words;
  const items = [...new Set([...all, ...(sinceLast?.comparison?.warnings ?? [])])].map((one) =>
    tell.told(one),
  );
  if (items.length === 0) return [{ kind: 'paragraph', text: say.noCautions }];
  return [{ kind: 'care', word: say.cautions, items }];
}
