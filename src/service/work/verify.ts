/** Computes a hand-over again from the recordings in its bundle, in a record of its own, and says what does not follow. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { FormatError, PullbookError, StoreError } from '../../errors.ts';
import { NotInRecordError, openRecord } from '../../record/index.ts';
import {
  attachedIn,
  type BundleProblem,
  contentsDiffer,
  type Difference,
  differences,
  type HandOver,
  isAllContents,
  isReceived,
  keyName,
  LANGUAGES,
  type MadeFile,
  type Making,
  type Manifest,
  madeOf,
  manifestOf,
  notAsWritten,
  type OpenedBundle,
  openBundle,
  ownFiles,
  pageOf,
  paperOf,
  placeInWords,
  rounding,
} from '../../report/index.ts';
import { handOverChoice } from '../contract/handOvers.ts';
import { makingFor } from './handOverKept.ts';
import { freezeHandOver, type RecordPart, versionsHere } from './handover.ts';
import { PAPER_SIZES, reportFrom } from './reports.ts';
import { type Found, isThisProgram, sentenceOf, type Verdict, verdictOf } from './verdict.ts';

export interface Verified extends Pick<Found, 'problems' | 'unheld' | 'rounding'> {
  /** The first of them, each with its place in words. */
  readonly differences: readonly (Difference & { readonly place: string })[];
  readonly file: string;
  readonly verdict: Verdict;
  readonly sentence: string;
  /** How many figures and words were held against what was computed again. */
  readonly held: number;
  readonly engine: string;
  readonly build: string;
  readonly madeAt: string;
  readonly madeWith: string;
  /** Public key and its short name; null: no signature that holds. */
  readonly signedBy: { readonly publicKey: string; readonly name: string } | null;
}

const MOST_DIFFERENCES = 200;
/** Faster turns no engine; a table by speed is as long as its curve is wide. */
const MOST_RPM = 100_000;

/**
 * A bundle, or a report that has one in it: then its pages are set again too, and held against what is printed.
 * @param pullbook  the program, as `programOf` says it
 * @throws FormatError  the file is no bundle and has none in it
 */
export async function verifyFile(
  bytes: Uint8Array,
  file: string,
  pullbook: string,
  signal?: AbortSignal,
): Promise<Verified> {
  const attached = attachedIn(bytes);
  if (attached === null) {
    refuseAlone(bytes, file);
    return verifyBundle(bytes, file, pullbook, signal);
  }
  const pages = { bytes, count: attached.count };
  return verifyBundle(attached.bytes, file, pullbook, signal, pages);
}

/** What people have in hand beside a bundle, and what to take instead. */
function refuseAlone(bytes: Uint8Array, file: string): void {
  const start = Buffer.from(bytes.subarray(0, 256)).toString('latin1');
  if (start.startsWith('%PDF-'))
    throw new FormatError(
      `${file} has no bundle in it: it is no report of Pullbook, or another program saved it anew and left the bundle out. Ask the shop for the bundle (zip) or for the report as it was made.`,
      { file, expected: 'a report with its bundle, as Pullbook makes it' },
    );
  if (/^\s*<!doctype html/i.test(start))
    throw new FormatError(
      `${file} is a page, which has no recordings in it that could be computed again; check the bundle (zip) or the report (PDF) instead.`,
      { file, expected: 'a bundle or a report' },
    );
  if (!start.startsWith('PK'))
    throw new FormatError(
      `${file} is not a hand-over that can be read: it is neither a bundle (zip) nor a report (PDF).`,
      { file, expected: 'a bundle or a report' },
    );
}

interface Pages {
  readonly bytes: Uint8Array;
  /** How many files ride in them. */
  readonly count: number;
}

