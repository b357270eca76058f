import { describe, expect, it } from 'vitest';
import type { Stand } from './stand.ts';

/** From the page of a build to a comparison that is kept, and undone. */
export const sideBySide = (standOf: () => Stand) =>
  describe('side by side', () => {
    it('is opened from a build, follows its band, is turned round, kept and undone', async () => {
      const stand = standOf();
      const { engines } = await stand.record.summary();
      const engine = engines.find((one) => one.builds.length > 1)!;
      const [first, second] = engine.builds;
      const page = await stand.open(`/builds/${second!.id}`);
      await page.getByRole('link', { name: 'Compare with the last build' }).click();
      const figure = page.locator('dt', { hasText: 'Mean power' });
      const before = await figure.textContent();
      const finding = page.getByRole('heading', { level: 1 });
      expect(await finding.textContent()).toContain(second!.name);
      const sides = page.getByRole('region', { name: 'Sides' }).getByRole('listitem');
      expect(await sides.first().textContent()).toContain(first!.name);

      await page.getByRole('slider', { name: 'Band from' }).press('Shift+ArrowRight');
      await expect.poll(() => figure.textContent()).not.toBe(before);
      await page.waitForURL(/band=\d+-\d+/);

      await page.getByRole('button', { name: 'Swap A and B' }).click();
      await expect.poll(() => sides.first().textContent()).toContain(second!.name);

      await page.getByRole('button', { name: 'Keep …' }).click();
      await page.getByRole('textbox', { name: 'Name' }).fill('what the refresh did');
      await page.getByRole('button', { name: 'Keep it' }).click();
      await page.getByText('what the refresh did is kept').waitFor();
      const kept = () => stand.record.comparisons.list({ engineId: engine.id });
      expect((await kept()).map(({ name }) => name)).toEqual(['what the refresh did']);
      await page.getByRole('button', { name: 'Undo' }).click();
      await expect.poll(async () => (await kept()).length).toBe(0);
      await page.close();
    });

    it('has a part tested fairly: planned, begun, each pull put to its side', async () => {
      const stand = standOf();
      const { latestDays } = await stand.record.summary();
      const { id: dayId } = latestDays.find((day) => day.engineName === 'Rescue boat V8')!;
      const page = await stand.open(`/days/${dayId}/part-tests`);
      await page.getByLabel('B, what is tried').fill('open air cleaner');
      await page.getByText(/At most \d+ pulls of each show a gain/).waitFor();
      await page.getByRole('button', { name: 'Start the test' }).click();
      const advice = page.getByRole('heading', { level: 1 });
      await expect.poll(() => advice.textContent()).toBe('Go on: next a pull of old part');
      await page
        .getByRole('radiogroup', { name: 'Pull 1 is of' })
        .getByText('A', { exact: true })
        .click();
      await expect.poll(() => advice.textContent()).toBe('Go on: next a pull of open air cleaner');
      const first = async () => (await stand.record.pulls.list({ dayId }))[0]!.group;
      expect(await first()).toBe('old part');
      await page.getByRole('button', { name: 'Undo' }).click();
      await expect.poll(first).toBeNull();
      await page.close();
    });
  });
