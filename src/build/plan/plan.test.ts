import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fuelCautions, fuelNamed } from '../../trade/fuel/index.ts';
import { answerSheet, parseSheet } from '../index.ts';
import { anySheet } from '../sheet/anySheet.fixture.ts';
import type { Sheet } from '../sheet/types.ts';
import { WHOLE_SHEET } from '../topics/whole.fixture.ts';
import {
  contentOf,
  editPlan,
  editSummary,
  NO_EDITS,
  type Plan,
  type PlanContext,
  type PlanEdit,
  planFor,
  planSentence,
  tickedPlan,
  withEditsOf,
} from './index.ts';

const EDITOR = { by: 'A', at: '2026-05-17T07:00:00Z', newId: '1' };
const whole = parseSheet(WHOLE_SHEET);
const empty = parseSheet({ format: 'sheet/1', layout: { cylinders: 8 }, sections: {} });
const planOf = (sheet: Sheet, context: PlanContext = {}) =>
  planFor(sheet, answerSheet(sheet, context.windows), context);
const itemsOf = (sheet: Sheet, context?: PlanContext) =>
  planOf(sheet, context).sections.flatMap(({ items }) => items);
const item = (sheet: Sheet, id: string, context?: PlanContext) =>
  itemsOf(sheet, context).find((one) => one.id === id)!;
const said = (sheet: Sheet, id: string, context?: PlanContext) =>
  planSentence(item(sheet, id, context), 'us');

// The cautions of the design page, one by one.
const CAUTIONS = [
  ['safety.shaft', 'guard'],
  ['safety.line', 'in line'],
  ['safety.air', 'carbon monoxide'],
  ['safety.fire', 'Fire'],
  ['safety.ears', 'hearing and eye'],
  ['safety.stop', 'no computer'],
  ['safety.law', 'last word'],
] as const;

describe('what keeps people safe', () => {
  it('is in the plan of any sheet, and no edit of the shop takes it out (property)', () => {
    let fuelUnknown = 0;
    fc.assert(
      fc.property(anySheet(4), (sheet) => {
        const all = itemsOf(sheet);
        const safe = all.filter(({ isSafety }) => isSafety).map(({ id }) => id);
        for (const [id] of CAUTIONS) expect(safe).toContain(id);
        expect(safe).toContain('limits.oilPressure');
        if (safe.includes('safety.fuel')) fuelUnknown++;
        const plan = planOf(sheet);
        let edits = NO_EDITS;
        for (const { id, isSafety } of all) {
          const strike = () =>
            editPlan({ ...plan, edits }, { act: 'strike', itemId: id, reason: 'no' }, EDITOR);
          if (isSafety) expect(strike).toThrow(/stays/);
          else edits = strike();
        }
        const bare = tickedPlan({ ...plan, edits }, []);
        expect(bare.open.map(({ id }) => id)).toEqual(safe);
        // Nor does a record that was written by another hand.
        const strikes = safe.map((itemId) => ({ itemId, reason: 'no', by: 'B', at: EDITOR.at }));
        const forged = tickedPlan({ ...plan, edits: { ...NO_EDITS, strikes } }, []);
        expect(forged.open.map(({ id }) => id)).toEqual(all.map(({ id }) => id));
        expect(new Set(all.map(({ id }) => id)).size).toBe(all.length);
      }),
      { seed: 20261125, numRuns: 60 },
    );
    expect(fuelUnknown).toBeGreaterThan(0);
  }, 60_000);

  it.each(CAUTIONS)('%s speaks of %s', (id, word) => {
    expect(said(empty, id)).toContain(word);
  });

  it('holds every caution of the fuel, of every part of a blend', () => {
    const e85 = parseSheet({
      ...WHOLE_SHEET,
      sections: { fuelSystem: { values: { fuel: 'E85' } } },
    });
    const cautions = fuelCautions(fuelNamed('E85'));
    expect(cautions.length).toBeGreaterThan(2);
    // The flash point of gasoline as its table has it, in both units.
    for (const [units, flash] of [
      ['us', '−45 °F'],
      ['metric', '−43 °C'],
    ] as const) {
      const sentences = itemsOf(e85).map((one) => planSentence(one, units));
      for (const { sentence } of cautions)
        expect(sentences.join('\n')).toContain(sentence.replace('{flash}', flash));
    }
  });
});

