import { afterEach, describe, expect, it } from 'vitest';
import type { CurveObject, LadderObject, LookObject, RefusedObject } from '../report/index.ts';
import { run } from './program.ts';
import { inventedTorqueNm, speedTable, TYPED_PEAKS, testFolder } from './testFiles.ts';
import { testIo } from './testIo.ts';

const folders: ReturnType<typeof testFolder>[] = [];
afterEach(() => {
  for (const folder of folders.splice(0)) folder.remove();
});

async function called(files: Parameters<typeof testFolder>[0], ...args: string[]) {
  const folder = testFolder(files);
  folders.push(folder);
  const test = testIo(folder.folder);
  return { code: await run(args, test.io), ...test };
}

describe('pullbook look', () => {
  it('says what was understood', async () => {
    const { code, objects } = await called({ 'a.csv': speedTable() }, 'look', '--json', 'a.csv');
    const [look] = objects() as unknown as [LookObject];
    expect(code).toBe(0);
    expect(look).toMatchObject({ file: 'a.csv', ok: true, rows: 36, kind: 'speed table' });
    expect(look.channels.map(({ quantity, unit }) => [quantity, unit])).toEqual([
      ['speed', 'rpm'],
      ['torque', 'N·m'],
      ['airTemperature', '°C'],
      ['barometer', 'kPa'],
      ['humidity', '%'],
    ]);
    expect(look.pulls).toEqual([{ firstRow: 0, lastRow: 35, from: 3000, to: 6500 }]);
    expect(look.warnings.join(' ')).toMatch(/Torque/);
  });

  it('refuses the bad, goes on with the good, and ends with 1', async () => {
    const files = {
      'good.csv': speedTable(),
      'broken.csv': speedTable().replace(/^4000,.*$/m, '4000,wrench'),
      'no speed.csv': 'Time (s),Torque (Nm)\n0,1\n1,2\n2,3\n',
      'empty.csv': '',
    };
    const { code, objects } = await called(
      files,
      'look',
      '--json',
      'broken.csv',
      'missing.csv',
      'no speed.csv',
      'empty.csv',
      'good.csv',
    );
    const answers = objects() as unknown as (LookObject | RefusedObject)[];
    expect(code).toBe(1);
    expect(answers.map(({ file, ok }) => [file, ok])).toEqual([
      ['broken.csv', false],
      ['missing.csv', false],
      ['no speed.csv', false],
      ['empty.csv', false],
      ['good.csv', true],
    ]);
    const [broken, , noSpeed] = answers as RefusedObject[];
    expect(broken!.error).toMatchObject({ line: 12 });
    expect(broken!.error.found).toMatch(/wrench/);
    expect(broken!.error.expected).toBeTruthy();
    expect(noSpeed!.error.message).toMatch(/speed/i);
  });

  it('shows hostile headers as text on a terminal and in JSON', async () => {
    const hostile = speedTable().replace('Humidity (%)', '"\u001b[2J<script>alert(1)</script>"');
    const shown = await called({ 'a.csv': hostile }, 'look', 'a.csv');
    expect(shown.out()).not.toContain('\u001b');
    expect(shown.out()).toContain('<script>alert(1)</script>');
    const json = await called({ 'a.csv': hostile }, 'look', '--json', 'a.csv');
    expect(json.out()).not.toContain('\u001b');
  });
});

