/** A shop with a hand-over, and the same hand-over as a forger makes it; for tests. */
import { createHash } from 'node:crypto';
import { unzipSync } from 'fflate';
import { packArchive } from '../report/handover/archive.ts';
import { type HandOver, madeOf, newKeyPem, shopKey } from '../report/index.ts';
import { type Asked, withApp } from './testing.ts';
import { aDay, post, sweep } from './testingDays.ts';
import { makingFor } from './work/handOverKept.ts';
import type { Verified } from './work/verify.ts';

export const HOSTILE = '=HYPERLINK("x")<script>alert(1)</script>\u202egnp.\u{1f525}'.repeat(3);

export const picture = (drawing: string) =>
  `data:image/svg+xml;base64,${Buffer.from(
    `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 30 10">${drawing}</svg>`,
  ).toString('base64')}`;
export const MARK = picture('<rect width="30" height="10" fill="#1a69ac"/>');

/** A build with two recorded pulls at a setting that was decided on, and one pull left out. */
export async function handedOver(asked: Asked) {
  const { day, ladder, engine } = await aDay(asked);
  const pulls: string[] = [];
  for (const [name, scale] of [
    ['a.csv', 1],
    ['b.csv', 1.006],
    [`${HOSTILE}.csv`, 0.97],
  ] as const) {
    const answer = await post(asked, day.id, name, sweep({ scale }));
    pulls.push(...((await answer.json()) as { pulls: { id: string }[] }).pulls.map(({ id }) => id));
  }
  const { record } = asked;
  for (const [index, id] of pulls.entries())
    await record.pulls.update(id, {
      leadDeg: 28,
      ...(index === 2 ? { excludedBecause: 'oil was cold' } : {}),
    });
  await record.decisions.create({
    ladderId: ladder.id,
    use: 'bursts',
    setting: 28,
    who: 'Ann',
    why: 'a hot summer',
  });
  await record.engines.update(engine.id, { owner: HOSTILE });
  await asked.json('PATCH', '/shop', { address: '1 Mill Lane', mark: MARK });
  const kept = await asked.json<{ id: string }>(
    'POST',
    `/builds/${day.buildId}/handovers`,
    { notes: 'Ran clean.', by: 'Ann' },
    201,
  );
  const bundle = async () => {
    const answer = await asked.ask('GET', `/api/v1/handovers/${kept.id}/bundle`);
    return new Uint8Array(await answer.arrayBuffer());
  };
  const { document } = await asked.json<{ document: HandOver }>('GET', `/handovers/${kept.id}`);
  return { ...kept, day, pulls, bundle, document };
}

export const verify = (asked: Asked, bytes: Uint8Array) =>
  asked
    .ask('POST', '/api/v1/verify?name=x.zip', bytes, { 'content-type': 'application/octet-stream' })
    .then((answer) => answer.json() as Promise<Verified & { isOurs: boolean }>);

/** One shop with one hand-over for all that only look at it: fitting its pulls is most of the time. */
export function once() {
  let end = () => {};
  let app: Promise<unknown> = Promise.resolve();
  const ready = new Promise<Asked & Awaited<ReturnType<typeof handedOver>>>((resolve, reject) => {
    app = withApp(async (asked) => {
      const made = await handedOver(asked);
      const bytes = await made.bundle();
      resolve({ ...asked, ...made, bundle: async () => bytes.slice() });
      await new Promise<void>((done) => {
        end = done;
      });
    }).catch(reject);
  });
  const close = async () => {
    end();
    await app;
  };
  return { ready, close };
}

export type Entries = Map<string, Uint8Array>;

const bytesOf = (text: string) => new TextEncoder().encode(text);
const asJson = (value: unknown) => bytesOf(`${JSON.stringify(value, null, 1)}\n`);

/** Changes a JSON file of a bundle. */
export function inJson<T>(path: string, change: (value: T) => void) {
  return (entries: Entries) => {
    const value = JSON.parse(Buffer.from(entries.get(path)!).toString()) as T;
    change(value);
    entries.set(path, asJson(value));
  };
}

/** Changes words of a file of a bundle. */
export function inText(path: string, from: string | RegExp, to: string) {
  return (entries: Entries) => {
    const text = Buffer.from(entries.get(path)!).toString();
    const changed = text.replace(from, to);
    if (changed === text) throw new Error(`${path} has no ${from}`);
    entries.set(path, bytesOf(changed));
  };
}

/**
 * The bundle as a forger makes it: everything that he did not touch made anew of what he changed, every digest too, and
 * the manifest signed with a key of his own.
 * @param last  done after the manifest was signed
 */
export async function forged(
  bytes: Uint8Array,
  change: (entries: Entries) => void,
  last: (entries: Entries) => void = () => {},
): Promise<Uint8Array> {
  const before: Entries = new Map(Object.entries(unzipSync(bytes)));
  const entries: Entries = new Map(before);
  change(entries);
  const key = shopKey(newKeyPem(), 'forger');
  const read = <T>(path: string) => JSON.parse(Buffer.from(entries.get(path)!).toString()) as T;
  const told = read<HandOver>('handover.json');
  const making = await makingFor(key.publicKey, entries.has('report.pdf'));
  const again = told.choice.stepRpm > 0 ? await madeOf(told, making) : [];
  for (const one of again)
    if (entries.get(one.path) === before.get(one.path)) entries.set(one.path, one.bytes);
  interface Listed {
    readonly path: string;
  }
  const manifest = read<{ files: readonly Listed[] }>('manifest.json');
  const isListed = new Set(manifest.files.map(({ path }) => path));
  const described = (one: Listed) => {
    const own = entries.get(one.path)!;
    const sha256 = createHash('sha256').update(own).digest('hex');
    return { ...one, sha256, sizeBytes: own.length };
  };
  const added = [...entries.keys()]
    .filter((path) => !isListed.has(path) && !/^(manifest|signature)\.json$/.test(path))
    .map((path) => ({ path, what: 'more' }));
  const files = [...manifest.files.filter(({ path }) => entries.has(path)), ...added];
  const madeWith = `Pullbook ${told.versions.pullbook}`;
  entries.set('manifest.json', asJson({ ...manifest, madeWith, files: files.map(described) }));
  const signature = key.sign(entries.get('manifest.json')!);
  inJson<object>('signature.json', (said) => {
    Object.assign(said, { publicKey: key.publicKey, signature });
  })(entries);
  last(entries);
  const pieces: Uint8Array[] = [];
  const all = [...entries].map(([path, own]) => ({ path, bytes: own }));
  await packArchive(all, async (piece) => {
    pieces.push(piece.slice());
  });
  return new Uint8Array(Buffer.concat(pieces));
}
