import type { EnginePatch } from '../api/types.gen.ts';
import type { Values } from '../form/fields.ts';

/** What the form of an engine means to the service: the cycle is a number there. */
export function engineBody(patch: Values): EnginePatch {
  return {
    ...patch,
    ...('cycle' in patch ? { cycle: Number(patch.cycle) } : {}),
  } as EnginePatch;
}