describe('pullbook curve', () => {
  it('brings a speed table to standard air and finds its peaks', async () => {
    const { code, objects } = await called(
      { 'a.csv': speedTable() },
      'curve',
      '--json',
      '--standard',
      'SAE J1349',
      '--inertia',
      '0.4 kg m^2',
      'a.csv',
    );
    const [curve] = objects() as unknown as [CurveObject];
    expect(code).toBe(0);
    expect(curve).toMatchObject({ file: 'a.csv', pull: 1, standard: 'SAE J1349' });
    // 99.0 kPa dry at 25 °C is the reference state of the standard itself.
    expect(curve.correctionFactor).toBeCloseTo(1, 4);
    expect(curve.peakTorque.unit).toBe('N·m');
    expect(Math.abs(curve.peakTorque.value - 420)).toBeLessThan(1);
    expect(Math.abs(curve.peakTorque.speedRpm - 4400)).toBeLessThan(100);
    for (const { speedRpm, torqueNm, lowNm, highNm, powerW } of curve.curve) {
      expect(Math.abs(torqueNm / inventedTorqueNm(speedRpm) - 1)).toBeLessThan(0.005);
      expect(lowNm).toBeLessThan(torqueNm);
      expect(highNm).toBeGreaterThan(torqueNm);
      expect(powerW).toBeCloseTo((torqueNm * speedRpm * Math.PI) / 30, 6);
    }
  });

  it('leaves a column alone that the person calls corrected to that standard already', async () => {
    const args = ['--json', '--standard', 'SAE 60F dry', 'a.csv'];
    const factor = async (...more: string[]) =>
      (
        (
          await called({ 'a.csv': speedTable() }, 'curve', ...args, ...more)
        ).objects() as unknown as [CurveObject]
      )[0].correctionFactor;
    // At the reference state of J1349 the older standard reads 1.0400.
    expect(await factor()).toBeCloseTo(1.04, 3);
    expect(await factor('--standard', 'sae-60f-dry')).toBeCloseTo(1.04, 3);
    expect(await factor('--torque-is', 'SAE 60F dry')).toBe(1);
  });

  it('says what it took a silent header for, and no more once it was told', async () => {
    const marks = async (...more: string[]) =>
      JSON.stringify(
        (await called({ 'a.csv': speedTable() }, 'curve', '--json', 'a.csv', ...more)).objects()[0]!
          .marks,
      );
    expect(await marks()).toMatch(/taken as observed/);
    expect(await marks('--torque-is', 'observed')).not.toMatch(/taken as observed/);
  });

  it('shows a table with both units families', async () => {
    const us = await called({ 'a.csv': speedTable() }, 'curve', 'a.csv');
    expect(us.out()).toMatch(/peak torque\s+309\.\d lb-ft at 4[34]\d\d rpm/);
    const metric = await called({ 'a.csv': speedTable() }, 'curve', '--units', 'metric', 'a.csv');
    expect(metric.out()).toMatch(/peak torque\s+4(19|20)\.\d N·m/);
  });

  it.each([
    ['--inertia', '0.4 hp', /--inertia: "hp" is a unit of power/],
    ['--ratio', 'zero', /--ratio/],
    ['--torque-is', 'wished', /--torque-is/],
    ['--fuel', 'unobtanium', /--fuel: unknown fuel/],
  ])('calls %s %s wrong usage', async (flag, value, message) => {
    const { code, err } = await called({ 'a.csv': speedTable() }, 'curve', flag, value, 'a.csv');
    expect(code).toBe(2);
    expect(err()).toMatch(message);
  });
});

describe('the marks of human tables', () => {
  const cold = speedTable().replaceAll(',25.0,', ',8.0,');
  const day = JSON.stringify({
    pullbook: 'session/1',
    engine: { name: 'six', displacement: '3 L', fuel: 'gasoline' },
    band: ['3500 rpm', '6000 rpm'],
    pulls: [
      { file: 'a.csv', lead: '28 deg' },
      { file: 'b.csv', lead: '30 deg' },
    ],
  });
  const files = { 'a.csv': cold, 'b.csv': cold.replaceAll('99.0', '99.1'), 's.json': day };
  it.each([
    ['curve', 'a.csv'],
    ['ladder', 's.json'],
  ])(
    'of %s speak the units that were asked for, JSON those of the computation',
    async (...args) => {
      const us = await called(files, ...args);
      expect(us.out()).toMatch(
        /Inlet\s+air\s+at\s+46\s+°F\s+is\s+outside\s+the\s+59\s+to\s+95\s+°F/,
      );
      expect(us.out()).not.toMatch(/°C|rev\/min/);
      const metric = await called(files, args[0], '--units', 'metric', args[1]);
      expect(metric.out()).toMatch(/Inlet\s+air\s+at\s+8\s+°C/);
      const json = await called(files, args[0], '--json', args[1]);
      expect(json.out()).toMatch(/Inlet air at 8 °C/);
    },
  );
});

