import { describe, expect, it } from 'vitest';
import { sheetObject } from '../../report/sheetObject.ts';
import { pistonToValve } from '../../trade/camshaft/index.ts';
import { Ask } from '../compute/ask.ts';
import { siteOf } from '../compute/windows.ts';
import { answerSheet, parseSheet, SHIPPED_WINDOWS, type Sheet } from '../index.ts';
import { centrelines } from './cam.ts';
import { drivenValves } from './flowValves.ts';
import { slider } from './motion.ts';
import { WHOLE_SHEET } from './whole.fixture.ts';

const IN = 0.0254;
const sheetWith = (sections: Record<string, object>): Sheet =>
  parseSheet({ format: 'sheet/1', layout: { cylinders: 4 }, sections });
const all = (sheet: Sheet) => {
  const { figures, checks } = answerSheet(sheet);
  return new Map([...figures, ...checks].map((one) => [one.id, one]));
};

describe('piston to valve, cylinder by cylinder', () => {
  const { deck, heads } = WHOLE_SHEET.sections;
  const decksIn = [0.02, 0.015, 0.02, 0.01, 0.02, 0.02, 0.018, 0.02];
  const recessesIn = [0.04, 0.04, 0.03, 0.045, 0.04, 0.05, 0.04, 0.04];
  const sheet = parseSheet({
    ...WHOLE_SHEET,
    sections: {
      ...WHOLE_SHEET.sections,
      deck: { values: { ...deck.values, deckClearance: { each: decksIn, unit: 'in' } } },
      heads: {
        ...heads,
        values: {
          ...heads.values,
          intakeValveAngle: '18 deg',
          intakeValveRecess: { each: recessesIn, unit: 'in' },
        },
      },
    },
  });

  it('is that of a search of its own for each (independent)', () => {
    const ask = new Ask(sheet);
    const [angle, head, pocket, gasket] = [
      ask.numberOrNull('heads.intakeValveAngle')!,
      ask.numberOrNull('heads.intakeValveDiameter')!,
      ask.numberOrNull('pistons.intakePocketDepth') ?? 0,
      ask.numberOrNull('deck.gasketThickness')!,
    ];
    const { each } = all(sheet).get('intakeToPistonComputed')!;
    decksIn.forEach((deckIn, i) => {
      const valve = {
        motion: drivenValves.intake(ask),
        valveAngleDeg: Math.abs(angle),
        headDiameterM: head,
        gap: {
          deckM: deckIn * IN,
          gasketThicknessM: gasket,
          valveRecessM: recessesIn[i]! * IN,
        },
        pocketDepthM: pocket,
      };
      const { clearanceM } = pistonToValve(slider(ask), valve, 'intake', centrelines(ask));
      expect(each![i]).toBeCloseTo(clearanceM, 9);
    });
  });

  it('names the cylinder that stands worst; the cam moved is told of that one', () => {
    const answers = all(sheet);
    const { each, value } = answers.get('intakeToPistonComputed')!;
    // 0.020 deck with 0.030 recess is 0.050 in; 0.010 with 0.045 is 0.055.
    expect(each!.indexOf(Math.min(...(each as number[])))).toBe(2);
    expect(value).toBeCloseTo(each![2]!, 12);
    expect(answers.get('intakeToPistonAdvanced')!.value!).toBeLessThan(each![2]!);
  });
});

describe('bearing clearance from its parts', () => {
  // By hand: 2.6410 in housing less two shells of 0.0955 in is 2.4500; less a journal of 2.4480 leaves 0.0020.
  it('is housing less both shells less journal (by hand), also beside what was measured directly', () => {
    const parts = {
      block: { values: { mainHousingBare: '2.6410 in' } },
      crank: { values: { mainShell: '0.0955 in', mainDiameter: '2.4480 in' } },
    };
    const answers = all(sheetWith(parts));
    expect(answers.get('mainClearance')!.value! / IN).toBeCloseTo(0.002, 9);
    const direct = { ...parts.crank.values, mainClearance: '0.0023 in' };
    const both = all(sheetWith({ ...parts, crank: { values: direct } }));
    expect(both.get('mainClearance')!.value! / IN).toBeCloseTo(0.0023, 9);
    expect(both.get('mainFromParts')!.value! / IN).toBeCloseTo(0.002, 9);
  });

  it('goes by the bore with its bearing in where that was measured; says what is missing', () => {
    const block = { values: { mainHousingBare: '2.6410 in', mainHousing: '2.4503 in' } };
    const crank = { values: { mainShell: '0.0955 in', mainDiameter: '2.4480 in' } };
    expect(all(sheetWith({ block, crank })).get('mainClearance')!.value! / IN).toBeCloseTo(
      0.0023,
      9,
    );
    const rods = { values: { bigEndHousing: '2.2250 in', bigEndShell: '0.0620 in' } };
    const pins = { values: { rodDiameter: '2.0990 in' } };
    expect(all(sheetWith({ rods, crank: pins })).get('rodClearance')!.value! / IN).toBeCloseTo(
      0.002,
      9,
    );
    expect(all(sheetWith({ rods })).get('rodClearance')!.missing).toContain('crank.rodClearance');
  });
});

