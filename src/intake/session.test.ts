import { describe, expect, it } from 'vitest';
import { FormatError, sentenceOf } from '../errors.ts';
import { readSession } from './index.ts';

const PLAIN = {
  pullbook: 'session/1',
  engine: { name: 'engine under test', cylinders: 8, displacement: '5.445 L', fuel: 'gasoline' },
  cell: { inertia: '0.770 kg m^2' },
  standard: 'SAE J1349',
  band: ['5000 rpm', '7200 rpm'],
  pulls: [{ file: 'pull-01.csv', lead: '22 deg', lambda: 0.87 }],
};
const read = (change: Record<string, unknown> = {}) =>
  readSession(JSON.stringify({ ...PLAIN, ...change }), 'session.json');

describe('session files', () => {
  it('come in inside units, with what is not said left open', () => {
    expect(read()).toEqual({
      setting: null,
      exhaustLimitK: null,
      engine: {
        name: 'engine under test',
        cylinders: 8,
        displacementM3: 0.005445,
        strokeM: null,
        compressionRatio: null,
        cycle: 4,
        aspiration: 'natural',
        fuel: 'gasoline',
      },
      cell: {
        inertiaKgM2: 0.77,
        sensorLagS: null,
        ratio: 1,
        torqueIs: { air: 'observed', inertia: 'out' },
        calibrationRelSd: 0.0025,
      },
      standard: 'SAE J1349',
      bandRpm: [5000, 7200],
      use: null,
      day: null,
      pulls: [
        {
          file: 'pull-01.csv',
          leadDeg: 22,
          lambdaTarget: 0.87,
          lambdaMeasured: null,
          lambdaErrorSd: null,
          jets: null,
          loadPercent: null,
          peakPowerW: null,
          peakTorqueNm: null,
          basis: { air: 'observed', inertia: 'out' },
          note: null,
          excludedBecause: null,
          group: null,
          watched: null,
          knockHeard: false,
          aborted: false,
          configuration: {},
        },
      ],
      warnings: [],
    });
  });

  it('take everything the format names', () => {
    const session = read({
      engine: {
        ...PLAIN.engine,
        stroke: '88.4 mm',
        compressionRatio: '10.5:1',
        cycle: '2-stroke',
        aspiration: 'boosted',
      },
      cell: {
        inertia: '0.35 kg m^2',
        sensorLag: '50 ms',
        ratio: 2.5,
        torqueIs: { air: 'SAE 60F dry', inertia: 'in' },
      },
      use: 'sustained',
      day: '2026-05-17',
      configuration: { exhaust: 'open pipes', oil: '10W-40' },
      pulls: [
        {
          file: 'a.csv',
          lead: 30,
          note: 'first',
          watched: 'ear',
          knockHeard: '5200 rpm',
          group: 'A',
          configuration: { exhaust: 'mufflers' },
        },
        {
          lead: '32 deg',
          peakPower: '412 hp',
          peakTorque: '400 lb-ft',
          exclude: 'belt came off',
          knockHeard: true,
          torqueIs: 'observed',
        },
      ],
    });
    expect(session.engine).toMatchObject({
      strokeM: 0.0884,
      compressionRatio: 10.5,
      cycle: 2,
      aspiration: 'boosted',
    });
    expect(session.cell).toMatchObject({
      sensorLagS: 0.05,
      ratio: 2.5,
      torqueIs: { air: 'SAE 60F dry', inertia: 'in' },
    });
    expect(session).toMatchObject({ use: 'sustained', day: '2026-05-17' });
    expect(session.pulls[0]).toMatchObject({
      leadDeg: 30,
      watched: 'ear',
      knockHeard: 5200,
      group: 'A',
      configuration: { exhaust: 'mufflers', oil: '10W-40' },
      basis: { air: 'SAE 60F dry', inertia: 'in' },
    });
    // 1 hp = 550 ft·lbf/s = 745.6998715822702 W exactly by its definition.
    expect(session.pulls[1]!.peakPowerW).toBeCloseTo(412 * 745.6998715822702, 6);
    expect(session.pulls[1]).toMatchObject({
      file: null,
      excludedBecause: 'belt came off',
      knockHeard: true,
      basis: { air: 'observed', inertia: 'out' },
    });
  });

  it('says which keys it does not know', () => {
    const session = read({
      pulls: [{ file: 'a.csv', lead: '22 deg', knokHeard: true }],
      colour: 'red',
    });
    expect(session.warnings).toEqual([
      '"colour" is not a key of session/1: it was ignored.',
      '"pulls[0].knokHeard" is not a key of session/1: it was ignored.',
    ]);
  });

  it('say mixture, jets, load and the exhaust’s limit in their second version only', () => {
    const mixture = {
      setting: 'both',
      exhaustLimit: '900 °C',
      pulls: [
        {
          peakPower: '300 kW',
          lead: '30 deg',
          lambdaMeasured: 0.861,
          lambdaError: 0.01,
          jets: { primary: 68, secondary: 76 },
          load: '60 %',
        },
      ],
    };
    expect(read({ pullbook: 'session/2', ...mixture })).toMatchObject({
      setting: 'both',
      exhaustLimitK: 1173.15,
      warnings: [],
      pulls: [
        {
          leadDeg: 30,
          lambdaMeasured: 0.861,
          lambdaErrorSd: 0.01,
          jets: 'primary 68, secondary 76',
          loadPercent: 60,
        },
      ],
    });
    const first = read(mixture);
    expect(first).toMatchObject({ setting: null, pulls: [{ jets: null, lambdaMeasured: null }] });
    expect(first.warnings).toContain('"setting" is not a key of session/1: it was ignored.');
  });

  it.each([
    ['another version', { pullbook: 'session/3' }, /^pullbook: "session\/3" is not a version/],
    ['no engine', { engine: undefined }, /^engine: nothing stands here; expected an object/],
    ['no pulls', { pulls: [] }, /^pulls: there are no pulls/],
    [
      'a pull without a lead',
      { pulls: [{ file: 'a.csv' }] },
      /^pulls\[0\]\.lead: nothing stands here/,
    ],
    [
      'a pull of nothing',
      { pulls: [{ lead: '22 deg' }] },
      /^pulls\[0\]: the pull has neither a file nor a peak/,
    ],
    [
      'a peak without a unit',
      { pulls: [{ lead: '22 deg', peakPower: '412' }] },
      /^pulls\[0\]\.peakPower: "412" has no unit/,
    ],
    [
      'a peak in a unit of torque',
      { pulls: [{ lead: '22 deg', peakPower: '412 lb-ft' }] },
      /^pulls\[0\]\.peakPower: "lb-ft" is a unit of torque/,
    ],
    [
      'an inertia in pounds',
      { cell: { inertia: '5 lb' } },
      /^cell\.inertia: "lb" is a unit of mass/,
    ],
    ['a negative inertia', { cell: { inertia: '-1 kg m^2' } }, /^cell\.inertia: .* out of range/],
    ['a negative speed', { band: ['-3000 rpm', '5000 rpm'] }, /^band\[0\]: .*, not below zero/],
    ['no lead', { pulls: [{ file: 'a' }] }, /^pulls\[0\]\.lead: nothing .* angle such as "22 deg"/],
    ['a word for lambda', { pulls: [{ file: 'a', lead: 2, lambda: 'rich' }] }, /: "rich" stands/],
    [
      'a band upside down',
      { band: ['7200 rpm', '5000 rpm'] },
      /^band: 7200 to 5000 rpm is no band/,
    ],
    ['a standard nobody wrote', { standard: 'SAE 12' }, /^standard: "SAE 12" is not a standard/],
    ['a day that is none', { day: '2026-13-45' }, /^day: "2026-13-45" is not a date/],
    [
      'watched by a cat',
      { pulls: [{ file: 'a', lead: '22 deg', watched: 'cat' }] },
      /^pulls\[0\]\.watched: .* expected ear, plug, sensor, not/,
    ],
    ['a list for a text', { engine: { ...PLAIN.engine, name: ['x'] } }, /^engine\.name: /],
  ])('are refused with the path of the key: %s', (_, change, message) => {
    expect(() => read(change)).toThrow(FormatError);
    expect(() => read(change)).toThrow(message);
  });

  it.each([
    ['', 1, 'empty'],
    ['{"pullbook": "session/1",\n  "engine": }', 2, 'not JSON'],
    ['{"pullbook": "session/1"', 1, 'not JSON'],
  ])('are refused where the JSON breaks: %j', (text, line, words) => {
    try {
      readSession(text, 'session.json');
    } catch (error) {
      expect(error).toBeInstanceOf(FormatError);
      expect((error as FormatError).place.line).toBe(line);
      expect(sentenceOf(error)).toContain(words);
      return;
    }
    throw new Error('it was not refused');
  });
});
