import { writeFile } from 'node:fs/promises';
import { extname, resolve } from 'node:path';
import { InputError, UsageError } from '../errors.ts';
import type { PullbookRecord } from '../record/index.ts';
import { type Language, newKeyPem } from '../report/index.ts';
import { programOf } from '../service/program.ts';
import { bundleOf, choiceOf, keepHandOver } from '../service/work/handOverKept.ts';
import { ownerPage, reportOf } from '../service/work/reports.ts';
import type { AirStandard } from '../trade/index.ts';
import type { UnitSystem } from '../units/index.ts';
import { recordFolder } from './folder.ts';
import { type CommandIo, EXIT, jsonLine, plain } from './io.ts';
import { buildNamed, heldAgainst, pathOf, readingShop } from './shop.ts';
import { version } from './version.ts';

export interface HandOverFlags {
  readonly out: readonly string[];
  readonly against?: string;
  readonly language?: Language;
  readonly size?: 'letter' | 'a4';
  readonly standard?: AirStandard;
  readonly units?: UnitSystem;
  readonly notes?: string;
  readonly by?: string;
  readonly data?: string;
  readonly json?: boolean;
}

const ENDINGS = ['.zip', '.pdf', '.html'];

/** `pullbook handover`: freezes what the shop says of a build and writes it as bundle, report or page. */
export async function handOver(
  wanted: string,
  flags: HandOverFlags,
  io: CommandIo,
): Promise<number> {
  for (const file of flags.out)
    if (!ENDINGS.includes(extname(file).toLowerCase()))
      throw new UsageError(
        `--out ${file}: expected a name that ends in .zip (bundle), .pdf (report) or .html (page for the owner)`,
      );
  const folder = recordFolder(flags.data, io);
  return readingShop(folder, async (record) => {
    const isOwn = resolve(record.folder) === resolve(folder);
    // A key made in a copy would be lost with it, and no reader could know the shop by it.
    if (!isOwn) await keyThatStands(record);
    const build = await buildNamed(record, pathOf(wanted));
    const choice = await choiceOf(record, build.id, {
      ...(await heldAgainst(record, flags.against)),
      standard: flags.standard,
      units: flags.units,
      notes: flags.notes,
      by: flags.by,
    });
    const kept = await keepHandOver(
      record,
      choice,
      { madeAt: new Date().toISOString(), pullbook: programOf(version()), signal: io.signal },
      flags.by === undefined ? {} : { who: flags.by },
    );
    for (const file of flags.out)
      await writeFile(resolve(io.cwd, file), await bytesFor(record, kept.id, file, flags));
    if (flags.json) io.out(jsonLine({ ok: true, build: build.id, files: flags.out, kept: isOwn }));
    else {
      for (const file of flags.out) io.out(`${plain(file)}\n`);
      io.out(
        isOwn
          ? `the hand-over is kept in the shop, made ${kept.madeAt.slice(0, 10)}\n`
          : 'the shop is open elsewhere, so this hand-over stands in its files alone and not in the list of the shop\n',
      );
    }
    return EXIT.done;
  });
}

async function keyThatStands(record: PullbookRecord): Promise<void> {
  let isNew = false;
  await record.handOvers.key(() => {
    isNew = true;
    return newKeyPem();
  });
  if (isNew)
    throw new InputError(
      'The shop is open elsewhere and has no signing key yet; open its settings in the browser once, which makes it, or close the shop there.',
    );
}

async function bytesFor(
  record: PullbookRecord,
  id: string,
  file: string,
  { language = 'en', size }: HandOverFlags,
): Promise<Uint8Array | string> {
  switch (extname(file).toLowerCase()) {
    case '.pdf':
      return reportOf(record, id, { language, size });
    case '.html':
      return ownerPage(record, id, language);
    default: {
      const pieces: Uint8Array[] = [];
      await bundleOf(record, id, async (piece) => {
        pieces.push(piece.slice());
      });
      return Buffer.concat(pieces);
    }
  }
}
