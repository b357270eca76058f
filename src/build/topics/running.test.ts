import { describe, expect, it } from 'vitest';
import { findUnit, fromInside, quantityText } from '../../units/index.ts';
import { answerSheet, parseSheet, type Sheet } from '../index.ts';
import { WHOLE_SHEET } from './whole.fixture.ts';

type Sections = Record<string, { values?: object; tables?: object }>;

/** The whole sheet with some values of it changed. */
const sheetWith = (changes: Sections = {}, layout: object = {}): Sheet => {
  const sections: Sections = { ...WHOLE_SHEET.sections };
  for (const [id, { values, tables }] of Object.entries(changes))
    sections[id] = {
      ...sections[id],
      values: { ...sections[id]?.values, ...values },
      ...(tables === undefined ? {} : { tables }),
    };
  return parseSheet({ ...WHOLE_SHEET, layout: { cylinders: 8, ...layout }, sections });
};
const figure = (id: string, sheet = sheetWith()) =>
  answerSheet(sheet).figures.find((one) => one.id === id)!;
const check = (id: string, sheet = sheetWith()) =>
  answerSheet(sheet).checks.find((one) => one.id === id);
const inUnit = (value: number | null, unit: string) => fromInside(value!, findUnit(unit)!);

describe('flow', () => {
  it('reads the same at 28 inches as the bench did there, less what the lift falls short (identity)', () => {
    // The valve opens 1.5 × 0.330 − 0.018 = 0.477 in: between 212 at 0.4 and 228 at 0.5.
    const flow = inUnit(figure('intakeFlowAt28').value, 'cfm');
    expect(flow).toBeGreaterThan(212);
    expect(flow).toBeLessThan(228);
  });

  it('reads √2.8 times as much of a bench of 10 inches (the trade’s rule)', () => {
    const at10 = figure(
      'intakeFlowAt28',
      sheetWith({ heads: { values: { flowDepression: '10 inH2O' } } }),
    );
    expect(at10.value! / figure('intakeFlowAt28').value!).toBeCloseTo(Math.sqrt(2.8), 6);
  });

  it('has the effective area of 28 inches by the energy of the jet (independent, by hand)', () => {
    // Behind the port T = 293.15 × 0.93117^0.2857 = 287.24 K, so w = √(2 × 1004.7 × 5.91) = 108.97 m/s at 0.9503 of the
    // room's density: 103.56 m³ of room air a second and square metre, where Bernoulli has 107.6.
    const perArea = figure('intakeFlowAt28').value! / figure('intakeFlowArea').value!;
    expect(perArea).toBeCloseTo(103.56, 1);
  });

  it('has Z as Taylor writes it, (b/D)² s̄/(C_i a) with C_i of the valve disc (independent form)', () => {
    const meanArea = figure('intakeMeanFlowArea').value!;
    const disc = (Math.PI / 4) * (2.02 * 0.0254) ** 2;
    const sound = Math.sqrt(1.4 * 287.05 * 298.15);
    const pistonSpeed = (2 * 3.48 * 0.0254 * 5800) / 60;
    const bore = Math.sqrt((figure('displacement').value! / 8 / (3.48 * 0.0254)) * (4 / Math.PI));
    const z = ((bore / (2.02 * 0.0254)) ** 2 * pistonSpeed) / ((meanArea / disc) * sound);
    expect(check('machIndexPower')!.value).toBeCloseTo(z, 4);
    // Z goes with speed.
    expect(figure('speedAtMach60').value! * z).toBeCloseTo(0.6 * 5800, -1);
    expect(check('machIndexPower')!.verdict).toBe('look again');
  });

  it('asks for the table, and for nothing else that is there', () => {
    const { missing } = figure('intakeMeanFlowArea', sheetWith({ heads: { tables: {} } }));
    expect(missing).toEqual(['heads.flow']);
  });
});

