import { useEffect, useRef, useState } from 'react';
import { refresh } from '../api/changes.ts';
import { ask } from '../api/client.ts';
import type { BandRpm, Ladder, TestDay } from '../api/types.gen.ts';
import { useOnLeaving } from '../shell/leaving.ts';
import { sayTrouble } from '../shell/toasts.tsx';

/** How long the band must rest before it is written down. */
const RESTS_MS = 700;
/** The page may be closed right after the move. */
const SENT_ANYWAY = { keepalive: true };

/**
 * The band of speeds over which a day is judged. It follows the hand at once and is written down when it rests:
 * with the ladder where the ladder has one of its own, otherwise with the day.
 */
export function useBand(
  day: TestDay,
  ladder: Ladder | undefined,
  fallback: BandRpm | null,
): readonly [BandRpm | null, (band: BandRpm) => void] {
  const stored = ladder?.bandRpm ?? day.bandRpm ?? fallback;
  const [held, setHeld] = useState<BandRpm | null>(null);
  const timer = useRef<ReturnType<typeof setTimeout> | null>(null);
  const pending = useRef<(() => void) | null>(null);

  // A band that is still on its way when the page is left is written down then.
  useEffect(() => () => pending.current?.(), []);
  useOnLeaving(() => pending.current?.());

  const write = async (band: BandRpm) => {
    pending.current = null;
    const body = { bandRpm: band };
    try {
      if (ladder !== undefined && ladder.bandRpm !== null)
        await ask('PATCH /ladders/{id}', { params: { id: ladder.id }, body }, SENT_ANYWAY);
      else await ask('PATCH /days/{id}', { params: { id: day.id }, body }, SENT_ANYWAY);
      await refresh();
      setHeld((now) => (now === band ? null : now));
    } catch (error) {
      setHeld(null);
      sayTrouble(error instanceof Error ? error.message : String(error));
    }
  };

  const setBand = (band: BandRpm) => {
    setHeld(band);
    if (timer.current !== null) clearTimeout(timer.current);
    pending.current = () => {
      if (timer.current !== null) clearTimeout(timer.current);
      void write(band);
    };
    timer.current = setTimeout(() => void write(band), RESTS_MS);
  };

  return [held ?? stored, setBand];
}
