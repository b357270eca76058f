import type { CompareAnswer, PairAnswer } from '../../src/compare/types.ts';
import {
  decimalsFor,
  interval,
  outside,
  signed,
  signedPercent,
  speed,
  withUnit,
} from '../charts/numbers.ts';
import ladder from '../ladder/ladder.module.css';
import styles from './compare.module.css';
import { MindBeside, mindOf } from './Mind.tsx';
import type { CompareViewProps } from './props.ts';
import { Ranking } from './Ranking.tsx';
import { bandInWords, headline, lead, regionFigures } from './words.ts';

type FindingProps = CompareViewProps & { readonly answer: CompareAnswer };

/** The finding first: one line for the room, what it means, and three figures. */
export function Finding(props: FindingProps) {
  const { answer, units, settling } = props;
  const said = lead(answer, units);
  const [pair] = answer.pairs;
  return (
    <header className={ladder.answer} data-settling={settling}>
      <div className={ladder.said} data-warned={mindOf(props).length > 0}>
        <h1 className={ladder.headline} aria-live="polite">
          {headline(answer, units)}
        </h1>
        {said !== '' && (
          <p className={ladder.summary}>
            <span className={ladder.summaryText}>{said}</span>
          </p>
        )}
        <MindBeside {...props} />
      </div>
      {answer.pairs.length === 1 && pair !== undefined ? (
        <Figures {...props} pair={pair} />
      ) : (
        <Ranking answer={answer} />
      )}
    </header>
  );
}

function Figures({ answer, pair, units }: FindingProps & { readonly pair: PairAnswer }) {
  const power = outside('power', units);
  const { gain, word, peakPowerChangeW: change, peakPowerMovedRpm: moved } = pair;
  const unknown = word === 'cannot be told from chance';
  const peakTold = change.low > 0 || change.high < 0;
  const decimals = decimalsFor(power.of(change.low), power.of(change.high));
  const places = regionFigures(pair);
  return (
    <dl className={`${ladder.questions} ${styles.questions}`}>
      <div className={ladder.question}>
        <dt>{`Mean power, ${bandInWords(answer.bandRpm)}`}</dt>
        <dd>
          <span className={ladder.figure} data-unknown={unknown}>
            {signedPercent(gain.value)}
          </span>
          <span className={ladder.aside}>
            <b>{word}</b>
            {`, ${withUnit(interval(gain.low, gain.high), '%')}`}
          </span>
        </dd>
      </div>
      <div className={ladder.question}>
        <dt>{`Where ${pair.b} is ahead or behind, rpm`}</dt>
        <dd className={`${ladder.leaves} ${styles.where}`}>
          {places.length === 0 && (
            <div>
              <span className={`${ladder.figure} ${styles.place}`} data-unknown="true">
                nowhere
              </span>
              <span className={ladder.aside}>at no speed can the two be told from chance</span>
            </div>
          )}
          {places.map(({ word: way, place, most }) => (
            <div key={place}>
              <span className={`${ladder.figure} ${styles.place}`} data-way={way}>
                {place}
              </span>
              <span className={ladder.aside}>
                <b>{way === 'gain' ? 'gains' : 'gives up'}</b>
                {most}
              </span>
            </div>
          ))}
        </dd>
      </div>
      <div className={ladder.question}>
        <dt>Peak power</dt>
        <dd>
          <span className={ladder.figure} data-unknown={!peakTold}>
            {withUnit(signed(power.of(change.value), decimals), power.symbol)}
          </span>
          <span className={ladder.aside}>
            <b>
              {peakTold
                ? interval(power.of(change.low), power.of(change.high), decimals)
                : 'chance'}
            </b>
            {`, ${movedInWords(moved.low, moved.value, moved.high)}`}
          </span>
        </dd>
      </div>
    </dl>
  );
}

/** `moved up by 250 rpm`. */
function movedInWords(low: number, value: number, high: number): string {
  const by = speed(Math.abs(50 * Math.round(value / 50)));
  if (low > 0) return `moved up by ${withUnit(by, 'rpm')}`;
  if (high < 0) return `moved down by ${withUnit(by, 'rpm')}`;
  return 'at the same speed as far as can be told';
}
