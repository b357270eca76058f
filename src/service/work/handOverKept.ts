/** From a wish to a kept hand-over, and from a kept one to its bundle. */
import { Buffer } from 'node:buffer';
import { InputError } from '../../errors.ts';
import type { Change, HandOverKept, Id, PullbookRecord } from '../../record/index.ts';
import {
  type HandOver,
  type HandOverChoice,
  type Making,
  madeOf,
  newKeyPem,
  type ShopKey,
  shopKey,
  writeBundle,
} from '../../report/index.ts';
import { shippedFigures, shippedPageScript } from '../figures.ts';
import { type Freezing, freezeHandOver, type RecordPart, recordPartFor } from './handover.ts';

export type HandOverWish = {
  readonly [K in Exclude<keyof HandOverChoice, 'buildId'>]?: HandOverChoice[K] | undefined;
};

const STEP_RPM = 250;

/** What draws and prints here. */
export async function makingFor(publicKey: string | null, withReport: boolean): Promise<Making> {
  return {
    draw: await shippedFigures(),
    script: withReport ? await shippedPageScript() : null,
    publicKey,
    withReport,
  };
}

/** What is not wished is chosen as a shop would: all days with pulls, the build before, the shop's standard. */
export async function choiceOf(
  record: PullbookRecord,
  buildId: Id,
  wish: HandOverWish,
): Promise<HandOverChoice> {
  const shop = await record.shop.get();
  const { engineId, name } = await record.builds.get(buildId);
  const dayIds: Id[] = [...(wish.dayIds ?? [])];
  if (wish.dayIds === undefined) {
    for (const day of await record.days.list({ buildId }))
      if ((await record.pulls.list({ dayId: day.id })).length > 0) dayIds.push(day.id);
  }
  if (dayIds.length === 0)
    throw new InputError(`${name} has no test day with pulls yet; there is nothing to hand over.`);
  const builds = await record.builds.list({ engineId });
  const before = builds[builds.findIndex((one) => one.id === buildId) - 1];
  return {
    buildId,
    dayIds,
    comparedBuildId:
      wish.comparedBuildId === undefined ? (before?.id ?? null) : wish.comparedBuildId,
    standard: wish.standard ?? shop.standard,
    units: wish.units ?? shop.units,
    stepRpm: wish.stepRpm ?? STEP_RPM,
    notes: wish.notes ?? '',
    by: wish.by ?? '',
  };
}

/** Freezes and keeps. @throws as `freezeHandOver` does */
export async function keepHandOver(
  record: PullbookRecord,
  choice: HandOverChoice,
  freezing: Freezing,
  change: Change = {},
): Promise<HandOverKept> {
  const handOver = await freezeHandOver(record, choice, freezing);
  const part = await recordPartFor(record, choice);
  return record.handOvers.keep(
    {
      buildId: choice.buildId,
      madeAt: handOver.madeAt,
      madeBy: choice.by,
      pullbook: freezing.pullbook,
      choice,
      document: Buffer.from(JSON.stringify(handOver)),
      part: Buffer.from(JSON.stringify(part)),
    },
    change,
  );
}

export async function keyOfShop(record: PullbookRecord): Promise<ShopKey> {
  return shopKey(await record.handOvers.key(newKeyPem), 'in the record');
}

export async function documentOf(record: PullbookRecord, id: Id): Promise<HandOver> {
  const { document } = await record.handOvers.texts(id);
  return JSON.parse(Buffer.from(document).toString('utf8')) as HandOver;
}

/**
 * Writes the bundle of a kept hand-over in pieces; the same bytes whenever it is asked for.
 * @param withReport  not in a bundle that rides in a report
 */
export async function bundleOf(
  record: PullbookRecord,
  id: Id,
  write: (piece: Uint8Array) => Promise<void>,
  withReport = true,
): Promise<void> {
  const texts = await record.handOvers.texts(id);
  const read = <T>(bytes: Uint8Array) => JSON.parse(Buffer.from(bytes).toString('utf8')) as T;
  const part = read<RecordPart>(texts.part);
  const handOver = read<HandOver>(texts.document);
  const key = await keyOfShop(record);
  const made = await madeOf(handOver, await makingFor(key.publicKey, withReport));
  await writeBundle(
    {
      handOver,
      record: part,
      recordings: part.portion.recordings.map((one) => ({
        ...one,
        bytes: record.recordings.pieces(one.sha256),
      })),
      files: part.portion.files.map((one) => ({ ...one, bytes: record.files.pieces(one.sha256) })),
      made,
    },
    key,
    write,
  );
}
