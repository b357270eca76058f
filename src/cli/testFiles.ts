import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

/** A folder of its own for one test, with what it needs in it. */
export function testFolder(files: Readonly<Record<string, string | Uint8Array>> = {}) {
  const folder = mkdtempSync(join(tmpdir(), 'pullbook-cli-'));
  for (const [name, content] of Object.entries(files)) writeFileSync(join(folder, name), content);
  return {
    folder,
    add: (name: string, content: string | Uint8Array) => writeFileSync(join(folder, name), content),
    remove: () => rmSync(folder, { recursive: true, force: true }),
  };
}

/** Torque of an invented engine [N·m]: a hump with its top at 4400 rev/min. */
export function inventedTorqueNm(speedRpm: number): number {
  return 420 - 18e-6 * (speedRpm - 4400) ** 2;
}

/** A speed table as a logger bins it: every 100 rev/min, observed torque, the day's air. */
export function speedTable(scale = 1): string {
  const rows = Array.from({ length: 36 }, (_, index) => {
    const rpm = 3000 + 100 * index;
    return `${rpm},${(scale * inventedTorqueNm(rpm)).toFixed(2)},25.0,99.0,0`;
  });
  return ['Speed (rpm),Torque (Nm),Inlet Air (°C),Barometer (kPa),Humidity (%)', ...rows, ''].join(
    '\n',
  );
}

/** A session of typed peaks: the practitioner's ladder, four rungs two degrees apart. */
export const TYPED_PEAKS = JSON.stringify({
  pullbook: 'session/1',
  engine: { name: 'engine under test', fuel: 'gasoline' },
  pulls: [
    { lead: '32 deg', peakPower: '775 hp' },
    { lead: '34 deg', peakPower: '799 hp' },
    { lead: '36 deg', peakPower: '818 hp' },
    { lead: '38 deg', peakPower: '823 hp' },
  ],
});
