import { describe, expect, it } from 'vitest';
import { layoutOf, type Sheet } from '../build/index.ts';
import { type CompareAnswer, type CompareInput, compareGroups } from '../compare/index.ts';
import { gaussian } from '../numerics/simulated.fixture.ts';
import type { Comparison, Pull, SideWanted } from '../record/index.ts';
import { type Asked, withApp } from './testing.ts';
import { post, type WithId } from './testingDays.ts';

/*
 * Common practice to check against, no source: larger heads, cam and intake took one engine from 733 to 823 hp at the
 * top, moved the peak up, and lost torque below about 4500 rev/min. Parabolas that do exactly so [N·m].
 */
const EARLY = (speed: number) => 933.8 - 4.11e-5 * (speed - 4700) ** 2;
const LATE = (speed: number) => 952 - 3.69e-5 * (speed - 5232) ** 2;

/** A speed table of a pull with its own offset and seeded noise. */
function table(torque: (speed: number) => number, seed: number, more = 0): string {
  const normal = gaussian(seed);
  const offset = 1 + 0.002 * normal() + more;
  const rows = Array.from({ length: 51 }, (_, i) => {
    const speed = 2500 + 100 * i;
    return `${speed},${(torque(speed) * offset * (1 + 0.002 * normal())).toFixed(2)},25,99.0,0`;
  });
  return ['Speed (rpm),Torque (Nm),Inlet Air (°C),Barometer (kPa),Humidity (%)', ...rows, ''].join(
    '\n',
  );
}

interface Answer {
  standard: string;
  sides: {
    name: string;
    builtOtherwise: string | null;
    known: string;
    pulls: { pullId: string; setting: string; counted: boolean; why: string | null }[];
  }[];
  taken: string;
  dayToDay: { from: string; sentence: string; pullIds: string[]; marked: boolean };
  warnings: string[];
  answer: CompareAnswer | null;
  peaks: { finding: string }[];
  finding: string;
}

/** A shop with one engine on one cell. */
async function shopOf(asked: Asked) {
  const { record, json } = asked;
  const cell = await record.cells.create({
    name: 'Cell',
    inertiaKgM2: 0.8,
    torqueIs: { air: 'observed', inertia: 'in' },
  });
  const engine = await record.engines.create({ name: 'Big eight', displacementM3: 0.0095 });
  let seed = 0;
  const build = (name: string) => record.builds.create({ engineId: engine.id, name });
  /** A day with one pull for each of these leads. */
  const day = async (
    buildId: string,
    date: string,
    torque: (speed: number) => number,
    leads: readonly number[],
    more = 0,
  ) => {
    const { id } = await record.days.create({
      buildId,
      cellId: cell.id,
      date,
      name: `Day ${date}`,
    });
    const pulls: Pull[] = [];
    for (const leadDeg of leads) {
      const response = await post(asked, id, `${date}-${seed}.csv`, table(torque, ++seed, more));
      const imported = (await response.json()) as { pulls: WithId[] };
      pulls.push(await record.pulls.update(imported.pulls[0]!.id, { leadDeg }));
    }
    const [ladder] = await record.ladders.list({ dayId: id });
    return { id, pulls, ladder: ladder! };
  };
  const compare = (sides: readonly SideWanted[], more: object = {}) =>
    json<Answer>('POST', '/compare', { sides, ...more });
  /** Asks for what is refused: its status and sentence. */
  const refused = async (path: string, body: object) => {
    const answer = await asked.ask('POST', `/api/v1${path}`, body);
    const { error } = (await answer.json()) as { error: { message: string } };
    return `${answer.status} ${error.message}`;
  };
  return { cell, engine, build, day, compare, refused };
}

/** A sheet whose displacement follows from its bore. */
const sheetOf = (boreInches: number): Sheet => ({
  format: 'sheet/1',
  layout: layoutOf(8),
  sections: {
    block: { values: { boreNominal: { value: boreInches, unit: 'in' } } },
    crank: { values: { stroke: { value: 4.25, unit: 'in' } } },
  },
});

