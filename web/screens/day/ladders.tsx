import { Button, Menu } from '@mantine/core';
import { Link } from '@tanstack/react-router';
import { useState } from 'react';
import { belongsTo } from '../../../src/ladder/members.ts';
import { useChange } from '../../api/changes.ts';
import { ask } from '../../api/client.ts';
import type { DayPage, Ladder } from '../../api/types.gen.ts';
import { count } from '../../shell/words.ts';
import { Heads } from '../../table/Heads.tsx';
import { numberColumn, tableFrom, wordsColumn } from '../../table/model.ts';
import { TakeTable } from '../../table/TakeTable.tsx';
import take from '../../table/table.module.css';
import { type LadderSheet, LadderSheets, useNewLadder } from '../ladder/ladder-sheets.tsx';
import { choiceInWords, nameOfLadder } from '../ladder/ladder-words.ts';
import { bothVary, ladderOffers } from '../ladder/offers.ts';

/** Offers shown at once; a day that varies both settings makes a ladder for every row and column of its grid. */
const OFFERS_AT_ONCE = 3;

/** The ladders of a day: those it has, and those that its pulls make as well. */
export function Ladders({ page }: { readonly page: DayPage }) {
  const { day, pulls, ladders, decisions } = page;
  const [sheet, setSheet] = useState<LadderSheet>(null);
  const make = useNewLadder(day.id);
  const remove = useChange(
    (ladder: Ladder) => ask('DELETE /ladders/{id}', { params: { id: ladder.id } }),
    { done: 'The ladder is removed; its pulls stay.' },
  );
  const [showsAll, setShowsAll] = useState(false);
  const offers = ladderOffers(pulls, ladders, day.lambdaTarget);
  const shown = showsAll ? offers : offers.slice(0, OFFERS_AT_ONCE);
  const hidden = offers.length - shown.length;
  const own = (ladder: Ladder) =>
    pulls.filter((pull) => belongsTo(ladder, pull, day.lambdaTarget)).length;
  const table = () =>
    tableFrom(ladders, [
      wordsColumn('Ladder', nameOfLadder),
      wordsColumn('Which pulls', (ladder) => choiceInWords(ladder, pulls)),
      numberColumn('Pulls', '', own, { decimals: 0 }),
      numberColumn(
        'Decisions',
        '',
        ({ id }) => decisions.filter((one) => one.ladderId === id).length,
        {
          decimals: 0,
        },
      ),
    ]);
  return (
    <section className="panel" aria-labelledby="ladders-of-day">
      <header>
        <h2 id="ladders-of-day">Ladders</h2>
        <span className={take.acts}>
          <Menu position="bottom-end">
            <Menu.Target>
              <Button variant="subtle" size="compact-sm">
                New ladder
              </Button>
            </Menu.Target>
            <Menu.Dropdown>
              <Menu.Item onClick={() => setSheet({ kind: 'new', setting: 'lead' })}>
                Of spark lead …
              </Menu.Item>
              <Menu.Item onClick={() => setSheet({ kind: 'new', setting: 'lambda' })}>
                Of lambda …
              </Menu.Item>
            </Menu.Dropdown>
          </Menu>
          <TakeTable title="Ladders" table={table} />
        </span>
      </header>
      <table className="sheet">
        <Heads of={['Ladder', 'Which pulls', 'Decisions']} acts="Acts" />
        <tbody>
          {ladders.map((ladder) => {
            const decided = decisions.filter((one) => one.ladderId === ladder.id).length;
            return (
              <tr key={ladder.id}>
                <th scope="row">
                  <Link to={`/ladders/${ladder.id}`}>{nameOfLadder(ladder)}</Link>
                </th>
                <td>{`${choiceInWords(ladder, pulls)} (${count(own(ladder), 'pull')})`}</td>
                <td>{decided === 0 ? <span className="quiet">none yet</span> : decided}</td>
                <td>
                  <div className="acts">
                    <Button
                      variant="default"
                      size="compact-xs"
                      aria-label={`Choose pulls of ${nameOfLadder(ladder)}`}
                      onClick={() => setSheet({ kind: 'edit', ladder })}
                    >
                      Choose pulls
                    </Button>
                    {ladders.length > 1 && (
                      <Button
                        variant="default"
                        size="compact-xs"
                        aria-label={`Remove ${nameOfLadder(ladder)}`}
                        onClick={() => remove.mutate(ladder)}
                      >
                        Remove
                      </Button>
                    )}
                  </div>
                </td>
              </tr>
            );
          })}
          {bothVary(pulls, day.lambdaTarget) && (
            <tr>
              <th scope="row">
                <Link to={`/days/${day.id}/both`}>Lead and lambda</Link>
              </th>
              <td>both at once, from all pulls</td>
              <td>
                <span className="quiet">none here</span>
              </td>
              <td />
            </tr>
          )}
          {shown.map((offer) => (
            <tr key={offer.key}>
              <td colSpan={3} className="quiet">
                {`The pulls make another one: ${offer.sentence}.`}
              </td>
              <td>
                <Button
                  variant="default"
                  size="compact-xs"
                  aria-label={`Open it: ${offer.sentence}`}
                  loading={make.isPending}
                  onClick={() => make.mutate(offer.ladder)}
                >
                  Open it
                </Button>
              </td>
            </tr>
          ))}
          {hidden > 0 && (
            <tr>
              <td colSpan={3} className="quiet">
                {`The pulls make ${hidden} more, none of more pulls.`}
              </td>
              <td>
                <Button variant="default" size="compact-xs" onClick={() => setShowsAll(true)}>
                  Show them
                </Button>
              </td>
            </tr>
          )}
        </tbody>
      </table>
      <LadderSheets sheet={sheet} dayId={day.id} close={() => setSheet(null)} />
    </section>
  );
}
