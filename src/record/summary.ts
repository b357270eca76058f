/** The first screen in a fixed number of queries, however many pulls the shop has. */
import { sql } from 'kysely';
import { fromRow, type Row } from './codec.ts';
import type { Store } from './store.ts';
import type { DaySummary, EngineSummary, Id, ShopSummary } from './types.ts';

const LATEST_DAYS = 12;

export async function shopSummary(store: Store): Promise<ShopSummary> {
  const [shop] = (await sql<Row>`SELECT * FROM shop`.execute(store)).rows;
  const [counts] = (
    await sql<Row>`SELECT (SELECT count(*) FROM engine) AS engines,
      (SELECT count(*) FROM test_day) AS days, (SELECT count(*) FROM pull) AS pulls`.execute(store)
  ).rows;
  const engines = (
    await sql<Row>`SELECT id, name, serial, owner, aspiration, cylinders, displacement_m3
      FROM engine ORDER BY name, id`.execute(store)
  ).rows;
  const builds = (
    await sql<Row>`SELECT build.id, build.engine_id, build.name, count(day.id) AS days,
        coalesce(sum(day.pulls), 0) AS pulls, max(day.date) AS last_date
      FROM build LEFT JOIN (
        SELECT id, build_id, date, (SELECT count(*) FROM pull WHERE pull.day_id = test_day.id) AS pulls
        FROM test_day
      ) AS day ON day.build_id = build.id
      GROUP BY build.id ORDER BY build.id`.execute(store)
  ).rows;
  const buildsOf = new Map<Id, EngineSummary['builds'][number][]>();
  for (const row of builds) {
    const engineId = row.engine_id as Id;
    if (!buildsOf.has(engineId)) buildsOf.set(engineId, []);
    buildsOf.get(engineId)!.push({
      id: row.id as Id,
      name: row.name as string,
      dayCount: row.days as number,
      pullCount: row.pulls as number,
      lastDate: row.last_date as string | null,
    });
  }
  return {
    shop: fromRow('shop', shop!),
    engineCount: counts!.engines as number,
    dayCount: counts!.days as number,
    pullCount: counts!.pulls as number,
    engines: engines.map((row) => ({
      id: row.id as Id,
      name: row.name as string,
      serial: row.serial as string,
      owner: row.owner as string,
      aspiration: row.aspiration as EngineSummary['aspiration'],
      cylinders: row.cylinders as number | null,
      displacementM3: row.displacement_m3 as number | null,
      builds: buildsOf.get(row.id as Id) ?? [],
    })),
    latestDays: await daySummaries(store, null),
  };
}

/** Days of one engine, or the latest of the shop; newest first, undated ones after, with what stands decided. */
export async function daySummaries(store: Store, engineId: Id | null): Promise<DaySummary[]> {
  const condition = engineId === null ? sql`1 = 1` : sql`engine.id = ${engineId}`;
  const limit = engineId === null ? LATEST_DAYS : -1;
  const days = (
    await sql<Row>`SELECT day.id, day.name, day.date, build.id AS build_id, build.name AS build_name,
        engine.id AS engine_id, engine.name AS engine_name,
        (SELECT count(*) FROM pull WHERE pull.day_id = day.id) AS pulls,
        (SELECT min(lead_deg) FROM pull WHERE pull.day_id = day.id) AS low_lead_deg,
        (SELECT max(lead_deg) FROM pull WHERE pull.day_id = day.id) AS high_lead_deg
      FROM test_day AS day
        JOIN build ON build.id = day.build_id JOIN engine ON engine.id = build.engine_id
      WHERE ${condition}
      ORDER BY day.date IS NULL, day.date DESC, day.id DESC LIMIT ${limit}`.execute(store)
  ).rows;
  if (days.length === 0) return [];
  const ids = days.map((day) => day.id);
  const decisions = (
    await sql<Row>`SELECT ladder.day_id, ladder.setting AS kind, decision.use_name, decision.setting
      FROM decision JOIN ladder ON ladder.id = decision.ladder_id
      WHERE ladder.day_id IN (${sql.join(ids)}) ORDER BY decision.decided_at, decision.id`.execute(
      store,
    )
  ).rows;
  const ladders = (
    await sql<Row>`SELECT id, day_id, name, setting FROM ladder
      WHERE day_id IN (${sql.join(ids)}) ORDER BY id`.execute(store)
  ).rows;
  return days.map((day) => {
    // A later decision for the same use replaces the earlier one; both stay in the record.
    const standing = new Map(
      decisions
        .filter((decision) => decision.day_id === day.id)
        .map(({ kind, use_name, setting }) => [
          `${kind} ${use_name}`,
          { kind, use: use_name, setting } as DaySummary['decisions'][number],
        ]),
    );
    return {
      id: day.id as Id,
      name: day.name as string,
      date: day.date as string | null,
      engineId: day.engine_id as Id,
      engineName: day.engine_name as string,
      buildId: day.build_id as Id,
      buildName: day.build_name as string,
      pullCount: day.pulls as number,
      lowLeadDeg: day.low_lead_deg as number | null,
      highLeadDeg: day.high_lead_deg as number | null,
      ladders: ladders
        .filter((ladder) => ladder.day_id === day.id)
        .map(({ id, name, setting }) => ({ id, name, setting }) as DaySummary['ladders'][number]),
      decisions: [...standing.values()],
    };
  });
}
