import { readFile } from 'node:fs/promises';
import type { Page } from 'playwright-core';
import { beforeAll, describe, expect, it } from 'vitest';
import type { Stand } from './stand.ts';

/** What only a real browser can show of the ladder's pictures: reading by keyboard, zoom, tables, saved files, evidence. */
export const ladderPictures = (standOf: () => Stand) =>
  describe("the ladder's pictures", () => {
    let page: Page;
    beforeAll(async () => {
      const stand = standOf();
      const { latestDays } = await stand.record.summary();
      const boat = latestDays.find((day) => day.engineName === 'Rescue boat V8')!;
      page = await stand.open(`/days/${boat.id}/ladder`);
      await page.getByRole('heading', { name: 'What each step gained, by engine speed' }).waitFor();
    });

    it('read every step at a speed by the arrow keys', async () => {
      const surface = page.getByRole('slider', { name: /^Engine speed: arrow keys/ });
      await surface.focus();
      await surface.press('ArrowLeft');
      const first = await surface.getAttribute('aria-valuetext');
      await surface.press('Shift+ArrowRight');
      const later = await surface.getAttribute('aria-valuetext');
      expect(first).toMatch(/rpm\. \d+° to \d+°: [+−]?\d/);
      expect(later).not.toBe(first);
    });

    it('come closer by the keys and by dragging, and go back', async () => {
      const whole = page.getByRole('button', { name: /by engine speed: show the whole/ });
      const surface = page.getByRole('slider', { name: /^Engine speed: arrow keys/ });
      await surface.press('+');
      await whole.click();
      expect(await whole.count()).toBe(0);
      const box = (await surface.boundingBox())!;
      await page.mouse.move(box.x + box.width * 0.3, box.y + 60);
      await page.mouse.down();
      await page.mouse.move(box.x + box.width * 0.6, box.y + 60, { steps: 5 });
      await page.mouse.up();
      await whole.waitFor();
      await surface.press('Escape');
      expect(await whole.count()).toBe(0);
    });

    it('show the same numbers as a table', async () => {
      await page.getByRole('button', { name: 'Loss by speed and lead: show as a table' }).click();
      const table = page.getByRole('region', { name: 'Loss by speed and lead, as a table' });
      expect(await table.getByRole('row').count()).toBeGreaterThan(5);
      await page.getByRole('button', { name: 'Loss by speed and lead: show the picture' }).click();
    });

    it.each([
      [
        'PNG',
        (bytes: Buffer) => bytes.subarray(1, 4).toString() === 'PNG' && bytes.length > 20_000,
      ],
      ['SVG', (bytes: Buffer) => bytes.toString().includes('Rescue boat V8')],
    ] as const)('are saved as %s under their own title', async (kind, isWhatItSays) => {
      const menu = page.getByRole('button', { name: /^What each step gained.*: save the picture/ });
      await menu.click();
      const [download] = await Promise.all([
        page.waitForEvent('download'),
        page.getByRole('menuitem', { name: `Save as ${kind}` }).click(),
      ]);
      expect(download.suggestedFilename()).toMatch(
        new RegExp(`^what-each-step-gained.*rescue-boat-v8.*\\.${kind.toLowerCase()}$`),
      );
      expect(isWhatItSays(await readFile(await download.path()))).toBe(true);
    });

    it('have their evidence one click away', async () => {
      await page.getByRole('button', { name: 'Why we say this' }).click();
      const drawer = page.getByRole('dialog', { name: 'What the answer rests on' });
      await drawer.getByText('How well the cell repeats').waitFor();
      await drawer.getByText('What was assumed').waitFor();
      await page.keyboard.press('Escape');
      await drawer.waitFor({ state: 'hidden' });
    });

    it('show lead and lambda at once: read by the keys, left for another use, its table taken away', async () => {
      const stand = standOf();
      const { latestDays } = await stand.record.summary();
      const four = latestDays.find((day) => day.engineName === 'Sports four')!;
      await page.goto(`${stand.url}/days/${four.id}`);
      await page.getByRole('link', { name: 'Lead and lambda', exact: true }).click();
      const plane = page.getByRole('slider', { name: /^Spark lead and lambda/ });
      await plane.focus();
      await plane.press('ArrowLeft');
      expect(await plane.getAttribute('aria-valuetext')).toMatch(/° at lambda 0\.\d{3}: /);
      await page.getByRole('radio', { name: /^sustained/ }).check();
      await page.getByRole('heading', { name: /by speed, for sustained/ }).waitFor();
      const [download] = await Promise.all([
        page.waitForEvent('download'),
        page.getByRole('link', { name: 'For a controller (CSV)' }).click(),
      ]);
      const csv = (await readFile(await download.path())).toString();
      expect(csv).toMatch(/^engine speed \(rpm\),spark lead \(degrees before top centre\),lambda/);
      expect(csv.trim().split('\r\n').length).toBeGreaterThan(6);
    });
  });
