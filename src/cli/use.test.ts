import { afterAll, describe, expect, it } from 'vitest';
import { run } from './program.ts';
import { inventedTorqueNm, testFolder } from './testFiles.ts';
import { testIo } from './testIo.ts';

/** A speed table of the invented engine, or of one whose torque stands higher up. */
const table = (up: number) =>
  [
    'Speed (rpm),Torque (Nm),Inlet Air (°C),Barometer (kPa),Humidity (%)',
    ...Array.from({ length: 41 }, (_, i) => {
      const rpm = 2600 + 100 * i;
      return `${rpm},${inventedTorqueNm(rpm - up).toFixed(2)},25.0,99.0,0`;
    }),
    '',
  ].join('\n');
const session = (files: readonly string[]) =>
  JSON.stringify({
    pullbook: 'session/1',
    engine: { name: 'engine under test', fuel: 'gasoline' },
    day: '2026-05-17',
    pulls: files.map((file) => ({ file, lead: '30 deg' })),
  });
const VEHICLE = {
  format: 'vehicle/1',
  name: 'the coupe',
  mass: '3500 lb',
  gears: [2.97, 2.07, 1.43, 1],
  finalDrive: 3.55,
  tyre: { radius: '13 in' },
  clutch: { launchSpeed: '3500 rpm' },
  dragArea: '0.7 m^2',
  traction: { coefficient: 0.5, driven: 'all' },
};
const drive = () =>
  [
    'Time (s),RPM,TPS (%)',
    ...Array.from(
      { length: 300 },
      (_, i) => `${(0.1 * i).toFixed(1)},${i < 100 ? 2000 : 4000 + 8 * i},${i < 100 ? 20 : 100}`,
    ),
    '',
  ].join('\n');
const folder = testFolder({
  'a1.csv': table(0),
  'b1.csv': table(900),
  'before.json': session(['a1.csv']),
  'after.json': session(['b1.csv']),
  'vehicle.json': JSON.stringify(VEHICLE),
  'wrong.json': JSON.stringify({ ...VEHICLE, tyre: { radius: '13 lb' } }),
  'mine.json': JSON.stringify({
    format: 'use/1',
    name: 'her road',
    points: [
      { speed: '3000 rpm', share: '80 %' },
      { speed: '5500 rpm', share: '20 %' },
    ],
  }),
  'drive.csv': drive(),
});
afterAll(() => folder.remove());

interface Answer {
  builds: string[];
  uses: {
    use: string;
    from: string;
    refused: string | null;
    pairs: { gainPercent: { value: number }; word: string }[];
  }[];
  vehicle: {
    assumed: string[];
    builds: {
      figures: { id: string; value: number | null; low: number | null }[];
      energyOpenPart: number;
    }[];
    pairs: { differences: { id: string; value: number; high: number; chanceBetter: number }[] }[];
    gearing: { builds: { finalDrive: number }[] };
  } | null;
  finding: string;
  warnings: string[];
}
async function answered(...args: string[]): Promise<Answer> {
  const { io, objects, out } = testIo(folder.folder);
  const code = await run(['use', '--json', ...args], io);
  expect(code, out()).toBe(0);
  return objects()[0] as unknown as Answer;
}

describe('pullbook use', () => {
  it('says of all uses which build is ahead for which, and which the pulls cannot answer for', async () => {
    const { uses, finding } = await answered('before.json', 'after.json');
    expect(uses.map(({ use }) => use)).toContain('sustained full throttle');
    const gain = (name: string) => uses.find(({ use }) => use === name)!.pairs[0]!;
    // Torque moved up by 900 rev/min: lost low, gained high.
    expect(gain('towing').gainPercent.value).toBeLessThan(0);
    expect(gain('circuit').gainPercent.value).toBeGreaterThan(3);
    expect(finding).toMatch(/after\.json has more mean power for .*circuit/);
    expect(finding).toMatch(/before\.json for .*towing/);
  });

  it('computes a vehicle, which is then the use, with what was taken unsaid', async () => {
    const { vehicle, uses, finding } = await answered(
      'before.json',
      'after.json',
      '--vehicle',
      'vehicle.json',
    );
    expect(uses).toHaveLength(1);
    expect(uses[0]!.from).toBe('vehicle');
    const quarter = vehicle!.pairs[0]!.differences.find(({ id }) => id === 'quarterMile')!;
    expect(quarter.high).toBeLessThan(0);
    expect(quarter.chanceBetter).toBeGreaterThan(0.99);
    for (const { energyOpenPart } of vehicle!.builds)
      expect(Math.abs(energyOpenPart)).toBeLessThan(1e-3);
    expect(vehicle!.builds[0]!.figures.find(({ id }) => id === '1km')!.value).toBeGreaterThan(20);
    expect(vehicle!.assumed.length).toBeGreaterThan(3);
    expect(finding).toContain('not a promise');
  });

  it('takes a typed use, a logged drive, and one build by itself', async () => {
    const typed = await answered('before.json', 'after.json', '--use', 'mine.json');
    expect(typed.uses[0]!.use).toBe('her road');
    const logged = await answered('before.json', 'after.json', '--log', 'drive.csv');
    expect(logged.uses[0]!.from).toBe('log');
    expect(logged.uses[0]!.pairs[0]!.word).toBe('real');
    const alone = await answered('before.json', '--vehicle', 'vehicle.json', '--over', '0-60mph');
    expect(alone.vehicle!.pairs).toEqual([]);
    expect(alone.finding).toMatch(/takes \d\.\d\d s .* from 0 to 60 mph/);
  });

  it('shows the finding first, in the units asked for', async () => {
    const metric = testIo(folder.folder);
    await run(
      ['use', 'before.json', 'after.json', '--vehicle', 'vehicle.json', '--units', 'metric'],
      metric.io,
    );
    expect(metric.out()).toMatch(/Trap\s+speed\s+is\s+[\d.]+\s+km\/h/);
    expect(metric.out()).toContain('taken: The inertia of the wheels');
  });

  it('refuses with 1 what it cannot read, naming the field, and with 2 what was typed wrongly', async () => {
    const code = async (...args: string[]) => {
      const { io, out, err } = testIo(folder.folder);
      return [await run(['use', ...args], io), out() + err()] as const;
    };
    const [refused, why] = await code('before.json', '--vehicle', 'wrong.json');
    expect(refused).toBe(1);
    expect(why).toContain('tyre.radius');
    expect((await code('gone.json'))[0]).toBe(1);
    expect((await code('before.json', '--log', 'a1.csv'))[0]).toBe(1);
    expect((await code('before.json', '--use', 'racing'))[0]).toBe(2);
    expect((await code('before.json', '--over', 'a lap'))[0]).toBe(2);
    expect((await code('before.json', '--above', 'high'))[0]).toBe(2);
    expect((await code('before.json', '--use', 'circuit', '--log', 'drive.csv'))[0]).toBe(2);
  });
});
