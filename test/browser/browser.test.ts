import { afterAll, beforeAll, expect } from 'vitest';
import { access } from './access.ts';
import { buildSheet } from './build-sheet.ts';
import { calibrations } from './calibrations.ts';
import { openDemoStand } from './demo-stand.ts';
import { handOver } from './hand-over.ts';
import { keeping } from './keeping.ts';
import { ladderPictures } from './ladder-pictures.ts';
import { sideBySide } from './side-by-side.ts';
import type { Stand } from './stand.ts';
import { wayThrough } from './way-through.ts';
import { whatItIsFor } from './what-it-is-for.ts';

/** One service with the demo shop and one browser serve all that is tried on the screen. */
let stand: Stand;
beforeAll(async () => {
  stand = await openDemoStand();
});
afterAll(async () => {
  await stand.close();
  expect(stand.complaints).toEqual([]);
});

wayThrough(() => stand);
ladderPictures(() => stand);
buildSheet(() => stand);
sideBySide(() => stand);
calibrations(() => stand);
whatItIsFor(() => stand);
handOver(() => stand);
keeping(() => stand);
access(() => stand);
