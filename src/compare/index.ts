export { COMPARE_VERSION, compareGroups } from './compare.ts';
export type * from './types.ts';
