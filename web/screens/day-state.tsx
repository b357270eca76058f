import { useQuery } from '@tanstack/react-query';
import { Link } from '@tanstack/react-router';
import { dayPageQuery, readingQuery } from '../api/queries.ts';
import { dayLabel } from '../shell/places.ts';
import { usePreferences } from '../shell/preferences.tsx';
import { count, kept } from '../shell/words.ts';
import { LadderLinks } from './ladder-links.tsx';

/** Where the last test day of an engine stands, in words: what its ladder says and what comes next. */
export function DayState({ dayId }: { dayId: string }) {
  const { standard } = usePreferences();
  const page = useQuery(dayPageQuery(dayId));
  const ladder = page.data?.ladders[0];
  const reading = useQuery({
    ...readingQuery(ladder?.id ?? '', standard),
    enabled: ladder !== undefined,
  });
  if (page.isPending) return <p className="quiet">Reading the last test day …</p>;
  if (page.isError) return <p className="quiet">{page.error.message}</p>;
  const { day, pulls } = page.data;
  const headline =
    reading.data?.answer?.headline ??
    reading.data?.whyNone ??
    (reading.isError ? reading.error.message : null);
  return (
    <>
      <p>
        <strong>
          {headline ?? (ladder === undefined ? 'No ladder on this day.' : 'Reading the ladder …')}
        </strong>
      </p>
      {reading.data?.answer && <p className="quiet">{kept(reading.data.answer.next.why)}</p>}
      <p>
        <Link to={`/days/${dayId}`}>{dayLabel(day)}</Link>
        {', '}
        {count(pulls.length, 'pull')}
        {pulls.length > 0 && (
          <>
            {' · '}
            <LadderLinks ladders={page.data.ladders} />
          </>
        )}
      </p>
    </>
  );
}