describe('side by side from the record', () => {
  it('tells a later build as the trade would, and what each side was made of', () =>
    withApp(async (asked) => {
      const { record, json } = asked;
      const shop = await shopOf(asked);
      const [earlier, later] = [await shop.build('Earlier'), await shop.build('Later')];
      const first = await shop.day(earlier.id, '2026-03-02', EARLY, [30, 32, 32, 32]);
      await shop.day(later.id, '2026-06-09', LATE, [32, 32, 32]);
      await record.pulls.update(first.pulls[3]!.id, { excludedBecause: 'coughed' });
      const sides = [
        { kind: 'build', buildId: earlier.id },
        { kind: 'build', buildId: later.id },
      ] as const;
      const bandRpm = [3000, 7200];
      const said = await shop.compare(sides, { bandRpm });
      expect(said.sides.map(({ name }) => name)).toEqual(['Earlier', 'Later']);
      expect(said.finding).toMatch(/Later gains above 5\d\d0 rev\/min/);
      expect(said.finding).toMatch(/gives up torque below [34]\d\d0 rev\/min/);
      // Two days' own difference stands in the band, so less is told about the crossing than within one day.
      expect(said.finding).toMatch(/The curves cross at 4[4-6]\d0 rev\/min/);
      expect(said.finding).toMatch(/the peak has moved up by [4-8]\d0 rev\/min/);
      expect(said.finding).toMatch(/Earlier suits street use/);
      expect(said.finding).toMatch(/Later suits use above 5\d\d0 rev\/min/);
      expect(said.finding).toContain('all at 32 degrees of lead');
      expect(said.finding).toContain('neither has a sheet');
      expect(said.dayToDay.from).toBe('prior');
      const { peakPowerChangeW } = said.answer!.pairs[0]!;
      const hp = 745.69987158;
      expect(peakPowerChangeW.low / hp).toBeLessThan(90);
      expect(peakPowerChangeW.high / hp).toBeGreaterThan(90);
      expect(said.sides[0]!.pulls.map(({ counted, why }) => [counted, why])).toEqual([
        [false, 'it was made at 30 degrees of lead; compared at 32 degrees of lead'],
        [true, null],
        [true, null],
        [false, 'coughed'],
      ]);

      const members = await json<{ input: CompareInput }>('POST', '/compare/members', {
        sides,
        bandRpm,
      });
      // A browser that gets the members says what the service says (identity).
      const again = compareGroups(members.input).pairs[0]!;
      expect(again.gain).toEqual(said.answer!.pairs[0]!.gain);
      expect(said.finding.startsWith(again.finding)).toBe(true);

      await record.sheets.save(earlier.id, sheetOf(4.5), 0);
      await record.sheets.save(later.id, sheetOf(4.56), 0);
      const changed = await shop.compare(sides, { bandRpm });
      expect(changed.sides[1]!.builtOtherwise).toMatch(
        /^By their sheets Later has other parts or measures than Earlier: displacement 540\.\d in³ to 555\.\d in³/,
      );
      expect(changed.finding).toContain(changed.sides[1]!.builtOtherwise);

      const kept = await json<Comparison>('POST', '/comparisons', { sides }, 201);
      expect(kept.name).toBe('Earlier and Later');
      expect(kept.said.sides[0]!.pullIds).toEqual(first.pulls.slice(1, 3).map(({ id }) => id));
      await json('PATCH', `/comparisons/${kept.id}`, { note: 'for the owner' });
      await record.pulls.update(first.pulls[1]!.id, { excludedBecause: 'slipped' });
      const list = () => json<Comparison[]>('GET', `/engines/${shop.engine.id}/comparisons`);
      expect(await list()).toEqual([{ ...kept, note: 'for the owner' }]);
      await json('DELETE', `/comparisons/${kept.id}`, undefined, 204);
      expect(await list()).toEqual([]);
      await json('POST', '/undo');
      expect(await list()).toHaveLength(1);
      await json('DELETE', `/engines/${shop.engine.id}`, undefined, 204);
      await json('POST', '/undo');
      expect(await list()).toHaveLength(1);
    }));

  it('names sides by rung, ladder, day, what was left and paper, and refuses with the reason', () =>
    withApp(async (asked) => {
      const { record, json } = asked;
      const shop = await shopOf(asked);
      const build = await shop.build('Only');
      const day = await shop.day(build.id, '2026-03-02', EARLY, [28, 30, 30]);
      const other = await shop.day(build.id, '2026-03-03', EARLY, [30]);
      const rung = (setting: number) => ({
        kind: 'rung' as const,
        ladderId: day.ladder.id,
        setting,
      });
      const left = { kind: 'left' as const, buildId: build.id };
      const oneDay = { kind: 'day' as const, dayId: day.id };
      const steps = await shop.compare([rung(28), rung(30)]);
      expect(steps.sides.map(({ name }) => name)).toEqual([
        '28 degrees of lead',
        '30 degrees of lead',
      ]);
      expect(steps.dayToDay.from).toBe('one day');
      expect(steps.answer!.dayToDay).toBeNull();
      expect(await shop.refused('/compare', { sides: [left, oneDay] })).toMatch(
        /^422 Nobody has decided yet which setting to leave in Only/,
      );
      await record.decisions.create({
        ladderId: day.ladder.id,
        use: 'bursts',
        setting: 28,
        who: 'the operator',
        why: 'careful',
      });
      const three = await shop.compare([
        left,
        { kind: 'day', dayId: other.id },
        { kind: 'pulls', pullIds: [day.pulls[1]!.id, day.pulls[2]!.id] },
      ]);
      expect(three.sides.map(({ name }) => name)).toEqual([
        'Only as left at 28 degrees of lead',
        'the day “Day 2026-03-03”',
        '2 pulls of Day 2026-03-02',
      ]);
      expect(three.answer!.ranking).toHaveLength(3);
      expect(three.finding).toMatch(/^By mean power from/);
      expect(await shop.refused('/compare', { sides: [rung(29), oneDay] })).toMatch(
        /^422 No pull of .* was made at 29 degrees of lead; there are pulls at 28 and 30\./,
      );
      expect(await shop.refused('/compare', { sides: [rung(28), rung(28)] })).toMatch(
        /^422 .* stands on both sides/,
      );
      expect(
        await shop.refused('/compare', { sides: [{ kind: 'day', dayId: 'gone' }, oneDay] }),
      ).toMatch(/^404 /);

      const paper = (more: object) => ({
        kind: 'paper' as const,
        name: 'the printed sheet',
        basis: { air: 'SAE J1349' as const, inertia: 'in' as const },
        sdPercent: null,
        table: null,
        peaks: null,
        ...more,
      });
      const rows = [3000, 4000, 5000, 6000, 7000].map((speedRpm) => ({
        speedRpm,
        torqueNm: EARLY(speedRpm),
      }));
      const printed = await shop.compare([rung(30), paper({ table: rows })]);
      expect(printed.warnings.join(' ')).toContain('does not say how far its figures may be off');
      expect(printed.answer!.pairs[0]!.word).toBe('cannot be told from chance');
      const peaks = { torqueNm: 930, torqueSpeedRpm: 4700, powerW: 600_000, powerSpeedRpm: 6900 };
      const topped = await shop.compare([rung(30), paper({ peaks })]);
      expect(topped.answer).toBeNull();
      expect(topped.sides[1]!.known).toBe('peaks');
      expect(topped.finding).toContain('a bigger peak is not a better engine');
      const three2 = await shop.compare([rung(30), rung(28), paper({ peaks })]);
      expect(three2.answer!.pairs).toHaveLength(1);
      expect(three2.peaks).toHaveLength(1);
      for (const path of ['/use', '/use/members'])
        expect(await shop.refused(path, { sides: [rung(30), paper({ peaks })] })).toMatch(
          /^422 Of the printed sheet only the peaks are known; a use or a vehicle needs a curve/,
        );
      expect(await shop.refused('/compare', { sides: [oneDay, paper({})] })).toMatch(
        /^422 .*neither a table of torque nor a peak/,
      );
      expect(
        await shop.refused('/compare', {
          sides: [oneDay, paper({ table: rows, basis: { air: 'unknown', inertia: 'out' } })],
        }),
      ).toMatch(/^422 .*inertia out of it/);
      expect(await shop.refused('/compare', { sides: [oneDay] })).toMatch(/^400 /);
      await record.pulls.updateMany(
        day.pulls.map(({ id }) => ({ id, patch: { excludedBecause: 'all bad' } })),
      );
      expect(
        await shop.refused('/compare', {
          sides: [
            { kind: 'day', dayId: day.id },
            { kind: 'day', dayId: other.id },
          ],
        }),
      ).toMatch(/^422 The day “Day 2026-03-02” has no pull that counts: all bad/);
      await json('GET', '/health');
    }));

  it('compares builds of which only peaks were typed by these, and says what stays unknown', () =>
    withApp(async (asked) => {
      const { record } = asked;
      const shop = await shopOf(asked);
      const sides: SideWanted[] = [];
      for (const [name, horsepower, speed] of [
        ['Earlier', [721, 733], 6300],
        ['Later', [823], 6900],
      ] as const) {
        const build = await shop.build(name);
        const { id: dayId } = await record.days.create({ buildId: build.id, cellId: shop.cell.id });
        for (const [at, value] of horsepower.entries())
          await record.pulls.create({
            dayId,
            leadDeg: 30 + 2 * at,
            peakPowerW: value * 745.69987158,
            peakPowerSpeedRpm: speed,
            peaksAre: { air: 'SAE J1349', inertia: 'in' },
          });
        sides.push({ kind: 'build', buildId: build.id });
      }
      const { answer, peaks, finding, sides: told } = await shop.compare(sides);
      expect([answer, peaks.length]).toEqual([null, 1]);
      // 823 / 733.
      expect(finding).toContain('Later has 12.3 % more');
      expect(finding).toContain('How the two differ elsewhere is not known');
      expect(told[0]!.pulls.map(({ why }) => why)).toEqual([
        'its typed peaks are of another setting than the strongest',
        null,
      ]);
    }));

  it('learns how days differ from the shop’s own repeated pulls, or from days that it marks', () =>
    withApp(async (asked) => {
      const { json } = asked;
      const shop = await shopOf(asked);
      const [house, tested] = [await shop.build('House engine'), await shop.build('Tested')];
      const days = ['2026-01-05', '2026-01-12', '2026-01-19', '2026-01-26'];
      const reference = [];
      for (const [i, date] of days.entries())
        reference.push(await shop.day(house.id, date, EARLY, [30], [0.001, -0.001, 0, 0.002][i]));
      const [one, two] = [
        await shop.day(tested.id, '2026-02-02', EARLY, [32]),
        await shop.day(tested.id, '2026-02-03', LATE, [32]),
      ];
      const sides = [one, two].map(({ id }) => ({ kind: 'day' as const, dayId: id }));
      const taught = await shop.compare(sides);
      expect(taught.dayToDay).toMatchObject({ from: 'reference pulls', marked: false });
      expect(taught.dayToDay.pullIds.sort()).toEqual(
        reference.map(({ pulls }) => pulls[0]!.id).sort(),
      );
      // The house engine repeats within some tenths of a per cent, where 1.2 % is usual.
      expect(taught.answer!.dayToDay!.value).toBeLessThan(1.1);
      for (const { id } of reference.slice(1, 3))
        await json('PATCH', `/days/${id}`, { isReference: true });
      const marked = await shop.compare(sides);
      expect(marked.dayToDay).toMatchObject({ from: 'reference pulls', marked: true });
      expect(marked.dayToDay.pullIds).toHaveLength(2);
      // A reference day that is itself a side teaches nothing beside it.
      const own = await shop.compare([
        { kind: 'day', dayId: reference[1]!.id },
        { kind: 'day', dayId: reference[2]!.id },
      ]);
      expect(own.dayToDay.from).toBe('prior');
    }));
});

