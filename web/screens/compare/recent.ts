/** Sides that were picked in this browser lately, newest first. */
export interface RecentSide {
  /** As in an address. */
  readonly text: string;
  readonly label: string;
}

const KEY = 'pullbook.sides';
const KEPT = 6;

export function recentSides(): readonly RecentSide[] {
  try {
    const kept = JSON.parse(localStorage.getItem(KEY) ?? '[]') as unknown;
    if (!Array.isArray(kept)) return [];
    return kept.filter(
      (one: Partial<RecentSide> | null): one is RecentSide =>
        typeof one?.text === 'string' && typeof one.label === 'string',
    );
  } catch {
    return [];
  }
}

export function rememberSide(side: RecentSide): void {
  const others = recentSides().filter(({ text }) => text !== side.text);
  try {
    localStorage.setItem(KEY, JSON.stringify([side, ...others].slice(0, KEPT)));
  } catch {
    // A browser that keeps nothing still compares; it only forgets what was picked.
  }
}
