import type { Fuel } from './types.ts';

/** One thing to know before handling a fuel. Advice: local code and the maker's safety sheet come first. */
export interface FuelCaution {
  readonly fuel: string;
  readonly about: 'fire' | 'health' | 'explosion' | 'material' | 'exhaust';
  /** `{flash}` in it stands for the flash point. */
  readonly sentence: string;
  readonly flashPointK?: number;
  readonly source: string;
}

const AFDC = 'AFDC fuel property table';
const PRACTICE = 'common practice, no source';

const CAUTIONS: readonly FuelCaution[] = [
  {
    fuel: 'gasoline',
    about: 'fire',
    sentence:
      'Its vapour is heavier than air and lights at {flash} and above: ventilate low, keep sparks away, bond the cans.',
    flashPointK: 230.372,
    source: `${AFDC} (flash point −45 °F); handling: ${PRACTICE}`,
  },
  {
    fuel: 'ethanol',
    about: 'fire',
    sentence:
      'Its flame is hard to see in daylight and water makes it burn on until it is much diluted: keep alcohol-resistant foam at hand.',
    source: PRACTICE,
  },
  {
    fuel: 'ethanol',
    about: 'material',
    sentence:
      'It draws water and attacks rubbers, zinc and bare aluminium: use parts made for it and drain what stands.',
    source: PRACTICE,
  },
  {
    fuel: 'methanol',
    about: 'fire',
    sentence:
      'Its flame cannot be seen in daylight: watch for heat shimmer, and treat anybody who acts as if burning as burning.',
    source: PRACTICE,
  },
  {
    fuel: 'methanol',
    about: 'health',
    sentence:
      'It poisons through skin, lungs and mouth and can blind: gloves, face shield, air; limit 200 ppm over a shift.',
    source: 'NIOSH, methyl alcohol (200 ppm with skin notation; OSHA PEL 200 ppm)',
  },
  {
    fuel: 'methanol',
    about: 'material',
    sentence:
      'It corrodes aluminium and magnesium and gets into the oil: run the engine out on gasoline, then change the oil.',
    source: PRACTICE,
  },
  {
    fuel: 'nitromethane',
    about: 'explosion',
    sentence:
      'Shock, heat or squeezing in a closed line can set it off, and amines, alkalis, acids or metal oxides make it far worse: keep it blended as supplied, in small stock, away from all of them.',
    source:
      'manufacturer’s safety data sheet, 1986 (shock-sensitive with amines, dry alkali salts explode); OSHA lists it as explosive',
  },
  {
    fuel: 'nitromethane',
    about: 'health',
    sentence: 'Limit 100 ppm over a shift, 750 ppm at once endangers life; possibly causes cancer.',
    source:
      'OSHA chemical sampling page for nitromethane (PEL 100 ppm, NIOSH IDLH 750 ppm, IARC 2B)',
  },
  {
    fuel: 'nitromethane',
    about: 'exhaust',
    sentence:
      'Its exhaust holds nitric acid vapour that burns eyes and lungs: masks, and nobody downwind.',
    source: PRACTICE,
  },
  {
    fuel: 'propane',
    about: 'fire',
    sentence:
      'It leaks as a heavy, freezing gas that lies in pits: gas alarm at floor level, shut-off valve outside the cell.',
    source: PRACTICE,
  },
  {
    fuel: 'natural gas',
    about: 'fire',
    sentence:
      'It is stored at up to 250 bar and gathers under the roof: rated parts only, gas alarm and vent high up.',
    source: PRACTICE,
  },
  {
    fuel: 'toluene',
    about: 'health',
    sentence: 'It dulls and harms nerves when breathed: gloves, ventilation.',
    source: PRACTICE,
  },
  {
    fuel: 'MTBE',
    about: 'health',
    sentence: 'A little of it spoils much ground water: nothing down the drain.',
    source: PRACTICE,
  },
];

/** Under whose name the cautions of a fuel stand. */
const SAME_AS: Readonly<Record<string, string>> = {
  methane: 'natural gas',
  isooctane: 'gasoline',
  'n-heptane': 'gasoline',
};

/** What to know before handling a fuel; of a blend, what holds for any part that is in it. */
export function fuelCautions(fuel: Fuel): readonly FuelCaution[] {
  const names = pureNames(fuel);
  return CAUTIONS.filter((caution) => names.has(caution.fuel));
}

function pureNames(fuel: Fuel): ReadonlySet<string> {
  if (fuel.parts === undefined) {
    const name = /^(petrol|gasoline) \d/.test(fuel.name) ? 'gasoline' : fuel.name;
    return new Set([SAME_AS[name] ?? name]);
  }
  return new Set(
    fuel.parts
      .filter(({ massShare }) => massShare > 0)
      .flatMap((part) => [...pureNames(part.fuel)]),
  );
}