describe('pullbook ladder', () => {
  it('answers typed peaks alone', async () => {
    const { code, objects } = await called({ 's.json': TYPED_PEAKS }, 'ladder', '--json', 's.json');
    const [ladder] = objects() as unknown as [LadderObject];
    expect(code).toBe(0);
    expect(ladder).toMatchObject({
      session: 's.json',
      setting: 'lead',
      unit: 'deg',
      bandRpm: null,
      limitWatched: false,
    });
    expect(ladder.steps.map(({ from, to }) => [from, to])).toEqual([
      [32, 34],
      [34, 36],
      [36, 38],
    ]);
    // 799/775 − 1 and so on, shrunk a little towards a smooth response.
    for (const [index, percent] of [3.1, 2.38, 0.61].entries())
      expect(Math.abs(ladder.steps[index]!.gainPercent - percent)).toBeLessThan(0.6);
    expect(ladder.pulls[3]).toMatchObject({
      file: null,
      lead: 38,
      peakTorque: null,
      peakPower: { low: null, high: null, unit: 'W', speedRpm: null },
    });
    expect(ladder.pulls[3]!.peakPower!.value).toBeCloseTo(823 * 745.69987158, 3);
    expect(ladder.warnings.join(' ')).toMatch(/not corrected for air/);
  });

  it('works from run files, leaves out what the operator left out, and says so', async () => {
    const session = {
      pullbook: 'session/1',
      engine: { name: 'e', fuel: 'gasoline' },
      band: ['3500 rpm', '6000 rpm'],
      colour: 'red',
      pulls: [
        { file: 'a.csv', lead: '28 deg' },
        { file: 'b.csv', lead: '30 deg' },
        { file: 'gone.csv', lead: '30 deg', exclude: 'oil pressure light' },
        { file: 'c.csv', lead: '32 deg', group: 'air cleaner' },
      ],
    };
    const files = {
      's.json': JSON.stringify(session),
      'a.csv': speedTable(1),
      'b.csv': speedTable(1.02),
      'c.csv': speedTable(1.1),
    };
    const { code, objects } = await called(files, 'ladder', '--json', 's.json');
    const [ladder] = objects() as unknown as [LadderObject];
    expect(code).toBe(0);
    expect(ladder.steps).toHaveLength(1);
    expect(Math.abs(ladder.steps[0]!.gainPercent - 2)).toBeLessThan(0.5);
    expect(ladder.pulls.map(({ excludedBecause }) => excludedBecause)).toEqual([
      null,
      null,
      'oil pressure light',
      'it belongs to the part test "air cleaner"',
    ]);
    expect(ladder.warnings.join(' ')).toMatch(/"colour" is not a key/);
    expect(ladder.warnings.join(' ')).toMatch(
      /gone\.csv, left out \(oil pressure light\), could not be read/,
    );
  });

  it('takes a folder for the session in it', async () => {
    const { code, objects } = await called(
      { 'session.json': TYPED_PEAKS },
      'ladder',
      '--json',
      '.',
    );
    expect(code).toBe(0);
    expect(objects()[0]).toMatchObject({ session: 'session.json', setting: 'lead' });
    const none = await called({}, 'ladder', '--json', '.');
    expect(none.objects()[0]).toMatchObject({ session: 'session.json', ok: false });
  });

  it('corrects a boosted engine only where that was asked for', async () => {
    const session = {
      pullbook: 'session/1',
      engine: { name: 'e', fuel: 'gasoline', aspiration: 'boosted' },
      pulls: [
        { file: 'a.csv', lead: '28 deg' },
        { file: 'b.csv', lead: '30 deg' },
      ],
    };
    const files = {
      's.json': JSON.stringify(session),
      'a.csv': speedTable(1),
      'b.csv': speedTable(1.02),
    };
    const factors = async (...flags: string[]) => {
      const standard = ['--standard', 'DIN 70020'];
      const { objects } = await called(files, 'ladder', '--json', ...standard, ...flags, 's.json');
      const [ladder] = objects() as unknown as [LadderObject];
      return ladder.pulls.map(({ correctionFactor }) => correctionFactor);
    };
    expect(await factors()).toEqual([1, 1]);
    for (const factor of await factors('--correct-boosted'))
      expect(Math.abs(factor! - 1)).toBeGreaterThan(1e-4);
  });

  it('refuses a wrong session by its key, a missing run file by its name, and answers the others', async () => {
    const wrong = TYPED_PEAKS.replace('"36 deg"', '"36 hp"');
    const missing = TYPED_PEAKS.replace('"peakPower":"775 hp"', '"file":"gone.csv"');
    const use = TYPED_PEAKS.replace('"pulls"', '"use":"towing the moon","pulls"');
    const { code, objects } = await called(
      { 'wrong.json': wrong, 'missing.json': missing, 'use.json': use, 'good.json': TYPED_PEAKS },
      'ladder',
      '--json',
      'wrong.json',
      'missing.json',
      'use.json',
      'absent.json',
      'good.json',
    );
    expect(code).toBe(1);
    const answers = objects() as {
      session: string;
      ok?: boolean;
      error?: RefusedObject['error'] & { file: string };
    }[];
    expect(answers.map(({ session }) => session)).toEqual([
      'wrong.json',
      'missing.json',
      'use.json',
      'absent.json',
      'good.json',
    ]);
    expect(answers[0]!.error!.message).toMatch(/pulls\[2\]\.lead/);
    expect(answers[1]!.error!.file).toBe('gone.csv');
    expect(answers[2]!.error!.message).toMatch(/towing the moon.*bursts, sustained/);
    expect(answers[3]!.error!.message).toMatch(/no such file/);
    expect(answers[4]!.ok).toBeUndefined();
  });

  it('shows it to a person: headline, steps, what to leave in, what next', async () => {
    const { out } = await called({ 's.json': TYPED_PEAKS }, 'ladder', 's.json');
    for (const text of [
      '34 to 36 deg',
      'bursts',
      'sustained',
      'Next: ',
      'limit not watched',
      '775.0 hp',
    ])
      expect(out()).toContain(text);
    expect(
      out()
        .split('\n')
        .every((line) => [...line].length <= 140),
    ).toBe(true);
  });
});