describe('pushrod length', () => {
  const train = (values: object, lifter = 'hydraulic roller') =>
    all(sheetWith({ camshaft: { values: { lifter } }, valveTrain: { values } }));

  it('asked for is that at no lash and the preload of a hydraulic lifter (by hand)', () => {
    const values = { checkingPushrod: '7.760 in', preload: '0.040 in', pushrodLength: '7.800 in' };
    const answers = train(values);
    expect(answers.get('pushrodWanted')!.value! / IN).toBeCloseTo(7.8, 9);
    expect(answers.get('pushrodWanted')!.notes[0]!.sentence).toContain('7.800 in');
    expect(answers.get('pushrodLengthFit')).toMatchObject({ verdict: 'fine' });
    const short = train({ ...values, pushrodLength: '7.700 in' }).get('pushrodLengthFit')!;
    expect(short).toMatchObject({ verdict: 'look again' });
    expect(short).toHaveProperty('remedy', expect.stringContaining('longer'));
  });

  it('of a solid lifter is that at no lash; without a checking pushrod it asks for one', () => {
    const solid = train({ checkingPushrod: '7.760 in' }, 'solid flat');
    expect(solid.get('pushrodWanted')!.value! / IN).toBeCloseTo(7.76, 9);
    expect(train({ pushrodLength: '7.8 in' }).get('pushrodLengthFit')!.missing).toContain(
      'valveTrain.checkingPushrod',
    );
    expect(train({}, 'overhead bucket').has('pushrodWanted')).toBe(false);
  });
});

describe('a joint turned on by an angle', () => {
  const joint = (more: object, units = {}) =>
    sheetWith({
      fasteners: {
        tables: {
          joints: {
            units: { torque: 'N·m', angle: 'deg', grip: 'mm', ...units },
            rows: [
              {
                joint: 'Head bolts',
                thread: 'M10x1.5',
                lubricant: 'engine oil',
                torque: 30,
                angle: 90,
                ...more,
              },
            ],
          },
        },
      },
    });

  // By hand, M10x1.5, 25 mm of cast iron: As = 57.99 mm², kb = 207e9 × 57.99e-6 / 0.025 = 4.802e8 N/m;
  // kj = 0.5774 π 100e9 × 0.01 / (2 ln(5 (0.014435 + 0.005) / (0.014435 + 0.025))) = 1.0057e9 N/m (Shigley eq. 8-22);
  // in series 3.250e8; a quarter turn of 1.5 mm pitch is 0.375 mm, or 121.9 kN, on 30 / (0.15 × 0.01) = 20 kN.
  it('carries what its stiffness and that of the joint make of the turn (by hand)', () => {
    const kb = (207e9 * 57.99e-6) / 0.025;
    const kj =
      (0.5774 * Math.PI * 100e9 * 0.01) /
      (2 * Math.log((5 * (0.5774 * 0.025 + 0.005)) / (0.5774 * 0.025 + 0.025)));
    const byHandN = 20_000 + (0.0015 / 4) * ((kb * kj) / (kb + kj));
    const { value } = all(joint({ grip: 25, clamped: 'cast iron block' })).get('jointPreload')!;
    expect(value! / byHandN).toBeCloseTo(1, 3);
    expect(value! / 141_900).toBeCloseTo(1, 2);
  });

  it('is softer in aluminium, and the least and most hold both torque and angle', () => {
    const of = (clamped: string, id: string) => all(joint({ grip: 40, clamped })).get(id)!.value!;
    expect(of('aluminium', 'jointPreload')).toBeLessThan(of('cast iron', 'jointPreload'));
    expect(of('steel', 'jointPreloadLow')).toBeLessThan(of('steel', 'jointPreload'));
    expect(of('steel', 'jointPreloadHigh')).toBeGreaterThan(of('steel', 'jointPreload'));
  });

  it('says what is missing to tell it, by the name of the joint; a long one with the rule’s reach', () => {
    const open = all(joint({ grip: 40 })).get('jointPreload')!;
    expect(open.value).toBeNull();
    expect(open.notes.map(({ sentence }) => sentence).join(' ')).toContain(
      'Head bolts: to tell its preload by angle, say what it clamps',
    );
    const long = all(joint({ grip: 90, clamped: 'cast iron' })).get('jointPreload')!;
    expect(long.notes[0]!.sentence).toContain('9.0 diameters');
  });

  it('is published under its own name, not under a number', () => {
    const sheet = joint({ grip: 25, clamped: 'cast iron' });
    const object = sheetObject('a.json', sheet, answerSheet(sheet));
    expect(object.figures.find(({ id }) => id === 'jointPreload')!.each![0]!.place).toBe(
      'Head bolts',
    );
  });
});

describe('where windows come from', () => {
  it('can be read at a glance, and every site in it has its address beside', () => {
    let cited = 0;
    for (const { name, source, addresses = [] } of SHIPPED_WINDOWS) {
      expect(source, name).not.toMatch(/:\/\/|\bS\d\d\b/);
      expect(source.length, name).toBeLessThan(200);
      for (const address of addresses) {
        cited += 1;
        expect(source, name).toContain(siteOf(address));
      }
    }
    expect(cited).toBeGreaterThan(10);
  });

  it('is one line for each rod material of the quench', () => {
    const lines = SHIPPED_WINDOWS.filter(({ name }) => name === 'quench');
    expect(lines.map(({ when }) => when)).toEqual([{}, { 'rods.material': 'aluminium' }]);
  });
});
