import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { SECTIONS } from './index.ts';
import { fieldReference } from './reference.ts';

const PAGE = join(import.meta.dirname, '../../../docs/sheet-fields.md');
const HEAD = `# Fields of a build sheet

Format \`sheet/1\`, described in [sheet.md](sheet.md). This page is made from the program's own list of fields; after a
change there, \`npx vitest run --project unit src/build/sections -u\` makes it again. Units are those in which a value is
shown; any unit of its kind may be typed.

`;

describe('the list of fields', () => {
  it('is what docs/sheet-fields.md says (-u makes the page again)', async () => {
    await expect(`${HEAD}${fieldReference()}`).toMatchFileSnapshot(PAGE);
  });

  it('has no id and no label twice in a section, so that a table can name either', () => {
    for (const { id, fields } of SECTIONS)
      for (const of of ['id', 'label'] as const) {
        const names = fields.map((field) => field[of].toLowerCase());
        expect(
          names.filter((name, i) => names.indexOf(name) !== i),
          id,
        ).toEqual([]);
      }
  });
});
