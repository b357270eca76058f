export { readBuildFile, readBuildFileInPart } from './buildFile.ts';
export { readJsonFile } from './jsonText.ts';
export { readRunFile } from './read.ts';
export {
  readSession,
  SESSION_SETTINGS,
  type Session,
  type SessionPull,
  type SessionSetting,
} from './session.ts';
export { readSessionAt } from './sessionFile.ts';
export type { RunSource } from './source.ts';
export {
  type ChannelMapping,
  type FileShape,
  MAX_VALUES,
  type Question,
  type ReadOptions,
  type RememberedOptions,
  type RunFile,
} from './types.ts';
export { UnknownColumnsError } from './unknownColumns.ts';
