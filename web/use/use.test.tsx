import { MantineProvider } from '@mantine/core';
import fc from 'fast-check';
import { renderToStaticMarkup } from 'react-dom/server';
import { describe, expect, it } from 'vitest';
import { pullsOf } from '../../src/compare/compared.fixture.ts';
import { orRefuse, readUse, readVehicle } from '../../src/compare/index.ts';
import type { CompareInput } from '../../src/compare/types.ts';
import { LinesChart, linesTable } from '../charts/LinesChart.tsx';
import { readForm, textOf } from '../form/fields.ts';
import { pasteRows, type Rows, rowsOf, textOfRows } from '../form/table-text.ts';
import { changedUse, rowsOfUse, typedUse } from '../screens/use/typed-use.ts';
import { shownOf } from '../table/shown.test-data.ts';
import type { UseScreenProps } from './props.ts';
import { UseScreen } from './UseScreen.tsx';
import { NEW_VEHICLE, VEHICLE_FIELDS, vehicleFrom, vehicleValues } from './vehicle-fields.ts';

const WRITTEN = {
  format: 'vehicle/1',
  name: 'Hill-climb coupe',
  mass: '1180 kg',
  gears: [2.9, 1.95, 1.45, 1.18, 1],
  finalDrive: 3.9,
  tyre: { radius: '298 mm', growth: '1 %', growthAt: '200 km/h' },
  driveline: { lossByGear: ['8 %', '7 %', '7 %', '6 %', '6 %'] },
  clutch: { launchSpeed: '4000 rpm' },
  dragArea: '0.72 m^2',
};

describe('the form of a vehicle', () => {
  it.each(['us', 'metric'] as const)(
    'left as it is in %s units, changes nothing that was typed',
    (units) => {
      const values = vehicleValues(WRITTEN);
      const texts = Object.fromEntries(
        VEHICLE_FIELDS.map((field) => [field.key, textOf(field, values[field.key], units)]),
      );
      const { patch, troubles } = readForm(VEHICLE_FIELDS, texts, values, units);
      expect(troubles).toEqual({});
      expect(vehicleFrom(WRITTEN, patch, units)).toEqual(WRITTEN);
    },
  );

  it.each([
    ['us', '2601.4 lb'],
    ['metric', '1180 kg'],
  ] as const)('filled in anew in %s units, is the same vehicle', (units, mass) => {
    const { 'driveline.loss': _, ...values } = vehicleValues({ ...WRITTEN, driveline: undefined });
    const written = vehicleFrom({}, { ...NEW_VEHICLE, ...values }, units);
    expect(String(written.mass)).toContain(mass.split(' ')[1]!);
    const [before, after] = [WRITTEN, written].map(
      (one) => orRefuse(readVehicle({ ...one, driveline: undefined })).vehicle,
    );
    expect(after!.massKg).toBeCloseTo(before!.massKg, 2);
    expect(after!.tyreGrowthS2PerM2 / before!.tyreGrowthS2PerM2).toBeCloseTo(1, 3);
    expect(after!.tyreRadiusM).toBeCloseTo(before!.tyreRadiusM, 5);
    expect(after!.gears).toEqual(before!.gears);
  });

  it('takes a converter in the place of the clutch, and keeps what it cannot read to be named', () => {
    const changed = vehicleFrom(
      WRITTEN,
      {
        coupling: 'converter',
        'converter.stallSpeed': 2800,
        'converter.stallTorque': 400,
        gears: '2.5 x 1',
        'shift.speeds': '6000',
      },
      'metric',
    );
    expect(changed.clutch).toBeUndefined();
    expect(changed.converter).toMatchObject({ stallSpeed: '2800 rpm', stallTorque: '400 N·m' });
    expect(changed.shift).toEqual({ speeds: '6000 rpm' });
    const read = readVehicle(changed);
    expect('problems' in read && read.problems.map(({ path }) => path)).toContain('gears[1]');
  });
});

