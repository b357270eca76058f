import { findUnit } from './find.ts';
import { fromInside } from './quantity.ts';
import type { Unit, UnitSystem } from './types.ts';

/** What a number is when it is shown: finer than a dimension, since a barometer and an oil gauge differ. */
export const DISPLAY_KINDS = {
  torque: { us: ['lb-ft', 1], metric: ['N·m', 1] },
  power: { us: ['hp', 1], metric: ['kW', 1] },
  barometer: { us: ['inHg', 2], metric: ['kPa', 2] },
  manifoldPressure: { us: ['inHg', 1], metric: ['kPa', 1] },
  oilPressure: { us: ['psi', 1], metric: ['bar', 2] },
  meanEffectivePressure: { us: ['psi', 1], metric: ['bar', 2] },
  temperature: { us: ['°F', 0], metric: ['°C', 1] },
  fuelFlow: { us: ['lb/h', 1], metric: ['kg/h', 1] },
  airFlow: { us: ['lb/h', 0], metric: ['kg/h', 0] },
  volumeFlow: { us: ['ft³/min', 1], metric: ['L/s', 1] },
  displacement: { us: ['in³', 1], metric: ['L', 3] },
  inertia: { us: ['lb·ft²', 2], metric: ['kg·m²', 3] },
  speed: { us: ['rpm', 0], metric: ['rpm', 0] },
  angle: { us: ['deg', 1], metric: ['deg', 1] },
  percent: { us: ['%', 1], metric: ['%', 1] },
  lambda: { us: ['λ', 3], metric: ['λ', 3] },
  airFuelRatio: { us: ['AFR', 2], metric: ['AFR', 2] },
  time: { us: ['s', 2], metric: ['s', 2] },
  pistonSpeed: { us: ['ft/min', 0], metric: ['m/s', 1] },
  specificConsumption: { us: ['lb/hp·h', 3], metric: ['g/kWh', 0] },
  specificEnergy: { us: ['Btu/lb', 0], metric: ['MJ/kg', 2] },
  fuelDensity: { us: ['lb/gal', 2], metric: ['kg/L', 3] },
  /** What is poured: fuel, oil, coolant. */
  liquidVolume: { us: ['gal', 1], metric: ['L', 1] },
  length: { us: ['in', 4], metric: ['mm', 2] },
  /** Diameters and fits, to what a micrometer reads. */
  bore: { us: ['in', 4], metric: ['mm', 3] },
  lift: { us: ['in', 3], metric: ['mm', 2] },
  pipe: { us: ['in', 2], metric: ['mm', 1] },
  area: { us: ['in²', 3], metric: ['cm²', 2] },
  smallVolume: { us: ['cm³', 2], metric: ['cm³', 2] },
  partMass: { us: ['g', 1], metric: ['g', 1] },
  roadSpeed: { us: ['mph', 1], metric: ['km/h', 1] },
  dragArea: { us: ['ft²', 2], metric: ['m²', 3] },
  distance: { us: ['ft', 0], metric: ['m', 0] },
  vehicleMass: { us: ['lb', 0], metric: ['kg', 0] },
  acceleration: { us: ['ft/s²', 0], metric: ['m/s²', 0] },
  force: { us: ['lbf', 0], metric: ['N', 0] },
  springRate: { us: ['lb/in', 0], metric: ['N/mm', 1] },
  unbalance: { us: ['oz·in', 2], metric: ['g·mm', 0] },
  gaugePressure: { us: ['psi', 0], metric: ['bar', 1] },
  depression: { us: ['inH2O', 1], metric: ['kPa', 2] },
  fuelVolumeFlow: { us: ['gal/h', 1], metric: ['L/h', 0] },
  ratio: { us: ['1', 3], metric: ['1', 3] },
  mass: { us: ['lb', 2], metric: ['kg', 2] },
  density: { us: ['lb/ft³', 4], metric: ['kg/m³', 3] },
  count: { us: ['counts', 0], metric: ['counts', 0] },
} as const satisfies Readonly<
  Record<string, Readonly<Record<UnitSystem, readonly [string, number]>>>
>;

export type DisplayKind = keyof typeof DISPLAY_KINDS;

export interface FormatOptions {
  /** Digits after the point instead of the kind's own. */
  readonly decimals?: number;
  /** Plus sign before gains. */
  readonly signed?: boolean;
  /** A difference: the zero point of the unit plays no part. */
  readonly difference?: boolean;
}

export interface Formatted {
  /** The number alone; an en dash where there is none. */
  readonly text: string;
  readonly unit: string;
}

/** Unit in which a person of this system sees a kind of number. */
export function displayUnit(kind: DisplayKind, system: UnitSystem): Unit {
  return findUnit(DISPLAY_KINDS[kind][system][0])!;
}

/** Digits after the point that a kind is shown with. */
export function displayDecimals(kind: DisplayKind, system: UnitSystem): number {
  return DISPLAY_KINDS[kind][system][1];
}

/** An inside value as text in the person's unit. Null and NaN are unknown and show as an en dash. */
export function formatQuantity(
  insideValue: number | null,
  kind: DisplayKind,
  system: UnitSystem,
  options: FormatOptions = {},
): Formatted {
  const unit = displayUnit(kind, system);
  if (insideValue === null || !Number.isFinite(insideValue))
    return { text: '–', unit: unit.symbol };
  const value = options.difference ? insideValue / unit.factor : fromInside(insideValue, unit);
  const digits = value.toFixed(options.decimals ?? displayDecimals(kind, system));
  const text = /^-0(\.0*)?$/.test(digits) ? digits.slice(1) : digits;
  return { text: options.signed && Number(text) > 0 ? `+${text}` : text, unit: unit.symbol };
}

/** `412.3 hp`: number and unit in one text, for sentences. */
export function quantityText(
  insideValue: number | null,
  kind: DisplayKind,
  system: UnitSystem,
  options: FormatOptions = {},
): string {
  const { text, unit } = formatQuantity(insideValue, kind, system, options);
  return unit === '%' ? `${text} %` : `${text} ${unit}`;
}
