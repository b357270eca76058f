import { describe, expect, it } from 'vitest';
import { contentsDiffer } from './alike.ts';

const page = (body: string, figures = '{"a":1}') =>
  Buffer.from(
    `<!doctype html><head><style>p { color: red }</style></head><body>${body}<script type="application/json" id="figures">${figures}</script><script>go()</script></body>`,
  );
const differ = (a: Uint8Array, b: Uint8Array) => contentsDiffer('page.html', a, b);

describe('a page held against the same made again', () => {
  it('is told by its words and figures, and not by its style and script', async () => {
    const own = page('<p class="x">300 hp</p>');
    expect(await differ(page('<p>300 hp</p>'), own)).toEqual([]);
    expect(await differ(page('<p>310 hp</p>'), own)).toMatchObject([
      { where: 'words[0]', says: '310 hp', follows: '300 hp' },
    ]);
    expect(await differ(page('<p>300 hp</p>', '{"a":2}'), own)).toMatchObject([
      { where: 'figures.a', says: 2, follows: 1 },
    ]);
    expect(await differ(page('', '{'), own)).toBeNull();
  });

  it('is read in one pass, whatever it opens and never closes', async () => {
    for (const open of [
      '<script ',
      '<style>',
      '<',
      '<script type="application/json" id="figures">',
    ]) {
      const hostile = page(open.repeat(Math.floor(400_000 / open.length)));
      const began = performance.now();
      await differ(hostile, hostile);
      // A pattern that looks for each end takes minutes.
      expect(performance.now() - began, open).toBeLessThan(3000);
    }
  });
});
