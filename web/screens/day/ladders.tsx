import { Button, Menu } from '@mantine/core';
import { Link } from '@tanstack/react-router';
import { useState } from 'react';
import { belongsTo } from '../../../src/ladder/members.ts';
import { useChange } from '../../api/changes.ts';
import { ask } from '../../api/client.ts';
import type { DayPage, Ladder } from '../../api/types.gen.ts';
import { count } from '../../shell/words.ts';
import { type LadderSheet, LadderSheets, useNewLadder } from '../ladder/ladder-sheets.tsx';
import { choiceInWords, nameOfLadder } from '../ladder/ladder-words.ts';
import { bothVary, ladderOffers } from '../ladder/offers.ts';

/** The ladders of a day: those it has, and those that its pulls make as well. */
export function Ladders({ page }: { readonly page: DayPage }) {
  const { day, pulls, ladders, decisions } = page;
  const [sheet, setSheet] = useState<LadderSheet>(null);
  const make = useNewLadder(day.id);
  const remove = useChange(
    (ladder: Ladder) => ask('DELETE /ladders/{id}', { params: { id: ladder.id } }),
    { done: 'The ladder is removed; its pulls stay.' },
  );
  const offers = ladderOffers(pulls, ladders, day.lambdaTarget);
  const own = (ladder: Ladder) =>
    pulls.filter((pull) => belongsTo(ladder, pull, day.lambdaTarget)).length;
  return (
    <section className="panel" aria-labelledby="ladders-of-day">
      <header>
        <h2 id="ladders-of-day">Ladders</h2>
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
      </header>
      <table className="sheet">
        <thead>
          <tr>
            <th scope="col">Ladder</th>
            <th scope="col">Which pulls</th>
            <th scope="col">Decisions</th>
            <th scope="col">
              <span className="unseen">Acts</span>
            </th>
          </tr>
        </thead>
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
          {offers.map((offer) => (
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
        </tbody>
      </table>
      <LadderSheets sheet={sheet} dayId={day.id} close={() => setSheet(null)} />
    </section>
  );
}
