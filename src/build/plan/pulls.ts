import { SETTING_KINDS, type UseRule, WORTH_PERCENT } from '../../ladder/index.ts';
import type { Ask } from '../compute/ask.ts';
import type { Figure, SheetAnswer } from '../compute/types.ts';
import type { WindowRule } from '../compute/windows.ts';
import { windowFor } from './limits.ts';
import { COMMON, itemsOf, labelsOf, q, say } from './say.ts';
import type { PlanItem } from './types.ts';

const first = itemsOf('firstSettings', { weight: 'must', beforeFirstStart: true });
const sweep = itemsOf('sweeps');
const ladder = itemsOf('ladder');
const have = itemsOf('consumables');

/** Pulls of a day and minutes at part load (run-in, warm-up), where nobody plans otherwise: ours, no source. */
const USUAL_DAY = { pulls: 15, partLoadMinutes: 60 } as const;
/** Fuel at part load as a share of that at the power intended, and the reserve on top: ours, no source. */
const PART_LOAD_SHARE = 1 / 3;
const RESERVE = 1.3;

const figureOf = (answer: SheetAnswer, id: string): Figure | undefined =>
  answer.figures.find((figure) => figure.id === id);

/** One window to begin in, its reasons, or why there is none. */
function settingItems(
  answer: SheetAnswer,
  id: string,
  what: string,
  lowId: string,
  highId: string,
) {
  const [low, high] = [figureOf(answer, lowId), figureOf(answer, highId)];
  const missing = low?.missing ?? [];
  const reasons = (low?.notes ?? []).map(({ sentence }) => sentence).join(' ');
  const sources = [...new Set((low?.notes ?? []).map(({ source }) => source))].filter(
    (one) => one !== null,
  );
  const source = sources.length === 0 ? COMMON : sources.join('; ');
  if (low?.value != null && high?.value != null) {
    const decimals = low.decimals === null ? {} : { decimals: low.decimals };
    return first(
      id,
      say`${what}: begin between ${q(low.value, low.shown, decimals)} and ${q(high.value, high.shown, decimals)} at full throttle. ${reasons}`,
      { source },
    );
  }
  if (missing.length > 0)
    return first(id, say`${what}: no first window yet. Fill in first: ${labelsOf(missing)}.`, {
      measure: missing,
    });
  return first(id, say`${what}: no first window is given here. ${low?.problem ?? reasons}`, {
    source,
  });
}

export function firstSettingItems(answer: SheetAnswer): readonly PlanItem[] {
  return [
    settingItems(answer, 'firstSettings.lead', 'Spark lead', 'startLeadLow', 'startLeadHigh'),
    settingItems(answer, 'firstSettings.mixture', 'Lambda', 'startLambdaRich', 'startLambdaLean'),
    first(
      'firstSettings.short',
      say`The first pulls are short and end well below the highest speed; one thing is changed at a time.`,
    ),
  ];
}

/** Speeds of a sweep; null where the sheet does not say. */
function speedsOf(ask: Ask) {
  const [low, high] = [
    ask.numberOrNull('intent.lowSpeed'),
    ask.numberOrNull('intent.highestSpeed'),
  ];
  return low !== null && high !== null && low < high ? { low, high } : null;
}

export function sweepItems(ask: Ask, rules: readonly WindowRule[]): readonly PlanItem[] {
  const speeds = speedsOf(ask);
  const rate = windowFor(ask, rules, 'sweepRate');
  return [
    speeds === null
      ? sweep(
          'sweeps.speeds',
          say`Say on the sheet between which speeds to pull: the lowest at full throttle and the highest.`,
          { measure: ['intent.lowSpeed', 'intent.highestSpeed'] },
        )
      : sweep(
          'sweeps.speeds',
          say`Sweep from ${q(speeds.low, 'speed')} to just short of ${q(speeds.high, 'speed')}.`,
          { source: 'the build sheet' },
        ),
    rate?.low == null || rate.high === null
      ? sweep('sweeps.rate', say`Sweep every pull at one rate; no window of rates is set.`, {
          window: 'sweepRate',
        })
      : sweep(
          'sweeps.rate',
          say`Sweep every pull at one rate, between ${q(rate.low, 'speed')} and ${q(rate.high, 'speed')} a second.`,
          { window: 'sweepRate', source: rate.source },
        ),
    sweep(
      'sweeps.twice',
      say`Make the first full pull twice without touching anything: the difference is what the cell repeats to.`,
    ),
  ];
}

