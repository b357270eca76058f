import { Link } from '@tanstack/react-router';
import type { Mark } from '../../api/types.gen.ts';
import { LookIcon, NoteIcon, StopIcon } from '../../theme/icons.tsx';
import { labelOf, type PullWithCurve } from './series.ts';

const SEVERITY = {
  stop: { icon: <StopIcon />, word: 'Stop', className: 'stop' },
  'look again': { icon: <LookIcon />, word: 'Look again', className: 'look' },
  note: { icon: <NoteIcon />, word: 'Note', className: 'quiet' },
} as const;

/** One mark with its icon and its word, so that colour is never alone. */
export function MarkLine({ mark, children }: { mark: Mark; children?: React.ReactNode }) {
  const { icon, word, className } = SEVERITY[mark.severity];
  return (
    <li>
      <span className={className}>{icon}</span>
      <span>
        <span className={className}>{word}.</span> {children}
        {mark.sentence}
      </span>
    </li>
  );
}

/** What the pulls of a day say against themselves, gravest first; mere notes stay on the page of the pull. */
export function Remarks({ all }: { all: readonly PullWithCurve[] }) {
  const pulls = all.map((one) => one.pull);
  const order = ['stop', 'look again'] as const;
  const lines = order.flatMap((severity) =>
    all.flatMap(({ pull, curve }) =>
      (curve?.marks ?? [])
        .filter((mark) => mark.severity === severity)
        .map((mark) => ({ pull, mark })),
    ),
  );
  if (lines.length === 0) return null;
  return (
    <section className="panel" aria-labelledby="remarks">
      <header>
        <h2 id="remarks">Worth a second look</h2>
      </header>
      <ul className="marks">
        {lines.map(({ pull, mark }) => (
          <MarkLine key={`${pull.id}${mark.kind}${mark.sentence}`} mark={mark}>
            <Link to={`/pulls/${pull.id}`}>{labelOf(pull, pulls).replace(/^pull/, 'Pull')}</Link>
            {': '}
          </MarkLine>
        ))}
      </ul>
    </section>
  );
}
