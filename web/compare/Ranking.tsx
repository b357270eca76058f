import type { CompareAnswer } from '../../src/compare/types.ts';
import { chance, interval, signedPercent, withUnit } from '../charts/numbers.ts';
import ladder from '../ladder/ladder.module.css';
import styles from './compare.module.css';
import { SideMark } from './SideMark.tsx';
import { bandInWords, listed } from './words.ts';

/** More than two sides by mean power in the band, the strongest first, with what cannot be told apart. */
export function Ranking({ answer }: { readonly answer: CompareAnswer }) {
  const names = answer.groups.map(({ name }) => name);
  const first = names[0]!;
  return (
    <section aria-label={`By mean power, ${bandInWords(answer.bandRpm)}`}>
      <div className={ladder.tableWrap}>
        <table className={`${ladder.table} ${styles.ranking}`}>
          <thead>
            <tr>
              <th scope="col" data-left="">{`by mean power, ${bandInWords(answer.bandRpm)}`}</th>
              <th scope="col">{`over ${first}`}</th>
              <th scope="col">interval</th>
              <th scope="col">chance of being the strongest</th>
              <th scope="col" data-left="">
                cannot be told from
              </th>
            </tr>
          </thead>
          <tbody>
            {answer.ranking.map((one) => {
              const side = names.indexOf(one.name);
              const pair = answer.pairs[side - 1];
              return (
                <tr key={one.name}>
                  <th scope="row" data-left="">
                    <SideMark side={side} count={names.length} />
                    {one.name}
                  </th>
                  <td className={styles.large}>
                    {pair === undefined ? '' : signedPercent(pair.gain.value)}
                  </td>
                  <td>
                    {pair === undefined
                      ? ''
                      : withUnit(interval(pair.gain.low, pair.gain.high), '%')}
                  </td>
                  <td>{chance(one.chanceBest)}</td>
                  <td data-left="">{listed(one.likeIt) || 'told from every other'}</td>
                </tr>
              );
            })}
          </tbody>
        </table>
      </div>
    </section>
  );
}