describe('what a day changes in its plan', () => {
  const plan = planOf(whole);
  const edited = (...edits: readonly PlanEdit[]): Plan => {
    let so: Plan = plan;
    for (const edit of edits) so = { ...so, edits: editPlan(so, edit, EDITOR) };
    return so;
  };
  const itemOf = (from: Plan, id: string) =>
    tickedPlan(from, [])
      .sections.flatMap(({ items }) => items)
      .find((one) => one.id === id)!;
  const strike = { act: 'strike', itemId: 'runIn.cool', reason: 'cooled last night' } as const;

  it('strikes an item with who, when and why, and brings it back', () => {
    const struck = edited(strike);
    expect(itemOf(struck, 'runIn.cool').struck).toMatchObject({
      reason: 'cooled last night',
      by: 'A',
      at: EDITOR.at,
    });
    expect(tickedPlan(struck, []).open.map(({ id }) => id)).not.toContain('runIn.cool');
    const back = edited(strike, { act: 'restore', itemId: 'runIn.cool' });
    expect(tickedPlan(back, [])).toEqual({ ...tickedPlan(plan, []), edits: back.edits });
    expect(() => edited({ ...strike, reason: ' ' })).toThrow(/reason/);
    expect(() => edited({ ...strike, itemId: 'no.such' })).toThrow(/no such item/);
  });

  it('puts a number in the place of another; a tick from before counts no longer', () => {
    const { parts } = item(whole, 'preRun.oil');
    const part = parts.findIndex((one) => 'quantity' in one);
    const number = { act: 'number', itemId: 'preRun.oil', part, value: 0.006, reason: 'cooler' };
    const changed = edited(number as PlanEdit);
    expect(planSentence(itemOf(changed, 'preRun.oil'), 'metric')).toContain('6.0 L');
    expect(itemOf(changed, 'preRun.oil').changed).toMatchObject([{ reason: 'cooler', by: 'A' }]);
    const tickAt = (at: string) => [{ itemId: 'preRun.oil', by: 'B', at }];
    const isOpen = (at: string) =>
      tickedPlan(changed, tickAt(at)).open.some(({ id }) => id === 'preRun.oil');
    expect(isOpen('2026-05-17T06:00:00Z')).toBe(true);
    expect(isOpen('2026-05-17T08:00:00Z')).toBe(false);
    for (const wrong of [{ part: 99 }, { value: Number.NaN }])
      expect(() => edited({ ...number, ...wrong } as PlanEdit)).toThrow(/number/);
    const limit = item(whole, 'limits.speed').parts.findIndex((one) => 'quantity' in one);
    expect(() => edited({ ...number, itemId: 'limits.speed', part: limit } as PlanEdit)).toThrow(
      /windows of the shop or on the build sheet/,
    );
  });

  it('adds an item and removes it; what followed from the sheet is only struck', () => {
    const tea = {
      act: 'add',
      group: 'preRun',
      sentence: 'Tea is made.',
      weight: 'must',
      beforeFirstStart: true,
    } as const;
    const added = edited(tea);
    expect(planSentence(itemOf(added, 'own.1'), 'us')).toBe('Tea is made.');
    expect(tickedPlan(added, []).openBeforeFirstStart.map(({ id }) => id)).toContain('own.1');
    expect(edited(tea, { act: 'remove', itemId: 'own.1' }).edits).toEqual(NO_EDITS);
    expect(() => edited({ act: 'remove', itemId: 'safety.stop' })).toThrow(/strike/);
    expect(() => edited({ ...tea, sentence: ' ' })).toThrow(/what the new item/);
  });

  it('goes along to a plan made anew, but for numbers that the sheet has changed meanwhile', () => {
    const part = item(whole, 'preRun.oil').parts.findIndex((one) => 'quantity' in one);
    const last = edited(strike, {
      act: 'number',
      itemId: 'preRun.oil',
      part,
      value: 0.006,
      reason: 'cooler',
    });
    expect(withEditsOf(plan, last).edits).toEqual(last.edits);
    const sections = {
      ...WHOLE_SHEET.sections,
      oiling: { values: { capacity: { value: 7, unit: 'L' } } },
    };
    const anew = withEditsOf(planOf(parseSheet({ ...WHOLE_SHEET, sections })), last);
    expect(anew.edits!.strikes).toEqual(last.edits!.strikes);
    expect(anew.edits!.numbers).toEqual([]);
    expect(anew.notCarried).toHaveLength(1);
  });

  it('says each change in words for the list of changes', () => {
    expect(editSummary(plan, strike)).toMatch(/^struck “Let it cool/);
  });
});

