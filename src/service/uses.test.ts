import { describe, expect, it } from 'vitest';
import { inventedTorqueNm } from '../cli/testFiles.ts';
import { type Asked, withApp } from './testing.ts';
import { aDay, post } from './testingDays.ts';

const VEHICLE = {
  format: 'vehicle/1',
  mass: '3500 lb',
  gears: [2.97, 2.07, 1.43, 1],
  finalDrive: 3.55,
  tyre: { radius: '13 in' },
  clutch: { launchSpeed: '3500 rpm' },
  dragArea: '0.7 m^2',
  traction: { coefficient: 0.5, driven: 'all' },
};
const table = (up: number, scale: number) =>
  [
    'Speed (rpm),Torque (Nm),Inlet Air (°C),Barometer (kPa),Humidity (%)',
    ...Array.from({ length: 41 }, (_, i) => {
      const rpm = 2600 + 100 * i;
      return `${rpm},${(scale * inventedTorqueNm(rpm - up)).toFixed(2)},25.0,99.0,0`;
    }),
    '',
  ].join('\n');

/** An engine of two builds, two pulls each, the later with its torque higher up. */
async function twoBuilds(asked: Asked) {
  const { engine, day, cell } = await aDay(asked);
  const first = day.buildId;
  const { id: second } = await asked.record.builds.create({ engineId: engine.id, name: 'Second' });
  const { id: later } = await asked.record.days.create({
    buildId: second,
    cellId: cell.id,
    airPressureAbsPa: 99_000,
    airTemperatureK: 298.15,
    airHumidity: 0,
  });
  for (const [dayId, up] of [
    [day.id, 0],
    [later, 900],
  ] as const)
    for (const scale of [1, 1.001])
      expect((await post(asked, dayId, `${up}-${scale}.csv`, table(up, scale))).status).toBe(201);
  return { engineId: engine.id, first, second };
}

describe('what an engine is for, over HTTP', () => {
  it('keeps vehicles and uses of an engine, refuses slips by field, and undoes', () =>
    withApp(async (asked) => {
      const { json, ask } = asked;
      const { engine } = await aDay(asked);
      const path = `/engines/${engine.id}/vehicles`;
      const kept = await json<{ id: string; written: object }>(
        'POST',
        path,
        { name: 'the coupe', written: VEHICLE },
        201,
      );
      expect(kept.written).toEqual(VEHICLE);
      const wrong = await ask('POST', `/api/v1${path}`, {
        name: 'x',
        written: { ...VEHICLE, tyre: { radius: '13 lb' } },
      });
      expect(wrong.status).toBe(422);
      expect(await wrong.text()).toContain('tyre.radius');
      await json('PATCH', `/vehicles/${kept.id}`, {
        written: { ...VEHICLE, finalDrive: 3.9 },
      });
      await json('DELETE', `/vehicles/${kept.id}`, undefined, 204);
      expect(await json<unknown[]>('GET', path)).toEqual([]);
      await json('POST', '/undo');
      expect(await json<{ written: { finalDrive: number } }[]>('GET', path)).toMatchObject([
        { written: { finalDrive: 3.9 } },
      ]);
      const use = { format: 'use/1', points: [{ speed: '5000 rpm', share: '100 %' }] };
      await json('POST', `/engines/${engine.id}/uses`, { name: 'road', written: use }, 201);
      const none = await ask('POST', `/api/v1/engines/${engine.id}/uses`, {
        name: 'road',
        written: { format: 'use/1', points: [] },
      });
      expect(none.status).toBe(422);
      await json('DELETE', `/engines/${engine.id}`, undefined, 204);
      await json('POST', '/undo');
      expect(await json<unknown[]>('GET', `/engines/${engine.id}/uses`)).toHaveLength(1);
    }));

  it('answers for two builds in a kept vehicle, for one, and for a use from a log', () =>
    withApp(async (asked) => {
      const { json, ask } = asked;
      const { engineId, first, second } = await twoBuilds(asked);
      const kept = await json<{ id: string }>(
        'POST',
        `/engines/${engineId}/vehicles`,
        { name: 'the coupe', written: VEHICLE },
        201,
      );
      const sides = [first, second].map((buildId) => ({ kind: 'build', buildId }));
      const answer = await json<{
        builds: string[];
        uses: { from: string }[];
        vehicle: { pairs: { differences: { id: string; high: number }[] }[]; assumed: string[] };
        finding: string;
      }>('POST', '/use', { sides, vehicle: { keptId: kept.id } });
      expect(answer.uses[0]!.from).toBe('vehicle');
      const quarter = answer.vehicle.pairs[0]!.differences.find(({ id }) => id === 'quarterMile')!;
      expect(quarter.high).toBeLessThan(0);
      expect(answer.finding).toContain('not a promise');
      const alone = await json<{ vehicle: { pairs: unknown[] } }>('POST', '/use', {
        sides: sides.slice(0, 1),
        vehicle: { written: VEHICLE },
        goal: '0-60mph',
      });
      expect(alone.vehicle.pairs).toEqual([]);
      const members = await json<{ input: { groups: unknown[] } }>('POST', '/use/members', {
        sides: sides.slice(0, 1),
      });
      expect(members.input.groups).toHaveLength(1);

      const drive = [
        'Time (s),RPM,TPS (%)',
        ...Array.from({ length: 200 }, (_, i) => `${(0.1 * i).toFixed(1)},${4000 + 10 * i},100`),
      ].join('\n');
      const sent = await ask(
        'POST',
        '/api/v1/uses/from-log?name=drive.csv',
        new TextEncoder().encode(drive),
        { 'content-type': 'application/octet-stream' },
      );
      expect(sent.status).toBe(200);
      const { written } = (await sent.json()) as { written: object };
      const logged = await json<{ uses: { from: string; pairs: { word: string }[] }[] }>(
        'POST',
        '/use',
        { sides, use: { written } },
      );
      expect(logged.uses[0]!.from).toBe('log');
      expect(logged.uses[0]!.pairs[0]!.word).not.toBe('loss');
      for (const [wrong, status] of [
        [{ sides, goal: 'a lap' }, 422],
        [{ sides, use: { chosen: 'racing' } }, 422],
        [{ sides: [], use: 'all' }, 400],
      ] as const)
        expect((await ask('POST', '/api/v1/use', wrong)).status).toBe(status);
    }));
});
