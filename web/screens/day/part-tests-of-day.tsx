import { useQuery } from '@tanstack/react-query';
import { Link } from '@tanstack/react-router';
import { partTestsQuery } from '../../api/queries.ts';
import type { PartTest } from '../../api/types.gen.ts';
import { count, dateInWords, kept } from '../../shell/words.ts';
import { Heads } from '../../table/Heads.tsx';
import { numberColumn, tableFrom, wordsColumn } from '../../table/model.ts';
import { TakeTable } from '../../table/TakeTable.tsx';

/** The tests of a part that are kept with a day; nothing where there are none. */
export function PartTestsOfDay({ dayId }: { readonly dayId: string }) {
  const tests = useQuery(partTestsQuery(dayId));
  return tests.data === undefined || tests.data.length === 0 ? null : <Made tests={tests.data} />;
}

function Made({ tests }: { readonly tests: readonly PartTest[] }) {
  return (
    <section className="panel" aria-labelledby="part-tests-made">
      <header>
        <h2 id="part-tests-made">Part tests of this day</h2>
        <TakeTable
          title="Part tests of this day"
          table={() =>
            tableFrom(tests, [
              wordsColumn(
                'Test',
                ({ name, groupA, groupB }) => name || `${groupB} against ${groupA}`,
              ),
              numberColumn('To be seen', '%', ({ gainPercent }) => gainPercent),
              numberColumn('Pulls planned, at most', '', ({ plan }) => plan.order.length),
              wordsColumn('Order', ({ plan }) => plan.order.join(' ').toUpperCase()),
              wordsColumn('Made', ({ madeAt }) => madeAt),
              wordsColumn('By', ({ who }) => who),
            ])
          }
        />
      </header>
      <table className="sheet">
        <Heads of={['Test', 'To be seen', 'Planned', 'Made']} />
        <tbody>
          {tests.map((test) => (
            <tr key={test.id}>
              <th scope="row">
                <Link to="/part-tests/$id" params={{ id: test.id }}>
                  {test.name || `${test.groupB} against ${test.groupA}`}
                </Link>
              </th>
              <td>{kept(`${test.gainPercent} %`)}</td>
              <td>
                {`${test.plan.isAba ? '' : 'at most '}${count(test.plan.order.length, 'pull')}`}
              </td>
              <td className="quiet">
                {[dateInWords(test.madeAt.slice(0, 10)), test.who].filter(Boolean).join(', ')}
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}