/** What a ladder of lead usually comes to; never promised. */
export function ladderItems(answer: SheetAnswer, use: UseRule | null): readonly PlanItem[] {
  const kind = SETTING_KINDS.lead;
  const [middle, spread] = kind.startShortPrior;
  const rungs = (deg: number) => Math.max(1, Math.ceil(deg / kind.defaultRung));
  const [few, many] = [rungs(middle - 2 * spread), rungs(middle + 2 * spread)];
  const start = figureOf(answer, 'startLeadLow');
  const deg = (value: number) => q(value, 'angle', { decimals: 0 });
  return [
    start?.value == null
      ? ladder(
          'ladder.first',
          say`First rung: there is no first window above to take it from; take it well to the safe side of where the best is expected.`,
          { measure: start?.missing ?? [] },
        )
      : ladder(
          'ladder.first',
          say`First rung: ${deg(start.value)}, the late end of the first window.`,
          { source: 'the first settings above' },
        ),
    ladder(
      'ladder.step',
      say`Step ${deg(kind.defaultRung)} a rung; smaller ones are lost in what a cell repeats to.`,
    ),
    ladder(
      'ladder.rungs',
      say`A careful start usually stands ${deg(middle - 2 * spread)} to ${deg(middle + 2 * spread)} short of the best, so expect ${String(few)} to ${String(many)} steps to it and one or two beyond. Never promised: knock may end it sooner.`,
    ),
    ladder(
      'ladder.next',
      say`What comes next is decided after each pull: go on while another rung has a fair chance to gain ${String(WORTH_PERCENT)} % of mean power, stop where it has not, go back where it knocked. Knock beats torque.`,
    ),
    use === null
      ? ladder(
          'ladder.leave',
          say`The lead to leave in the engine stands below the best, the highest clean rung and any limit, by a holdback that hangs on the use: choose one.`,
        )
      : ladder(
          'ladder.leave',
          say`The lead to leave in the engine stands ${deg(use.holdback)} or more below the lowest of best, highest clean rung and limit, for ${use.name}.`,
          { source: 'the shop’s uses' },
        ),
  ];
}

export interface PlannedDay {
  readonly pulls?: number;
  readonly partLoadMinutes?: number;
}

export function consumableItems(
  ask: Ask,
  answer: SheetAnswer,
  rules: readonly WindowRule[],
  day: PlannedDay,
): readonly PlanItem[] {
  const { pulls, partLoadMinutes } = { ...USUAL_DAY, ...day };
  const capacity = ask.numberOrNull('oiling.capacity');
  const runIn = (ask.numberOrNull('condition.runIn') ?? 0) > 0 ? 0 : 1;
  const plugs = ask.layout.cylinders;
  return [
    fuelItem(ask, answer, rules, pulls, partLoadMinutes),
    capacity === null
      ? have('consumables.oil', say`Oil for two fillings; put the amount on the sheet.`, {
          measure: ['oiling.capacity'],
        })
      : have(
          'consumables.oil',
          say`${q(capacity * (1 + runIn), 'liquidVolume')} of oil: ${runIn === 1 ? 'the filling of the run-in and one after it' : 'one filling'}.`,
        ),
    have(
      'consumables.filters',
      runIn === 0
        ? say`An oil filter, and a cutter to open it.`
        : say`${String(1 + runIn)} oil filters, and a cutter to open them.`,
    ),
    have(
      'consumables.plugs',
      say`${String(2 * plugs)} plugs: a set to run and a fresh one to read.`,
    ),
    have(
      'consumables.gaskets',
      say`Gaskets of what is opened again: valve covers, intake, exhaust${ask.yesOrNull('deck.retorque') === true ? '' : ', and a head gasket'}.`,
    ),
  ];
}

/** Fuel of the day: at the power intended for the length of the pulls, a share of it in between, and a reserve. */
function fuelItem(
  ask: Ask,
  answer: SheetAnswer,
  rules: readonly WindowRule[],
  pulls: number,
  partLoadMinutes: number,
): PlanItem {
  const flow = figureOf(answer, 'fuelPerHour');
  const speeds = speedsOf(ask);
  const rate = windowFor(ask, rules, 'sweepRate')?.low ?? null;
  const missing = [
    ...(flow?.value == null ? (flow?.missing ?? []) : []),
    ...(speeds === null ? ['intent.lowSpeed', 'intent.highestSpeed'] : []),
  ];
  if (flow?.value == null || speeds === null || rate === null)
    return have(
      'consumables.fuel',
      missing.length === 0
        ? say`Fuel for the day: not known yet.`
        : say`Fuel for the day: not known yet. Fill in first: ${labelsOf([...new Set(missing)])}.`,
      { measure: [...new Set(missing)] },
    );
  const fullThrottleS = (pulls * (speeds.high - speeds.low)) / rate;
  const volume = RESERVE * flow.value * (fullThrottleS + PART_LOAD_SHARE * partLoadMinutes * 60);
  return have(
    'consumables.fuel',
    say`${q(volume, 'liquidVolume')} of fuel: ${String(pulls)} pulls of ${q(fullThrottleS / pulls, 'time', { decimals: 0 })} at the power intended, ${String(partLoadMinutes)} minutes at a third of that, and 30 % in reserve.`,
    {
      source: 'power × BSFC × time; the shares: ours, no source',
    },
  );
}
