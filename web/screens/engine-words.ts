import { SETTING_KINDS } from '../../src/ladder/kinds.ts';
import type { DaySummary, Engine, EngineSummary } from '../api/types.gen.ts';
import { setting } from '../charts/numbers.ts';

const ASPIRATION = {
  natural: 'naturally aspirated',
  boosted: 'boosted',
  nitrous: 'nitrous',
} as const;

/** `6 cylinders, 2.3 L, naturally aspirated`: what kind of engine, in one line. */
export function engineInWords(
  engine: Pick<Engine | EngineSummary, 'cylinders' | 'displacementM3' | 'aspiration'>,
  figure: (value: number, kind: 'displacement') => string,
): string {
  const parts: string[] = [];
  if (engine.cylinders !== null)
    parts.push(engine.cylinders === 1 ? 'single cylinder' : `${engine.cylinders} cylinders`);
  if (engine.displacementM3 !== null) parts.push(figure(engine.displacementM3, 'displacement'));
  parts.push(ASPIRATION[engine.aspiration]);
  return parts.join(', ');
}

/** `leads 22° to 32°`, or nothing where none is set. */
export function leadsInWords(low: number | null, high: number | null): string | null {
  if (low === null || high === null) return null;
  return low === high ? `lead ${low}°` : `leads ${low}° to ${high}°`;
}

/** `left at 26° for bursts, 24° for sustained, lambda 0.86 for bursts`. */
export function decidedInWords(decisions: DaySummary['decisions']): string | null {
  const set = decisions.flatMap(({ kind, use, setting: value }) => {
    const { word, unit } = SETTING_KINDS[kind];
    const figure = setting(value, unit, 3);
    return value === null ? [] : [`${unit === 'deg' ? figure : `${word} ${figure}`} for ${use}`];
  });
  return set.length === 0 ? null : `left at ${set.join(', ')}`;
}
