/** A test day over HTTP and run files for it; for tests. */
import type { Asked } from './testing.ts';

export type WithId = { id: string };
export interface ImportedFile {
  duplicate: boolean;
  pulls: (WithId & { leadDeg: number | null })[];
  recording: { sha256: string };
  understood: { shape: string; questions: { key: string }[]; answers: object };
}

/** A sweep of 6 s from 3000 to 6000 rev/min with a little seeded roughness, after two seconds held at 3000. */
export function sweep(
  columns: { torque?: string; lead?: string; scale?: number; oilC?: number } = {},
): string {
  const { torque = 'Torque (lb-ft)', lead, scale = 1, oilC } = columns;
  const more = [
    ...(lead === undefined ? [] : [lead]),
    ...(oilC === undefined ? [] : ['Oil Temp (°C)']),
  ];
  const lines = [['Time (s)', 'Engine Speed (rpm)', torque, ...more].join(',')];
  let wander = 0;
  for (let step = 0; step < 400; step += 1) {
    const time = step * 0.02;
    const rpm = time < 2 ? 3000 : 3000 + 500 * (time - 2);
    wander = 0.9 * wander + ((step * 7919) % 101) / 101 - 0.5;
    const shape = 300 * (1 - ((rpm - 4600) / 5000) ** 2) * scale + wander;
    const cells = [time.toFixed(2), rpm.toFixed(0), shape.toFixed(2)];
    if (lead !== undefined) cells.push('28.0');
    if (oilC !== undefined) cells.push((oilC + 0.01 * step).toFixed(2));
    lines.push(cells.join(','));
  }
  return `${lines.join('\n')}\n`;
}

export async function aDay({ record }: Asked) {
  const cell = await record.cells.create({
    name: 'Cell',
    inertiaKgM2: 0.77,
    torqueIs: { air: 'observed', inertia: 'out' },
  });
  const engine = await record.engines.create({
    name: 'Eight',
    cylinders: 8,
    displacementM3: 0.0054,
  });
  const build = await record.builds.create({ engineId: engine.id, name: 'First' });
  const day = await record.days.create({
    buildId: build.id,
    cellId: cell.id,
    airPressureAbsPa: 98_000,
    airTemperatureK: 300,
    airHumidity: 0.4,
  });
  const [ladder] = await record.ladders.list({ dayId: day.id });
  return { cell, engine, day, ladder: ladder! };
}

export const post = (
  { ask }: Asked,
  dayId: string,
  name: string,
  text: string | Uint8Array,
  headers = {},
) =>
  ask(
    'POST',
    `/api/v1/days/${dayId}/recordings?name=${encodeURIComponent(name)}`,
    typeof text === 'string' ? new TextEncoder().encode(text) : text,
    { 'content-type': 'application/octet-stream', ...headers },
  );