describe('induction', () => {
  it('wants CID × rev/min ÷ 3456 × VE (the trade’s rule)', () => {
    const cubicInches = figure('displacement').value! / 0.0254 ** 3;
    expect(inUnit(figure('airDemandPower').value, 'cfm')).toBeCloseTo(
      ((cubicInches * 5800) / 3456) * 0.95,
      1,
    );
  });

  it('says what it assumed, and asks for it', () => {
    const sheet = sheetWith();
    const { volumetricEfficiency: _gone, ...values } = WHOLE_SHEET.sections.induction.values;
    const without: Sheet = {
      ...sheet,
      sections: {
        ...sheet.sections,
        induction: parseSheet({ ...WHOLE_SHEET, sections: { induction: { values } } }).sections
          .induction!,
      },
    };
    const air = figure('airDemandPower', without);
    expect(air.assumed).toEqual(['induction.volumetricEfficiency']);
    expect(air.notes[0]!.sentence).toContain('100 %');
    expect(answerSheet(without).measureNext.map(({ path }) => path)).toContain(
      'induction.volumetricEfficiency',
    );
  });

  it('asks a carburettor about its depression and a throttle about its loss, each only its own', () => {
    expect(check('throttleDrop')).toBeUndefined();
    expect(inUnit(check('carburettorDepression')!.value, 'inHg')).toBeCloseTo(
      1.5 * (inUnit(figure('airDemandPower').value, 'cfm') / 650) ** 2,
      3,
    );
    const throttled = sheetWith({
      induction: { values: { kind: 'throttle body', throttles: 1, throttleDiameter: '75 mm' } },
    });
    expect(check('carburettorDepression', throttled)).toBeUndefined();
    expect(check('throttleDrop', throttled)!.value).toBeGreaterThan(0);
    const tiny = sheetWith({
      induction: { values: { kind: 'throttle body', throttles: 1, throttleDiameter: '25 mm' } },
    });
    expect(check('throttleDrop', tiny)!.verdict).toBe('stop');
    expect(check('throttleDrop', tiny)!.problem).toContain('choke');
  });
});

describe('fuel', () => {
  const fuelled = (values: object, rows?: object[]) =>
    sheetWith({
      fuelSystem: {
        values,
        ...(rows === undefined ? {} : { tables: { blend: { units: { share: '%' }, rows } } }),
      },
    });

  it('of a blend by volume burns at 9.8 to 1, as E85 by its name does (reference: worked in the handbook)', () => {
    const rows = [
      { fuel: 'ethanol', share: 85 },
      { fuel: 'gasoline', share: 15 },
    ];
    const blended = figure('stoichiometric', fuelled({ fuel: 'mine', blendBy: 'by volume' }, rows));
    expect(blended.value).toBeCloseTo(9.8, 1);
    expect(blended.value).toBeCloseTo(figure('stoichiometric', fuelled({ fuel: 'E85' })).value!, 9);
    expect(
      figure('stoichiometric', fuelled({ fuel: 'mine', blendBy: 'by mass' }, rows)).value,
    ).not.toBeCloseTo(blended.value!, 2);
  });

  it('that nobody knows is named, with those that are', () => {
    expect(figure('stoichiometric', fuelled({ fuel: 'moonshine' })).problem).toContain('moonshine');
  });

  it('of a blend that is not whole is refused', () => {
    const rows = [
      { fuel: 'ethanol', share: 50 },
      { fuel: 'gasoline', share: 15 },
    ];
    expect(figure('stoichiometric', fuelled({}, rows)).problem).toContain('0.65');
  });

  it('of 500 hp at 0.50 through 8 injectors at 85 % is 36.8 lb/h each (reference: worked in the handbook)', () => {
    const sheet = sheetWith({
      intent: { values: { power: '500 hp' } },
      induction: { values: { kind: 'throttle body' } },
      fuelSystem: {
        values: {
          bsfc: '0.50 lb/hp-h',
          injectors: 8,
          injectorFlow: '30 lb/h',
          injectorRatedPressure: '43.5 psi',
          pressure: '58 psi',
        },
      },
    });
    expect(inUnit(figure('injectorWanted', sheet).value, 'lb/h')).toBeCloseTo(36.8, 1);
    // 43.5 to 58 psi gives 1.1547 times as much; √(745/684) for gasoline in place of n-heptane.
    const fitted = 30 * 1.1547 * Math.sqrt(745 / 684);
    expect(inUnit(figure('injectorFitted', sheet).value, 'lb/h')).toBeCloseTo(fitted, 2);
    expect(check('injectorDuty', sheet)!.value).toBeCloseTo(250 / (8 * fitted), 4);
    expect(check('injectorDuty', sheet)!.verdict).toBe('look again');
    expect(check('injectorDuty')).toBeUndefined();
  });

  it('is pumped with a margin', () => {
    // 192 lb/h of 6.217 lb/gal are 30.88 gal/h; the pump gives 60.
    expect(check('pumpMargin')!.value).toBeCloseTo(60 / 30.88, 2);
    const weak = sheetWith({ fuelSystem: { values: { pumpFlow: '25 gal/h' } } });
    expect(check('pumpMargin', weak)!.verdict).toBe('stop');
  });

  it('cools as a difference: no zero point of a thermometer in it', () => {
    const cooling = figure('chargeCooling');
    expect(cooling.isDifference).toBe(true);
    // About 24 K at lambda 1 (computed in the handbook).
    expect(cooling.value! * 0.87).toBeCloseTo(24, 0);
    expect(quantityText(cooling.value, 'temperature', 'metric', { difference: true })).toBe(
      '27.1 °C',
    );
  });
});

