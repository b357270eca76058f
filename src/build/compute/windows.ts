import type { Ask } from './ask.ts';
import type { Window } from './types.ts';

/** One line of the shop's list of windows; the list is edited, shipped lines and the shop's own alike. */
export interface WindowRule {
  /** What it is for; several lines of one name differ in when they hold. */
  readonly name: string;
  /** Uses that it holds for; null: all that have no line of their own. */
  readonly uses: readonly string[] | null;
  /** Holds only where these fields of the sheet say this (`rods.material`: `aluminium`; `layout.aspiration`). */
  readonly when: Readonly<Record<string, string>>;
  /** Inside units; with `perM` set, per metre of bore or journal, or per rev/min of speed. Null: open on that side. */
  readonly low: number | null;
  readonly high: number | null;
  readonly stopBelow: number | null;
  readonly stopAbove: number | null;
  readonly perM: boolean;
  readonly source: string;
  /** Where the sites that the source names can be read; the names in it are `siteOf` these. */
  readonly addresses?: readonly string[];
}

/** A site as a source names it. */
export const siteOf = (address: string): string => new URL(address).hostname.replace(/^www\./, '');

/**
 * The line of a name that fits this sheet best: one for its use before one for all,
 * and of those the one that asks for more of what the sheet says. Later lines win between equals, so a shop's
 * own lines stand behind the shipped ones.
 */
export function ruleFor(name: string, ask: Ask, rules: readonly WindowRule[]): WindowRule | null {
  let best: { rule: WindowRule; rank: number } | null = null;
  for (const rule of rules) {
    if (rule.name !== name) continue;
    if (rule.uses !== null && (ask.use === null || !rule.uses.includes(ask.use))) continue;
    const conditions = Object.entries(rule.when);
    if (!conditions.every(([path, value]) => saidOf(ask, path) === value)) continue;
    const rank = (rule.uses === null ? 0 : 100) + conditions.length;
    if (best === null || rank >= best.rank) best = { rule, rank };
  }
  return best?.rule ?? null;
}

function saidOf(ask: Ask, path: string): string | null {
  return path === 'layout.aspiration' ? ask.layout.aspiration : ask.textOrNull(path);
}

/** The window of a rule, with `perM` rules multiplied by their length [m]. */
export function windowOf(rule: WindowRule, scaleM: number | null): Window | null {
  if (rule.perM && scaleM === null) return null;
  const factor = rule.perM ? scaleM! : 1;
  const times = (value: number | null) => (value === null ? null : value * factor);
  return {
    low: times(rule.low),
    high: times(rule.high),
    stopBelow: times(rule.stopBelow),
    stopAbove: times(rule.stopAbove),
    source: rule.source,
    ...(rule.addresses === undefined ? {} : { addresses: rule.addresses }),
  };
}