describe('the curve of a converter in the form', () => {
  const field = VEHICLE_FIELDS.find(({ key }) => key === 'converter.curve')!;
  const { clutch: _, ...rest } = WRITTEN;
  const converter = { stallSpeed: '2800 rpm', stallTorque: '400 N·m' };
  const usual = orRefuse(readVehicle({ ...rest, converter }));

  it('is offered in its usual shape, which says the same as nothing said', () => {
    const filled = vehicleFrom(
      { ...rest, converter },
      { 'converter.curve': field.offer!.text },
      'us',
    );
    const read = orRefuse(readVehicle(filled));
    expect(read.vehicle).toEqual(usual.vehicle);
    // Said now, so no longer assumed.
    expect(usual.assumed.join(' ')).toContain('The converter’s curve is not said');
    expect(read.assumed.join(' ')).not.toContain('converter');
    const values = vehicleValues(filled);
    expect(values['converter.curve']).toBe(field.offer!.text);
    expect(vehicleFrom(filled, {}, 'us')).toEqual(filled);
    expect(vehicleFrom(filled, { 'converter.curve': '' }, 'us').converter).toEqual(converter);
  });

  it('is pasted, and a slip in it is named by its cell', () => {
    const pasted = pasteRows([], { row: 0, column: 0, columns: 3 }, SHEET);
    const text = textOfRows((pasted as { rows: Rows }).rows);
    const written = vehicleFrom({ ...rest, converter }, { 'converter.curve': text }, 'metric');
    const { coupling } = orRefuse(readVehicle(written)).vehicle;
    expect(coupling.kind === 'converter' && coupling.curve).toEqual([
      { speedRatio: 0, torqueRatio: 1.9, capacity: 1 },
      { speedRatio: 0.8, torqueRatio: 1.1, capacity: 0.85 },
      { speedRatio: 1, torqueRatio: 1, capacity: 0 },
    ]);
    const slip = vehicleFrom(
      { ...rest, converter },
      { 'converter.curve': text.replace('1,1', 'about one') },
      'metric',
    );
    const read = readVehicle(slip);
    expect('problems' in read && read.problems.map(({ path }) => path)).toContain(
      'converter.curve[1].torqueRatio',
    );
  });
});
const SHEET = 'speed ratio\ttorque ratio\tcapacity\r\n0\t1,9\t1\r\n0,8\t1,1\t0,85\r\n1\t1\t0\r\n';

describe('a small table of a form', () => {
  it('takes blocks however their cells are parted, over what stands there', () => {
    const at = (row: number, column: number) => ({ row, column, columns: 3 });
    for (const block of [
      '3000\t80\n4000\t20',
      '3000;80\n4000;20',
      '3000, 80\n4000, 20',
      '3000 80\n4000 20',
    ])
      expect(pasteRows([['1', '2', '3']], at(0, 0), block)).toEqual({
        rows: [
          ['3000', '80', '3'],
          ['4000', '20'],
        ],
      });
    expect(pasteRows([], at(0, 1), '3000 rpm\n4000 rpm')).toEqual({
      rows: [
        ['', '3000 rpm'],
        ['', '4000 rpm'],
      ],
    });
    expect(pasteRows([], at(0, 2), '1\t2')).toHaveProperty('wrong');
    expect(pasteRows([], at(0, 0), 'speed\tshare')).toHaveProperty('wrong');
  });

  it('keeps any cells through its text', () => {
    const cell = fc.string({ maxLength: 6 }).map((text) => text.replace(/\s/g, 'x'));
    fc.assert(
      fc.property(fc.array(fc.tuple(cell, cell, cell), { maxLength: 6 }), (rows) => {
        const said = rows.filter((cells) => cells.some((one) => one !== ''));
        const full = (read: Rows) => read.map((cells) => [0, 1, 2].map((i) => cells[i] ?? ''));
        expect(full(rowsOf(textOfRows(rows)))).toEqual(said);
      }),
      { seed: 7, numRuns: 60 },
    );
  });
});

describe('a use typed in lines', () => {
  it('is shown again as it counts, and changed in place', () => {
    const log = {
      ...typedUse('drive', '3000\t60\t\n5500\t20\t40'),
      from: 'log',
      reason: 'Time by engine speed.',
    };
    // 60 and 20 parts of 80.
    expect(rowsOfUse(log)).toBe('3000\t75\t100\n5500\t25\t40');
    expect(changedUse(log, { name: 'his drive', rows: undefined })).toEqual({
      ...log,
      name: 'his drive',
    });
    const changed = orRefuse(
      readUse(changedUse(log, { name: 'drive', rows: '3000\t33,3\n4000\t66,7' })),
    );
    expect(changed.from).toBe('typed');
    expect(changed.points.map(({ share }) => share)).toEqual([
      expect.closeTo(0.333, 9),
      expect.closeTo(0.667, 9),
    ]);
    expect(rowsOfUse({ format: 'use/9' })).toBe('');
  });

  it('takes bare numbers as rpm and per cent', () => {
    expect(typedUse('road', '3000, 80\n5500 rpm; 20 %; 40\n')).toEqual({
      format: 'use/1',
      name: 'road',
      points: [
        { speed: '3000 rpm', share: '80 %' },
        { speed: '5500 rpm', share: '20 %', load: '40 %' },
      ],
    });
  });
});

