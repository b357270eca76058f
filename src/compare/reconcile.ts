import { InputError } from '../errors.ts';
import { curveIn } from '../pull/index.ts';
import type { AirWish, Curve, PullFit } from '../pull/types.ts';
import { AIR_STANDARDS, type AirStandard } from '../trade/index.ts';
import { begun } from './begun.ts';
import type { CompareGroup } from './types.ts';

/** One pull before anyone has said in which air it is compared. */
export interface SidePull {
  readonly id: string;
  /** As messages call it; left out: the id. */
  readonly label?: string;
  readonly fit: PullFit;
  readonly day: string;
  /** The cell as the shop tells it apart. */
  readonly cell: string;
  /** As messages call it; where it is given, `cell` tells its states of calibration apart too. */
  readonly cellName?: string;
  readonly calibrationRelSd: number;
  readonly fuel: string;
  readonly order: number;
  readonly excludedBecause: string | null;
  readonly configuration: string | null;
}

export interface Side {
  readonly name: string;
  readonly pulls: readonly SidePull[];
}

export interface Reconciled {
  readonly groups: readonly CompareGroup[];
  /** The curves that count, by group. */
  readonly curves: readonly (readonly Curve[])[];
  readonly standard: AirStandard;
  readonly calibrationRelSd: Readonly<Record<string, number>>;
  readonly warnings: readonly string[];
}

/** The first of some pulls as messages call it. */
const called = ([pull]: readonly SidePull[]) => pull!.label ?? pull!.id;

/** Where to say what nobody has said of a pull: it comes from the shop, where cells have names, or from a file. */
const whereToSay = ([pull]: readonly SidePull[], key: string) =>
  pull!.cellName === undefined ? `with ${key} in its session file` : IN_SHOP;

/** Where the shop asks and keeps what turned, and what its torque is. */
const IN_SHOP = 'on the page of its day, or of its cell in the settings';

/** Sweep rates that differ by more than this part are said (ours). */
const RATE_APART = 4 / 3;

/**
 * Brings the pulls of all sides to one air standard and looks whether they hold the same torque. What cannot be
 * brought together is refused; what can, but is doubtful, is a warning.
 * @throws InputError  an air basis that nobody knows against one that is known, no standard that all pulls reach,
 *                     or inertia put back on one side only
 */
export function reconcile(sides: readonly Side[], wish: AirWish): Reconciled {
  const counted = sides.map(({ pulls }) => pulls.filter((one) => one.excludedBecause === null));
  sides.forEach(({ name }, g) => {
    if (counted[g]!.length === 0) throw new InputError(begun(`${name} has no pull that counts.`));
  });
  const all = counted.flat();
  const warnings = [...inertiaOf(all)];
  const standard = standardFor(all, wish, warnings);
  const curveFor = (pull: SidePull) => curveIn(pull.fit, { ...wish, standard });
  warnings.push(...doubts(sides, counted));
  return {
    groups: sides.map(({ name, pulls }) => ({
      name,
      pulls: pulls.map((pull) => ({
        id: pull.id,
        torque: curveFor(pull).spline,
        day: pull.day,
        cell: pull.cell,
        order: pull.order,
        excludedBecause: pull.excludedBecause,
        configuration: pull.configuration,
      })),
    })),
    curves: counted.map((pulls) => pulls.map(curveFor)),
    standard: curveFor(all[0]!).standard,
    calibrationRelSd: Object.fromEntries(all.map((one) => [one.cell, one.calibrationRelSd])),
    warnings,
  };
}

/** The wanted standard where every pull reaches it, else the first that all of them do. */
function standardFor(pulls: readonly SidePull[], wish: AirWish, warnings: string[]): AirStandard {
  const unknown = pulls.filter(({ fit }) => fit.basis.air === 'unknown');
  if (unknown.length === pulls.length) {
    warnings.push(
      'Nobody has said whether the torque of these pulls is observed or corrected: they are compared as recorded, so a change of the weather may stand in the gain.',
    );
    return wish.standard;
  }
  if (unknown.length > 0)
    throw new InputError(
      `Nobody has said whether the torque of ${called(unknown)} is observed or corrected, and that of the others is known: say it ${whereToSay(unknown, '"torqueIs"')}.`,
    );
  const order = [wish.standard, ...AIR_STANDARDS.filter((one) => one !== wish.standard)];
  const reached = (standard: AirStandard) => {
    const found = new Set(pulls.map(({ fit }) => curveIn(fit, { ...wish, standard }).standard));
    return found.size === 1 ? [...found][0]! : null;
  };
  const chosen = order.find((standard) => reached(standard) !== null);
  if (chosen === undefined)
    throw new InputError(
      'The pulls cannot be brought to one air standard: some are corrected by the logger and some observed, and the air of at least one was not recorded.',
    );
  const standard = reached(chosen)!;
  if (standard === wish.standard) return chosen;
  const isBoosted = pulls.some(({ fit }) => fit.aspiration !== 'natural') && !wish.correctBoosted;
  const why = isBoosted
    ? 'an engine is boosted or on nitrous'
    : 'not every pull can be brought there with the air that was recorded';
  warnings.push(
    standard === 'none'
      ? `Compared as observed and not in ${wish.standard}: ${why}. A change of the weather stands in the gain.`
      : `Compared in ${standard} and not in ${wish.standard}: ${why}.`,
  );
  return chosen;
}

