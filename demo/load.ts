import { editPlan, editSummary, type Plan } from '../src/build/index.ts';
import type { Change, Imported, NewDecision, PullbookRecord } from '../src/record/repository.ts';
import type { DayPlan } from '../src/record/types.ts';
import { DEMO_PLANS, ticksOf } from './plans.ts';
import { DEMO_SERVICE } from './service.ts';
import { demoSheets } from './sheets.ts';
import { type DemoDay, type DemoShop, demoShop } from './shop.ts';
import { DEMO_VEHICLES } from './vehicles.ts';

/** The ways in that a user's files and decisions take. */
export interface DemoWays {
  /** Reads one run file, finds its pulls, stores both. */
  readonly importRunFile: ImportRunFile;
  /** Stores a decision with what is advised at that moment. */
  decide(ladderId: string, decision: DemoDecision, change: Change): Promise<unknown>;
  /** Makes the test plan of a day from the sheet of its build. */
  makePlan(dayId: string, change: Change, madeAt: string): Promise<DayPlan>;
}
type DemoDecision = Omit<NewDecision, 'ladderId' | 'advice'>;
type ImportRunFile = (
  dayId: string,
  fileName: string,
  bytes: Uint8Array,
) => Promise<Pick<Imported, 'pulls'>>;

const CHANGE = { who: 'demo shop' };

/**
 * Fills a new record with the invented shop: every run file by the way in that a user's files take, then what its
 * operator set and saw at each pull, then what was decided.
 *
 * @throws Error where a run file is not read as exactly one pull: the demo is then not what it says it is.
 */
export async function loadDemo(
  record: PullbookRecord,
  { importRunFile, decide, makePlan }: DemoWays,
  onProgress: (done: number, total: number) => void = () => {},
  { shop, cells, calibrations, engines }: DemoShop = demoShop(),
): Promise<void> {
  const total = engines
    .flatMap((one) => one.builds.flatMap((build) => build.days))
    .reduce((sum, day) => sum + day.files.length, 0);
  const sheets = demoSheets();
  let done = 0;
  await record.shop.update(shop, CHANGE);
  const cellIds = new Map<string, string>();
  for (const [key, cell] of Object.entries(cells)) {
    cellIds.set(key, (await record.cells.create(cell, CHANGE)).id);
  }
  for (const { cell, ...calibration } of calibrations) {
    await record.calibrations.create({ ...calibration, cellId: cellIds.get(cell)! }, CHANGE);
  }
  for (const { engine, builds } of engines) {
    const { id: engineId } = await record.engines.create(engine, CHANGE);
    for (const { engine: of, ...vehicle } of DEMO_VEHICLES)
      if (of === engine.name) await record.vehicles.create({ ...vehicle, engineId }, CHANGE);
    for (const { engine: of, after, events, readings } of DEMO_SERVICE) {
      if (of !== engine.name) continue;
      await record.engines.update(engineId, after, CHANGE);
      for (const one of events) await record.serviceEvents.create({ ...one, engineId }, CHANGE);
      for (const one of readings) await record.serviceReadings.create({ ...one, engineId }, CHANGE);
    }
    for (const { build, days } of builds) {
      const { id: buildId } = await record.builds.create({ ...build, engineId }, CHANGE);
      const kept = sheets.find((one) => one.engine === engine.name && one.build === build.name);
      if (kept !== undefined) await record.sheets.save(buildId, kept.sheet, 0, CHANGE);
      for (const day of days) {
        const cellId = cellIds.get(day.cell)!;
        const inertiaKgM2 = cells[day.cell]!.inertiaKgM2 ?? null;
        const fresh = { ...day.day, buildId, cellId, inertiaKgM2 };
        const { id } = await record.days.create(fresh, CHANGE);
        await loadPlan(record, id, `${engine.name}, ${day.day.name}`, makePlan);
        await loadPulls(record, id, day, importRunFile, () => onProgress(++done, total));
        await loadLadder(record, id, day, decide);
        if (day.partTest !== undefined)
          await record.partTests.create({ ...day.partTest, dayId: id }, CHANGE);
      }
    }
  }
}

/** The plan of a day as it was made, changed and ticked before its pulls. */
async function loadPlan(
  record: PullbookRecord,
  dayId: string,
  named: string,
  makePlan: DemoWays['makePlan'],
): Promise<void> {
  const demo = DEMO_PLANS.find(({ engine, day }) => `${engine}, ${day}` === named);
  if (demo === undefined) return;
  const { who, madeAt, edits, ticked } = demo;
  const { id, plan } = await makePlan(dayId, { who }, madeAt);
  let so = plan as Plan;
  for (const [i, edit] of edits.entries()) {
    const editor = { by: who, at: madeAt, newId: `demo-${i}` };
    so = { ...so, edits: editPlan(so, edit, editor) };
    await record.plans.revise(id, () => so, { who, summary: editSummary(so, edit) });
  }
  for (const one of ticked) await record.plans.tickAll(id, ticksOf(so, one), { who: one.who });
}

async function loadPulls(
  record: PullbookRecord,
  dayId: string,
  day: DemoDay,
  importRunFile: ImportRunFile,
  onFile: () => void,
): Promise<void> {
  const idOfFile = new Map<string, string>();
  for (const { name, bytes } of day.files) {
    const { pulls } = await importRunFile(dayId, name, bytes);
    if (pulls.length !== 1) {
      throw new Error(`${name} of the demo shop was read as ${pulls.length} pulls; expected one.`);
    }
    idOfFile.set(name, pulls[0]!.id);
    onFile();
  }
  await record.pulls.updateMany(
    day.pulls.map(({ file, ...patch }) => ({ id: idOfFile.get(file)!, patch })),
    { ...CHANGE, summary: `what the operator set and saw on ${day.day.name ?? 'the day'}` },
  );
}

/** A new day has its ladder already; the shop's own words and its decisions are put to it. */
async function loadLadder(
  record: PullbookRecord,
  dayId: string,
  day: DemoDay,
  decide: DemoWays['decide'],
): Promise<void> {
  const [ladder] = await record.ladders.list({ dayId });
  if (ladder === undefined) return;
  if (day.ladder !== null) await record.ladders.update(ladder.id, day.ladder, CHANGE);
  for (const decision of day.decisions) {
    await decide(ladder.id, decision, CHANGE);
  }
}
