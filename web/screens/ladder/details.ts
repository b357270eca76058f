import type { Advice, Curve, Decision } from '../../api/types.gen.ts';
import type { AdviceNote, DecisionNote, PullDetail } from '../../ladder/props.ts';
import { nameOfStandard, timeInWords } from '../../shell/words.ts';
import type { PullWithCurve } from '../day/series.ts';

/** Mean of the lambda channel over the band; null where nothing was recorded there. */
export function lambdaIn(curve: Curve, [low, high]: readonly [number, number]): number | null {
  const { speedRpm, lambda } = curve.bySpeed;
  if (lambda === null) return null;
  const seen = lambda.filter(
    (value, at): value is number =>
      value !== null && Number.isFinite(value) && speedRpm[at]! >= low && speedRpm[at]! <= high,
  );
  return seen.length === 0 ? null : seen.reduce((sum, value) => sum + value, 0) / seen.length;
}

/**
 * What the table of the ladder says of each pull.
 * @param said  what the ladder itself says already
 */
export function detailsOf(
  all: readonly PullWithCurve[],
  band: readonly [number, number],
  said: readonly string[] = [],
): ReadonlyMap<string, PullDetail> {
  return new Map(
    all.map(({ pull, curve }) => [
      pull.id,
      {
        name: `pull ${pull.order + 1}`,
        href: `/pulls/${pull.id}`,
        peakPower: curve?.peakPower ?? null,
        peakTorque: curve?.peakTorque ?? null,
        lambda: curve === null ? null : lambdaIn(curve, band),
        airFactor: curve?.correctionFactor ?? null,
        marks: (curve?.marks ?? []).filter(({ sentence }) => !said.includes(sentence)),
      },
    ]),
  );
}

/** Decisions as the ladder shows them, the newest first. */
export function decisionNotes(
  decisions: readonly Decision[],
  ladderId: string,
): readonly DecisionNote[] {
  return decisions
    .filter((decision) => decision.ladderId === ladderId)
    .sort((a, b) => b.decidedAt.localeCompare(a.decidedAt))
    .map((decision) => ({
      id: decision.id,
      use: decision.use,
      setting: decision.setting,
      who: decision.who,
      when: timeInWords(decision.decidedAt),
      why: decision.why,
      advice: decision.advice && adviceNote(decision.advice, decision.use),
    }));
}

function adviceNote({ value, why, evidence }: Advice, use: string): AdviceNote {
  if (evidence === null) return { value, why, evidence };
  const { standard, pullIds, uses, ...rest } = evidence;
  return {
    value,
    why,
    evidence: {
      ...rest,
      standard: nameOfStandard(standard),
      pulls: pullIds.length,
      use: uses.find(({ rule }) => rule.name === use)?.answer ?? null,
    },
  };
}
