import { describe, expect, it } from 'vitest';
import type { Stand } from './stand.ts';

/** From the page of a build to what it is for: a vehicle changed, a use typed and undone. */
export const whatItIsFor = (standOf: () => Stand) =>
  describe('what it is for', () => {
    it('is opened from a build, follows the final drive, takes a vehicle and a use, and undoes', async () => {
      const stand = standOf();
      const { engines } = await stand.record.summary();
      const engine = engines.find((one) => one.builds.length > 1)!;
      const page = await stand.open(`/builds/${engine.builds[1]!.id}`);
      await page.getByRole('link', { name: 'What it is for' }).click();
      const finding = page.getByRole('heading', { level: 1 });
      await finding.waitFor();
      await expect.poll(() => finding.textContent()).toContain('quicker over the 1/4 mile');

      const before = await finding.textContent();
      const drive = page.getByRole('slider', { name: /^Final drive/ });
      for (let i = 0; i < 12; i++) await drive.press('ArrowLeft');
      await expect.poll(() => finding.textContent()).not.toBe(before);

      await page.getByRole('button', { name: 'Change Hill-climb coupe' }).click();
      await page.getByRole('textbox', { name: /^Mass/ }).fill('2 kg');
      await page.getByRole('button', { name: 'Save', exact: true }).click();
      await page.getByText('mass: found "2 kg"').first().waitFor();
      await page.getByRole('textbox', { name: /^Mass/ }).fill('1300 kg');
      await page.getByRole('textbox', { name: /^Mass/ }).press('Enter');
      await page.getByText('1300 kg, 5 gears').waitFor();

      await page.getByRole('button', { name: 'Type a use' }).click();
      await page.getByRole('textbox', { name: 'Name' }).fill('her road');
      const cell = (column: string, line: number) =>
        page.getByRole('textbox', { name: `${column}, line ${line}` });
      for (const [i, [speed, share]] of ['3000 80', '5000 20']
        .map((row) => row.split(' '))
        .entries()) {
        await cell('Engine speed, rpm', i + 1).fill(speed!);
        await cell('Share of the time, %', i + 1).fill(share!);
      }
      await page.getByRole('button', { name: 'Keep the use' }).click();
      await page.waitForURL(/use=kept/);
      const kept = () => stand.record.uses.list({ engineId: engine.id });
      expect((await kept()).map(({ name }) => name)).toEqual(['her road']);
      await page.getByRole('button', { name: 'Change her road' }).click();
      await cell('Share of the time, %', 1).fill('50');
      await page.getByRole('button', { name: 'Save', exact: true }).click();
      const shares = async () =>
        (await kept()).flatMap(({ written }) =>
          (written.points as { share: string }[]).map(({ share }) => share),
        );
      await expect.poll(shares).toEqual(['50 %', '20 %']);
      // Until then the way back is that of the change before it.
      await page.getByText('her road is changed.').waitFor();
      await page.getByRole('button', { name: 'Undo' }).click();
      await expect.poll(shares).toEqual(['80 %', '20 %']);
      await page.close();
    });
  });
