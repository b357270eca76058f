import { describe, expect, it } from 'vitest';
import { findUnit } from '../units/find.ts';
import { fromInside } from '../units/index.ts';
import { answerFrom } from './compute/answer.ts';
import {
  answerSheet,
  type Figure,
  fieldOf,
  insideOf,
  parseSheet,
  partHistory,
  SHIPPED_WINDOWS,
  type Sheet,
  sheetChanges,
} from './index.ts';
import { CHECKS, FIGURES } from './topics/index.ts';
import { WHOLE_SHEET } from './topics/whole.fixture.ts';

const eight = (value: number, unit: string) => ({ each: Array<number>(8).fill(value), unit });
const more = structuredClone(WHOLE_SHEET) as unknown as {
  sections: Record<string, { values?: Record<string, unknown>; tables?: Record<string, unknown> }>;
};
const put = (path: string, value: unknown, onto = more) => {
  const [section, id] = path.split('.') as [string, string];
  onto.sections[section] ??= {};
  onto.sections[section].values ??= {};
  onto.sections[section].values[id] = value;
};
for (const side of ['intake', 'exhaust']) {
  put(`heads.${side}ValveAngle`, '23 deg');
  put(`heads.${side}ValveRecess`, '0.10 in');
  put(`heads.${side}GuideClearance`, eight(0.002, 'in'));
  put(`pistons.${side}PocketDepth`, '0.12 in');
  put(`valveTrain.${side}InstalledHeight`, eight(1.75, 'in'));
  put(`valveTrain.${side}RetainerToSeal`, eight(0.6, 'in'));
}
put('valveTrain.lifterMass', '90 g');
put('valveTrain.pushrodMass', '60 g');
put('valveTrain.rockerMassAtValve', '40 g');
put('rods.boltStretchedLength', '1.6 in');
more.sections.fasteners = {
  tables: {
    joints: {
      units: { torque: 'lb-ft', separating: 'lbf', stretch: 'in', freeLength: 'in' },
      rows: [
        {
          joint: 'Head',
          thread: '7/16-14',
          grade: '8',
          lubricant: 'oil',
          torque: 65,
          separating: 3000,
        },
        { joint: 'Main', thread: '7/16-14', grade: '8', lubricant: 'moly paste', torque: 110 },
        { joint: 'Odd', thread: 'left over', grade: '8', lubricant: 'oil', torque: 10 },
      ],
    },
  },
};

const FULL: Sheet = parseSheet(more);
const answer = (sheet: Sheet = FULL) => answerSheet(sheet);
const check = (id: string, sheet?: Sheet) => answer(sheet).checks.find((one) => one.id === id)!;
const figure = (id: string, sheet?: Sheet) => answer(sheet).figures.find((one) => one.id === id)!;
const withValue = (path: string, value: unknown) => {
  const copy = structuredClone(more);
  put(path, value, copy);
  return parseSheet(copy);
};
const inches = (value: number) => value * 0.0254;

