import { SETTING_NAMES, type SettingName } from './kinds.ts';

/** What was set at a pull, and the part test it is of. */
export interface PullSettings {
  readonly leadDeg: number | null;
  /** Null: the day's. */
  readonly lambdaTarget: number | null;
  /** As read; missing: nobody said. */
  readonly lambdaMeasured?: number | null;
  readonly jets?: string | null;
  readonly group: string | null;
}

/** Which pulls of a day are a ladder's: those of one group, and where another setting is held, only those held there. */
export interface LadderChoice {
  readonly setting: SettingName;
  readonly group: string | null;
  /** Null: whatever stood there. */
  readonly heldLeadDeg: number | null;
  readonly heldLambda: number | null;
}

/** Two settings closer than this were meant to be one [degrees, lambda]: typed figures, not measured ones. */
const SAME = 1e-6;

/** `a` in a file and `A` typed by hand are one part test. */
export function isSameGroup(one: string | null, other: string | null): boolean {
  return one?.toLowerCase() === other?.toLowerCase();
}

/**
 * What a pull says of one setting, in the setting's unit; null: nothing. A target was set and stands for its rung, so that
 * readings that wander about it are no ladder; jets are known by what was read.
 */
export function settingIn(
  name: SettingName,
  pull: PullSettings,
  dayLambda: number | null,
): number | null {
  if (name === 'lead') return pull.leadDeg;
  const read = pull.lambdaMeasured ?? null;
  const target = pull.lambdaTarget ?? dayLambda;
  return (pull.jets ?? null) === null ? (target ?? read) : (read ?? target);
}

/** Whether a pull is a ladder's. One that does not say where the held setting stood is not. */
export function belongsTo(
  choice: LadderChoice,
  pull: PullSettings,
  dayLambda: number | null,
): boolean {
  if (!isSameGroup(pull.group, choice.group)) return false;
  const held = { lead: choice.heldLeadDeg, lambda: choice.heldLambda };
  return SETTING_NAMES.every((name) => {
    const at = held[name];
    if (at === null || name === choice.setting) return true;
    const stood = settingIn(name, pull, dayLambda);
    return stood !== null && Math.abs(stood - at) < SAME;
  });
}

/** A ladder that a day's pulls already make. */
export interface SteppedSetting extends LadderChoice {
  readonly low: number;
  readonly high: number;
  readonly pulls: number;
}

/**
 * The ladders that a day's pulls make: in each group, every setting that took two values or more while the other was
 * held, the longest first.
 */
export function steppedIn(
  pulls: readonly PullSettings[],
  dayLambda: number | null,
): readonly SteppedSetting[] {
  const found = new Map<string, SteppedSetting>();
  for (const setting of SETTING_NAMES) {
    const other = setting === 'lead' ? 'lambda' : 'lead';
    for (const pull of pulls) {
      const at = settingIn(other, pull, dayLambda);
      const choice: LadderChoice = {
        setting,
        group: pull.group,
        heldLeadDeg: other === 'lead' ? at : null,
        heldLambda: other === 'lambda' ? at : null,
      };
      // Two that do not say where the other stood are taken to be alike.
      const own = pulls.filter(
        (one) =>
          belongsTo(choice, one, dayLambda) &&
          (at !== null || settingIn(other, one, dayLambda) === null),
      );
      const values = own
        .map((one) => settingIn(setting, one, dayLambda))
        .filter((value) => value !== null);
      const [low, high] = [Math.min(...values), Math.max(...values)];
      if (!(high - low >= SAME)) continue;
      found.set(JSON.stringify(choice).toLowerCase(), {
        ...choice,
        low,
        high,
        pulls: values.length,
      });
    }
  }
  return [...found.values()].sort((a, b) => b.pulls - a.pulls);
}

/** How many settings of its own kind a ladder's pulls say; fewer than two step nothing. */
export function settingsKnown(
  choice: LadderChoice,
  pulls: readonly PullSettings[],
  dayLambda: number | null,
): number {
  const known: number[] = [];
  for (const pull of pulls) {
    if (!belongsTo(choice, pull, dayLambda)) continue;
    const at = settingIn(choice.setting, pull, dayLambda);
    if (at !== null && known.every((one) => Math.abs(one - at) >= SAME)) known.push(at);
  }
  return known.length;
}

/** Ladders in the order in which they are told: one whose pulls step nothing never comes before one whose pulls do. */
export function ladderOrder<L extends LadderChoice>(
  ladders: readonly L[],
  pulls: readonly PullSettings[],
  dayLambda: number | null,
): readonly L[] {
  const steps = new Map(ladders.map((one) => [one, settingsKnown(one, pulls, dayLambda) > 1]));
  return [...ladders].sort((a, b) => Number(steps.get(b)) - Number(steps.get(a)));
}