/** A bundle, by itself or with the report around it. @throws FormatError  the file is no bundle at all */
export async function verifyBundle(
  bytes: Uint8Array,
  file: string,
  pullbook: string,
  signal?: AbortSignal,
  pages?: Pages,
): Promise<Verified> {
  const bundle = openBundle(bytes, file);
  const problems = [...bundle.problems];
  const unheld: BundleProblem[] = [];
  const { says, part } = formsOf(bundle);
  const here = versionsHere(pullbook);
  const isSameProgram = says !== null && isThisProgram(says.versions ?? {}, here);
  let again: HandOver | null = null;
  if (says !== null && part !== null) {
    try {
      again = await computedAgain(says, part, bundle.received, pullbook, signal);
    } catch (error) {
      signal?.throwIfAborted();
      const why =
        error instanceof NotInRecordError
          ? 'it names what it does not hold.'
          : error instanceof PullbookError
            ? error.message
            : 'what it holds is not of its form.';
      // Another version may keep its record otherwise, which is no sign that somebody changed it.
      (isSameProgram ? problems : unheld).push({
        where: 'record.json',
        sentence: `It cannot be computed again: ${why}`,
      });
    }
  }
  if (says === null) problems.push(missingForm('handover.json'));
  if (part === null) problems.push(missingForm('record.json'));
  if (says !== null && part !== null) {
    const made = await heldAgain(says, part, bundle, isSameProgram);
    problems.push(...made.problems);
    unheld.push(...made.unheld);
    if (pages !== undefined) {
      const set = await pagesHeld(says, bundle.signedBy, bytes, pages, file, isSameProgram);
      problems.push(...set.problems);
      unheld.push(...set.unheld);
    }
  }
  const found: Found = {
    problems,
    unheld,
    differences: again === null ? [] : differences(withoutVersions(says!), withoutVersions(again)),
    held: again === null ? null : leaves(again),
    rounding: again === null ? 0 : rounding(withoutVersions(says!), withoutVersions(again)),
    says: says?.versions ?? {},
    here,
  };
  return {
    file,
    engine: String(bundle.manifest.engine),
    build: String(bundle.manifest.build),
    madeAt: String(bundle.manifest.madeAt),
    madeWith: String(bundle.manifest.madeWith),
    signedBy:
      bundle.signedBy === null
        ? null
        : { publicKey: bundle.signedBy, name: keyName(bundle.signedBy) },
    verdict: verdictOf(found),
    sentence: sentenceOf(found),
    problems,
    unheld,
    differences: found.differences
      .slice(0, MOST_DIFFERENCES)
      .map((one) => ({ ...one, place: placeInWords(one.where) })),
    held: found.held ?? 0,
    rounding: found.rounding,
  };
}

/** @throws FormatError where a later version wrote it in a form that this one does not know */
function formsOf({ handOver, record, manifest }: OpenedBundle) {
  const says = handOver as HandOver | null;
  const part = record as RecordPart | null;
  for (const form of [says?.format, part?.format])
    if (/^(handover|record-part)\/[2-9]/.test(String(form)))
      throw new FormatError(
        `It was made with ${manifest.madeWith}, which is newer than this Pullbook and writes a form that this one cannot read (${form}); check it with that version or a later one.`,
        { found: String(form), expected: 'handover/1' },
      );
  return {
    says: says?.format === 'handover/1' ? says : null,
    part: part?.format === 'record-part/1' ? part : null,
  };
}

const missingForm = (path: string): BundleProblem => ({
  where: path,
  sentence: `${path} is missing, or is not of its form.`,
});

interface Held {
  readonly problems: readonly BundleProblem[];
  readonly unheld: readonly BundleProblem[];
}
const NOTHING: Held = { problems: [], unheld: [] };
const changed = (where: string, sentence: string): Held => ({
  problems: [{ where, sentence }],
  unheld: [],
});
const notHeld = (where: string, sentence: string): Held => ({
  problems: [],
  unheld: [{ where, sentence }],
});
const notOfForm = changed('handover.json', 'handover.json is not of its form.');

