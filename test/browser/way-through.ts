import type { Page } from 'playwright-core';
import { beforeAll, describe, expect, it } from 'vitest';
import { simulateDay } from '../../demo/cell.ts';
import { dayOfKind } from '../../demo/kinds-of-day.ts';
import { DIALECTS, runFileBytes } from '../../demo/logger.ts';
import { drag, dropFiles, paste } from './acts.ts';
import type { Stand } from './stand.ts';

/** The whole way in a real browser, on the real service with the demo shop; the steps build on one another. */
export const wayThrough = (standOf: () => Stand) =>
  describe('the way through the browser', () => {
    let stand: Stand;
    let page: Page;
    /** Address of the test day made in this walk. */
    let dayUrl = '';
    const dayId = () => dayUrl.split('/').at(-1)!;
    const { pulls } = simulateDay({ ...dayOfKind('plain', 7), rateHz: 20 });
    const files = pulls.slice(0, 4).map((pull, at) => ({
      name: `run ${at + 1}.csv`,
      bytes: runFileBytes(pull, DIALECTS['comma us']),
    }));

    const eventually = <T>(read: () => T) => expect.poll(read, { timeout: 10_000 });
    const undo = async () => {
      await page.locator('h1').first().click();
      await page.keyboard.press('Control+z');
    };
    const cell = (row: number, column: string) =>
      page.getByLabel(`${column}, pull ${row}`, { exact: true });

    beforeAll(async () => {
      stand = standOf();
      page = await stand.open('/');
    });

    it('begins in the shop, which says what comes next for each engine', async () => {
      await page.getByRole('heading', { name: 'Rally six' }).waitFor();
      const six = page.getByRole('listitem').filter({ hasText: 'Rally six' });
      await six.getByText('Stop here').waitFor();
      expect(await page.getByText('This is the demo shop').count()).toBe(1);
    });

    it('goes down to build, day and ladder, and up again by the crumbs', async () => {
      await page.getByRole('link', { name: 'Rally six', exact: true }).first().click();
      await page.getByRole('link', { name: 'Refresh 2026' }).click();
      await page.getByRole('link', { name: /^Spark ladder, 9 April/ }).click();
      await page.getByRole('heading', { name: 'Curves of the day' }).waitFor();
      await page.getByRole('link', { name: 'Spark ladder', exact: true }).first().click();
      await page.getByRole('heading', { name: 'What each step gained, by engine speed' }).waitFor();
      await page.getByRole('navigation', { name: 'Where we are' }).getByText('Rally six').click();
      await page.getByRole('heading', { level: 1, name: 'Rally six' }).waitFor();
    });

    it('writes down an engine, a build and a test day', async () => {
      await page.goto(stand.url);
      await page.getByRole('button', { name: 'New engine' }).click();
      await page.getByLabel('Name').fill('Workbench four');
      await page.getByLabel('Displacement, L').fill('122 in³');
      await page.getByRole('button', { name: 'Write it down' }).click();
      await page.getByRole('heading', { level: 1, name: 'Workbench four' }).waitFor();
      // 122 in³ by the definition of the inch: 122 × 2.54³ cm³ = 1.999 L.
      await page.getByText('1.999 L').waitFor();
      await page.getByRole('button', { name: 'New build' }).click();
      await page.getByRole('button', { name: 'Write it down' }).click();
      await page.getByRole('heading', { level: 1, name: 'Workbench four, Build 1' }).waitFor();
      await stand.record.cells.create({ name: 'A cell nobody described' });
      await page.reload();
      await page.getByRole('button', { name: 'New test day' }).click();
      await page.getByLabel('Cell').selectOption({ label: 'A cell nobody described' });
      await page.getByRole('button', { name: 'Open the day' }).click();
      await page.getByText('Drop the day’s run files here').waitFor();
      dayUrl = page.url();
    });

    it('takes dropped run files and shows what became of each', async () => {
      await dropFiles(page.locator('main > div').first(), files.slice(0, 2));
      const list = page.getByRole('region', { name: 'Files' });
      await list.getByText('1 pull').nth(1).waitFor();
      await page.getByRole('heading', { name: 'Curves of the day' }).waitFor();
      // Each file's curves come as it is stored: the picture stands with the first pull's before the second's are there.
      await page.locator('svg [data-pull]').nth(3).waitFor({ state: 'attached' });
      expect(await page.locator('svg [data-pull]').count()).toBe(4);
      const kept = await stand.record.pulls.list({ dayId: dayId() });
      expect(kept.map((pull) => pull.fileName)).toEqual(['run 1.csv', 'run 2.csv']);
    });

    it('takes files by the picker too, and answers known bytes with the pull that has them', async () => {
      const picker = page.locator('input[type=file]');
      const known = { ...files[0]!, name: 'copy of run 1.csv' };
      await picker.setInputFiles(
        [files[2]!, known].map(({ name, bytes }) => ({
          name,
          mimeType: 'text/csv',
          buffer: Buffer.from(bytes),
        })),
      );
      const list = page.getByRole('region', { name: 'Files' });
      await list.getByText('in the book already').waitFor();
      expect(await list.getByRole('link', { name: 'pull 1' }).count()).toBe(1);
      // By name the known file comes first, so the other is still on its way when the answer stands.
      await list
        .getByRole('listitem')
        .filter({ hasText: /^run 3\.csv.*1 pull/ })
        .waitFor();
      expect(await stand.record.pulls.list({ dayId: dayId() })).toHaveLength(3);
    });

    it('cancels a file on its way, and keeps nothing of it', async () => {
      let release = () => {};
      const held = new Promise<void>((go) => {
        release = go;
      });
      const onItsWay = (url: URL) => url.pathname.endsWith('/recordings');
      await page.route(onItsWay, async (route) => {
        await held;
        await route.continue().catch(() => {});
      });
      await dropFiles(page.locator('main > div').first(), [{ ...files[3]!, name: 'wrong.csv' }]);
      await page.getByRole('button', { name: 'Cancel wrong.csv' }).click();
      release();
      await page.getByText('Cancelled; nothing of it was stored.').waitFor();
      await page.unroute(onItsWay);
      expect(await stand.record.pulls.list({ dayId: dayId() })).toHaveLength(3);
    });

    it('refuses a broken file with its place, what was found and what was expected', async () => {
      const lines = Buffer.from(files[0]!.bytes).toString('utf8').split('\r\n');
      lines[40] = lines[40]!.split(',').slice(0, 3).join(',');
      const broken = Buffer.from(lines.join('\r\n'));
      await dropFiles(page.locator('main > div').first(), [{ name: 'broken.csv', bytes: broken }]);
      const list = page.getByRole('region', { name: 'Files' });
      const place = list.getByRole('listitem').filter({ hasText: 'broken.csv' });
      await place.getByText('Expected').waitFor();
      expect(await place.locator('dl').textContent()).toMatch(/Line\s*41/);
      expect(await stand.record.pulls.list({ dayId: dayId() })).toHaveLength(3);
    });

    it('lets a person say what the columns of a refused file are, and tries it again', async () => {
      const table = Array.from({ length: 300 }, (_, row) => {
        const speedRpm = 2500 + 12 * row;
        return `${(row / 20).toFixed(2)},${speedRpm},${(180 + 40 * Math.sin(row / 100)).toFixed(1)}`;
      });
      const bytes = Buffer.from(['A1,B2,C3', ...table].join('\n'));
      await dropFiles(page.locator('main > div').first(), [{ name: 'nameless.csv', bytes }]);
      const list = page.getByRole('region', { name: 'Files' });
      const line = list.getByRole('listitem').filter({ hasText: 'nameless.csv' });
      await line.getByRole('button', { name: 'Say what its columns are' }).click();
      const sheet = page.getByRole('dialog', { name: 'Headers of nameless.csv' });
      await sheet.getByText('0.05,2512,180.4').waitFor();
      await sheet.getByLabel('A1 is read as').selectOption('time');
      await sheet.getByLabel('B2 is read as').selectOption('speed');
      await sheet.getByLabel('C3 is read as').selectOption('torque');
      await sheet.getByLabel('unit of C3').fill('N·m');
      await sheet.getByRole('button', { name: 'Remember and try again' }).click();
      await line.getByText('1 pull, 300 rows').waitFor();
      await undo();
      await eventually(async () => (await stand.record.pulls.list({ dayId: dayId() })).length).toBe(
        3,
      );
    });

    it('asks once what the headers do not say, and remembers the answer for this cell', async () => {
      const question = page.getByRole('group', { name: /^What does "Torque \(lb-ft\)" hold/ });
      await question.getByRole('button', { name: /^As the brake held it/ }).click();
      await page.getByText('Remembered for A cell nobody described').waitFor();
      await question.waitFor({ state: 'detached' });
      await dropFiles(page.locator('main > div').first(), [files[3]!]);
      await page.getByRole('link', { name: /run 4\.csv/ }).waitFor();
      expect(await question.count()).toBe(0);
    });

    it('fixes a header, for this and every file of its shape', async () => {
      await page.getByRole('button', { name: 'Check or mend the headers' }).click();
      const sheet = page.getByRole('dialog');
      await sheet.getByLabel(/^Manifold Pressure.* is read as$/).selectOption('other');
      await sheet.getByRole('button', { name: 'Remember' }).click();
      await sheet.waitFor({ state: 'detached' });
      await page.getByText(/“Manifold Pressure.*” kept under its own name/).waitFor();
      const day = await stand.record.days.get(dayId());
      const mappings = await stand.record.mappings.list({ cellId: day.cellId });
      expect(JSON.stringify(mappings)).toMatch(/Manifold Pressure.*"quantity":"other"/);
    });

    it('sets leads by a column pasted from a spreadsheet, and says which cell it cannot take', async () => {
      await paste(cell(1, 'Lead'), '24\t0.87\r\n26\t0.88\r\nplenty\t0.87\r\n30\t0.87\r\n');
      await page.getByText('“plenty” is not a number').waitFor();
      await page.getByText('Pasted into 4 pulls').waitFor();
      await cell(3, 'Lead').fill('28');
      await cell(3, 'Lead').press('Enter');
      await eventually(async () =>
        (await stand.record.pulls.list({ dayId: dayId() })).map((one) => one.leadDeg),
      ).toEqual([24, 26, 28, 30]);
    });

    it('walks the table by keys', async () => {
      await cell(1, 'Lead').focus();
      await page.keyboard.press('ArrowDown');
      expect(await cell(2, 'Lead').evaluate((one) => one === document.activeElement)).toBe(true);
      await page.keyboard.press('Tab');
      expect(await cell(2, 'Lambda target').evaluate((one) => one === document.activeElement)).toBe(
        true,
      );
      await page.keyboard.type('0.9');
      await page.keyboard.press('Escape');
      expect(await cell(2, 'Lambda target').inputValue()).toBe('0.88');
    });

    it('leaves a pull out with a reason, and takes that back', async () => {
      await cell(2, 'Left out because').fill('throttle was not open');
      await cell(2, 'Left out because').press('Enter');
      await page.getByText('3 pulls counted, 1 left out').waitFor();
      await undo();
      await page.getByText('all counted').waitFor();
      const kept = await stand.record.pulls.list({ dayId: dayId() });
      expect(kept.map((pull) => pull.excludedBecause)).toEqual([null, null, null, null]);
    });

    it('sets a part test, and opens a second ladder of the day', async () => {
      await page.getByText('all pulls (4 pulls)').waitFor();
      await cell(4, 'Part test').fill('B');
      await cell(4, 'Part test').press('Enter');
      await page.getByText('of no part test (3 pulls)').waitFor();
      await undo();
      await page.getByText('all pulls (4 pulls)').waitFor();
      await page.getByRole('button', { name: 'New ladder' }).click();
      await page.getByRole('menuitem', { name: 'Of lambda …' }).click();
      await page.getByRole('button', { name: 'Open the ladder' }).click();
      await page.getByRole('button', { name: 'Ladder: Lambda ladder' }).waitFor();
      await page.getByRole('heading', { name: 'Pulls' }).waitFor();
      await page.goBack();
      await page.getByRole('link', { name: 'Lambda ladder' }).waitFor();
      const ladders = await stand.record.ladders.list({ dayId: dayId() });
      expect(ladders.map((one) => one.setting)).toEqual(['lead', 'lambda']);
    });

    it('shows the same in other units, another standard and the other theme, at once', async () => {
      const peak = () => page.getByRole('row').filter({ hasText: 'run 1.csv' }).textContent();
      const metric = await peak();
      await page.getByRole('button', { name: 'Metric units' }).click();
      await page.getByRole('columnheader', { name: 'Peak hp' }).waitFor();
      const us = await peak();
      expect(us).not.toBe(metric);
      await page.getByRole('button', { name: /^Air standard/ }).click();
      await page.getByRole('menuitem', { name: '60 °F dry standard' }).click();
      await page.getByText('In the air of 60 °F dry standard').waitFor();
      await eventually(peak).not.toBe(us);
      await page.getByRole('button', { name: 'Dark theme' }).click();
      expect(await page.locator('html').getAttribute('data-mantine-color-scheme')).toBe('dark');
      await page.getByRole('button', { name: 'Light theme' }).click();
    });

    it('shows one pull with its peaks, what it says of itself and its samples', async () => {
      await page
        .getByRole('link', { name: /run 1\.csv/ })
        .first()
        .click();
      await page.getByRole('heading', { level: 1, name: 'Pull 1 at 24°' }).waitFor();
      await page.getByRole('heading', { name: 'What the pull says of itself' }).waitFor();
      await page.getByRole('img', { name: /^Torque.*against time: between/ }).waitFor();
      await page.getByRole('button', { name: 'The curve: show as a table' }).click();
      expect(await page.getByRole('row').count()).toBeGreaterThan(8);
    });

    it('answers on the ladder, and again while the band is dragged', async () => {
      await page.goto(`${dayUrl}/ladder`);
      const title = page.getByRole('heading', { name: /^Mean power between/ });
      await title.waitFor();
      const before = await title.textContent();
      const step = page
        .locator('main')
        .getByText(/\d% ?\(|%\s*\(/)
        .first();
      const figure = await step.textContent();
      const grip = page.getByRole('slider', { name: 'Band from' }).first();
      await drag(page, grip, 60);
      await eventually(() => title.textContent()).not.toBe(before);
      await eventually(() => step.textContent()).not.toBe(figure);
      await grip.press('ArrowLeft');
      await eventually(async () => (await stand.record.days.get(dayId())).bandRpm).not.toBeNull();
    });

    it('writes a band down that was moved just before the page was closed', async () => {
      const { bandRpm } = await stand.record.days.get(dayId());
      await page.getByRole('slider', { name: 'Band from' }).first().focus();
      // In one go, as a person is never fast enough to do it to a page that still computes.
      await page.evaluate(() => {
        const key = new KeyboardEvent('keydown', { key: 'ArrowLeft', bubbles: true });
        document.activeElement?.dispatchEvent(key);
        window.dispatchEvent(new Event('pagehide'));
      });
      await page.goto('about:blank');
      await eventually(async () => (await stand.record.days.get(dayId())).bandRpm).not.toEqual(
        bandRpm,
      );
      await page.goto(`${dayUrl}/ladder`);
      await page.getByRole('heading', { name: 'Pulls' }).waitFor();
    });

    it('records a decision with the advice that stood beside it', async () => {
      await page.getByRole('button', { name: /record it$|^Record a decision$/ }).click();
      const form = page.getByRole('form', { name: 'Record a decision' });
      await form.getByLabel(/^Leave/).fill('24');
      await form.getByLabel('Who decides').fill('the person at the desk');
      await form.getByLabel('Why').fill('a round figure for the first outing');
      await form.getByRole('button', { name: 'Record the decision' }).click();
      await page.getByText('the person at the desk').first().waitFor();
      const [ladder] = await stand.record.ladders.list({ dayId: dayId() });
      const [decision] = await stand.record.decisions.list({ ladderId: ladder!.id });
      expect(decision).toMatchObject({ who: 'the person at the desk', setting: 24 });
      // The advice is kept as it stood on the screen, in the standard chosen there, with what it was made from.
      expect(decision!.advice!.evidence).toMatchObject({
        standard: 'SAE 60F dry',
        pullIds: expect.any(Array),
      });
      expect(decision!.advice!.why).not.toBe('');
    });

    it('finds any place by a word, and names its keys', async () => {
      await page.keyboard.press('/');
      await page.getByRole('combobox').fill('grass season');
      await page
        .getByRole('option', { name: /Season 2026/ })
        .first()
        .waitFor();
      await page.keyboard.press('Enter');
      await page
        .getByRole('heading', { level: 1, name: 'Grass-track single, Season 2026' })
        .waitFor();
      await page.keyboard.press('?');
      await page.getByRole('dialog', { name: 'Keys' }).waitFor();
      await page.keyboard.press('Escape');
    });

    it('lists every change, and takes one back', async () => {
      await page.getByRole('link', { name: 'Changes' }).click();
      await page
        .getByRole('button', { name: /^Take back/ })
        .first()
        .click();
      await page
        .getByRole('button', { name: /^Bring back/ })
        .first()
        .waitFor();
    });
  });
