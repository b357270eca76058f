export { backupRecord, restoreRecord } from './backup.ts';
export type * from './compared.ts';
export * from './defaults.ts';
export { ConflictError, InUseError, NotInRecordError, StaleSheetError } from './errors.ts';
export { type OpenOptions, openRecord } from './open.ts';
export { sha256Of } from './pack.ts';
export { narrowed } from './portion.ts';
export type * from './repository.ts';
export {
  type Finding,
  FOUND_KINDS,
  type Found,
  MOST_QUERY_LETTERS,
  type PullPeak,
} from './search/index.ts';
export type * from './service.ts';
export type * from './types.ts';
export type * from './uses.ts';
