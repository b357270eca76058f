/** Computes a hand-over again from the recordings in its bundle, in a record of its own, and says what does not follow. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { PullbookError } from '../../errors.ts';
import { openRecord } from '../../record/index.ts';
import {
  attachedIn,
  type BundleProblem,
  type Difference,
  differences,
  type HandOver,
  keyName,
  LANGUAGES,
  type MadeFile,
  type Making,
  madeOf,
  type OpenedBundle,
  openBundle,
  pageOf,
  paperOf,
} from '../../report/index.ts';
import { makingFor } from './handOverKept.ts';
import { freezeHandOver, type RecordPart } from './handover.ts';
import { PAPER_SIZES, reportFrom } from './reports.ts';

export interface Verified {
  readonly file: string;
  /**
   * `follows`: nothing was changed and every figure follows; `changed`: something was changed after it was made;
   * `does not follow`: figures that the recordings do not give; `other version`: so too, but by another version of the
   * computation, which may tell them otherwise; `cannot be computed`: what it would take is not whole.
   */
  readonly verdict:
    | 'follows'
    | 'changed'
    | 'does not follow'
    | 'other version'
    | 'cannot be computed';
  readonly sentence: string;
  readonly problems: readonly BundleProblem[];
  readonly differences: readonly Difference[];
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

/**
 * A bundle, or a report that has one in it: then its pages are set again too, and held against what is printed.
 * @param pullbook  version of the program
 * @throws FormatError  the file is no bundle and has none in it
 */
export async function verifyFile(
  bytes: Uint8Array,
  file: string,
  pullbook: string,
  signal?: AbortSignal,
): Promise<Verified> {
  const attached = attachedIn(bytes);
  if (attached === null) return verifyBundle(bytes, file, pullbook, signal);
  const verified = await verifyBundle(attached, file, pullbook, signal);
  if (await isAsSet(bytes, attached, file, pullbook)) return verified;
  const isOther = verified.madeWith !== `Pullbook ${pullbook}`;
  const sentence = isOther
    ? 'Another version of Pullbook set these pages, so what is printed on them was not held against the bundle in them.'
    : 'What is printed on these pages is not what the bundle in them says.';
  const problems = [...verified.problems, { where: file, sentence }];
  const verdict =
    verified.verdict === 'follows' ? (isOther ? 'other version' : 'changed') : verified.verdict;
  return {
    ...verified,
    problems,
    verdict,
    sentence: verified.verdict === 'follows' ? sentence : verified.sentence,
  };
}

/** Whether a report is, byte for byte, what is set of the bundle in it, in one of the languages and sizes. */
async function isAsSet(
  pdf: Uint8Array,
  bundle: Uint8Array,
  file: string,
  pullbook: string,
): Promise<boolean> {
  const { handOver, signedBy } = openBundle(bundle, file);
  const says = handOver as HandOver | null;
  if (says?.versions?.pullbook !== pullbook || signedBy === null) return false;
  for (const language of LANGUAGES) {
    for (const size of PAPER_SIZES) {
      const again = await reportFrom(says, signedBy, bundle, { language, size }).catch(() => null);
      if (again !== null && Buffer.from(again).equals(pdf)) return true;
    }
  }
  return false;
}

/** A bundle by itself. @throws FormatError  the file is no bundle at all */
export async function verifyBundle(
  bytes: Uint8Array,
  file: string,
  pullbook: string,
  signal?: AbortSignal,
): Promise<Verified> {
  const bundle = openBundle(bytes, file);
  const problems = [...bundle.problems];
  const about = {
    file,
    engine: String(bundle.manifest.engine),
    build: String(bundle.manifest.build),
    madeAt: String(bundle.manifest.madeAt),
    madeWith: String(bundle.manifest.madeWith),
    signedBy:
      bundle.signedBy === null
        ? null
        : { publicKey: bundle.signedBy, name: keyName(bundle.signedBy) },
  };
  const says = bundle.handOver as HandOver | null;
  const part = bundle.record as RecordPart | null;
  let again: HandOver | null = null;
  if (says?.format === 'handover/1' && part?.format === 'record-part/1') {
    try {
      again = await computedAgain(says, part, bundle.received, pullbook, signal);
    } catch (error) {
      signal?.throwIfAborted();
      const why =
        error instanceof PullbookError ? error.message : 'what it holds is not of its form.';
      problems.push({ where: 'record.json', sentence: `It cannot be computed again: ${why}` });
    }
  }
  if (says?.format === 'handover/1')
    problems.push(...(await madeOtherwise(says, bundle, pullbook)));
  const found =
    again === null
      ? []
      : differences(withoutVersions(says!), withoutVersions(again), MOST_DIFFERENCES);
  const isOther =
    again !== null && differences({ ...says!.versions, pullbook }, again.versions).length > 0;
  const verdict =
    problems.length > 0 && again !== null
      ? 'changed'
      : again === null
        ? 'cannot be computed'
        : found.length === 0
          ? 'follows'
          : isOther
            ? 'other version'
            : 'does not follow';
  const held = again === null ? 0 : leaves(again);
  return {
    ...about,
    verdict,
    sentence: sentenceOf(verdict, held, found.length, problems.length),
    problems,
    differences: found,
    held,
  };
}

/** What was made of the hand-over and does not say what it says. Another version may write the same in other bytes. */
async function madeOtherwise(
  says: HandOver,
  { made, signedBy }: Pick<OpenedBundle, 'made' | 'signedBy'>,
  pullbook: string,
): Promise<BundleProblem[]> {
  if (says.versions?.pullbook !== pullbook) return [];
  // The report names the key, so that without a signature it cannot be made again; that is told already.
  const withReport = signedBy !== null && (made.has('report.pdf') || made.has('page.html'));
  try {
    const making = await makingFor(signedBy, withReport);
    const again = await madeOf(says, making);
    const isSaid = ({ path, bytes }: MadeFile, found: Uint8Array) =>
      Buffer.from(found).equals(bytes) ||
      // The pictures of a page stand still where it was made without their cursor.
      (path === 'page.html' && Buffer.from(found).equals(stillPage(says, making)));
    return again.flatMap((one) => {
      const found = made.get(one.path);
      return found === undefined || isSaid(one, found)
        ? []
        : [{ where: one.path, sentence: `${one.path} does not say what handover.json says.` }];
    });
  } catch {
    return [{ where: 'handover.json', sentence: 'handover.json is not of its form.' }];
  }
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
      const missing = new Uint8Array(0);
      await record.portions.take(portion, async (sha256) => received.get(sha256) ?? missing);
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

function sentenceOf(
  verdict: Verified['verdict'],
  held: number,
  differing: number,
  problems: number,
): string {
  const figures = (count: number) => `${count} figure${count === 1 ? '' : 's'}`;
  const more = differing >= MOST_DIFFERENCES ? ' or more' : '';
  switch (verdict) {
    case 'follows':
      return `Nothing was changed since it was made, and all ${figures(held)} and words follow from the recordings in it.`;
    case 'changed':
      return differing === 0
        ? `It was changed since it was made (${problems} place${problems === 1 ? '' : 's'}); what is told of the engine still follows from the recordings in it.`
        : `It was changed since it was made, and ${figures(differing)}${more} do not follow from the recordings in it.`;
    case 'does not follow':
      return `${figures(differing)}${more} do not follow from the recordings in it.`;
    case 'other version':
      return `${figures(differing)}${more} come out otherwise here: it was made by another version of the computation. The version that made it can say whether they follow.`;
    case 'cannot be computed':
      return 'It cannot be computed again: what that takes is missing or was changed.';
  }
}
