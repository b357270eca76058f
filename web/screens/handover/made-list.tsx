import { Link } from '@tanstack/react-router';
import type { EnginePage, HandOverKept } from '../../api/types.gen.ts';
import { dayLabel } from '../../shell/places.ts';
import { dateInWords, nameOfStandard } from '../../shell/words.ts';
import { Heads } from '../../table/Heads.tsx';
import { tableFrom, wordsColumn } from '../../table/model.ts';
import { TakeTable } from '../../table/TakeTable.tsx';

interface MadeListProps {
  /** The oldest first. */
  readonly all: readonly HandOverKept[];
  readonly shown: HandOverKept | null;
  readonly page: EnginePage;
}

/** Every hand-over of a build: when, by whom, of what. */
export function MadeList({ all, shown, page }: MadeListProps) {
  const daysOf = ({ choice }: HandOverKept) =>
    choice.dayIds
      .map((id) => page.days.find((day) => day.id === id))
      .map((day) => (day === undefined ? 'a day since removed' : dayLabel(day)))
      .join('; ');
  const againstOf = ({ choice }: HandOverKept) =>
    choice.comparedBuildId === null
      ? 'no other build'
      : (page.builds.find((one) => one.id === choice.comparedBuildId)?.name ??
        'a build since removed');
  return (
    <section className="panel" aria-labelledby="made-hand-overs">
      <header>
        <h2 id="made-hand-overs">Hand-overs of this build</h2>
        <TakeTable
          title="Hand-overs of this build"
          table={() =>
            tableFrom([...all].reverse(), [
              wordsColumn('Made', ({ madeAt }) => madeAt),
              wordsColumn('By', ({ madeBy }) => madeBy),
              wordsColumn('Test days', daysOf),
              wordsColumn('Held against', againstOf),
              wordsColumn('Air', ({ choice }) => nameOfStandard(choice.standard)),
            ])
          }
        />
      </header>
      <table className="sheet">
        <Heads of={['Made', 'By', 'Test days', 'Held against', 'Air']} />
        <tbody>
          {[...all].reverse().map((one) => (
            <tr key={one.id}>
              <th scope="row">
                <Link
                  to="/builds/$id/handover"
                  params={{ id: one.buildId }}
                  search={{ made: one.id }}
                  {...(one.id === shown?.id ? { 'aria-current': 'true' as const } : {})}
                >
                  {madeAtInWords(one.madeAt)}
                </Link>
                {one.id === shown?.id && <span className="quiet"> shown above</span>}
              </th>
              <td>
                {one.madeBy === '' ? <span className="quiet">nobody named</span> : one.madeBy}
              </td>
              <td>{daysOf(one)}</td>
              <td>{againstOf(one)}</td>
              <td>{nameOfStandard(one.choice.standard)}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}

/** `26 November 2026, 16:02`. */
export function madeAtInWords(iso: string): string {
  const time = new Date(iso);
  const clock = new Intl.DateTimeFormat('en-GB', { hour: '2-digit', minute: '2-digit' });
  return `${dateInWords(iso)}, ${clock.format(time)}`;
}
