import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';

/** The simulated days that lie beside the checkout; tests that need them say so where they are absent. */
export const SAMPLES = resolve(import.meta.dirname, '..', '..', 'shared', 'samples');

/** Names of the sample days that are there. */
export const sampleDays: readonly string[] = existsSync(SAMPLES)
  ? readdirSync(SAMPLES)
      .filter((name) => existsSync(join(SAMPLES, name, 'session.json')))
      .sort()
  : [];

/** What is known of a simulated day's engine. */
export interface DayTruth {
  readonly bestLeadOverBand: number;
  readonly limitLead: number | null;
  readonly powerLossPercentByLead: Readonly<Record<string, number>>;
  readonly torqueInStandardAirByRpm_Nm: readonly ({ readonly rpm: number } & Readonly<
    Record<string, number>
  >)[];
}

export function sessionOf(day: string): string {
  return join(SAMPLES, day, 'session.json');
}

/** The truth of a day, or null where it is not told. */
export function truthOf(day: string): DayTruth | null {
  const file = join(SAMPLES, day, 'truth.json');
  return existsSync(file) ? (JSON.parse(readFileSync(file, 'utf8')) as DayTruth) : null;
}
