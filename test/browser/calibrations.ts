import type { Page } from 'playwright-core';
import { beforeAll, describe, expect, it } from 'vitest';
import { paste } from './acts.ts';
import type { Stand } from './stand.ts';

/** A cell's calibration as its operator does it: weights pasted, what they say, kept, due, and taken back. */
export const calibrations = (standOf: () => Stand) =>
  describe('the calibrations of a cell', () => {
    let stand: Stand;
    let page: Page;
    let cellId: string;
    beforeAll(async () => {
      stand = standOf();
      cellId = (await stand.record.cells.list()).find(({ name }) => /^Cell 3/.test(name))!.id;
      page = await stand.open(`/cells/${cellId}/calibrations`);
    });

    it('shows what is past due, takes pasted weights, says what follows, and keeps them with a way back', async () => {
      await page.getByText('past due', { exact: true }).first().waitFor();
      await page.getByRole('link', { name: 'Weights on the arm' }).click();
      await page.getByText('Before a weight is hung').waitFor();
      await page.getByRole('textbox', { name: /^Arm length/ }).fill('500 mm');
      const first = page.getByRole('textbox', { name: /^Weight, .*, line 1$/ });
      await paste(
        first,
        'Weight (kg)\tReading (N·m)\n0\t0\n10\t50\n20\t100\n30\t150\n20\t100.2\n10\t50.2\n0\t0.1',
      );
      await page.getByText(/^The cell reads 1\.9\d.% too high/).waitFor();
      await page.getByText(/^Going down it reads up to/).waitFor();
      await page.getByRole('textbox', { name: 'By', exact: true }).fill('Ann');
      await page.getByRole('button', { name: 'Keep it' }).click();
      await page.getByRole('heading', { name: /^Calibrations of Cell 3/ }).waitFor();
      await page.getByText('holds', { exact: true }).first().waitFor();
      const kept = () => stand.record.calibrations.list({ cellId });
      expect((await kept()).map(({ who }) => who)).toEqual(['the apprentice', 'Ann']);
      await page.getByRole('button', { name: 'Undo' }).click();
      await page.getByText('past due', { exact: true }).first().waitFor();
      expect(await kept()).toHaveLength(1);
    });
  });
