import { execFileSync } from 'node:child_process';
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { DuckDBInstance } from '@duckdb/node-api';
import { Package } from 'datapackage';
import fc from 'fast-check';
import { unzipSync } from 'fflate';
import { afterAll, describe, expect, it } from 'vitest';
import type { ReplayWanted } from '../figures.ts';
import { temporaryFolder } from '../record/testing.ts';
import {
  attachedIn,
  differences,
  type HandOver,
  madeOf,
  openBundle,
  paperOf,
  SHAPES,
  shownOf,
} from '../report/index.ts';
import { pdfOf } from '../report/paper/pdf.ts';
import { fullest, overfull } from '../report/paper/testing.ts';
import { shippedFigures, shippedShown } from './figures.ts';
import { withApp } from './testing.ts';
import { aDay, post } from './testingDays.ts';
import {
  forged,
  HOSTILE,
  handedOver,
  inJson,
  inText,
  MARK,
  once,
  picture,
  verify,
} from './testingHandOvers.ts';
import { verifyBundle } from './work/verify.ts';

describe('a hand-over', () => {
  const shop = once();
  afterAll(shop.close);

  it('tells what was measured, used, left out and decided', async () => {
    const asked = await shop.ready;
    const { document, pulls } = asked;
    expect(document.engine).toMatchObject({ name: 'Eight', owner: HOSTILE });
    const [day] = document.days;
    expect(day!.pulls.map((pull) => pull.excludedBecause)).toEqual([null, null, 'oil was cold']);
    expect(day!.ladders[0]!.decision).toMatchObject({ setting: 28, who: 'Ann' });
    const { final } = document;
    expect(final!.pullIds).toEqual(pulls.slice(0, 2));
    expect(final!.why).toBe('the pulls at 28 deg, the setting left in the engine');
    const two = day!.pulls.slice(0, 2).map((pull) => pull.curve!.peakPower.value);
    expect(final!.peakPowerW.value).toBeGreaterThan(0.999 * Math.min(...two));
    expect(final!.peakPowerW.value).toBeLessThan(1.001 * Math.max(...two));
  });

  it('tells typed peaks as such, an interval known on one side, and no ladder that stepped nothing', async () => {
    const { document } = await shop.ready;
    const [day] = document.days;
    const [pull, other] = day!.pulls;
    const typedPeaks = {
      powerW: 150_000,
      powerSpeedRpm: 5400,
      torqueNm: null,
      torqueSpeedRpm: null,
      air: 'observed',
    } as const;
    const typed = { ...pull!, leadDeg: 28, curve: null, typedPeaks };
    const [ladder] = day!.ladders;
    const answer = ladder!.answer!;
    const limit = { value: null, low: 34, high: null };
    const dots = [answer.dots[0]!, { ...answer.dots[0]!, id: 'next', setting: 30 }];
    const changed: HandOver = {
      ...document,
      choice: { ...document.choice, units: 'metric' },
      final: null,
      days: [
        {
          ...day!,
          pulls: [typed, { ...other!, leadDeg: 30, typedPeaks }],
          ladders: [
            { ...ladder!, answer: { ...answer, limit, dots } },
            { ...ladder!, name: 'Alone', decision: null },
          ],
        },
      ],
    };
    const text = (language: 'en' | 'de') => JSON.stringify(paperOf(changed, language, null).blocks);
    expect(text('en')).toContain(
      'Pull 1 (28°, as observed, not in standard air): Peak power 150.0 kW at 5400 rpm.',
    );
    // Only what was left in the engine is told of on page one.
    expect(text('en')).not.toContain('Pull 2 (30°');
    expect(text('en')).toContain('"Limit","not known","above 34°"');
    expect(text('de')).toContain('"Grenze","nicht bekannt","über 34°"');
    expect(text('en')).not.toContain('Alone');
    expect(text('de')).toContain('Größte Leistung 150,0 kW bei 5400 1/min');
  });

  it('can be drawn in the time of its last pull, one pull beside another, and not where nothing has a time', async () => {
    const { json, ask, id, pulls } = await shop.ready;
    const replay = await json<ReplayWanted>('GET', `/handovers/${id}/replay?language=de`);
    // 3000 to 6000 rev/min at 500 a second, from the rows of the sweep alone.
    expect(replay.durationS).toBeCloseTo(6, 0);
    expect(replay.paces.now!.speedRpm.at(-1)).toBeCloseTo(6000, -2);
    expect(replay.told).toEqual([expect.stringContaining('Lauf 2')]);
    expect(replay.shown.figure.series.map((one) => one.id)).toEqual(['now']);

    const [one, other] = pulls;
    const two = await json<ReplayWanted>('GET', `/pulls/${one}/replay?beside=${other}`);
    expect(Object.keys(two.paces)).toEqual(['now', 'before']);
    expect(two.told[1]).toMatch(/^Pull 2: in its own time/);

    const table = [
      'Speed (rpm),Torque (lb-ft)',
      ...[30, 40, 50, 60, 70, 80, 90].map((n) => `${n}00,${300 - n}`),
    ];
    const { day } = await aDay(await shop.ready);
    const imported = await post(await shop.ready, day.id, 'table.csv', `${table.join('\n')}\n`);
    const [timeless] = ((await imported.json()) as { pulls: { id: string }[] }).pulls;
    const refused = await ask('GET', `/api/v1/pulls/${timeless!.id}/replay`);
    expect(refused.status).toBe(422);
    expect(await refused.text()).toContain('no time');
    const beside = await json<ReplayWanted>('GET', `/pulls/${one}/replay?beside=${timeless!.id}`);
    expect(beside.paces.before).toBeNull();
    expect(beside.told[1]).toContain('not known');
  });

  it('is foretold by the page of the build, which keeps nothing', async () => {
    const { json, record, day, id } = await shop.ready;
    const asked = `/builds/${day.buildId}/findings?units=us`;
    type Told = { blocks: { kind: string; figures?: { label: string; value: string }[] }[] };
    const { blocks } = await json<Told>('GET', asked);
    const kept = await json<Told>('GET', `/handovers/${id}/findings?units=us`);
    const gave = blocks.find(({ kind }) => kind === 'headline');
    expect(gave?.figures?.[0]).toMatchObject({ label: 'Peak power' });
    expect(gave?.figures?.[0]?.value).toMatch(/ hp$/);
    expect(kept.blocks).toContainEqual(gave);
    expect((await record.handOvers.list({ buildId: day.buildId })).map((one) => one.id)).toEqual([
      id,
    ]);
  });

  it('is the same bundle every time, follows from its recordings, and outlives what changes later', () =>
    withApp(async (asked) => {
      const { bundle, pulls, day } = await handedOver(asked);
      const bytes = await bundle();
      await asked.record.pulls.update(pulls[0]!, { excludedBecause: 'changed my mind' });
      await asked.record.days.update(day.id, { airTemperatureK: 310 });
      expect(await bundle()).toEqual(bytes);
      const verified = await verify(asked, bytes);
      expect(verified).toMatchObject({ verdict: 'follows', isOurs: true, differences: [] });
      expect(verified.held).toBeGreaterThan(500);
      // On another machine, which has neither this shop nor its key.
      expect(await verifyBundle(bytes, 'x.zip', '0')).toMatchObject({ verdict: 'follows' });
    }));

  it('shows each of 200 bytes that are changed', async () => {
    const asked = await shop.ready;
    const { bundle } = asked;
    const bytes = await bundle();
    fc.assert(
      fc.property(fc.nat(bytes.length - 1), fc.integer({ min: 1, max: 255 }), (at, flip) => {
        const changed = bytes.slice();
        changed[at]! ^= flip;
        try {
          return openBundle(changed, 'x.zip').problems.length > 0;
        } catch {
          return true;
        }
      }),
      { numRuns: 200, seed: 8 },
    );
    const last = bytes.slice();
    last[Math.floor(bytes.length / 2)]! ^= 1;
    expect(await verify(asked, last).then(({ verdict }) => verdict ?? 'refused')).not.toBe(
      'follows',
    );
  });

  it('shows each of 200 figures that a forger changes, though he makes every digest anew', async () => {
    const asked = await shop.ready;
    const { bundle, document } = asked;
    const bytes = await bundle();
    const places = figuresOf(document);
    expect(places.length).toBeGreaterThan(500);
    fc.assert(
      fc.property(fc.nat(places.length - 1), fc.boolean(), (at, up) => {
        const changed = structuredClone(document);
        changeAt(changed, places[at]!, up);
        return differences(changed, document).length > 0;
      }),
      { numRuns: 200, seed: 9 },
    );
    const raised = await forged(
      bytes,
      inJson<HandOver>('handover.json', (told) => {
        changeAt(told, ['final', 'peakPowerW', 'value'], true);
      }),
    );
    const reprinted = await forged(bytes, inText('page.html', 'Ran clean', 'Ran best'));
    expect(await verify(asked, reprinted)).toMatchObject({
      verdict: 'changed',
      problems: [{ where: 'page.html' }],
    });
    expect(await verify(asked, raised)).toMatchObject({
      verdict: 'does not follow',
      isOurs: false,
      problems: [],
      differences: [{ where: 'final.peakPowerW.value' }],
    });
  });

  it('is read by strangers: a validator of Table Schema, and DuckDB over CSV and Parquet', async () => {
    const asked = await shop.ready;
    const { bundle, document } = asked;
    const { folder, remove } = temporaryFolder();
    try {
      for (const [path, bytes] of unzipped(await bundle())) {
        mkdirSync(dirname(join(folder, path)), { recursive: true });
        writeFileSync(join(folder, path), bytes);
      }
      const tables = join(folder, 'tables');
      const described = await Package.load(join(tables, 'datapackage.json'), { strict: true });
      expect(described.errors).toEqual([]);
      for (const resource of described.resources) {
        const rows = await resource.read({ keyed: true });
        expect(rows.length).toBeGreaterThan(0);
        for (const field of resource.schema.fields)
          if (field.type === 'number')
            expect(field.descriptor.unit ?? resource.schema.fieldNames).toSatisfy(
              (unit: string | string[]) => typeof unit === 'string' || unit.includes('unit'),
            );
      }
      const database = await (await DuckDBInstance.create()).connect();
      const rows = async (sql: string) =>
        (await database.runAndReadAll(sql)).getRowObjectsJson() as Record<string, number>[];
      const curve = (ending: string) =>
        rows(
          `SELECT count(*)::INT AS points, sum(torqueNm) AS sum, max(powerW) AS most FROM '${join(tables, `curve.${ending}`)}'`,
        );
      const [csv] = await curve('csv');
      expect(await curve('parquet')).toEqual([csv]);
      const { torqueNm, powerW } = document.final!;
      expect(csv!.points).toBe(torqueNm.length);
      expect(csv!.sum).toBeCloseTo(
        torqueNm.reduce((sum, one) => sum + one, 0),
        6,
      );
      expect(csv!.most).toBeCloseTo(Math.max(...powerW), 6);
      const [third] = await rows(
        `SELECT file, "excludedBecause" AS why FROM '${join(tables, 'pulls.csv')}' WHERE pull = 3`,
      );
      // The formula of README.txt (SAE J1349, June 1990; Hyland and Wexler 1983), written down again here.
      const [factors] = await rows(
        `SELECT max(abs(correctionFactor - (1.18 * 99000 / (airPressureAbsPa - humidity * exp(
          -5800.2206 / T + 1.3914993 - 0.048640239 * T + 4.1764768e-5 * T ** 2
          - 1.4452093e-8 * T ** 3 + 6.5459673 * ln(T))) * sqrt((T - 0.15) / 298) - 0.18))) AS apart,
          count(correctionFactor)::INT AS pulls
        FROM (SELECT *, airTemperatureK AS T FROM '${join(tables, 'pulls.csv')}')`,
      );
      expect(document.choice.standard).toBe('SAE J1349');
      expect(factors!.pulls).toBe(3);
      expect(factors!.apart).toBeLessThan(1e-9);
      const shell = (lines: string) =>
        execFileSync('sh', ['-c', lines], { cwd: folder, encoding: 'utf8' });
      expect(shell(readmeLines(folder, /^ {2}sed -n [\s\S]*?--quiet$/m))).toBe('');
      expect(
        shell(readmeLines(folder, /^ {2}\{ printf [\s\S]*?-sigfile signature\.bin$/m)),
      ).toMatch(/Verified Successfully/);
      expect(third).toEqual({ file: `'${HOSTILE}.csv`, why: 'oil was cold' });
    } finally {
      remove();
    }
  });

  it('is a report whose words are those of the record, with its bundle in it', async () => {
    const asked = await shop.ready;
    const { id, document, bundle } = asked;
    const answer = await asked.ask('GET', `/api/v1/handovers/${id}/report?size=a4`);
    expect(answer.headers.get('content-type')).toBe('application/pdf');
    const pdf = new Uint8Array(await answer.arrayBuffer());
    // What rides in a report is the bundle without the report, which stands around it.
    const namesIn = (bytes: Uint8Array) => Object.keys(unzipSync(bytes));
    const within = namesIn(attachedIn(pdf)!.bytes);
    const besides = namesIn(await bundle()).filter((name) => !within.includes(name));
    expect(besides).toEqual(['report.pdf', 'page.html']);
    expect(within.filter((name) => /^figures\/\d\d-\w+\.svg$/.test(name)).length).toBeGreaterThan(
      1,
    );
    const { folder, remove } = temporaryFolder();
    try {
      const file = join(folder, 'report.pdf');
      writeFileSync(file, pdf);
      const read = poppler('pdftotext', ['-layout', file, '-']);
      const said = read.replace(/[\s\u200b]+/g, '');
      const has = (words: string) => expect(said).toContain(words.replace(/[\s\u200b]+/g, ''));
      has('Eight');
      has('left out: oil was cold');
      has('a hot summer');
      has('Ran clean.');
      for (const { recordingSha256 } of document.days[0]!.pulls) has(recordingSha256!);
      has((document.final!.peakPowerW.value / 745.69987158).toFixed(1).replace(/\.0$/, ''));
      expect(said.replace(/\s/g, '')).toContain('=HYPERLINK("x")<script>alert(1)');
      const fonts = poppler('pdffonts', [file]).trim().split('\n').slice(2);
      expect(fonts.length).toBeGreaterThan(0);
      for (const font of fonts) expect(font).toMatch(/ yes (yes|no) +yes /);
      expect(poppler('pdfinfo', [file])).toMatch(/Tagged: +yes[\s\S]*Page size: +595\.\d* x 841/);
    } finally {
      remove();
    }
  });

  it.each([
    ['en', 'a4', 'metric'],
    ['en', 'letter', 'us'],
    ['de', 'a4', 'metric'],
    ['de', 'letter', 'us'],
  ] as const)(
    'stands within the margins, no word over another: %s, %s',
    async (language, size, units) => {
      const { document } = await shop.ready;
      const { folder, remove } = temporaryFolder();
      try {
        const all = fullest({ ...document, choice: { ...document.choice, units } });
        const draw = await shippedFigures();
        const file = join(folder, 'report.pdf');
        writeFileSync(file, await pdfOf(paperOf(all, language, null), { size, draw }));
        expect(overfull(file)).toEqual([]);
      } finally {
        remove();
      }
    },
  );

  it('is told apart where a byte of the report was changed', async () => {
    const asked = await shop.ready;
    const { id } = asked;
    const pdf = new Uint8Array(
      await (await asked.ask('GET', `/api/v1/handovers/${id}/report?language=de`)).arrayBuffer(),
    );
    expect(await verify(asked, pdf)).toMatchObject({ verdict: 'follows', isOurs: true });
    const changed = pdf.slice();
    changed[Buffer.from(pdf).indexOf('%%EOF')]! ^= 1;
    expect(await verify(asked, changed)).toMatchObject({ verdict: 'changed' });
  });

  it('is one page for the owner in which no name from outside is markup', async () => {
    const asked = await shop.ready;
    const { id } = asked;
    const answer = await asked.ask('GET', `/api/v1/handovers/${id}/page`);
    const page = await answer.text();
    expect(answer.headers.get('content-disposition')).toMatch(/^attachment/);
    expect(page).not.toContain('<script>alert');
    expect(page).toContain('&lt;script&gt;alert(1)&lt;/script&gt;');
    expect(page.match(/<svg/g)!.length).toBeGreaterThan(1);
    expect(page).toContain("default-src 'none'");
    expect(page).toContain(`<img class="mark" src="${MARK}" alt="`);
    // Every part stands open where no script runs, and is linked to from the top.
    const parts = [...page.matchAll(/<details class="part" id="([^"]+)" open>/g)].map(
      ([, at]) => at,
    );
    expect(parts.length).toBeGreaterThan(2);
    expect([...page.matchAll(/<a href="#([^"]+)">/g)].map(([, at]) => at)).toEqual(parts);
    // Nothing is fetched: what it shows stands in it.
    const shown = page.replace(/<script[\s\S]*?<\/script>/g, '');
    expect(shown).not.toMatch(/(?:src|href)="(?!#|data:)|url\((?!#)|@import/);
    expect(page).toContain('1 Mill Lane');
    for (const mark of [picture('<script>alert(1)</script>'), 'data:image/png;base64,AAAA', 'x'])
      await asked.json('PATCH', '/shop', { mark }, 400);
  });

  it('is a picture of its result in exactly the size asked for, its names text and its mark a picture', async () => {
    const { ask, id, document } = await shop.ready;
    const path = `/api/v1/handovers/${id}/picture?shape=story&units=metric`;
    const svg = await (await ask('GET', path)).text();
    expect(svg).toMatch(/^<svg [^>]*width="1080" height="1920"/);
    const kilowatts = document.final!.peakPowerW.value / 1000;
    expect(svg).toMatch(new RegExp(`>${Math.floor(kilowatts)}[.\\d]* kW<`));
    expect(svg).toContain(`<image href="${MARK}"`);
    expect(svg).not.toMatch(/<script|fill="#1a69ac"\/>/);
  });

  it('gives strange names away as text: no picture is broken by one, no cell of a table begins a formula', async () => {
    const { document } = await shop.ready;
    const all = fullest(document);
    const draw = await shippedFigures();
    const shown = (await shippedShown())(shownOf(all, 'en'), SHAPES.story);
    const made = await madeOf(all, { draw, script: null, publicKey: null, withReport: false });
    const read = (ending: string) =>
      made
        .filter(({ path }) => path.endsWith(ending))
        .map(({ bytes }) => new TextDecoder().decode(bytes));
    const pictures = [shown, ...read('.svg')];
    expect(pictures.length).toBeGreaterThan(3);
    for (const svg of pictures) {
      // What XML forbids, and what would turn the writing.
      expect(svg).not.toMatch(/(?![\n\t])\p{Cc}|\p{Bidi_Control}/u);
      expect(svg).not.toMatch(/<script|<img|onerror="/);
    }
    expect(pictures.join('')).toContain('[U+202E]gnp.exe');
    const cells = read('.csv').flatMap((csv) => csv.split(/[,\n]/));
    expect(cells.some((cell) => cell.includes('HYPERLINK'))).toBe(true);
    for (const cell of cells)
      if (/^"?[=+@-]/.test(cell)) expect(Number(cell.replaceAll('"', ''))).not.toBeNaN();
  });

  it('refuses what is no bundle, and a build that has nothing to hand over', () =>
    withApp(async (asked) => {
      const { engine } = await aDay(asked);
      const refused = await asked.ask('POST', '/api/v1/verify?name=x.zip', new Uint8Array([1, 2]), {
        'content-type': 'application/octet-stream',
      });
      expect(refused.status).toBe(422);
      const build = await asked.record.builds.create({ engineId: engine.id, name: 'Second' });
      await asked.json('POST', `/builds/${build.id}/handovers`, {}, 422);
    }));
});

const poppler = (program: string, args: readonly string[]): string =>
  execFileSync(program, args, { encoding: 'utf8' });
/** Lines that README.txt tells its reader to type. */
const readmeLines = (folder: string, lines: RegExp): string =>
  lines.exec(readFileSync(join(folder, 'README.txt'), 'utf8'))![0];
const unzipped = (bytes: Uint8Array) => Object.entries(unzipSync(bytes));

type Path = readonly (string | number)[];

/** Where numbers stand that were computed: the choice and versions are asked, not told. */
function figuresOf(value: unknown, path: Path = []): Path[] {
  if (typeof value === 'number') return [path];
  if (typeof value !== 'object' || value === null) return [];
  return Object.entries(value).flatMap(([name, one]) => figuresOf(one, [...path, name]));
}

/** Raises or lowers a figure in its fifth digit. */
function changeAt(root: object, path: Path, up: boolean): void {
  let at = root as Record<string | number, unknown>;
  for (const name of path.slice(0, -1)) at = at[name] as typeof at;
  const value = at[path.at(-1)!] as number;
  at[path.at(-1)!] = value === 0 ? 0.001 : value * (up ? 1.0001 : 0.9999);
}
