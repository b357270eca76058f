import type { CompareAnswer } from '../../src/compare/types.ts';
import { chance, interval, signedPercent, withUnit } from '../charts/numbers.ts';
import ladder from '../ladder/ladder.module.css';
import {
  numberColumn,
  rangeColumn,
  type TableModel,
  tableFrom,
  wordsColumn,
} from '../table/model.ts';
import { TakeRow } from '../table/TakeTable.tsx';
import styles from './compare.module.css';
import { SideMark } from './SideMark.tsx';
import { bandInWords, listed } from './words.ts';

const rankingTable = ({ ranking, groups, pairs, bandRpm }: CompareAnswer): TableModel => {
  const gainOf = (name: string) => pairs[groups.findIndex((one) => one.name === name) - 1]?.gain;
  const over = `over ${groups[0]!.name}`;
  return tableFrom(ranking, [
    wordsColumn(`by mean power, ${bandInWords(bandRpm)}`, ({ name }) => name),
    numberColumn(over, '%', ({ name }) => gainOf(name)?.value, { decimals: 1 }),
    rangeColumn(`${over}, 95 %`, '%', ({ name }) => gainOf(name), { decimals: 1 }),
    numberColumn('chance of being the strongest', '%', ({ chanceBest }) => chanceBest * 100, {
      decimals: 1,
    }),
    wordsColumn('cannot be told from', ({ likeIt }) => listed(likeIt)),
  ]);
};

/** More than two sides by mean power in the band, the strongest first, with what cannot be told apart. */
export function Ranking({ answer }: { readonly answer: CompareAnswer }) {
  const names = answer.groups.map(({ name }) => name);
  const first = names[0]!;
  return (
    <section aria-label={`By mean power, ${bandInWords(answer.bandRpm)}`}>
      <TakeRow title="The sides by mean power" table={() => rankingTable(answer)} />
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
