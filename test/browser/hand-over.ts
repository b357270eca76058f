import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { describe, expect, it } from 'vitest';
import { temporaryFolder } from '../../src/record/testing.ts';
import { dropFiles } from './acts.ts';
import type { Stand } from './stand.ts';

/** From the page of a build to a hand-over that is made, checked, removed and brought back. */
export const handOver = (standOf: () => Stand) =>
  describe('hand-over', () => {
    it('is made from a build, says what was found, is held against its recordings, and undone', async () => {
      const stand = standOf();
      const { engines } = await stand.record.summary();
      const build = engines.find((one) => one.name === 'Grass-track single')!.builds[0]!;
      const page = await stand.open(`/builds/${build.id}`);
      await page.getByRole('link', { name: 'Hand over' }).click();
      await page.getByRole('button', { name: 'Make the hand-over' }).click();
      await page.getByLabel('Handed over by').fill('Ann');
      await page.getByRole('button', { name: 'Make it' }).click();
      await page.getByText('Peak power', { exact: true }).first().waitFor();
      const kept = () => stand.record.handOvers.list({ buildId: build.id });
      const [made] = await kept();
      expect(made).toMatchObject({ madeBy: 'Ann' });
      await page.getByText('Deutsch').click();
      await page.getByText('Größte Leistung', { exact: true }).first().waitFor();

      const stands = await page
        .getByRole('link', { name: /^Page for the owner/ })
        .getAttribute('href');
      const sent = await stand.open('/', { width: 390, height: 844 });
      const { folder, remove } = temporaryFolder();
      const file = join(folder, 'page.html');
      writeFileSync(file, await (await page.request.get(`${stand.url}${stands}`)).body());
      await sent.goto(pathToFileURL(file).href);
      const opened = sent.locator('details.part[open]');
      await sent.getByRole('button', { name: 'Alle Teile öffnen' }).waitFor();
      expect(await opened.count()).toBe(0);
      await sent.locator('nav.contents a').last().click();
      expect(await opened.count()).toBe(1);
      await sent.getByRole('button', { name: 'Alle Teile öffnen' }).click();
      const wide = () => sent.evaluate(() => document.documentElement.scrollWidth);
      await expect.poll(wide).toBe(390);
      await sent.close();
      remove();

      await page.getByRole('link', { name: 'Replay' }).click();
      const time = page.getByRole('slider', { name: 'Time of the pull' });
      await time.focus();
      await page.keyboard.press('Home');
      await page.keyboard.press('Shift+ArrowRight');
      await expect
        .poll(() => time.getAttribute('aria-valuetext'))
        .toMatch(/^Zeit, s 1,0; Drehzahl/);
      await page.getByRole('button', { name: 'Play' }).waitFor();
      await page.goBack();

      const href = await page.getByRole('link', { name: 'Bundle (zip)' }).getAttribute('href');
      const bytes = await (await page.request.get(`${stand.url}${href}`)).body();
      await page.getByRole('button', { name: 'Remove' }).click();
      await page.getByRole('heading', { name: 'Not handed over yet' }).waitFor();
      await page.getByText('The hand-over is removed.').waitFor();
      await page.getByRole('button', { name: 'Undo' }).click();
      await expect.poll(async () => (await kept()).map(({ id }) => id)).toEqual([made!.id]);

      await page.goto(`${stand.url}/verify`);
      await dropFiles(page.getByRole('region', { name: 'File to check' }), [
        { name: 'hand-over.zip', bytes },
      ]);
      await page.getByRole('heading', { name: 'Every figure follows' }).waitFor();
      await page.close();
    });
  });
