// The victim of the kill test: imports small files without end and prints the SHA-256 of each one acknowledged,
// after a first line that says it is about to open the record.
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
  process.stdout.write(`${sha256Of(bytes)}\n`);
}
