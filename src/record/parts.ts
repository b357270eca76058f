/** Parts by the shop's own serial, over all sheets of the record. */
import { sql } from 'kysely';
import type { Row } from './codec.ts';
import type { KeptSheet, PartHome, PartSerial } from './repository.ts';
import type { Store } from './store.ts';
import type { Id } from './types.ts';

/** Every part line with a serial, where it stands. A serial is one whatever its case and the spaces around it. */
const LINES = sql`SELECT sheet.build_id, sheet_section.section,
    json_extract(part.value, '$.name') AS name, json_extract(part.value, '$.serial') AS serial,
    json_extract(part.value, '$.note') AS note
  FROM sheet_section JOIN sheet ON sheet.id = sheet_section.sheet_id,
    json_each(sheet_section.data, '$.parts') AS part
  WHERE trim(coalesce(json_extract(part.value, '$.serial'), '')) <> ''`;

/** Builds whose sheets name the serial, in the order they were made, each with its sheet and its test days. */
export async function partsOfSheets(
  store: Store,
  serial: string,
  sheetOf: (buildId: Id) => Promise<KeptSheet>,
): Promise<PartHome[]> {
  const lines = (
    await sql<Row>`SELECT line.*, build.name AS build_name, build.engine_id, engine.name AS engine_name
      FROM (${LINES}) AS line JOIN build ON build.id = line.build_id
        JOIN engine ON engine.id = build.engine_id
      WHERE lower(trim(line.serial)) = lower(trim(${serial}))
      ORDER BY build.id, line.section`.execute(store)
  ).rows;
  const homes: PartHome[] = [];
  for (const buildId of new Set(lines.map((line) => line.build_id as Id))) {
    const own = lines.filter((line) => line.build_id === buildId);
    const days = (
      await sql<Row>`SELECT id, name, date,
          (SELECT count(*) FROM pull WHERE pull.day_id = test_day.id) AS pulls
        FROM test_day WHERE build_id = ${buildId} ORDER BY date IS NULL, date, id`.execute(store)
    ).rows;
    const { version, sheet } = await sheetOf(buildId);
    if (sheet === null) continue;
    const first = own[0]!;
    homes.push({
      engineId: first.engine_id as Id,
      engineName: first.engine_name as string,
      buildId,
      buildName: first.build_name as string,
      lines: own.map((line) => ({
        section: line.section as string,
        name: line.name as string,
        serial: line.serial as string,
        note: line.note as string | null,
      })),
      days: days.map((day) => ({
        id: day.id as Id,
        name: day.name as string,
        date: day.date as string | null,
        pullCount: day.pulls as number,
      })),
      version,
      sheet,
    });
  }
  return homes;
}

/** All serials of the shop, with what they are and in how many builds they stand. */
export async function serialsOfSheets(store: Store): Promise<PartSerial[]> {
  const rows = (
    await sql<Row>`SELECT trim(serial) AS serial, name, section, count(DISTINCT build_id) AS builds
      FROM (${LINES}) GROUP BY lower(trim(serial)) ORDER BY lower(trim(serial))`.execute(store)
  ).rows;
  return rows.map((row) => ({
    serial: row.serial as string,
    name: row.name as string,
    section: row.section as string,
    builds: row.builds as number,
  }));
}