describe('limits', () => {
  it('have oil pressure by speed: three quarters of 10 psi each 1000, never under 10 psi', () => {
    const { table } = item(whole, 'limits.oilPressure');
    const psi = table!.rows.map(([speed, pascal]) => [speed, Math.round(pascal! / 6894.757293168)]);
    expect(psi).toEqual([
      [1000, 10],
      [2000, 15],
      [3000, 23],
      [4000, 30],
      [5000, 38],
      [6000, 45],
      [6500, 49],
    ]);
  });

  it('follow the shop’s own window, and say whose it is; without one they ask for it', () => {
    const own = {
      name: 'limitWater',
      uses: null,
      when: {},
      low: null,
      stopBelow: null,
      perM: false,
      source: 'the shop’s own',
    };
    const windows = [{ ...own, high: 350, stopAbove: 360 }];
    expect(item(whole, 'limits.water', { windows }).source).toBe('the shop’s own');
    expect(said(whole, 'limits.water', { windows })).toContain('188 °F');
    const open = [{ ...own, high: null, stopAbove: null }];
    expect(said(whole, 'limits.water', { windows: open })).toContain('set one');
  });
});

describe('first settings', () => {
  it('are the windows of the sheet with their reasons', () => {
    expect(said(whole, 'firstSettings.lead')).toMatch(/between 18 deg and 24 deg/);
    expect(said(whole, 'firstSettings.lead')).toContain('not a promise');
  });

  it.each(['boosted', 'nitrous'])('of a %s engine there are none, and why', (aspiration) => {
    const sheet = parseSheet({ ...WHOLE_SHEET, layout: { cylinders: 8, aspiration } });
    const lead = item(sheet, 'firstSettings.lead');
    expect(planSentence(lead, 'us')).toMatch(/no first window is given here\. \w+/);
    expect(lead.parts.some((part) => 'quantity' in part)).toBe(false);
    expect(said(sheet, 'ladder.first')).toContain('no first window');
  });

  it('say what to measure where the sheet is empty', () => {
    const { measure } = item(empty, 'firstSettings.lead');
    expect(measure).toContain('fuelSystem.fuel');
    expect(measure).toContain('heads.chamber');
    expect(item(empty, 'consumables.fuel').measure).toContain('intent.power');
  });
});

