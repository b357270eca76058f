import { useQuery } from '@tanstack/react-query';
import { Link, useSearch } from '@tanstack/react-router';
import { partHistoryQuery, partsQuery } from '../../api/queries.ts';
import type { PartSerial } from '../../api/types.gen.ts';
import { titleOf } from '../../build/words.ts';
import { Page } from '../../shell/page.tsx';
import { Nothing, Trouble, Waiting } from '../../shell/states.tsx';
import { count } from '../../shell/words.ts';
import { Heads } from '../../table/Heads.tsx';
import { numberColumn, tableFrom, wordsColumn } from '../../table/model.ts';
import { TakeRow } from '../../table/TakeTable.tsx';
import { History } from './history.tsx';

/** Parts that move between engines: all of them, or where one has been. */
export function PartsScreen() {
  const { serial } = useSearch({ from: '/parts' });
  return serial === undefined ? <AllParts /> : <OnePart key={serial} serial={serial} />;
}

function AllParts() {
  const parts = useQuery(partsQuery);
  return (
    <Page title="Parts" crumbs={[{ label: 'Shop', to: '/' }, { label: 'Parts' }]}>
      {parts.isPending && <Waiting what="the parts" />}
      {parts.isError && <Trouble error={parts.error} retry={() => void parts.refetch()} />}
      {parts.data && (
        <div className="stack">
          <div>
            <h1>Parts</h1>
            <p className="lede">
              Every part that carries a serial of the shop on a build sheet, whichever engine it is
              in.
            </p>
          </div>
          {parts.data.length === 0 ? (
            <Nothing title="No part has a serial yet">
              Give a part a serial of the shop in its section of a build sheet, under “Parts and
              notes”; from then on it is followed from engine to engine.
            </Nothing>
          ) : (
            <PartTable parts={parts.data} />
          )}
        </div>
      )}
    </Page>
  );
}

function PartTable({ parts }: { readonly parts: readonly PartSerial[] }) {
  const table = () =>
    tableFrom(parts, [
      wordsColumn('Serial', ({ serial }) => serial),
      wordsColumn('Part', ({ name }) => name),
      wordsColumn('Section', ({ section }) => titleOf(section)),
      numberColumn('Builds it has been in', '', ({ builds }) => builds, { decimals: 0 }),
    ]);
  return (
    <>
      <TakeRow title="Parts" table={table} />
      <table className="sheet">
        <Heads of={['Serial', 'Part', 'Section', 'Has been in']} />
        <tbody>
          {parts.map(({ serial, name, section, builds }) => (
            <tr key={serial}>
              <th scope="row">
                <Link to="/parts" search={{ serial }}>
                  <bdi>{serial}</bdi>
                </Link>
              </th>
              <td>{name}</td>
              <td>{titleOf(section)}</td>
              <td>{count(builds, 'build')}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </>
  );
}

function OnePart({ serial }: { readonly serial: string }) {
  const history = useQuery(partHistoryQuery(serial));
  return (
    <Page
      title={`Part ${serial}`}
      crumbs={[{ label: 'Shop', to: '/' }, { label: 'Parts', to: '/parts' }, { label: serial }]}
    >
      {history.isPending && <Waiting what="the history of the part" />}
      {history.isError && <Trouble error={history.error} retry={() => void history.refetch()} />}
      {history.data && <History history={history.data} />}
    </Page>
  );
}