/** Whether a report is, byte for byte, what is set of the bundle in it, in one of the languages and sizes. */
async function pagesHeld(
  says: HandOver,
  signedBy: string | null,
  bundle: Uint8Array,
  { bytes, count }: Pages,
  file: string,
  isSameProgram: boolean,
): Promise<Held> {
  if (count > 1)
    return changed(
      file,
      'More than one file rides in these pages; a report of Pullbook has one, its bundle.',
    );
  // The report names the key, so that without a signature it cannot be made again; that is told already.
  if (signedBy === null) return NOTHING;
  for (const language of LANGUAGES) {
    for (const size of PAPER_SIZES) {
      try {
        const again = await reportFrom(says, signedBy, bundle, { language, size });
        if (Buffer.from(again).equals(bytes)) return NOTHING;
      } catch (error) {
        if (error instanceof StoreError)
          return notHeld(file, `What is printed was not held against it: ${error.message}`);
        return notOfForm;
      }
    }
  }
  return isSameProgram
    ? changed(file, 'What is printed on these pages is not what the bundle in them says.')
    : notHeld(
        file,
        'Another version of Pullbook set these pages, so what is printed on them was not held against the bundle in them.',
      );
}

/** Everything that was made of the hand-over is made again, and held against what stands in the bundle. */
async function heldAgain(
  says: HandOver,
  part: RecordPart,
  { made, signedBy, manifest }: OpenedBundle,
  isSameProgram: boolean,
): Promise<Held> {
  const withReport = signedBy !== null && (made.has('report.pdf') || made.has('page.html'));
  if (!isDrawable(says)) return notOfForm;
  const all: Held[] = [];
  let making = await makingFor(signedBy, withReport);
  let again: MadeFile[];
  try {
    again = await madeOf(says, making).catch(async (error: unknown) => {
      if (!(error instanceof StoreError)) throw error;
      all.push(
        notHeld(
          'report.pdf',
          `report.pdf and page.html were not held against it: ${error.message}`,
        ),
      );
      making = await makingFor(signedBy, false);
      return madeOf(says, making);
    });
  } catch {
    return notOfForm;
  }
  again.unshift(...ownFiles(says, part));
  for (const one of again) {
    const found = made.get(one.path);
    if (found !== undefined) all.push(await fileHeld(one, found, { says, making, isSameProgram }));
  }
  all.push(listHeld(manifest, manifestOf(says, again, part.portion), isSameProgram));
  return {
    problems: all.flatMap(({ problems }) => problems),
    unheld: all.flatMap((one) => one.unheld),
  };
}

/** What the manifest lists, against what belongs in such a bundle. */
function listHeld(listed: Manifest, expected: Manifest, isSameProgram: boolean): Held {
  const all: Held[] = [];
  for (const name of ['engine', 'build', 'madeAt', 'madeWith'] as const)
    if (listed[name] !== expected[name])
      all.push(
        changed('manifest.json', `manifest.json names another ${NAMED[name]} than handover.json.`),
      );
  const inIt = new Map(listed.files.map((one) => [one.path, one]));
  const belongs = new Map(expected.files.map((one) => [one.path, one]));
  for (const { path, what, sha256 } of expected.files) {
    const said = inIt.get(path);
    if (said === undefined) {
      if (isReceived(path) || isSameProgram)
        all.push(changed(path, `${path} is not listed in manifest.json.`));
    } else if (isReceived(path) && said.sha256 !== sha256)
      all.push(changed(path, `${path} holds other bytes than those of its name.`));
    else if (isSameProgram && said.what !== what)
      all.push(changed('manifest.json', `manifest.json calls ${path} something else than it is.`));
  }
  for (const path of inIt.keys()) {
    if (belongs.has(path)) continue;
    if (isReceived(path))
      all.push(
        changed(path, `${path} is none of the recordings and files that record.json names.`),
      );
    else if (isSameProgram) all.push(changed(path, `${path} does not belong in a hand-over.`));
    else
      all.push(
        notHeld(
          path,
          `${path} is not made by this version, and was not held against handover.json.`,
        ),
      );
  }
  return {
    problems: all.flatMap(({ problems }) => problems),
    unheld: all.flatMap(({ unheld }) => unheld),
  };
}

