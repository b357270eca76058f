import type { LadderAnswer, SettingKind } from '../../src/ladder/types.ts';
import { chance, estimate, interval, kept, percent, setting } from '../charts/numbers.ts';
import { CheckIcon } from '../theme/icons.tsx';
import below from './below.module.css';
import type { AdviceNote, DecisionNote } from './props.ts';
import { bandInWords, estimateDecimals } from './words.ts';

interface DecisionsProps {
  readonly decisions: readonly DecisionNote[];
  readonly answer: LadderAnswer;
  readonly kind: SettingKind;
}

/** What was decided, each with what was advised at that moment, and where the ladder says something else by now. */
export function Decisions({ decisions, answer, kind }: DecisionsProps) {
  if (decisions.length === 0) return null;
  return (
    <ol className={below.decisions} aria-label="Decisions on record">
      {decisions.map((one) => (
        <li key={one.id}>
          <CheckIcon />
          <div>
            <b>{`${setting(one.setting, kind.unit, 3)} for ${one.use}`}</b>
            {` ${one.who}, ${one.when}. ${one.why}`}
            <Advised
              advice={one.advice}
              now={answer.uses[one.use]?.value ?? null}
              use={one.use}
              kind={kind}
            />
          </div>
        </li>
      ))}
    </ol>
  );
}

interface AdvisedProps {
  readonly advice: AdviceNote | null;
  readonly now: number | null;
  readonly use: string;
  readonly kind: SettingKind;
}

function Advised({ advice, now, use, kind }: AdvisedProps) {
  if (advice === null) return <p className={below.advised}>Nothing was advised then.</p>;
  const named = (value: number | null) =>
    value === null ? 'no setting yet' : setting(value, kind.unit, 3);
  const { evidence } = advice;
  const summary = `Advised then: ${named(advice.value)}${
    advice.value === now ? '' : `; now: ${named(now)}`
  }`;
  if (evidence === null) return <p className={below.advised}>{`${summary}. ${advice.why}`}</p>;
  const decimals = estimateDecimals(kind);
  const spanned = (one: NonNullable<typeof evidence.limit>) =>
    one.value === null
      ? interval(one.low, one.high, decimals)
      : `${estimate(one.value, kind.unit, decimals)}, ${interval(one.low, one.high, decimals)}`;
  const rows: readonly (readonly [string, string | null])[] = [
    ['best', spanned(evidence.best)],
    ['limit', evidence.limit === null ? null : spanned(evidence.limit)],
    ['limit watched', evidence.limitWatched ? null : 'no'],
    ['chance past the best', evidence.use && chance(evidence.use.chancePastBest)],
    [
      'chance past the limit',
      evidence.use?.chancePastLimit == null ? null : chance(evidence.use.chancePastLimit),
    ],
    [
      'gives up',
      evidence.use?.givesUpPercent == null ? null : percent(evidence.use.givesUpPercent),
    ],
    [`held back for ${use}`, evidence.use && setting(evidence.use.holdback, kind.unit, 3)],
    ['judged', `${bandInWords(evidence.bandRpm)}, ${evidence.standard}`],
    [
      'from',
      `${evidence.pulls} ${evidence.pulls === 1 ? 'pull' : 'pulls'}, curves as of version ${evidence.curveVersion}, ladder as of version ${evidence.ladderVersion}`,
    ],
  ];
  return (
    <details className={below.advised}>
      <summary>{summary}</summary>
      <p>{kept(advice.why)}</p>
      <dl>
        {rows.map(([name, value]) =>
          value === null ? null : (
            <div key={name}>
              <dt>{name}</dt>
              <dd>{value}</dd>
            </div>
          ),
        )}
      </dl>
    </details>
  );
}
