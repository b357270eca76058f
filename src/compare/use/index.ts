export {
  answerUse,
  draggedUse,
  measuredPart,
  shareAboveOf,
  type UseAnswer,
  type UsePair,
  type UseSensitivity,
} from './answer.ts';
export { type LoggedDrive, loggedUse, readUse, vehicleUse, writeUse } from './made.ts';
export { usesFinding } from './sentences.ts';
export { chosenUse, isShape, SHAPE_NAMES, type ShapeName } from './shapes.ts';
export type { Use, UsePoint } from './types.ts';
