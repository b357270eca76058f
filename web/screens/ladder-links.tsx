import { Link } from '@tanstack/react-router';
import { Fragment } from 'react';
import type { DaySummary } from '../api/types.gen.ts';
import { nameOfLadder } from './ladder/ladder-words.ts';

/** Every ladder of a day, each by its name. */
export function LadderLinks({ ladders }: Pick<DaySummary, 'ladders'>) {
  if (ladders.length === 0) return <span className="quiet">none</span>;
  return ladders.map((ladder, index) => (
    <Fragment key={ladder.id}>
      {index > 0 && ', '}
      <Link to={`/ladders/${ladder.id}`}>{nameOfLadder(ladder)}</Link>
    </Fragment>
  ));
}
