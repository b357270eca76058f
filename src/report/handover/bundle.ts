/**
 * The bundle: one zip with a manifest, the hand-over, what it was computed from and the recordings as they came. All of
 * it is JSON, CSV and files of common kinds, described in its own README.txt, so that it can be read without Pullbook.
 */
import { createHash } from 'node:crypto';
import { FormatError } from '../../errors.ts';
import { type ArchiveEntry, packArchive, unpackArchive } from './archive.ts';
import { README } from './readme.ts';
import { isSignedBy, type ShopKey } from './signing.ts';
import type { HandOver } from './types.ts';

/** Bytes that came from outside: a recording, or a photo or file of the sheet. */
export interface BundledBytes {
  readonly sha256: string;
  readonly fileName: string;
  readonly sizeBytes: number;
  readonly bytes: AsyncIterable<Uint8Array>;
}

/** Something made of the hand-over: a table, a picture, the report. */
export interface MadeFile {
  readonly path: string;
  readonly what: string;
  readonly bytes: Uint8Array;
  readonly isPacked?: boolean;
}

export interface BundleParts {
  readonly handOver: HandOver;
  /** What it was computed from, as `record.json` holds it. */
  readonly record: unknown;
  readonly recordings: readonly BundledBytes[];
  readonly files: readonly BundledBytes[];
  readonly made: readonly MadeFile[];
}

export interface ManifestFile {
  readonly path: string;
  readonly what: string;
  readonly sha256: string;
  readonly sizeBytes: number;
}

export interface Manifest {
  readonly format: 'handover-bundle/1';
  readonly madeAt: string;
  readonly madeWith: string;
  readonly engine: string;
  readonly build: string;
  readonly files: readonly ManifestFile[];
}

interface Signature {
  readonly format: 'handover-signature/1';
  readonly algorithm: 'Ed25519';
  readonly signs: 'manifest.json';
  readonly publicKey: string;
  readonly signature: string;
}

const MANIFEST = 'manifest.json';
const SIGNATURE = 'signature.json';
const encoder = new TextEncoder();
const jsonBytes = (value: unknown) => encoder.encode(`${JSON.stringify(value, null, 1)}\n`);
const sha256Of = (bytes: Uint8Array) => createHash('sha256').update(bytes).digest('hex');

/** What every bundle holds beside what is made for reading. */
export const ownFiles = (handOver: HandOver, record: unknown): MadeFile[] => [
  {
    path: 'README.txt',
    what: 'what is in here, and how to read it',
    bytes: encoder.encode(README),
  },
  {
    path: 'handover.json',
    what: 'the frozen hand-over, every figure of it',
    bytes: jsonBytes(handOver),
  },
  { path: 'record.json', what: 'what it was computed from', bytes: jsonBytes(record) },
];

type Received = Pick<BundledBytes, 'sha256' | 'fileName' | 'sizeBytes'>;

const receivedOf = <T extends Received>(recordings: readonly T[], files: readonly T[]) => [
  ...recordings.map((one) => ({
    one,
    path: pathOf('recordings', one),
    what: `a recording as it came: ${one.fileName}`,
  })),
  ...files.map((one) => ({
    one,
    path: pathOf('files', one),
    what: `a photo or file of the build sheet: ${one.fileName}`,
  })),
];

/** @param own  the files that were made, in their order */
export function manifestOf(
  handOver: HandOver,
  own: readonly MadeFile[],
  { recordings, files }: { recordings: readonly Received[]; files: readonly Received[] },
): Manifest {
  return {
    format: 'handover-bundle/1',
    madeAt: handOver.madeAt,
    madeWith: `Pullbook ${handOver.versions.pullbook}`,
    engine: handOver.engine.name,
    build: handOver.build.name,
    files: [
      ...own.map(({ path, what, bytes }) => ({
        path,
        what,
        sha256: sha256Of(bytes),
        sizeBytes: bytes.length,
      })),
      ...receivedOf(recordings, files).map(({ one, path, what }) => ({
        path,
        what,
        sha256: one.sha256,
        sizeBytes: one.sizeBytes,
      })),
    ],
  };
}

/** Writes the bundle in pieces. @returns its size [bytes] */
export async function writeBundle(
  { handOver, record, recordings, files, made }: BundleParts,
  key: ShopKey,
  write: (piece: Uint8Array) => Promise<void>,
): Promise<number> {
  const own = [...ownFiles(handOver, record), ...made];
  const manifestBytes = jsonBytes(manifestOf(handOver, own, { recordings, files }));
  const signature: Signature = {
    format: 'handover-signature/1',
    algorithm: 'Ed25519',
    signs: MANIFEST,
    publicKey: key.publicKey,
    signature: key.sign(manifestBytes),
  };
  const entries: ArchiveEntry[] = [
    { path: MANIFEST, bytes: manifestBytes },
    { path: SIGNATURE, bytes: jsonBytes(signature) },
    ...own,
    ...receivedOf(recordings, files).map(({ one, path }) => ({ path, bytes: one.bytes })),
  ];
  return packArchive(entries, write);
}