describe('the whole sheet', () => {
  it('answers without a problem and without NaN', () => {
    const { figures, checks } = answer();
    for (const one of [...figures, ...checks]) {
      expect(one.problem, one.id).toBeNull();
      for (const value of [one.value, one.plusMinus, ...(one.each ?? [])])
        expect(Number.isNaN(value), one.id).toBe(false);
    }
  });

  it('has its own id for each answer', () => {
    const { figures, checks } = answer();
    for (const ids of [figures.map(({ id }) => id), checks.map(({ id }) => id)])
      expect(new Set(ids).size).toBe(ids.length);
  });

  it('stands at 108 with 265/277 on 112 plus four (common practice, no source)', () => {
    const copy = structuredClone(more);
    put('camshaft.intakeDuration', '265 deg', copy);
    put('camshaft.exhaustDuration', '277 deg', copy);
    put('camshaft.intakeSeatDuration', '300 deg', copy);
    put('camshaft.exhaustSeatDuration', '312 deg', copy);
    put('camshaft.separation', '112 deg', copy);
    const sheet = parseSheet(copy);
    expect(figure('intakeCentreline', sheet).value).toBe(108);
    const opens = figure('intakeOpens', sheet).value!;
    const closes = figure('intakeCloses', sheet).value!;
    expect(opens + 180 + closes).toBeCloseTo(265, 9);
  });

  it('does not care for the unit in which a length was typed', () => {
    const copy = structuredClone(FULL) as unknown as typeof more;
    const mm = findUnit('mm')!;
    for (const [section, data] of Object.entries(copy.sections))
      for (const [id, entry] of Object.entries(data.values ?? {})) {
        const typed = entry as {
          unit?: string;
          value?: number;
          each?: number[];
          plusMinus?: number;
        };
        const field = fieldOf(`${section}.${id}`)!;
        if (typed.unit !== 'in' || field.dimension !== 'length') continue;
        const other = (value: number) => fromInside(insideOf(field, value, 'in'), mm);
        if (typed.value !== undefined) typed.value = other(typed.value);
        if (typed.each !== undefined) typed.each = typed.each.map(other);
        if (typed.plusMinus !== undefined) typed.plusMinus *= 25.4;
        typed.unit = 'mm';
      }
    const [before, after] = [answer(), answer(copy as unknown as Sheet)];
    before.figures.forEach((one, i) => {
      const other = after.figures[i]!.value;
      if (one.value === null) expect(other, one.id).toBeNull();
      // What is a small difference of large numbers, or the place of a search's least, carries its rounding.
      else
        expect(Math.abs(other! - one.value) / (Math.abs(one.value) + 1e-6), one.id).toBeLessThan(
          1e-5,
        );
    });
    const changed = sheetChanges(FULL, copy as unknown as Sheet, before, after);
    expect(changed.measured).toEqual([]);
    expect(changed.verdicts).toEqual([]);
  });

  it('answers with any one field unknown', () => {
    const full = answer();
    let asked = 0;
    for (const [section, data] of Object.entries(FULL.sections))
      for (const id of Object.keys(data.values ?? {})) {
        const path = `${section}.${id}`;
        // An answer that never looked at a field comes out as before without it.
        const using = (answers: readonly Figure[]) =>
          new Set(answers.filter(({ from }) => from.includes(path)).map((one) => one.id));
        const [ofFigures, ofChecks] = [using(full.figures), using(full.checks)];
        const figures = FIGURES.filter((spec) => ofFigures.has(spec.id));
        const checks = CHECKS.filter((spec) => ofChecks.has(spec.id));
        const { [id]: _, ...values } = data.values!;
        const sections = { ...FULL.sections, [section]: { ...data, values } };
        const got = answerFrom(figures, checks, { ...FULL, sections }, SHIPPED_WINDOWS, false);
        for (const one of [...got.figures, ...got.checks])
          expect(one.problem, `${one.id} without ${path}`).toBeNull();
        asked += figures.length + checks.length;
      }
    expect(asked).toBeGreaterThan(1000);
  });
});

