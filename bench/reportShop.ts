/** A shop whose refreshed six was pulled forty times: what `report.bench.ts` hands over. Invented, and the same every time. */
import { simulateDay } from '../demo/cell.ts';
import { loadDemo } from '../demo/load.ts';
import { DIALECTS, toText } from '../demo/logger.ts';
import { type DemoDay, demoShop } from '../demo/shop.ts';
import { openRecord } from '../src/record/index.ts';
import { importRunFile } from '../src/service/importRunFile.ts';
import { makePlan } from '../src/service/work/plans.ts';

/** Three ladders, up and back: forty pulls of the build handed over. The build before it keeps its three of the demo. */
const LADDERS = [
  { seed: 7101, date: '2026-04-09', leads: [24, 26, 28, 30, 32, 34, 33, 31, 29, 27, 25, 28, 30] },
  { seed: 7202, date: '2026-04-10', leads: [25, 27, 29, 31, 33, 34, 32, 30, 28, 26, 24, 28, 30] },
  {
    seed: 7303,
    date: '2026-04-11',
    leads: [24, 26, 28, 30, 32, 34, 33, 31, 29, 27, 25, 28, 28, 28],
  },
] as const;

export const PULLS = LADDERS.reduce((sum, { leads }) => sum + leads.length, 0);
export const BUILD = 'Rally six/Refresh 2026';

/** A day of the demo with other pulls: its engine and its cell, at these leads. */
function dayLike(demo: DemoDay, { seed, date, leads }: (typeof LADDERS)[number]): DemoDay {
  const day = simulateDay({ ...demo.knobs, seed, leadsDeg: leads });
  const { files } = toText(day, DIALECTS['semicolon comma']);
  const [like] = demo.pulls;
  const named = files.map((file, at) => ({
    ...file,
    name: `${date}-${String(at + 1).padStart(2, '0')}.csv`,
  }));
  return {
    ...demo,
    day: { ...demo.day, date, inletTemperatureK: null },
    files: named,
    pulls: leads.map((leadDeg, at) => ({
      ...like!,
      file: named[at]!.name,
      leadDeg,
      order: at,
      note: '',
      madeAt: new Date(Date.parse(`${date}T09:00:00Z`) + at * 660_000).toISOString(),
    })),
    truth: day.truth,
    knobs: day.knobs,
  };
}

/** Fills a new record by the way that a user's files take; no curve is fitted on it. */
export async function fillShop(folder: string): Promise<void> {
  const shop = demoShop();
  const [six] = shop.engines;
  const [before, refreshed] = six!.builds;
  const ladder = refreshed!.days.at(-1)!;
  const record = await openRecord(folder);
  try {
    await loadDemo(
      record,
      {
        importRunFile: (dayId, fileName, bytes) => importRunFile(record, dayId, fileName, bytes),
        decide: (ladderId, decision, change) =>
          record.decisions.create({ ...decision, ladderId }, change),
        makePlan: (dayId, change, madeAt) => makePlan(record, dayId, change, madeAt),
      },
      undefined,
      {
        ...shop,
        engines: [
          {
            ...six!,
            builds: [before!, { ...refreshed!, days: LADDERS.map((one) => dayLike(ladder, one)) }],
          },
        ],
      },
    );
  } finally {
    await record.close();
  }
}
