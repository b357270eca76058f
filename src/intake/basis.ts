import type { AirStandard, TorqueBasis } from '../pull/recording.ts';

const INERTIA = '(?:inertia|inert|inertial)';
const CORRECTED =
  '(?:corr|cor|corrected|correction|comp|compensated|comped|adj|adjusted|korr|korrigiert|corrige|corregido)';

const INERTIA_OUT = new RegExp(
  ` (?:(?:no|without|w o|less|excl|excluding|non) ${INERTIA}(?: ${CORRECTED})?|${INERTIA} (?:out|off|excluded|uncorrected|uncomp\\w*)|load ?cell|steady) `,
);
const INERTIA_IN = new RegExp(
  ` (?:(?:with |w |incl |including |plus )?${INERTIA}(?: (?:in|on|included|${CORRECTED}))?|${CORRECTED} ${INERTIA}|for ${INERTIA}) `,
);

/** `STD` and `STP` beside torque mean the older dry 60 °F standard in this trade (common practice, no source). */
const STANDARDS: readonly (readonly [RegExp, AirStandard])[] = [
  [/ (?:j607|sae 60 ?f?|60 ?f dry|std|stp|standard) /, 'SAE 60F dry'],
  [/ (?:sae j1349|j1349|sae) /, 'SAE J1349'],
  [/ (?:iso ?1585|iso|1585|ece r ?85|r ?85) /, 'ISO 1585'],
  [/ (?:din ?70020|din|70020) /, 'DIN 70020'],
];
const OBSERVED =
  / (?:obs|observed|raw|uncorr|uncor|uncorrected|unc|gemessen|unkorr\w*|brut|mesure|medido|sin corregir) /;
const IS_CORRECTED = new RegExp(` ${CORRECTED} `);

/** What a torque's or power's header says of air and inertia, and its words without those that said it. */
interface BasisReading {
  readonly basis: TorqueBasis;
  readonly rest: string;
  /** The header says corrected but not to which standard. */
  readonly correctedToWhat: boolean;
}

/** Reads the words of a header (as wordsOf gives them) for `obs`, `corr`, a standard's name, `inertia` and their kin. */
export function readBasis(words: string): BasisReading {
  let rest = ` ${words} `;
  let inertia: TorqueBasis['inertia'] = 'unknown';
  let air: TorqueBasis['air'] = 'unknown';
  const take = (pattern: RegExp): boolean => {
    if (!pattern.test(rest)) return false;
    rest = rest.replace(pattern, '  ').replace(/ {2,}/g, ' ');
    if (!rest.startsWith(' ')) rest = ` ${rest}`;
    if (!rest.endsWith(' ')) rest = `${rest} `;
    return true;
  };
  if (take(INERTIA_OUT)) inertia = 'out';
  else if (take(INERTIA_IN)) inertia = 'in';
  const observed = take(OBSERVED);
  if (!observed)
    for (const [pattern, standard] of STANDARDS)
      if (take(pattern)) {
        air = standard;
        break;
      }
  const corrected = take(IS_CORRECTED);
  if (observed) air = 'observed';
  return {
    basis: { air, inertia },
    rest: rest.trim(),
    correctedToWhat: corrected && air === 'unknown',
  };
}

/**
 * What the header says, completed where it is silent. A column that says it is corrected is not made an observed one by
 * an answer that was meant for the others.
 */
export function completeBasis(
  said: { readonly basis: TorqueBasis; readonly correctedToWhat: boolean },
  otherwise: TorqueBasis | undefined,
): TorqueBasis {
  const { air, inertia } = said.basis;
  if (otherwise === undefined) return said.basis;
  const isOpen = air === 'unknown' && !(said.correctedToWhat && otherwise.air === 'observed');
  return {
    air: isOpen ? otherwise.air : air,
    inertia: inertia === 'unknown' ? otherwise.inertia : inertia,
  };
}