describe('a command that is told to stop', () => {
  it('stops at once, says so, and ends with 1', async () => {
    const folder = testFolder({ 'a.csv': speedTable() });
    folders.push(folder);
    const test = testIo(folder.folder);
    const stopped = { ...test.io, signal: AbortSignal.abort() };
    expect(await run(['look', '--json', 'a.csv', 'a.csv'], stopped)).toBe(1);
    expect(test.out()).toBe('');
    expect(test.err()).toMatch(/stopped/);
  });
});

describe('a session with odd pulls', () => {
  const session = (pulls: object[]) =>
    JSON.stringify({ pullbook: 'session/1', engine: { name: 'e', fuel: 'gasoline' }, pulls });
  const flat = [
    'Speed (rpm),Torque (Nm)',
    ...Array.from({ length: 30 }, () => '3000,200'),
    '',
  ].join('\n');

  it('names the run file in which the speed never rises', async () => {
    const pulls = [
      { file: 'a.csv', lead: '28 deg' },
      { file: 'flat.csv', lead: '30 deg' },
    ];
    const files = { 's.json': session(pulls), 'a.csv': speedTable(), 'flat.csv': flat };
    const { code, objects } = await called(files, 'ladder', '--json', 's.json');
    expect(code).toBe(1);
    expect(objects()[0]).toMatchObject({
      session: 's.json',
      ok: false,
      error: { file: 'flat.csv' },
    });
  });

  it('takes an aborted pull for what it is', async () => {
    const pulls = [
      { file: 'a.csv', lead: '28 deg' },
      { file: 'b.csv', lead: '30 deg' },
      { file: 'flat.csv', lead: '32 deg', aborted: true },
    ];
    const files = {
      's.json': session(pulls),
      'a.csv': speedTable(),
      'b.csv': speedTable(1.02),
      'flat.csv': flat,
    };
    const { code, objects } = await called(files, 'ladder', '--json', 's.json');
    expect(code).toBe(0);
    expect((objects()[0] as unknown as LadderObject).steps).toHaveLength(1);
  });

  it('counts a file named twice as two pulls of their own', async () => {
    const pulls = [
      { file: 'a.csv', lead: '28 deg', peakPower: '300 hp' },
      { file: 'a.csv', lead: '28 deg' },
      { file: 'b.csv', lead: '30 deg' },
    ];
    const files = { 's.json': session(pulls), 'a.csv': speedTable(), 'b.csv': speedTable(1.02) };
    const { objects } = await called(files, 'ladder', '--json', 's.json');
    const [ladder] = objects() as unknown as [LadderObject];
    expect(ladder.pulls.map(({ file }) => file)).toEqual(['a.csv', 'a.csv', 'b.csv']);
    expect(ladder.warnings.join(' ')).toMatch(/a\.csv has typed peaks too/);
    expect(ladder.bandRpm).toEqual([4400, 6500]);
  });
});
