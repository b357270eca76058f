import {
  blend,
  blendByMass,
  type Fuel,
  fuelNamed,
  type Octane,
  type Share,
  sharesFromAmounts,
} from '../../trade/fuel/index.ts';
import { type Ask, type Need, NotMeasured, once } from '../compute/ask.ts';

/** Shares typed to a tenth of a per cent may miss the whole by this much (33.3 % three times). */
const ROUNDING = 0.005;

/** The blend's rows as shares of fuels that are known. */
function shares(ask: Ask): readonly Share[] {
  const rows = ask
    .rows('fuelSystem.blend')
    .flatMap(({ fuel, share }) =>
      typeof fuel === 'string' && fuel.trim() !== '' && typeof share === 'number'
        ? [[fuelNamed(fuel), share] as const]
        : [],
    );
  const whole = rows.reduce((sum, [, share]) => sum + share, 0);
  return Math.abs(whole - 1) <= ROUNDING ? sharesFromAmounts(rows) : rows;
}

/** Octane as the sheet states it; of which kind nobody says, the one that promises less: research. */
function octaneSaid(ask: Ask): Octane | null {
  const octane = ask.numberOrNull('fuelSystem.octane');
  if (octane === null) return null;
  return ask.textOrNull('fuelSystem.octaneIs') === '(R+M)/2'
    ? { antiKnockIndex: octane }
    : { research: octane };
}

/**
 * The fuel that the engine is to run on: the blend of the table, else the fuel that is named. The octane of the sheet
 * counts where the fuel has none of its own.
 */
export const sheetFuel: Need<Fuel> = once((ask) => {
  const parts = shares(ask);
  const name = ask.textOrNull('fuelSystem.fuel');
  if (parts.length === 1) return withOctane(ask, parts[0]![0]);
  if (parts.length > 1) {
    const blended = ask.textOrNull('fuelSystem.blendBy') === 'by mass' ? blendByMass : blend;
    return withOctane(ask, blended(name ?? 'the blend', parts));
  }
  if (name === null) throw new NotMeasured(['fuelSystem.fuel']);
  return withOctane(ask, fuelNamed(name));
});

function withOctane(ask: Ask, fuel: Fuel): Fuel {
  const octane = fuel.octane === undefined ? octaneSaid(ask) : null;
  return octane === null ? fuel : { ...fuel, octane };
}