describe('what follows from the sheet', () => {
  it('prints in both unit systems from one plan', () => {
    const oil = item(whole, 'preRun.oil');
    expect(planSentence(oil, 'us')).toContain('1.5 gal');
    expect(planSentence(oil, 'metric')).toContain('5.5 L');
  });

  it('has fuel for the day by hand: 400 hp at 0.48, 15 pulls of 18.5 s, an hour at a third, and 30 %', () => {
    // 192 lb/h of 745 kg/m³ is 116.9 L/h; × (277.5 s + 1200 s) × 1.3 = 62.4 L.
    const { parts } = item(whole, 'consumables.fuel');
    const litres = parts.find((part) => 'quantity' in part) as { quantity: { value: number } };
    const perHour = (192 * 0.45359237) / 745;
    expect(litres.quantity.value).toBeCloseTo((perHour / 3600) * 1477.5 * 1.3, 5);
  });

  it('keeps flat lifters from idling, sets lash hot, and torques again where the gasket asks', () => {
    expect(said(whole, 'runIn.cam')).toContain('no idling');
    expect(said(whole, 'afterRunIn.lash')).toContain('0.018 in');
    expect(said(whole, 'afterRunIn.retorque')).toContain('again');
    expect(item(empty, 'runIn.cam').measure).toEqual(['camshaft.lifter']);
    expect(item(empty, 'afterRunIn.retorque').measure).toEqual(['deck.retorque']);
  });

  it('puts what the sheet calls a stop in front of the first start', () => {
    const sections = {
      ...WHOLE_SHEET.sections,
      oiling: {},
      deck: { values: { ...WHOLE_SHEET.sections.deck.values, gasketThickness: '0.010 in' } },
    };
    const stop = item(parseSheet({ ...WHOLE_SHEET, sections }), 'preRun.check.quench');
    expect(stop).toMatchObject({ weight: 'must', beforeFirstStart: true });
    expect(planSentence(stop, 'us')).toContain('stop');
  });

  it('says that a cell is past its day', () => {
    const calibration = { isDue: true, dueIso: '2026-05-01' };
    expect(said(whole, 'preRun.calibration', { calibration })).toContain('due on 2026-05-01');
    const never = { isDue: false, dueIso: null, doneOn: '2026-04-01' };
    expect(said(whole, 'preRun.calibration', { calibration: never })).toContain('no day is set');
  });
});

describe('ticks', () => {
  const plan = planOf(whole);
  const musts = plan.sections
    .flatMap(({ items }) => items)
    .filter(({ weight, beforeFirstStart }) => weight === 'must' && beforeFirstStart);
  const tick = (itemId: string, at = '2026-05-17T08:00:00Z', by = 'A') => ({ itemId, by, at });

  it('leave open what is not ticked; the first start waits for the musts', () => {
    expect(tickedPlan(plan, []).openBeforeFirstStart).toHaveLength(musts.length);
    const all = musts.map(({ id }) => tick(id));
    expect(tickedPlan(plan, all).openBeforeFirstStart).toEqual([]);
    expect(tickedPlan(plan, all.slice(1)).openBeforeFirstStart.map(({ id }) => id)).toEqual([
      musts[0]!.id,
    ]);
  });

  it('keep who and when, the latest of several, and those whose item is gone', () => {
    const ticked = tickedPlan(plan, [
      tick('safety.ears', '2026-05-17T09:00:00Z', 'B'),
      tick('safety.ears'),
      tick('gone'),
    ]);
    const ears = ticked.sections[0]!.items.find(({ id }) => id === 'safety.ears')!;
    expect(ears.tick).toMatchObject({ by: 'B', at: '2026-05-17T09:00:00Z' });
    expect(ticked.stray.map(({ itemId }) => itemId)).toEqual(['gone']);
  });

  it('open an item again that says something else than when it was ticked', () => {
    const lead = item(whole, 'firstSettings.lead');
    const given = { ...tick(lead.id), content: contentOf(lead) };
    expect(tickedPlan(plan, [given]).open.map(({ id }) => id)).not.toContain(lead.id);
    const sections = { ...WHOLE_SHEET.sections, fuelSystem: { values: { fuel: 'gasoline 87' } } };
    const other = planOf(parseSheet({ ...WHOLE_SHEET, sections }));
    const again = tickedPlan(other, [given]).openBeforeFirstStart.find(({ id }) => id === lead.id);
    expect(again?.hasChanged).toBe(true);
  });
});
