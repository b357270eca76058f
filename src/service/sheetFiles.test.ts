import { describe, expect, it } from 'vitest';
import { demoSheets } from '../../demo/sheets.ts';
import { inOrder, type Sheet } from '../build/index.ts';
import { readBuildFile } from '../intake/index.ts';
import { type Asked, withApp } from './testing.ts';

interface Reading {
  version: number;
  given: Sheet | null;
  sheet: Sheet | null;
  taken: { section: string | null; label: string; before: string | null; after: string }[];
  refused: { row: number | null; column: number | null; path: string | null; expected: string }[];
}
const V8 = inOrder(demoSheets()[2]!.sheet);

async function oneBuild({ record }: Asked, name = 'First'): Promise<string> {
  const engine = await record.engines.create({ name: '../=Eight', cylinders: 8 });
  return (await record.builds.create({ engineId: engine.id, name })).id;
}
const read = ({ json }: Asked, build: string, name: string, body: string | Uint8Array, more = '') =>
  json<Reading>(
    'POST',
    `/builds/${build}/sheet/read?name=${encodeURIComponent(name)}${more}`,
    body,
  );

describe('a sheet from a file over HTTP', () => {
  it('shows what would be filled in, changed and refused, and keeps nothing until it is put', () =>
    withApp(async (asked) => {
      const { json, record } = asked;
      const build = await oneBuild(asked);
      const table =
        'section,field,value,unit,by\nblock,boreNominal,4.03,in,\ncrank,stroke,long,in,\nheads,nothing,1,,\n' +
        "deck,notes,'=1+1,,\n";
      const first = await read(asked, build, 'sheet.csv', table);
      expect(first.version).toBe(0);
      expect(first.taken.map(({ label, before, after }) => [label, before, after])).toEqual([
        ['Layout', null, expect.stringContaining('8 cylinders')],
        ['Bore, nominal', null, '4.03 in'],
        ['Notes', null, '=1+1'],
      ]);
      expect(first.refused.map(({ row, column }) => [row, column])).toEqual([
        [3, 3],
        [4, 2],
      ]);
      expect((await record.sheets.get(build)).sheet).toBeNull();
      await json('PUT', `/builds/${build}/sheet`, { version: 0, sheet: first.sheet });

      const second = await read(
        asked,
        build,
        'sheet.json',
        JSON.stringify({
          format: 'sheet/1',
          sections: {
            block: { values: { boreNominal: '102.4 mm' } },
            crank: { values: { stroke: 1 } },
          },
        }),
      );
      expect(second.taken).toEqual([
        { section: 'block', label: 'Bore, nominal', before: '4.03 in', after: '102.4 mm' },
      ]);
      expect(second.refused).toMatchObject([{ row: null, path: 'sections.crank.values.stroke' }]);
      expect(second.sheet!.sections.deck).toEqual({ notes: '=1+1' });
      const body = { version: second.version, sheet: second.sheet };
      await json('PUT', `/builds/${build}/sheet`, body);
      await json('POST', '/undo');
      const back = await record.sheets.get(build);
      expect(back.sheet!.sections.block).toEqual(first.sheet!.sections.block);

      // Another count of cylinders: what no longer fits is named, and nothing can be kept.
      await record.sheets.save(build, V8, back.version);
      const fewer = await read(asked, build, 'f.csv', 'section,field,value\nlayout,cylinders,4\n');
      expect(fewer.sheet).toBeNull();
      expect(fewer.refused[0]!.path).toMatch(/^sections\.\w+\.values\.\w+/);
    }));

  it('refuses what is no sheet with a sentence, whatever the bytes', () =>
    withApp(async (asked) => {
      const { json, ask } = asked;
      const build = await oneBuild(asked);
      const path = `/builds/${build}/sheet/read?name=x`;
      for (const bytes of [
        Buffer.from([0, 1, 2, 250]),
        Buffer.from('PK\x03\x04 not a workbook', 'latin1'),
        Buffer.from('{"format":'),
        Buffer.from(''),
        Buffer.from('['.repeat(50_000)),
      ]) {
        const answer = await ask('POST', `/api/v1${path}`, bytes);
        const { error, ...read } = (await answer.json()) as {
          error?: { message: string };
        } & Reading;
        if (answer.status === 200) expect(read).toMatchObject({ sheet: null, taken: [] });
        else expect([answer.status, error!.message]).toEqual([422, expect.stringMatching(/\w{3}/)]);
        expect(answer.status === 422 || read.refused.length > 0).toBe(true);
      }
      const none = await read(asked, build, 'run.csv', 'time,rpm\n1,2000\n2,2100\n');
      expect(none).toMatchObject({ given: null, sheet: null, taken: [] });
      expect(none.refused.length).toBeGreaterThan(0);
      const deep = `{"format":"sheet/1","sections":{"block":${'['.repeat(5000)}${']'.repeat(5000)}}}`;
      expect((await read(asked, build, 'deep.json', deep)).refused).toHaveLength(1);
      await json('POST', '/builds/build_none/sheet/read?name=x', 'section,field,value\n', 404);
      expect((await ask('POST', `/api/v1${path}`, Buffer.alloc(16e6 + 1))).status).toBe(413);
    }));

  it('is written to a file that reads back as the same sheet, and runs no formula', () =>
    withApp(async (asked) => {
      const { ask, record } = asked;
      const build = await oneBuild(asked, 'Büild/1');
      const path = `/api/v1/builds/${build}/sheet/file`;
      expect((await ask('GET', `${path}?as=csv`)).status).toBe(404);
      const odd = '=HYPERLINK("http://nowhere","x")';
      const sections = { ...V8.sections, fuel: { ...V8.sections.fuel, notes: odd } };
      const sheet = inOrder({ ...V8, name: '-8', sections });
      await record.sheets.save(build, sheet, 0);
      for (const as of ['json', 'csv', 'xlsx']) {
        const answer = await ask('GET', `${path}?as=${as}`);
        expect(answer.headers.get('content-disposition')).toBe(
          `attachment; filename*=UTF-8''..-%3DEight%2C%20B%C3%BCild-1.${as}`,
        );
        const bytes = new Uint8Array(await answer.arrayBuffer());
        expect(await readBuildFile(bytes, { fileName: `a.${as}` })).toEqual(sheet);
        if (as === 'csv')
          expect(new TextDecoder().decode(bytes)).not.toMatch(/(?:^|,)"?[=@+]|(?:^|,)"?-(?!\d)/m);
      }
      expect((await ask('GET', `${path}?as=ods`)).status).toBe(400);
    }));
});
