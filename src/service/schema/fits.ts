/** What the record and the computing rooms answer must fit what the interface publishes; held by the type check. */
import type { LadderAnswer } from '../../ladder/index.ts';
import type { Curve, Mark } from '../../pull/index.ts';
import type * as compared from '../../record/compared.ts';
import type * as entities from '../../record/types.ts';
import type * as usesKept from '../../record/uses.ts';
import type { z } from './common.ts';
import type * as compare from './compare.ts';
import type * as decisions from './decisions.ts';
import type * as schema from './entities.ts';
import type { recordEvent, shopSummary } from './record.ts';
import type { curve, ladderAnswer, mark } from './results.ts';
import type * as uses from './uses.ts';

type Fits<Published extends z.ZodType, Held extends z.output<Published>> = Held;
export type AllFit = [
  Fits<typeof schema.shop, entities.Shop>,
  Fits<typeof schema.cell, entities.Cell>,
  Fits<typeof schema.mapping, entities.Mapping>,
  Fits<typeof schema.engine, entities.Engine>,
  Fits<typeof schema.build, entities.Build>,
  Fits<typeof schema.day, entities.TestDay>,
  Fits<typeof schema.pull, entities.Pull>,
  Fits<typeof schema.ladder, entities.Ladder>,
  Fits<typeof decisions.decision, entities.Decision>,
  Fits<typeof schema.storedRecording, entities.StoredRecording>,
  Fits<typeof recordEvent, entities.RecordEvent>,
  Fits<typeof shopSummary, entities.ShopSummary>,
  Fits<typeof curve, Curve>,
  Fits<typeof mark, Mark>,
  Fits<typeof ladderAnswer, LadderAnswer>,
  Fits<typeof compare.comparison, compared.Comparison>,
  Fits<typeof compare.partTest, compared.PartTest>,
  Fits<typeof uses.keptVehicle, usesKept.KeptVehicle>,
  Fits<typeof uses.keptUse, usesKept.KeptUse>,
  Fits<typeof compare.sideWanted, compared.SideWanted>,
];
