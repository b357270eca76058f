/** Routes of what an engine is for. */
import {
  isGoal,
  isShape,
  orRefuse,
  readUse,
  readVehicle,
  SHAPE_NAMES,
  writeUse,
} from '../../compare/index.ts';
import { InputError } from '../../errors.ts';
import type { PullbookRecord } from '../../record/index.ts';
import {
  answerUses,
  loggedUseFrom,
  publishedUses,
  refusePeaks,
  type UseWanted,
} from '../../report/index.ts';
import * as contract from '../contract/uses.ts';
import type { z } from '../schema/common.ts';
import type { useWanted } from '../schema/uses.ts';
import { bringTogether } from '../work/compared.ts';
import type { Curves } from '../work/curves.ts';
import { spool } from '../work/spool.ts';
import type { Api } from './api.ts';
import { serveShelf } from './shelves.ts';

/** A drive of an hour at a hundred lines a second has some 30 MB. */
const MAX_LOG_BYTES = 200e6;

export function serveUses(api: Api, record: PullbookRecord, curves: Curves): void {
  const { uses, vehicles, keptUses } = contract;
  api.openapi(uses.answer, async (c) => {
    const { use, vehicle, aboveRpm, goal = 'quarterMile', ...wanted } = c.req.valid('json');
    if (!isGoal(goal))
      throw new InputError(`"${goal}" is no distance or stretch of speed that is timed.`, {
        column: 'goal',
        expected: 'quarterMile, eighthMile, 1000ft, 1km, 60ft, 0-60mph, 0-100kmh …',
      });
    const read = await vehicleOf(record, vehicle);
    const chosen = await useOf(record, use, read !== null);
    const { question } = await bringTogether(record, curves, { ...wanted, leastSides: 1 });
    const work = answerUses(question, {
      use: chosen,
      vehicle: read?.vehicle ?? null,
      goal,
      ...(aboveRpm === undefined ? {} : { aboveRpm }),
    });
    return c.json(publishedUses(work, read?.assumed ?? []) as never, 200);
  });
  api.openapi(uses.members, async (c) => {
    const { question, sides, dayToDay } = await bringTogether(record, curves, {
      ...c.req.valid('json'),
      leastSides: 1,
    });
    refusePeaks(question);
    const { standard, taken, warnings, input } = question;
    const members = { standard, sides, taken: taken.sentence, dayToDay, warnings, input };
    return c.json(members as never, 200);
  });
  api.openapi(uses.fromLog, async (c) => {
    const { name: fileName } = c.req.valid('query');
    const spooled = await spool(c.req.raw.body, {
      folder: record.folder,
      fileName,
      maxBytes: MAX_LOG_BYTES,
    });
    try {
      const use = await loggedUseFrom(spooled.source, { fileName });
      return c.json({ name: fileName.slice(0, 80), written: writeUse(use), notes: use.notes }, 200);
    } finally {
      await spooled.release();
    }
  });
  serveShelf(api, vehicles, record.vehicles, 'engineId');
  serveShelf(api, keptUses, record.uses, 'engineId');
}

type Wanted = z.output<typeof useWanted>;

async function vehicleOf(record: PullbookRecord, vehicle: Wanted['vehicle']) {
  if (vehicle === undefined) return null;
  const written =
    'keptId' in vehicle ? (await record.vehicles.get(vehicle.keptId)).written : vehicle.written;
  return orRefuse(readVehicle(written));
}

async function useOf(
  record: PullbookRecord,
  use: Wanted['use'],
  hasVehicle: boolean,
): Promise<UseWanted> {
  if (use === undefined) return hasVehicle ? null : 'all';
  if (use === 'all') return 'all';
  if ('chosen' in use) {
    if (isShape(use.chosen)) return use.chosen;
    throw new InputError(`"${use.chosen}" is no use that can be chosen.`, {
      column: 'use.chosen',
      expected: SHAPE_NAMES.join(', '),
    });
  }
  return orRefuse(
    readUse('keptId' in use ? (await record.uses.get(use.keptId)).written : use.written),
  );
}