/** Digest first, so that no name can clash or mislead; the name's plain letters after it, so that a person finds it. */
function pathOf(folder: string, { sha256, fileName }: Received): string {
  const plain = fileName
    .normalize('NFKD')
    .replace(/[^A-Za-z0-9._-]+/g, '-')
    .replace(/^[.-]+/, '')
    .slice(-60);
  return `${folder}/${sha256}${plain === '' ? '' : `-${plain}`}`;
}

/** What is wrong with a bundle as a container, in a sentence that names the file. */
export interface BundleProblem {
  readonly where: string;
  readonly sentence: string;
}

export interface OpenedBundle {
  readonly manifest: Manifest;
  readonly handOver: unknown;
  readonly record: unknown;
  /** Received bytes by their SHA-256, as far as they are the ones that the manifest names. */
  readonly received: ReadonlyMap<string, Uint8Array>;
  readonly made: ReadonlyMap<string, Uint8Array>;
  readonly problems: readonly BundleProblem[];
  /** The key it says it was signed with; null where it has no signature that holds. */
  readonly signedBy: string | null;
}

/**
 * Opens a bundle and holds every byte of it against its manifest, and the manifest against its signature.
 * @throws FormatError  it is no bundle at all
 */
export function openBundle(bytes: Uint8Array, file: string): OpenedBundle {
  const { entries, isWhole } = unpackArchive(bytes, file);
  const manifestBytes = entries.get(MANIFEST);
  const manifest = manifestBytes === undefined ? null : parsed(manifestBytes);
  const form = (manifest as Partial<Manifest> | null)?.format;
  if (/^handover-bundle\/[2-9]/.test(String(form)))
    throw new FormatError(
      `${file} is a hand-over of a newer version of Pullbook, in a form that this one cannot read (${form}); check it with that version or a later one.`,
      { file, found: String(form), expected: 'handover-bundle/1' },
    );
  if (manifestBytes === undefined || !isManifest(manifest)) {
    throw new FormatError(
      `${file} is not a hand-over bundle: it has no manifest that can be read.`,
      {
        file,
        expected: `${MANIFEST} with format handover-bundle/1`,
      },
    );
  }
  const problems: BundleProblem[] = [];
  const say = (where: string, sentence: string) => problems.push({ where, sentence });
  if (isWhole === false) say(file, 'A byte of the file was changed after it was made.');
  if (isWhole === null) say(file, 'It was packed anew by another program after it was made.');

  const received = new Map<string, Uint8Array>();
  const made = new Map<string, Uint8Array>();
  const named = new Set([MANIFEST, SIGNATURE]);
  for (const { path, sha256 } of manifest.files) {
    named.add(path);
    const found = entries.get(path);
    if (found === undefined) say(path, `${path} is missing.`);
    else if (sha256Of(found) !== sha256) say(path, `${path} was changed after it was made.`);
    else if (isReceived(path)) received.set(sha256, found);
    else made.set(path, found);
  }
  if (!Buffer.from(jsonBytes(manifest)).equals(manifestBytes))
    say(MANIFEST, notAsWritten(MANIFEST));
  for (const path of entries.keys())
    if (!named.has(path)) say(path, `${path} was added after it was made.`);

  const signedBy = signerOf(entries.get(SIGNATURE), manifestBytes);
  if (signedBy === null)
    say(SIGNATURE, 'The signature is missing, or is not of this manifest: nobody vouches for it.');
  const read = (path: string): unknown => {
    const found = made.get(path);
    return found === undefined ? null : parsed(found);
  };
  return {
    manifest,
    handOver: read('handover.json'),
    record: read('record.json'),
    received,
    made,
    problems,
    signedBy,
  };
}

/** Came from outside, by its place in the archive. */
export const isReceived = (path: string): boolean => /^(recordings|files)\//.test(path);

/** JSON can say one thing twice, and then readers differ in which they take. */
export const notAsWritten = (path: string): string =>
  `${path} is not written as Pullbook writes it; something may stand in it twice.`;

function signerOf(bytes: Uint8Array | undefined, manifest: Uint8Array): string | null {
  const said = (bytes === undefined ? null : parsed(bytes)) as Partial<Signature> | null;
  if (typeof said?.publicKey !== 'string' || typeof said.signature !== 'string') return null;
  const { signature, publicKey } = said;
  const holds =
    // Written as we write it: letters that base64 skips could make a key look like another one.
    Buffer.from(publicKey, 'base64').toString('base64') === publicKey &&
    isSignedBy(manifest, signature, publicKey) &&
    // A few weak keys have signatures that hold for anything; those vouch for nothing.
    !isSignedBy(Buffer.concat([manifest, Buffer.from('\n')]), signature, publicKey);
  return holds ? publicKey : null;
}

function parsed(bytes: Uint8Array): unknown {
  try {
    return JSON.parse(new TextDecoder('utf-8', { fatal: true }).decode(bytes));
  } catch {
    return null;
  }
}

function isManifest(value: unknown): value is Manifest {
  const said = value as Partial<Manifest> | null;
  return (
    typeof said === 'object' &&
    said !== null &&
    said.format === 'handover-bundle/1' &&
    Array.isArray(said.files) &&
    said.files.every(
      (one: Partial<ManifestFile> | null) =>
        typeof one?.path === 'string' && typeof one.sha256 === 'string',
    )
  );
}
