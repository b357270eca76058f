/** A sheet out of a file and into one. Reading keeps nothing: whoever has seen what would be taken keeps the sheet. */
import {
  layoutOf,
  mergedSheet,
  type NotTaken,
  readSheet,
  type Sheet,
  sheetTable,
  takenIn,
  writeSheet,
} from '../../build/index.ts';
import { readBuildFileInPart } from '../../intake/index.ts';
import type { PullbookRecord } from '../../record/index.ts';
import { csvText } from '../../units/export/csv.ts';
import { XLSX_TYPE, xlsxOfRows } from '../../units/export/xlsx.ts';
import { sheets } from '../contract/sheets.ts';
import { RequestRefused } from '../errors.ts';
import { headerText } from '../work/mediaType.ts';
import { spool } from '../work/spool.ts';
import type { Api } from './api.ts';

/** A sheet is written by hand; with all its tables it has some 100 kB. */
const MAX_SHEET_BYTES = 16e6;

export function serveSheetFiles(api: Api, record: PullbookRecord): void {
  api.openapi(sheets.read, async (c) => {
    const { name, cylinders } = c.req.valid('query');
    const build = await record.builds.get(c.req.valid('param').id);
    const engine = await record.engines.get(build.engineId);
    const standing = await record.sheets.get(build.id);
    const count = cylinders ?? build.cylinders ?? engine.cylinders;
    const spooled = await spool(c.req.raw.body, {
      folder: record.folder,
      fileName: name,
      maxBytes: MAX_SHEET_BYTES,
      tooLarge: () =>
        new RequestRefused(413, 'too-large', `${name} is far larger than any build sheet.`, {
          file: name,
          expected: `at most ${MAX_SHEET_BYTES / 1e6} MB`,
        }),
    });
    try {
      const { sheet: given, refused } = await readBuildFileInPart(spooled.source, {
        fileName: name,
        standing: standing.sheet?.layout ?? null,
        layout: count === null ? null : layoutOf(count),
      });
      const { version } = standing;
      const put = given === null ? null : putOnto(standing.sheet, given);
      const taken = put?.sheet == null ? [] : takenIn(standing.sheet, put.sheet);
      const all = [...refused, ...(put?.refused ?? [])];
      const reading = { version, given, sheet: put?.sheet ?? null, taken, refused: all };
      return c.json(reading as never, 200);
    } finally {
      await spooled.release();
    }
  });

  api.openapi(sheets.file, async (c) => {
    const build = await record.builds.get(c.req.valid('param').id);
    const engine = await record.engines.get(build.engineId);
    const { sheet } = await record.sheets.get(build.id);
    if (sheet === null)
      throw new RequestRefused(404, 'input', 'This build has no sheet yet; keep one first.');
    const { as } = c.req.valid('query');
    const { body, type } = await sheetFile(sheet, as);
    const fileName = `${engine.name}, ${build.name}.${as}`.replace(/[\\/:]/g, '-');
    return new Response(body, {
      headers: {
        'content-type': type,
        'content-disposition': `attachment; filename*=UTF-8''${headerText(fileName)}`,
      },
    }) as never;
  });
}

async function sheetFile(
  sheet: Sheet,
  as: 'json' | 'csv' | 'xlsx',
): Promise<{ readonly body: string | Uint8Array<ArrayBuffer>; readonly type: string }> {
  switch (as) {
    case 'json':
      return { body: writeSheet(sheet), type: 'application/json; charset=utf-8' };
    case 'csv':
      return { body: csvText(sheetTable(sheet)), type: 'text/csv; charset=utf-8' };
    case 'xlsx': {
      const bytes = await xlsxOfRows(sheetTable(sheet), 'Build sheet');
      return { body: bytes as Uint8Array<ArrayBuffer>, type: XLSX_TYPE };
    }
  }
}

/** The sheet with what was read put onto it. Another layout can leave lists by place that no longer fit: then it says which. */
function putOnto(
  standing: Sheet | null,
  given: Sheet,
): { readonly sheet: Sheet | null; readonly refused: readonly NotTaken[] } {
  if (standing === null) return { sheet: given, refused: [] };
  const read = readSheet(mergedSheet(standing, given));
  if ('sheet' in read) return { sheet: read.sheet, refused: [] };
  const refused = read.problems.map(({ path, found, expected }) => ({
    row: null,
    column: null,
    path,
    found,
    expected,
  }));
  return { sheet: null, refused };
}
