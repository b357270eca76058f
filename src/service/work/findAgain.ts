/** Where a pull begins and ends follows from speed; when a person says which column that is, pulls are found again. */
import { PullbookError } from '../../errors.ts';
import type { RememberedOptions } from '../../intake/index.ts';
import { findPulls } from '../../pull/index.ts';
import type {
  Cell,
  Change,
  Id,
  Pull,
  PullbookRecord,
  StoredRecording,
} from '../../record/index.ts';
import type { Readings } from './readings.ts';

/** Whether the two sets of answers may find pulls in other rows. */
export function movesPulls(before: RememberedOptions, after: RememberedOptions): boolean {
  const deciding = ({ mapping = {}, brakeRatio }: RememberedOptions) =>
    JSON.stringify([
      brakeRatio ?? null,
      Object.entries(mapping)
        .filter(([, { quantity }]) => ['speed', 'time', 'throttle'].includes(quantity))
        .sort(([a], [b]) => (a < b ? -1 : 1)),
    ]);
  return deciding(before) !== deciding(after);
}

/**
 * Finds the pulls of every stored file of one shape and cell again, and moves them in one change. Where a file
 * now shows another number of pulls than it has, they are left as they stand: which is which is not known.
 */
export async function findPullsAgain(
  record: PullbookRecord,
  readings: Readings,
  cellId: Id,
  shape: string,
  change: Change,
): Promise<void> {
  const cell = await record.cells.get(cellId);
  const days = (await record.days.list()).filter((day) => day.cellId === cellId);
  const byRecording = new Map<string, Pull[]>();
  for (const day of days) {
    for (const pull of await record.pulls.list({ dayId: day.id })) {
      const { recordingSha256 } = pull;
      if (recordingSha256 === null) continue;
      byRecording.set(recordingSha256, [...(byRecording.get(recordingSha256) ?? []), pull]);
    }
  }
  const patches: { id: Id; patch: Pick<Pull, 'span'> }[] = [];
  for (const [sha256, pulls] of byRecording) {
    const recording = await record.recordings.find(sha256);
    if (recording?.shape !== shape) continue;
    const spans = await spansOf(readings, recording, cell);
    if (spans === null || spans.length !== pulls.length) continue;
    pulls.forEach((pull, index) => {
      patches.push({ id: pull.id, patch: { span: spans[index]! } });
    });
  }
  if (patches.length > 0) {
    await record.pulls.updateMany(patches, {
      ...change,
      summary: `${patches.length} pull${patches.length === 1 ? '' : 's'} found again with the new answers`,
    });
  }
}

async function spansOf(readings: Readings, recording: StoredRecording, cell: Cell) {
  try {
    const told = await readings.toldFor(recording, cell, null);
    return findPulls((await readings.stored(recording, told)).run.recording);
  } catch (error) {
    // The answers do not make it a run file; its curve will say why.
    if (error instanceof PullbookError && error.code !== 'store') return null;
    throw error;
  }
}
