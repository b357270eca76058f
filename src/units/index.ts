export {
  DISPLAY_KINDS,
  type DisplayKind,
  displayDecimals,
  displayUnit,
  type FormatOptions,
  type Formatted,
  formatQuantity,
  quantityText,
} from './display.ts';
export { findUnit, unitsSpelled } from './find.ts';
export {
  differenceToInside,
  exampleOf,
  fromInside,
  type ParseQuantityOptions,
  parseQuantity,
  readNumber,
  splitQuantity,
  toInside,
} from './quantity.ts';
export { inUnitsOf } from './sentences.ts';
export { UNITS } from './table.ts';
export type { Dimension, Unit, UnitSystem } from './types.ts';
