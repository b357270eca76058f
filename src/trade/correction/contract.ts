import { InputError, NonPhysicalError } from '../../errors.ts';
import type { MoistAir } from '../air/density.ts';

/** The standards by which air is brought to a common state; `none` shows what was observed. */
export const AIR_STANDARDS = ['SAE J1349', 'SAE 60F dry', 'ISO 1585', 'DIN 70020', 'none'] as const;
export type AirStandard = (typeof AIR_STANDARDS)[number];

/** A standard however its name is spaced, hyphenated or capitalised; undefined where it is none. */
export function standardNamed(text: string): AirStandard | undefined {
  const bare = (name: string) => name.toLowerCase().replace(/[\s_-]+/g, '');
  return AIR_STANDARDS.find((name) => bare(name) === bare(text));
}

/** Air going into the engine: total pressure, temperature, and the share of the pressure that is water vapour. */
export type AirState = MoistAir;

/** Where a standard says it holds. Null: the source states no limit. */
interface CorrectionValidity {
  readonly factor: readonly [number, number] | null;
  readonly temperatureK: readonly [number, number] | null;
  readonly dryPressurePa: readonly [number, number] | null;
}

/** A standard used outside what it was written for. Shown wherever the corrected figure is. */
interface CorrectionWarning {
  readonly kind: 'factor' | 'temperature' | 'pressure' | 'aspiration';
  readonly sentence: string;
}

interface CorrectionUse {
  /** A boost control holds the manifold's pressure whatever the weather, so no factor for natural engines fits. */
  readonly aspiration?: 'natural' | 'boosted' | 'nitrous';
}

/** One standard in one edition. Corrected = observed × factor; full throttle only; always from observed figures. */
export interface AirCorrection {
  readonly standard: AirStandard;
  readonly edition: string;
  /** State at which the factor is 1, in words. */
  readonly referenceState: string;
  readonly reference: AirState;
  readonly source: string;
  readonly validity: CorrectionValidity;
  /**
   * Factor by which observed torque or power is multiplied.
   * @throws InputError  not numbers;  NonPhysicalError  air that cannot be
   */
  factor(air: AirState): number;
  /** What stands outside the standard's limits; empty when all is within them or it states none. */
  check(air: AirState, use?: CorrectionUse): readonly CorrectionWarning[];
}

/** Dry pressure [Pa]; refuses air that cannot be. */
export function dryPressurePa(air: AirState): number {
  for (const [name, value] of Object.entries(air))
    if (typeof value === 'number' && !Number.isFinite(value))
      throw new InputError(`missing ${name} of the air; expected a number`, {
        found: String(value),
      });
  const { pressureAbsPa, temperatureK, vapourPressurePa } = air;
  if (!(temperatureK > 200 && temperatureK < 400))
    throw new NonPhysicalError(
      `invalid air temperature: ${temperatureK} K; expected 200 to 400 K`,
      { found: `${temperatureK} K`, expected: '200 to 400 K' },
    );
  if (!(pressureAbsPa > 20_000 && pressureAbsPa < 500_000))
    throw new NonPhysicalError(
      `invalid air pressure: ${pressureAbsPa} Pa; expected 20000 to 500000 Pa absolute`,
      { found: `${pressureAbsPa} Pa`, expected: '20000 to 500000 Pa absolute' },
    );
  if (!(vapourPressurePa >= 0 && vapourPressurePa < pressureAbsPa))
    throw new NonPhysicalError(
      `invalid vapour pressure: ${vapourPressurePa} Pa; expected 0 up to the total pressure, ${pressureAbsPa} Pa`,
      { found: `${vapourPressurePa} Pa`, expected: `0 to ${pressureAbsPa} Pa` },
    );
  return pressureAbsPa - vapourPressurePa;
}

/** The standard with its check made from its limits, so that no edition writes its own sentences. */
export function airCorrection(parts: Omit<AirCorrection, 'check'>): AirCorrection {
  return { ...parts, check: (air, use) => warningsOf(parts, air, use) };
}

function warningsOf(
  { standard, validity, factor }: Omit<AirCorrection, 'check'>,
  air: AirState,
  use: CorrectionUse = {},
): readonly CorrectionWarning[] {
  const warnings: CorrectionWarning[] = [];
  const value = factor(air);
  const celsius = (temperatureK: number) => (temperatureK - 273.15).toFixed(0);
  if (validity.factor !== null && outside(value, validity.factor))
    warnings.push({
      kind: 'factor',
      sentence: `Correction factor ${value.toFixed(3)} is outside the ${validity.factor[0]} to ${validity.factor[1]} that ${standard} allows: quote the observed figure beside it.`,
    });
  if (validity.temperatureK !== null && outside(air.temperatureK, validity.temperatureK))
    warnings.push({
      kind: 'temperature',
      sentence: `Inlet air at ${celsius(air.temperatureK)} °C is outside the ${celsius(validity.temperatureK[0])} to ${celsius(validity.temperatureK[1])} °C that ${standard} is written for.`,
    });
  if (validity.dryPressurePa !== null && outside(dryPressurePa(air), validity.dryPressurePa))
    warnings.push({
      kind: 'pressure',
      sentence: `Dry air pressure of ${(dryPressurePa(air) / 1000).toFixed(1)} kPa is outside the ${validity.dryPressurePa[0] / 1000} to ${validity.dryPressurePa[1] / 1000} kPa that ${standard} is written for.`,
    });
  if (standard !== 'none' && use.aspiration !== undefined && use.aspiration !== 'natural')
    warnings.push({
      kind: 'aspiration',
      sentence: `${standard} is written for engines that breathe on their own; a ${use.aspiration === 'boosted' ? 'boosted' : 'nitrous-fed'} engine does not follow it, so the observed figures come first.`,
    });
  return warnings;
}

function outside(value: number, [low, high]: readonly [number, number]): boolean {
  return value < low || value > high;
}
