import { InputError } from '../../errors.ts';
import type { Session } from '../../intake/index.ts';
import type { Cell, Change, Engine, NewDay, PullbookRecord, TestDay } from '../../record/index.ts';

/** Names under which files are filed; what is left out is chosen so that a second import finds it again. */
export interface PlaceNames {
  readonly engine: string;
  readonly build: string | undefined;
  readonly cell: string;
  readonly day: string;
}

const FIRST_BUILD = 'first build';

const CELL_WORDS = {
  inertiaKgM2: (value: number | null) =>
    value === null ? 'no inertia' : `an inertia of ${value} kg·m²`,
  sensorLagS: (value: number | null) =>
    value === null ? 'no sensor lag' : `a sensor lag of ${value} s`,
  ratio: (value: number | null) => (value === null ? 'no ratio' : `a ratio of ${value}`),
};

/** The day of that name, found or made with everything above it. */
export async function placeFor(
  record: PullbookRecord,
  names: PlaceNames,
  session: Session | null,
  change: Change,
): Promise<TestDay> {
  const cell = await cellNamed(record, names.cell, session, change);
  const engine = await engineNamed(record, names.engine, session, change);
  const builds = await record.builds.list({ engineId: engine.id });
  const build =
    (names.build === undefined ? builds.at(-1) : builds.find(({ name }) => name === names.build)) ??
    (await record.builds.create({ engineId: engine.id, name: names.build ?? FIRST_BUILD }, change));
  const days = await record.days.list({ buildId: build.id });
  const known = days.find(({ name, date }) => name === names.day || date === names.day);
  if (known !== undefined) return known;
  return record.days.create(
    { buildId: build.id, cellId: cell.id, ...dayFields(names.day), ...sessionDay(session) },
    change,
  );
}

async function cellNamed(
  record: PullbookRecord,
  name: string,
  session: Session | null,
  change: Change,
): Promise<Cell> {
  const known = (await record.cells.list()).find((cell) => cell.name === name);
  if (known === undefined) return record.cells.create({ name, ...session?.cell }, change);
  if (session === null) return known;
  const differing = (['inertiaKgM2', 'sensorLagS', 'ratio'] as const).find(
    (field) => session.cell[field] !== null && session.cell[field] !== known[field],
  );
  if (differing !== undefined)
    throw new InputError(
      `The record's cell "${name}" has ${CELL_WORDS[differing](known[differing])}, the session says ${session.cell[differing]}; name another cell with --cell, or change that one first.`,
      { found: String(session.cell[differing]), expected: String(known[differing]) },
    );
  return known;
}

async function engineNamed(
  record: PullbookRecord,
  name: string,
  session: Session | null,
  change: Change,
): Promise<Engine> {
  const known = (await record.engines.list()).find((engine) => engine.name === name);
  return known ?? record.engines.create({ ...session?.engine, name }, change);
}

/** An ISO date is the day's date, anything else its name. */
function dayFields(day: string): Pick<NewDay, 'name' | 'date'> {
  return /^\d{4}-\d{2}-\d{2}$/.test(day) ? { name: day, date: day } : { name: day };
}

function sessionDay(session: Session | null): Partial<NewDay> {
  if (session === null) return {};
  const { bandRpm, standard, use, day, cell } = session;
  return {
    bandRpm,
    standard,
    use,
    inertiaKgM2: cell.inertiaKgM2,
    ...(day === null ? {} : { date: day }),
  };
}
