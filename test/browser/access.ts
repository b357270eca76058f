import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { Page } from 'playwright-core';
import { beforeAll, describe, expect, it } from 'vitest';
import type { Stand } from './stand.ts';

interface Violation {
  readonly id: string;
  readonly impact: string | null;
  readonly help: string;
  readonly nodes: readonly { readonly target: readonly string[]; readonly html: string }[];
}
declare const axe: {
  run(
    context: Document,
    options: { resultTypes: readonly string[] },
  ): Promise<{ violations: readonly Violation[] }>;
};

const axeSource = readFileSync(createRequire(import.meta.url).resolve('axe-core'), 'utf8');

/** A part test of the day, begun over the interface as a person begins it, whatever other acts ran before. */
async function partTestOf(stand: Stand, dayId: string): Promise<{ readonly id: string }> {
  const [begun] = await stand.record.partTests.list({ dayId });
  if (begun !== undefined) return begun;
  const answer = await fetch(`${stand.url}/api/v1/days/${dayId}/part-tests`, {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify({ groupA: 'old part', groupB: 'open air cleaner', gainPercent: 1 }),
  });
  if (!answer.ok) throw new Error(await answer.text());
  return answer.json() as never;
}

/** Every screen against the rules of axe-core (WCAG 2), in both themes: nothing serious is left. */
export const access = (standOf: () => Stand) =>
  describe('every screen for everyone', () => {
    let stand: Stand;
    const screens: Record<string, string> = {};

    beforeAll(async () => {
      stand = standOf();
      const { engines, latestDays } = await stand.record.summary();
      const boat = latestDays.find((day) => day.engineName === 'Rescue boat V8')!;
      const [pull] = await stand.record.pulls.list({ dayId: boat.id });
      const { cellId } = await stand.record.days.get(boat.id);
      const test = await partTestOf(stand, boat.id);
      Object.assign(screens, {
        shop: '/',
        engine: `/engines/${engines[0]!.id}`,
        'service record': `/engines/${boat.engineId}/service`,
        build: `/builds/${boat.buildId}`,
        sheet: `/builds/${boat.buildId}/sheet`,
        'sheet, a section': `/builds/${boat.buildId}/sheet/pistons`,
        'sheet on paper': `/builds/${boat.buildId}/paper`,
        'what changed': `/builds/${engines.find((one) => one.builds.length > 1)!.builds[1]!.id}/changes`,
        day: `/days/${boat.id}`,
        plan: `/days/${boat.id}/plan`,
        'plan, ticked': `/days/${latestDays.find((day) => day.date === '2026-04-08')!.id}/plan`,
        'part tests': `/days/${boat.id}/part-tests`,
        'a part test': `/part-tests/${test.id}`,
        ladder: `/days/${boat.id}/ladder`,
        'lead and lambda': `/days/${latestDays.find((day) => day.engineName === 'Sports four')!.id}/both`,
        'lead and lambda, too little': `/days/${boat.id}/both`,
        pull: `/pulls/${pull!.id}`,
        replay: `/pulls/${pull!.id}/replay`,
        parts: '/parts',
        'a part': '/parts?serial=H-031',
        'side by side': `/compare?sides=${engines
          .find((one) => one.builds.length > 1)!
          .builds.slice(0, 2)
          .map(({ id }) => `build:${id}`)
          .join()}`,
        'what it is for': `/use?sides=${engines
          .find((one) => one.builds.length > 1)!
          .builds.slice(0, 2)
          .map(({ id }) => `build:${id}`)
          .join()}`,
        // One was handed over in the act before this, the other never.
        'hand-over': `/builds/${engines.find((one) => one.name === 'Grass-track single')!.builds[0]!.id}/handover`,
        'hand-over, none yet': `/builds/${boat.buildId}/handover`,
        'a hand-over checked': '/verify',
        settings: '/settings',
        calibrations: `/cells/${cellId}/calibrations`,
        'a new calibration': `/cells/${cellId}/calibrate/weights`,
        changes: '/changes',
        lost: '/nowhere',
      });
    });
    const settled = async (page: Page) => {
      await page.locator('h1, h2').first().waitFor();
      await page.locator('[aria-label^="Fetching"]').first().waitFor({ state: 'detached' });
    };

    const serious = async (page: Page): Promise<string[]> => {
      const { violations } = await page.evaluate(() =>
        axe.run(document, { resultTypes: ['violations'] }),
      );
      return violations
        .filter(({ impact }) => impact === 'serious' || impact === 'critical')
        .flatMap(({ id, help, nodes }) =>
          nodes.map(
            (node) => `${id}: ${help}: ${node.target.join(' ')} ${node.html.slice(0, 160)}`,
          ),
        );
    };

    /** Pixels by which a page stands over the side of a tablet held upright, once its pictures have followed. */
    const overTheSide = async (page: Page): Promise<string[]> => {
      const over = () =>
        page.evaluate(
          () => document.documentElement.scrollWidth - document.documentElement.clientWidth,
        );
      await page.setViewportSize({ width: 820, height: 1180 });
      await page
        .waitForFunction(
          () => document.documentElement.scrollWidth <= document.documentElement.clientWidth,
          undefined,
          { timeout: 5000 },
        )
        .catch(() => {});
      const pixels = await over();
      await page.setViewportSize({ width: 1440, height: 900 });
      return pixels > 0 ? [`${pixels} px over the side of a tablet`] : [];
    };

    it.each(['light', 'dark'] as const)(
      'has no serious barrier in %s, and fits a tablet',
      async (scheme) => {
        const page = await stand.open('/', { scheme });
        const found: Record<string, string[]> = {};
        for (const [name, path] of Object.entries(screens)) {
          await page.goto(`${stand.url}${path}`);
          await settled(page);
          await page.evaluate(axeSource);
          found[name] = await serious(page);
          // The theme changes no width: once is enough.
          if (scheme === 'light') found[name].push(...(await overTheSide(page)));
        }
        // What opens over a page has to hold as well.
        await page.goto(`${stand.url}${screens.day}`);
        await settled(page);
        await page.getByRole('button', { name: 'Check or mend the headers' }).click();
        await page.getByRole('dialog').waitFor();
        await page.evaluate(axeSource);
        found.headers = await serious(page);
        expect(found).toEqual(Object.fromEntries(Object.keys(found).map((name) => [name, []])));
      },
    );
  });
