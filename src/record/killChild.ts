// The victim of the kill test: imports small files, saves the sheet and keeps calibrations without end, and prints each
// one acknowledged (SHA-256, note of the sheet, id), after a first line that says it is about to open the record.
import { layoutOf } from '../build/index.ts';
import { openRecord } from './open.ts';
import { sha256Of } from './pack.ts';

const [folder, seed] = process.argv.slice(2) as [string, string];
// The blow may also fall while the database is made, brought forward or recovered.
process.stdout.write('opening\n');
const record = await openRecord(folder);
let day = (await record.days.list())[0];
if (day === undefined) {
  const cell = await record.cells.create({ name: 'Cell' });
  const engine = await record.engines.create({ name: 'Engine' });
  const build = await record.builds.create({ engineId: engine.id, name: 'Build' });
  day = await record.days.create({ buildId: build.id, cellId: cell.id });
}
for (let number = 0; ; number += 1) {
  const bytes = Buffer.from(`${seed},${number}\n`.repeat(200 + ((number * 37) % 400)));
  await record.recordings.import({
    dayId: day.id,
    fileName: `pull-${seed}-${number}.csv`,
    bytes,
    kind: 'time series',
    rows: 200,
    shape: '',
    pulls: [{ leadDeg: number }, { leadDeg: number + 0.5 }],
  });
  process.stdout.write(`file ${sha256Of(bytes)}\n`);

  const notes = `${seed},${number}`;
  const { version } = await record.sheets.get(day.buildId);
  const sections = { block: { notes }, crank: { notes } };
  await record.sheets.save(
    day.buildId,
    { format: 'sheet/1', layout: layoutOf(6), sections },
    version,
  );
  process.stdout.write(`sheet ${notes}\n`);

  const { id } = await record.calibrations.create({
    cellId: day.cellId,
    doneOn: '2026-01-17',
    who: notes,
    notes,
    measured: {
      kind: 'sensor',
      sensor: 'Oil temperature',
      unit: '°C',
      reference: notes,
      referenceUncertainty: 0.1,
      points: [{ reading: number, reference: number + 0.5 }],
    },
  });
  process.stdout.write(`calibration ${id}\n`);
}