describe('faults that were planted', () => {
  it.each([
    ['topRingGapFit', 'pistons.topRingGap', eight(0.01, 'in'), 'stop'],
    ['wallClearanceFit', 'pistons.wallClearance', eight(0.002, 'in'), 'stop'],
    ['endFloatFit', 'crank.endFloat', '0.012 in', 'look again'],
    ['intakeToPistonMeasured', 'valveTrain.intakeToPiston', eight(0.05, 'in'), 'stop'],
    ['intakeToPistonMeasured', 'valveTrain.intakeToPiston', eight(0.08, 'in'), 'fine'],
    ['intakeCoilBind', 'valveTrain.intakeInstalledHeight', eight(1.58, 'in'), 'stop'],
    ['intakeRetainerSeal', 'valveTrain.intakeRetainerToSeal', eight(0.5, 'in'), 'stop'],
    ['intakeToPistonComputed', 'heads.intakeValveRecess', '-0.1 in', 'stop'],
  ] as const)('%s of %s', (id, path, value, verdict) => {
    expect(check(id, withValue(path, value)).verdict).toBe(verdict);
  });

  it('names the main bolt that stands past its proof load by hand, and the row that says too little', () => {
    const got = check('jointShareOfProof');
    // T/(K d) = 110 lb-ft × 12 ÷ (0.12 × 0.4375 in) = 25 143 lbf over 0.1063 in² × 120 ksi = 12 756 lbf.
    expect(got.each![1]).toBeCloseTo(25_143 / 12_756, 2);
    expect(got.each![2]).toBeNull();
    expect(got.rows).toEqual(['Head', 'Main', 'Odd']);
    expect([got.verdict, got.worst]).toEqual(['stop', 1]);
  });

  it('computes what follows by hand', () => {
    // 0.330 × 1.5 − 0.018; 1.75 − 0.477 − 1.10; 0.6 − 0.477; 125 lb and 380 lb/in over 0.477 in.
    expect(figure('intakeValveLift').value).toBeCloseTo(inches(0.477), 9);
    expect(check('intakeCoilBind').each![0]).toBeCloseTo(inches(0.173), 9);
    expect(check('intakeRetainerSeal').each![0]).toBeCloseTo(inches(0.123), 9);
    expect(figure('intakeOpenLoad').value! / 4.4482216152605).toBeCloseTo(125 + 380 * 0.477, 6);
  });

  it('floats where spring and inertia meet: their ratio goes with speed squared, from a card down to .020 in', () => {
    const share = check('intakeSpringInertia').value!;
    const floats = figure('intakeFloatSpeed').value! / 6500;
    expect(share).toBeCloseTo(floats ** 2, 9);
  });

  it('takes the window of the pistons and of boost', () => {
    const boosted = structuredClone(more) as unknown as { layout: Record<string, unknown> };
    boosted.layout.aspiration = 'boosted';
    const low = (sheet?: Sheet) => check('topRingGapFit', sheet).window!.low! / inches(4.03);
    expect(low()).toBeCloseTo(0.004, 5);
    expect(low(parseSheet(boosted))).toBeCloseTo(0.005, 5);
  });
});

describe('two builds', () => {
  it('tells what was measured, what follows, and which verdict changed', () => {
    const after = withValue('pistons.topRingGap', {
      each: [0.01, ...Array(7).fill(0.018)],
      unit: 'in',
    });
    const base = withValue('pistons.topRingGap', eight(0.018, 'in'));
    const changes = sheetChanges(base, after, answer(base), answer(after));
    expect(changes.measured).toHaveLength(1);
    expect(changes.measured[0]).toMatchObject({
      place: 0,
      before: { typed: 0.018 },
      after: { typed: 0.01 },
    });
    expect(changes.verdicts.map(({ id, after: now }) => [id, now])).toEqual([
      ['topRingGapFit', 'stop'],
    ]);
    const opened = withValue('heads.chamberVolume', eight(60, 'cc'));
    const ratio = sheetChanges(FULL, opened, answer(), answer(opened)).computed.find(
      ({ id }) => id === 'compressionRatio',
    )!;
    expect(ratio.by).toBeGreaterThan(0);
  });

  it('follows a part by its serial', () => {
    const build = (section: string, assembled: string): Sheet =>
      parseSheet({
        format: 'sheet/1',
        layout: { cylinders: 8 },
        sections: {
          [section]: { parts: [{ name: 'set of rods', serial: 'R-7' }] },
          condition: { values: { assembled, pulls: 40 } },
        },
      });
    const [one, two] = [build('rods', '2026-03-01'), build('rods', '2025-11-02')];
    const stays = partHistory(' r-7 ', [
      { engine: 'A', build: '2', sheet: one },
      { engine: 'B', build: '1', sheet: two },
    ]);
    expect(stays.map(({ engine, pulls }) => [engine, pulls])).toEqual([
      ['B', 40],
      ['A', 40],
    ]);
    const without = parseSheet({ format: 'sheet/1', layout: { cylinders: 8 }, sections: {} });
    const gone = sheetChanges(one, without, answer(one), answer(without)).parts;
    expect(gone).toEqual([
      { what: 'gone', name: 'set of rods', serial: 'R-7', from: 'rods', to: null },
    ]);
  });
});
