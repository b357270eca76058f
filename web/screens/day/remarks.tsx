import { Link } from '@tanstack/react-router';
import { Fragment } from 'react';
import { inUnitsOf } from '../../../src/units/sentences.ts';
import type { Mark, Pull } from '../../api/types.gen.ts';
import { usePreferences } from '../../shell/preferences.tsx';
import { kept } from '../../shell/words.ts';
import { LookIcon, NoteIcon, StopIcon } from '../../theme/icons.tsx';
import { labelOf, type PullWithCurve } from './series.ts';

const SEVERITY = {
  stop: { icon: <StopIcon />, word: 'Stop', className: 'stop' },
  'look again': { icon: <LookIcon />, word: 'Look again', className: 'look' },
  note: { icon: <NoteIcon />, word: 'Note', className: 'quiet' },
} as const;

/** One mark with its icon and its word, so that colour is never alone. */
export function MarkLine({ mark, children }: { mark: Mark; children?: React.ReactNode }) {
  const { units } = usePreferences();
  const { icon, word, className } = SEVERITY[mark.severity];
  return (
    <li>
      <span className={className}>{icon}</span>
      <span>
        <span className={className}>{word}.</span> {children}
        {kept(inUnitsOf(mark.sentence, units))}
      </span>
    </li>
  );
}

/** What the pulls of a day say against themselves, gravest first; mere notes stay on the page of the pull. */
export function Remarks({ all }: { all: readonly PullWithCurve[] }) {
  const pulls = all.map((one) => one.pull);
  const lines = remarksOf(all);
  if (lines.length === 0) return null;
  return (
    <section className="panel" aria-labelledby="remarks">
      <header>
        <h2 id="remarks">Worth a second look</h2>
      </header>
      <ul className="marks">
        {lines.map(({ mark, of }) => (
          <MarkLine key={`${mark.severity}${mark.sentence}`} mark={mark}>
            {of.map((pull, at) => (
              <Fragment key={pull.id}>
                {at > 0 && ', '}
                <Link to={`/pulls/${pull.id}`}>{labelOf(pull, pulls)}</Link>
              </Fragment>
            ))}
            {': '}
          </MarkLine>
        ))}
      </ul>
    </section>
  );
}

interface Remark {
  readonly mark: Mark;
  readonly of: readonly Pull[];
}

/** Gravest first; what several pulls say in the same words is said once for all of them. */
export function remarksOf(all: readonly PullWithCurve[]): readonly Remark[] {
  const lines = new Map<string, { mark: Mark; of: Pull[] }>();
  for (const severity of ['stop', 'look again'] as const)
    for (const { pull, curve } of all)
      for (const mark of curve?.marks ?? []) {
        if (mark.severity !== severity) continue;
        const key = `${severity}${mark.sentence}`;
        const line = lines.get(key);
        if (line === undefined) lines.set(key, { mark, of: [pull] });
        else line.of.push(pull);
      }
  return [...lines.values()];
}
