/** What the invented shop wrote down of the boat's engine after it was handed over; cylinder 6 has begun to leak. */
import type { NewServiceEvent, NewServiceReading } from '../src/record/repository.ts';

const HOUR_S = 3600;
const PSI_PA = 6894.757293168361;

interface DemoService {
  readonly engine: string;
  readonly after: { readonly refreshAfterS: number; readonly refreshAfterMonths: number };
  readonly events: readonly Omit<NewServiceEvent, 'engineId'>[];
  readonly readings: readonly Omit<NewServiceReading, 'engineId'>[];
}

const reading = (
  readOn: string,
  hours: number,
  leakPercent: readonly number[],
  psi: readonly number[],
  note = '',
): DemoService['readings'][number] => ({
  readOn,
  hoursS: hours * HOUR_S,
  leakDown: leakPercent.map((one) => one / 100),
  leakDownError: 0.01,
  crankingGaugePa: psi.map((one) => one * PSI_PA),
  crankingErrorPa: 3 * PSI_PA,
  note,
});

export const DEMO_SERVICE: readonly DemoService[] = [
  {
    engine: 'Rescue boat V8',
    after: { refreshAfterS: 600 * HOUR_S, refreshAfterMonths: 36 },
    events: [
      {
        kind: 'refresh',
        doneOn: '2026-05-06',
        what: 'Overhaul: rings, bearings, valve job.',
        parts: 'ring set, main and rod bearings, exhaust valves',
        hoursS: 0,
        who: 'Tamsin',
      },
      {
        kind: 'work',
        doneOn: '2026-08-14',
        what: 'Oil, filter, plugs; impeller.',
        parts: 'impeller',
        hoursS: 118 * HOUR_S,
        who: 'Tamsin',
      },
    ],
    readings: [
      reading(
        '2026-05-22',
        12,
        [4, 5, 4, 4, 5, 4, 5, 4],
        [168, 166, 169, 167, 165, 168, 166, 167],
        'warm, throttle open',
      ),
      reading('2026-06-30', 61, [4, 5, 5, 4, 5, 6, 5, 4], [167, 166, 168, 168, 166, 166, 166, 168]),
      reading(
        '2026-08-14',
        118,
        [5, 5, 4, 5, 5, 8, 5, 4],
        [169, 167, 170, 168, 166, 166, 168, 168],
      ),
      reading(
        '2026-10-02',
        171,
        [4, 5, 5, 4, 6, 9, 5, 5],
        [166, 165, 167, 166, 164, 162, 165, 166],
      ),
      reading(
        '2026-11-12',
        214,
        [5, 5, 4, 4, 5, 12, 5, 4],
        [168, 166, 168, 168, 165, 163, 167, 167],
        'hiss at the exhaust of 6',
      ),
    ],
  },
];