describe('the page of what it is for', () => {
  const early = (speed: number) => 460 - 1.8e-5 * (speed - 4000) ** 2;
  const late = (speed: number) => 460 - 1.8e-5 * (speed - 5200) ** 2;
  const input: CompareInput = {
    groups: [
      { name: 'Build 1', pulls: pullsOf(early, [0, 2, 4], 1) },
      { name: 'Build 2', pulls: pullsOf(late, [1, 3, 5], 2) },
    ],
    bandRpm: [3000, 7000],
    reference: [],
    repeatabilityPercent: null,
    calibrationRelSd: {},
    worthPercent: 0.75,
  };
  const kept = { id: 'v1', engineId: 'e', name: 'the coupe', who: '', keptAt: '' };
  const page = (more: Partial<UseScreenProps>) =>
    renderToStaticMarkup(
      <MantineProvider>
        <UseScreen
          input={input}
          sides={input.groups.map(({ name }) => ({ name, aside: '3 pulls', pulls: [] }))}
          units="us"
          standard="SAE J1349"
          taken="Taken were 3 pulls of each."
          warnings={[]}
          uses={[]}
          vehicles={[{ ...kept, written: WRITTEN }]}
          chosen={{ use: null, vehicle: null, goal: 'quarterMile' }}
          onChoose={() => {}}
          {...more}
        />
      </MantineProvider>,
    ).replaceAll('\u202f', ' ');

  it('says which build suits a use, and that times need a vehicle', () => {
    const markup = page({ chosen: { use: 'circuit', vehicle: null, goal: 'quarterMile' } });
    expect(markup).toMatch(/For circuit, Build 2 has [\d.]+ % more/);
    expect(markup).toContain('no vehicle is chosen');
    expect(markup).not.toContain('NaN');
  });

  it('says who is quicker in a vehicle, in words, figures and caution, in both unit systems', () => {
    const us = page({ chosen: { use: null, vehicle: 'v1', goal: 'quarterMile' } });
    expect(us).toMatch(/Build 2 is quicker over the 1\/4 mile by 0\.\d\d s/);
    expect(us).toContain('not a promise');
    expect(us).toContain('0 to 60 mph');
    expect(us).not.toContain('0 to 100 km/h');
    expect(us).not.toContain('NaN');
    const metric = page({
      chosen: { use: null, vehicle: 'v1', goal: '0-100kmh' },
      units: 'metric',
    });
    expect(metric).toMatch(/(quicker|told apart) from 0 to 100 km\/h/);
  });

  it('says why a use is not answered and why a vehicle cannot move', () => {
    const use = { ...kept, id: 'u', name: 'idling', written: typedUse('idling', '900, 100') };
    expect(
      page({ uses: [use], chosen: { use: 'kept:u', vehicle: null, goal: 'quarterMile' } }),
    ).toContain('Only 0 % of the use');
    const heavy = { ...kept, written: { ...WRITTEN, mass: '50000 kg', grade: '30 %' } };
    expect(
      page({ vehicles: [heavy], chosen: { use: null, vehicle: 'v1', goal: 'quarterMile' } }),
    ).toContain('cannot move away');
  });
});

describe('lines over a common foot', () => {
  const lines = [
    {
      id: 'a',
      label: 'A',
      colour: () => '#000',
      x: [0, 1, 2],
      y: [1, 2, 3],
      low: [0.5, 1, 2],
      high: [1.5, 2, 4],
    },
  ];
  const [x, y] = [
    { label: 'time', unit: 's', decimals: 0, step: 1 },
    { label: 'speed', unit: 'mph', decimals: 1 },
  ];

  it('draw with bands, marks and a cursor, and tell the same as a table', () => {
    const markup = renderToStaticMarkup(
      <LinesChart
        width={400}
        height={300}
        says="A by time."
        {...{ lines, x, y }}
        marks={[{ at: 1, label: 'here' }]}
        cursor={2}
        zero
      />,
    );
    expect(markup).toContain('here');
    expect(markup).not.toContain('NaN');
    expect(shownOf(linesTable(lines, x, y, 1))).toEqual({
      columns: ['time, s', 'A, mph', 'A, 95 %, mph'],
      rows: [
        ['0', '1.0', '0.5 to 1.5'],
        ['1', '2.0', '1.0 to 2.0'],
        ['2', '3.0', '2.0 to 4.0'],
      ],
    });
  });
});
