import type { Page } from 'playwright-core';
import { beforeAll, describe, expect, it } from 'vitest';
import type { Entry } from '../../src/build/index.ts';
import { dropFiles } from './acts.ts';
import type { Stand } from './stand.ts';

/** The build sheet as a builder uses it: type, see what follows, find it kept; and two people at one sheet. */
export const buildSheet = (standOf: () => Stand) =>
  describe('the build sheet', () => {
    let stand: Stand;
    let page: Page;
    let buildId: string;
    beforeAll(async () => {
      stand = standOf();
      const { latestDays } = await stand.record.summary();
      buildId = latestDays.find((day) => day.engineName === 'Rescue boat V8')!.buildId;
      page = await stand.open(`/builds/${buildId}`);
      await page.getByRole('link', { name: 'Build sheet' }).click();
      await page.getByRole('heading', { name: 'Overview' }).waitFor();
    });
    const advance = async () => {
      const { sheet } = await stand.record.sheets.get(buildId);
      return (sheet!.sections.camshaft!.values!.advance as Entry).value;
    };

    it('shows what follows at the keystroke and keeps what was typed', async () => {
      await page
        .getByRole('link', { name: /^Camshaft/ })
        .first()
        .click();
      const cell = page.getByRole('textbox', { name: 'Ground in advance', exact: true });
      await cell.fill('2');
      const centreline = page
        .locator('*:has(> :text-is("Intake centreline on the card"))')
        .getByText('110.0 deg');
      await centreline.first().waitFor();
      await page
        .getByRole('status')
        .filter({ hasText: /^\s*Saved/ })
        .waitFor();
      expect(await advance()).toBe(2);
      await page.reload();
      await page.getByRole('heading', { name: 'Camshaft', exact: true }).waitFor();
      expect(await cell.inputValue()).toBe('2');
    });

    it('keeps a photo with its section, says what it shows, and takes it off with a way back', async () => {
      const panel = page.getByRole('region', { name: 'Photos and files' });
      const photo = await page.screenshot({ clip: { x: 0, y: 0, width: 40, height: 40 } });
      await dropFiles(panel, [{ name: 'lobe 3 \u202egpj.png', bytes: photo }]);
      const caption = panel.getByRole('textbox', { name: /^Caption of lobe 3/ });
      await caption.fill('pitted');
      await caption.press('Enter');
      const stored = async () =>
        (await stand.record.buildFiles.list({ buildId })).map((one) => [one.section, one.caption]);
      await expect.poll(stored).toEqual([['camshaft', 'pitted']]);
      await page.waitForFunction(
        () => document.querySelector<HTMLImageElement>('li img')?.naturalWidth === 40,
      );
      await panel.getByRole('button', { name: /^Take off lobe 3/ }).click();
      await panel.getByText('None yet.').waitFor();
      await page
        .getByText('The file is taken off.')
        .locator('..')
        .getByRole('button', { name: 'Undo' })
        .click();
      await caption.waitFor();
      expect(await caption.inputValue()).toBe('pitted');
    });

    it('shows what a table would do to the sheet, puts it on, and takes it back', async () => {
      await page.getByRole('button', { name: 'File', exact: true }).click();
      await page.getByRole('menuitem', { name: 'Read a table or build file' }).click();
      const dialog = page.getByRole('dialog');
      const table =
        'section,field,value,unit\ncamshaft,advance,3,deg\ncamshaft,lobeLift,tall,in\nheads,notes,seats cut,\n';
      await dropFiles(dialog.getByRole('region', { name: 'The file' }), [
        { name: 'day.csv', bytes: Buffer.from(table) },
      ]);
      await dialog.getByText('1 field to be filled in, 1 to be changed, 1 not taken').waitFor();
      await dialog.getByText(/^Row 3, column \d: found/).waitFor();
      expect(await advance()).toBe(2);
      await dialog.getByRole('button', { name: 'Put onto the sheet' }).click();
      const cell = page.getByRole('textbox', { name: 'Ground in advance', exact: true });
      await expect.poll(() => cell.inputValue()).toBe('3');
      await expect.poll(advance).toBe(3);
      const download = page.waitForEvent('download');
      await page.getByRole('button', { name: 'File', exact: true }).click();
      await page.getByRole('menuitem', { name: 'Take away as a table' }).click();
      expect((await download).suggestedFilename()).toMatch(/^Rescue boat V8.*\.csv$/);
      await page.getByRole('button', { name: 'Undo', exact: true }).first().click();
      await expect.poll(advance).toBe(2);
    });

    it('makes the plan of a day, cautions first, and keeps what is ticked', async () => {
      const { latestDays } = await stand.record.summary();
      const day = latestDays.find((one) => one.buildId === buildId)!;
      const plan = await stand.open(`/days/${day.id}/plan`);
      await plan.getByRole('button', { name: 'Make the plan' }).click();
      await plan.getByRole('heading', { name: 'What keeps people safe' }).waitFor();
      const first = plan.getByRole('checkbox').first();
      await first.click();
      await plan.getByText(/ticked by/).waitFor();
      await plan.reload();
      await plan.getByText(/ticked by/).waitFor();
      expect(await first.isChecked()).toBe(true);
      await plan.getByRole('button', { name: /^Strike: The throttle/ }).click();
      const form = plan.getByRole('dialog');
      await form.getByLabel('Why').fill('no throttle on it today');
      await form.getByRole('button', { name: 'Strike' }).click();
      await plan.getByText(/struck by .*: no throttle on it today/).waitFor();
    });

    it('asks who is right where somebody else changed it meanwhile', async () => {
      const { sheet, version } = await stand.record.sheets.get(buildId);
      const theirs = structuredClone(sheet!) as { name?: string };
      theirs.name = 'named by somebody else';
      await stand.record.sheets.save(buildId, theirs as never, version);
      const cell = page.getByRole('textbox', { name: 'Ground in advance', exact: true });
      await cell.fill('4');
      await page.getByText('Somebody else changed this sheet meanwhile').waitFor();
      expect(await advance()).toBe(2);
      await page.getByRole('button', { name: 'Take theirs, drop mine' }).click();
      await page.waitForFunction(
        () => (document.activeElement as HTMLElement | null)?.tagName !== 'INPUT',
      );
      expect(await cell.inputValue()).toBe('2');
    });
  });