const NAMED = { engine: 'engine', build: 'build', madeAt: 'hour', madeWith: 'version' } as const;

async function fileHeld(
  { path, bytes }: MadeFile,
  found: Uint8Array,
  { says, making, isSameProgram }: { says: HandOver; making: Making; isSameProgram: boolean },
): Promise<Held> {
  if (Buffer.from(found).equals(bytes)) return NOTHING;
  // The pictures of a page stand still where it was made without their cursor.
  if (path === 'page.html' && Buffer.from(found).equals(stillPage(says, making))) return NOTHING;
  if (path === 'handover.json' || path === 'record.json') return changed(path, notAsWritten(path));
  const differ = await contentsDiffer(path, found, bytes);
  const first = differ?.[0];
  if (first !== undefined) {
    const said = `it has ${shortly(first.says)} where this version writes ${shortly(first.follows)} (${places(differ!.length)})`;
    return isSameProgram
      ? changed(path, `${path} does not say what handover.json says: ${said}.`)
      : notHeld(path, `${path} was made by another version, and ${said}.`);
  }
  if (differ !== null && isAllContents(path)) return NOTHING;
  if (isSameProgram) return changed(path, `${path} is not as it is made of handover.json.`);
  return differ === null
    ? notHeld(
        path,
        `${path} was set by another version; what is printed on it was not held against handover.json.`,
      )
    : notHeld(
        path,
        `${path} was set by another version; its words and figures are those of handover.json, how they are shown was not compared.`,
      );
}

const places = (count: number) => `${count} place${count === 1 ? '' : 's'}`;

function shortly(value: unknown): string {
  const text = JSON.stringify(value) ?? 'nothing';
  return text.length > 60 ? `${text.slice(0, 59)}…` : text;
}

/** Whether its tables have an end: what came from outside may say anything. */
function isDrawable({ choice, final }: HandOver): boolean {
  return (
    handOverChoice.safeParse(choice).success &&
    (final?.speedRpm ?? []).every((speed) => speed >= 0 && speed <= MOST_RPM)
  );
}

const stillPage = (says: HandOver, { draw, publicKey }: Making) =>
  Buffer.from(pageOf(paperOf(says, 'en', publicKey), { draw, script: null }));

/** The versions are told apart, and the version of the program has no figure in it. */
const withoutVersions = ({ versions: _versions, ...rest }: HandOver) => rest;

async function computedAgain(
  says: HandOver,
  { shop, portion }: RecordPart,
  received: ReadonlyMap<string, Uint8Array>,
  pullbook: string,
  signal: AbortSignal | undefined,
): Promise<HandOver> {
  const folder = mkdtempSync(join(tmpdir(), 'pullbook-verify-'));
  try {
    const record = await openRecord(folder);
    try {
      await record.shop.update(shop);
      for (const { sha256, fileName } of [...portion.recordings, ...portion.files])
        if (!received.has(sha256))
          throw new FormatError(`${fileName} is not in it, or not as it came.`);
      await record.portions.take(portion, async (sha256) => received.get(sha256)!);
      const choice = handOverChoice.safeParse(says.choice);
      if (!choice.success)
        throw new FormatError('the choice in handover.json is none that can be made.');
      const frozen = await freezeHandOver(record, says.choice, {
        madeAt: says.madeAt,
        pullbook,
        ...(signal === undefined ? {} : { signal }),
      });
      return JSON.parse(JSON.stringify(frozen)) as HandOver;
    } finally {
      await record.close();
    }
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

function leaves(value: unknown): number {
  if (typeof value !== 'object' || value === null) return 1;
  return Object.values(value).reduce((sum: number, one) => sum + leaves(one), 0);
}