interface Reading {
  pulls: { counted: boolean; side: string }[];
  look: {
    action: string;
    next: string | null;
    word: string;
    gain: { low: number; high: number } | null;
    finding: string;
  };
  finding: string | null;
}

describe('a fair test of a part in the record', () => {
  it('is planned from what the cell repeats, looked at after every pull, and undone', () =>
    withApp(async (asked) => {
      const { json, record } = asked;
      const shop = await shopOf(asked);
      const build = await shop.build('Only');
      const before = await shop.day(build.id, '2026-03-01', EARLY, [30, 30, 30]);
      const repeats = await json<{ from: string; pulls: number; percent: { value: number } }>(
        'GET',
        `/days/${before.id}/repeatability`,
      );
      expect(repeats).toMatchObject({ from: 'pulls', pulls: 3 });
      expect(repeats.percent.value).toBeGreaterThan(0.1);
      expect(repeats.percent.value).toBeLessThan(0.6);

      const day = await shop.day(build.id, '2026-03-02', EARLY, []);
      const wanted = { gainPercent: 2, repeatabilityPercent: 0.3 };
      const preview = await json<{ plan: { blocks: number }; provenClean: boolean }>(
        'POST',
        `/days/${day.id}/part-tests/plan`,
        wanted,
      );
      expect(preview.provenClean).toBe(false);
      expect(
        await shop.refused(`/days/${day.id}/part-tests`, { ...wanted, order: 'randomised' }),
      ).toMatch(/^422 The order can be drawn only once both sides have run clean/);
      expect(
        await shop.refused(`/days/${day.id}/part-tests/plan`, {
          gainPercent: 0.4,
          repeatabilityPercent: 0.3,
          order: 'A/B/A',
        }),
      ).toMatch(/^422 .*more than 8 pulls of each.*Make the pulls by turns/);
      // A kept A/B/A is read back as one: it is not looked at before its end.
      const turned = await json<WithId>(
        'POST',
        `/days/${day.id}/part-tests`,
        { ...wanted, order: 'A/B/A', name: 'Once over' },
        201,
      );
      const plan = { isAba: true, blocks: 4, order: [...'aabbbbaa'] };
      expect(await json('GET', `/part-tests/${turned.id}`)).toMatchObject({ plan });
      expect(await json('GET', `/days/${day.id}/part-tests`)).toMatchObject([{ plan }]);
      expect(await json('GET', `/part-tests/${turned.id}/reading`)).toMatchObject({
        partTest: { plan },
      });
      await json('DELETE', `/part-tests/${turned.id}`, undefined, 204);
      const test = await json<WithId & { plan: { order: ('a' | 'b')[] } }>(
        'POST',
        `/days/${day.id}/part-tests`,
        { ...wanted, name: 'Spacer' },
        201,
      );
      const reading = () => json<Reading>('GET', `/part-tests/${test.id}/reading`);
      expect((await reading()).look).toMatchObject({ action: 'go on', next: 'a', gain: null });

      let seed = 100;
      let now = await reading();
      for (const side of test.plan.order) {
        expect(now.look.next).toBe(side);
        const text = table(EARLY, ++seed, side === 'b' ? 0.03 : 0);
        const response = await post(asked, day.id, `part-${seed}.csv`, text);
        const { pulls } = (await response.json()) as { pulls: WithId[] };
        await record.pulls.update(pulls[0]!.id, { leadDeg: 30, watched: 'ear' });
        now = await json<Reading>('POST', `/part-tests/${test.id}/pulls`, {
          pullIds: [pulls[0]!.id],
          side,
        });
        if (now.look.action === 'stop') break;
      }
      expect(now.look).toMatchObject({ action: 'stop', next: null, word: 'gain' });
      expect(now.look.gain!.low).toBeLessThan(3);
      expect(now.look.gain!.high).toBeGreaterThan(2.4);
      expect(now.look.finding).toMatch(/The odds are/);
      expect(now.finding).toMatch(/b gives \d\.\d % more mean power/);
      const made = now.pulls.length;
      // Both have run clean now, so a drawn order may be planned.
      await json('POST', `/days/${day.id}/part-tests/plan`, { ...wanted, order: 'randomised' });
      await json('POST', '/undo');
      expect((await reading()).pulls).toHaveLength(made - 1);
      expect(
        await shop.refused(`/part-tests/${test.id}/pulls`, {
          pullIds: [before.pulls[0]!.id],
          side: 'a',
        }),
      ).toMatch(/^422 A part test is made within one day/);
      await json('DELETE', `/part-tests/${test.id}`, undefined, 204);
      expect(await json('GET', `/days/${day.id}/part-tests`)).toEqual([]);
    }));
});