describe('tuned lengths', () => {
  it('carry their ± 20 % and their caution', () => {
    for (const id of [
      'runnerForTorque35',
      'runnerSpeed45',
      'runnerRam',
      'primaryForPower',
      'collectorBore',
    ]) {
      const { value, range, notes } = figure(id);
      expect(range!.low / value!).toBeCloseTo(0.8, 9);
      expect(range!.high / value!).toBeCloseTo(1.2, 9);
      expect(notes[0]!.sentence).toContain('let the dyno choose');
    }
  });

  it('has the primary of the worked example: 252° and 6000 rev/min are 32.7 in', () => {
    // Exhaust opens 72° before bottom: duration 276, exhaust centreline 114.
    const sheet = sheetWith({
      intent: { values: { peakPowerSpeed: '6000 rpm' } },
      camshaft: { values: { exhaustSeatDuration: '276 deg' } },
    });
    expect(figure('exhaustOpensSeat', sheet).value).toBeCloseTo(72, 9);
    expect(inUnit(figure('primaryForPower', sheet).value, 'in')).toBeCloseTo(32.7, 1);
  });

  it('is its own way back: a runner made for a speed has that speed (identity)', () => {
    const metres = figure('runnerForTorque35').value!;
    const sheet = sheetWith({
      induction: { values: { runnerLength: { value: metres, unit: 'm' } } },
    });
    expect(figure('runnerSpeed35', sheet).value).toBeCloseTo(4200, 6);
  });
});

describe('first settings', () => {
  it('come as a window with its reasons and its caution', () => {
    const [low, high] = [figure('startLeadLow'), figure('startLeadHigh')];
    expect([low.value, high.value]).toEqual([18, 24]);
    expect(high.notes.at(-1)!.sentence).toContain('not a promise');
    expect(figure('startLambdaRich').value!).toBeLessThan(figure('startLambdaLean').value!);
  });

  it.each(['boosted', 'nitrous'])(
    'are none for a %s engine, whatever else is known, and say why',
    (aspiration) => {
      for (const id of ['startLeadLow', 'startLambdaLean']) {
        const { value, missing, notes } = figure(id, sheetWith({}, { aspiration }));
        expect(value).toBeNull();
        expect(missing).toEqual([]);
        expect(notes).toHaveLength(1);
      }
    },
  );

  it('take an octane of unknown kind for the one that promises less', () => {
    const high = (values: object) =>
      figure(
        'startLeadHigh',
        sheetWith({ fuelSystem: { values: { fuel: 'gasoline', ...values } } }),
      ).value!;
    expect(high({ octane: 93 })).toBe(high({ octane: 93, octaneIs: 'RON' }));
    expect(high({ octane: 93, octaneIs: '(R+M)/2' })).toBeGreaterThan(high({ octane: 93 }));
  });

  it('ask for chamber and fuel where they are not on the sheet', () => {
    const bare = parseSheet({ format: 'sheet/1', layout: { cylinders: 4 }, sections: {} });
    expect(figure('startLeadHigh', bare).missing).toEqual(
      expect.arrayContaining(['fuelSystem.fuel', 'heads.chamber', 'block.boreNominal']),
    );
  });
});

describe('oil', () => {
  it('is held to 10 psi for each 1000 rev/min at the speed it was read (common practice, no source)', () => {
    expect(inUnit(check('oilPressureHot')!.window!.low, 'psi')).toBeCloseTo(50, 6);
    expect(check('oilPressureHot')!.verdict).toBe('fine');
    const low = sheetWith({
      oiling: { values: { hotPressure: '45 psi', reliefPressure: '60 psi' } },
    });
    expect(check('oilPressureHot', low)!.verdict).toBe('look again');
    expect(check('oilRelief', low)!.verdict).toBe('look again');
  });
});
