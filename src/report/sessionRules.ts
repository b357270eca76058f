import { FormatError } from '../errors.ts';
import type { Session, SessionPull } from '../intake/index.ts';
import {
  HOLDBACK_PER_10K,
  HOLDBACK_PER_OCTANE,
  SETTING_KINDS,
  type SettingName,
  SHIPPED_MIXTURE_USES,
  SHIPPED_USES,
  WORTH_PERCENT,
} from '../ladder/index.ts';
import type { FitOptions } from '../pull/index.ts';
import type { DayPull, LadderSettings } from './ladderInput.ts';

/**
 * By what a session's ladder is judged; what the session cannot say is as Pullbook ships it.
 * @throws FormatError  a use that nobody knows
 */
export function settingsOf(session: Session, setting: SettingName): LadderSettings {
  if (session.use !== null && !SHIPPED_USES.some(({ name }) => name === session.use)) {
    const known = SHIPPED_USES.map(({ name }) => name).join(', ');
    throw new FormatError(`use: "${session.use}" is not a use that is known; expected ${known}`, {
      found: session.use,
      expected: known,
    });
  }
  const kind = SETTING_KINDS[setting];
  return {
    kind,
    bandRpm: session.bandRpm,
    uses: setting === 'lead' ? SHIPPED_USES : SHIPPED_MIXTURE_USES,
    aspiration: session.engine.aspiration,
    step: kind.defaultStep,
    worthPercent: WORTH_PERCENT,
    repeatabilityPercent: null,
    worstInletDeltaK: 0,
    worstFuelDeltaOctane: 0,
    // The rules for inlet and fuel are of lead; how mixture should follow them nobody has said.
    holdbackPer10K: setting === 'lead' ? HOLDBACK_PER_10K : 0,
    holdbackPerOctane: setting === 'lead' ? HOLDBACK_PER_OCTANE : 0,
    exhaustLimitK: session.exhaustLimitK,
  };
}

/** With what a session's pulls are fitted; in which air they are shown is asked of the fit. */
export function curveOptionsOf(session: Session, lambdaTarget: number | null): FitOptions {
  return {
    cell: session.cell,
    engine: session.engine,
    ...(session.bandRpm === null ? {} : { bandRpm: session.bandRpm }),
    ...(lambdaTarget === null ? {} : { lambdaTarget }),
  };
}

/**
 * Why a pull is no rung of the day's ladder: pulls of a part test stand in a group of their own. Where every pull is in
 * a group, the first one's is the day's ladder.
 */
export function partTests(pulls: readonly SessionPull[]): (pull: SessionPull) => string | null {
  const groups = new Set(pulls.map(({ group }) => group));
  if (groups.size <= 1) return () => null;
  const main = groups.has(null) ? null : pulls[0]!.group;
  return ({ group }) =>
    group === main
      ? null
      : group === null
        ? 'it belongs to no part test'
        : `it belongs to the part test "${group}"`;
}

/** What typed figures among the pulls mean for the answer. */
export function typedPeaksWarnings(session: Session, pulls: readonly DayPull[]): readonly string[] {
  const warnings = session.pulls
    .filter((pull) => pull.file !== null && (pull.peakPowerW ?? pull.peakTorqueNm) !== null)
    .map(({ file }) => `${file} has typed peaks too: its recording counts, they do not.`);
  const counted = pulls.filter(({ excludedBecause }) => excludedBecause === null);
  const typed = counted.filter(({ curve }) => curve === null);
  if (typed.length === 0) return warnings;
  if (typed.length < counted.length)
    warnings.push(
      'Some pulls are recordings and some typed peaks: all are compared by their peaks.',
    );
  const observed = session.pulls.some(
    ({ file, basis }) => file === null && (basis.air === 'observed' || basis.air === 'unknown'),
  );
  if (observed)
    warnings.push(
      'Typed peaks are taken as they stand: not corrected for air and without inertia put back, so a change of the weather between pulls stays in the gains.',
    );
  return warnings;
}
