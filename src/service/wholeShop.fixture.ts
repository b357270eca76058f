/** A shop with something in every table, for tests of what travels and what is found. */
import type { PullbookRecord } from '../record/index.ts';
import { oneDay } from '../record/testing.ts';

const text = (words: string) => new TextEncoder().encode(words);

export async function fillEveryTable(record: PullbookRecord) {
  const { engine, cell, day } = await oneDay(record);
  await record.shop.update({
    name: 'Lathe and Lantern',
    address: '4 Mill Lane',
    standard: 'DIN 70020',
    uses: [
      ...(await record.shop.get()).uses,
      {
        name: 'hill climb',
        meaning: 'two minutes uphill',
        holdbackDeg: 1,
        speedsRpm: [4000, 6500],
        chancePastBest: 0.5,
        chancePastLimit: 0.02,
      },
    ],
    windows: [
      {
        name: 'leakDown',
        uses: null,
        when: {},
        low: null,
        high: 0.08,
        stopBelow: null,
        stopAbove: 0.2,
        perM: false,
        source: 'our own engines',
      },
    ],
  });
  await record.engines.update(engine.id, { name: 'Quarry four', refreshAfterPulls: 60 });
  await record.mappings.put(cell.id, 'shape', { dayFirst: true });
  await record.calibrations.create({
    cellId: cell.id,
    doneOn: '2026-01-17',
    who: 'Ann',
    notes: 'thermometer beside the sump',
    measured: {
      kind: 'sensor',
      sensor: 'Oil temperature',
      unit: '°C',
      reference: 'ice water and steam',
      referenceUncertainty: 0.2,
      points: [
        { reading: 0.4, reference: 0 },
        { reading: 99.1, reference: 99.6 },
      ],
    },
  });
  await record.recordings.import({
    dayId: day.id,
    fileName: 'pull-01.csv',
    bytes: text('speed,torque\n3000,400\n'),
    kind: 'time series',
    rows: 1,
    shape: 'shape',
    pulls: [{ leadDeg: 28 }],
  });
  await record.pulls.create({ dayId: day.id, peakPowerW: 310_000, note: 'smoke at the end' });
  const [ladder] = await record.ladders.list({ dayId: day.id });
  await record.decisions.create({
    ladderId: ladder!.id,
    use: 'hill climb',
    setting: 27,
    who: 'Ann',
    why: 'below the knee',
  });
  await record.sheets.save(
    day.buildId,
    {
      format: 'sheet/1',
      layout: { cylinders: 4 },
      sections: { crank: { parts: [{ name: 'Crank', serial: 'CR-9' }], notes: 'reground twice' } },
    } as never,
    0,
  );
  await record.buildFiles.put({
    buildId: day.buildId,
    bytes: text('not really a picture'),
    fileName: 'deck.txt',
    caption: 'deck after the cut',
    mediaType: 'text/plain',
  });
  const plan = await record.plans.create({
    dayId: day.id,
    version: 1,
    plan: {
      version: 1,
      sections: [
        {
          group: 'before',
          title: 'Before the first pull',
          items: [
            { id: 'guard', parts: [{ text: 'Guard the coupling shaft.' }] },
            { id: 'own.1', parts: [{ text: 'Borrow the second wideband from the bodyshop.' }] },
          ],
        },
      ],
    },
  });
  await record.plans.tick(plan.id, 'guard', true, { who: 'Wilhelmina' });
  await record.partTests.create({
    dayId: day.id,
    name: 'Spacer under the carburettor',
    gainPercent: 1,
    repeatabilityPercent: 0.4,
    plan: { blocks: 2, order: ['a', 'b', 'b', 'a'], gainPercent: 1, sentence: 'Two of each.' },
  } as never);
  await record.comparisons.create({
    engineId: engine.id,
    engineIds: [engine.id],
    name: 'Before and after the port work',
    sides: [{ kind: 'build', buildId: day.buildId }],
    said: {
      compareVersion: 1,
      curveVersion: 1,
      standard: 'DIN 70020',
      bandRpm: [4000, 6000],
      sides: [],
      gains: [],
      finding: 'Nothing that can be told from chance.',
    },
  } as never);
  await record.vehicles.create({
    engineId: engine.id,
    name: 'the coupe',
    written: {
      format: 'vehicle/1',
      mass: '3500 lb',
      gears: [2.97, 2.07, 1.43, 1],
      finalDrive: 3.55,
      tyre: { radius: '13 in' },
      clutch: { launchSpeed: '3500 rpm' },
      dragArea: '0.7 m^2',
      traction: { coefficient: 0.5, driven: 'all' },
    },
  });
  await record.uses.create({
    engineId: engine.id,
    name: 'milk round',
    written: { format: 'use/1', points: [{ speed: '2500 rpm', share: '100 %' }] },
  });
  await record.handOvers.keep({
    buildId: day.buildId,
    madeAt: '2026-06-02T09:00:00.000Z',
    madeBy: 'Ann',
    pullbook: '0.0.0',
    choice: { notes: 'for the owner of the coupe', by: 'Ann' },
    document: text('{"told":1}'),
    part: text('{"rows":1}'),
  });
  await record.handOvers.key(() => 'a key');
  await record.serviceEvents.create({
    engineId: engine.id,
    doneOn: '2026-06-20',
    what: 'rings and bearings renewed',
    parts: 'ring set, bearing set',
    hoursS: 36_000,
  });
  await record.serviceReadings.create({
    engineId: engine.id,
    readOn: '2026-07-01',
    hoursS: 40_000,
    leakDown: [0.04, 0.05, null, 0.04],
    leakDownError: 0.01,
    crankingGaugePa: [1_200_000, 1_190_000, 1_210_000, 1_205_000],
    note: 'warm, throttle open',
  });
  return { engine, cell, day, plan };
}
