import type { MadeFile } from './bundle.ts';
import { tableFiles } from './tables.ts';
import type { HandOver } from './types.ts';

/** All that a bundle holds beside the hand-over itself and what came from outside: the same bytes from the same hand-over. */
export function madeOf(handOver: HandOver): MadeFile[] {
  return tableFiles(handOver);
}