/** Held steps accelerate nothing, so inertia is neither in nor out of them. */
function inertiaOf(pulls: readonly SidePull[]): string[] {
  const swept = pulls.filter(({ fit }) => fit.asRecorded.span.direction !== 'held steps');
  const with_ = (word: 'in' | 'out' | 'unknown') =>
    swept.filter(({ fit }) => fit.basis.inertia === word);
  const [inside, outside, unknown] = [with_('in'), with_('out'), with_('unknown')];
  if (inside.length > 0 && outside.length > 0)
    throw new InputError(
      `Inertia is out of the torque of ${called(outside)} and in that of ${called(inside)}, and how much inertia turned with the first one is not known: say it ${whereToSay(outside, '"inertia" of the cell')}.`,
    );
  if (unknown.length > 0 && unknown.length < swept.length)
    throw new InputError(
      `Nobody has said whether inertia is in the torque of ${called(unknown)}, and of the others it is known: say it ${whereToSay(unknown, '"torqueIs"')}.`,
    );
  if (swept.length < pulls.length && outside.length > 0)
    throw new InputError(
      `${called(outside)} was swept with inertia out of its torque, other pulls were held step by step: they are not comparable unless it is said how much inertia turned with it, ${whereToSay(outside, '"inertia" of the cell')}.`,
    );
  if (unknown.length > 0)
    return [
      'Nobody has said whether inertia is in these torques; it was taken to be alike in all.',
    ];
  return [];
}

/** What does not stop a comparison and should be known with it. */
function doubts(sides: readonly Side[], counted: readonly (readonly SidePull[])[]): string[] {
  const out: string[] = [];
  const names = sides.map(({ name }) => name).join(' and ');
  const said = (read: (pull: SidePull) => string) =>
    counted.map((pulls) => [...new Set(pulls.map(read))].sort().join(', '));
  const differs = (texts: readonly string[]) => new Set(texts).size > 1;
  const rates = counted.map((pulls) => {
    const known = pulls
      .map(({ fit }) => Math.abs(fit.asRecorded.conditions.sweepRateRpmPerS ?? 0))
      .filter((rate) => rate > 0)
      .sort((a, b) => a - b);
    return known[known.length >> 1] ?? null;
  });
  const known = rates.filter((rate) => rate !== null);
  if (known.length > 1 && Math.max(...known) > RATE_APART * Math.min(...known)) {
    const isOut = counted.flat().some(({ fit }) => fit.basis.inertia === 'out');
    out.push(
      `The sweeps were not equally fast (${known.map((rate) => Math.round(rate)).join(' against ')} rev/min per second)${isOut ? ', with inertia out of the torque: part of the gain may be that' : ''}; a fast sweep shows what heat and filling lag behind.`,
    );
  }
  if (rates.some((rate) => rate === null) && known.length > 0)
    out.push('Of some pulls the sweep rate is not known, so it could not be compared.');
  const cells = said(({ cell, cellName }) => cellName ?? cell);
  if (differs(cells))
    out.push(
      begun(
        `${names} were made on different cells, as their settings say: the band carries how far each one’s calibration may be off.`,
      ),
    );
  // Two cells that are told apart by name have each a state of its own.
  const states = said(({ cell, cellName, calibrationRelSd }) =>
    cellName === undefined ? String(calibrationRelSd) : differs(cells) ? '' : cell,
  );
  if (differs(states))
    out.push(begun(`${names} were made in different calibration states of the cell.`));
  const fuels = said(({ fuel }) => fuel);
  if (differs(fuels)) out.push(`The fuel differs: ${fuels.join(' against ')}.`);
  const lagged = said(({ fit }) => (fit.asRecorded.lagS > 0 ? 'taken out' : 'left in'));
  if (differs(lagged))
    out.push(
      `The lag of the torque sensor was ${lagged.join(' against ')}: at steep places of the curve part of the difference is that.`,
    );
  return out;
}
