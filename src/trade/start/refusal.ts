import { PRACTICE, type Reason, type StartInput } from './types.ts';

/** Which of these are unknown, in the order given: that which decides most first. */
export function missingOf(
  input: StartInput,
  keys: readonly (keyof StartInput)[],
): readonly (keyof StartInput)[] {
  return keys.filter((key) => input[key] === undefined);
}

/** Why no window is given whatever else is known; undefined where one may be. */
export function refusalOf({ aspiration, fuel }: StartInput): Reason | undefined {
  if (aspiration === 'boosted')
    return {
      sentence:
        'Boost decides more than all else here, and differs by engine, charge temperature and control: begin with the figure of whoever built the like, and with less boost.',
      source: PRACTICE,
    };
  if (aspiration === 'nitrous')
    return {
      sentence:
        'Nitrous speeds the burn by an amount that hangs on the shot and on its fuel: take the lead off that the kit’s maker states, and begin with the smallest shot.',
      source: PRACTICE,
    };
  if (fuel !== undefined && hasNitromethane(fuel))
    return {
      sentence:
        'Nitromethane knocks without warning and its lead and mixture hang on the percentage: begin with the figures of whoever runs the like.',
      source: PRACTICE,
    };
  return undefined;
}

export function unknownFuel(name: string): Reason {
  return {
    sentence: `Nothing cautious is known here about beginning with ${name}.`,
    source: 'not known',
  };
}

function hasNitromethane(fuel: NonNullable<StartInput['fuel']>): boolean {
  return (
    fuel.name === 'nitromethane' ||
    (fuel.parts ?? []).some((part) => part.massShare > 0 && hasNitromethane(part.fuel))
  );
}
