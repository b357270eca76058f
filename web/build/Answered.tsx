import type { Figure, Window } from '../../src/build/index.ts';
import { inUnitsOf } from '../../src/units/index.ts';
import { usePreferences } from '../shell/preferences.tsx';
import { useSheetActs } from './context.ts';
import styles from './follows.module.css';
import { SourceText } from './SourceText.tsx';
import { noteText, pathInWords, placesOf, plusMinusText, valueText } from './words.ts';

/** Value with its half interval, or that it is not known. */
export function ValueText({ answer }: { answer: Figure }) {
  const { units } = usePreferences();
  if (answer.value === null) return <span className="quiet">not known</span>;
  const half = plusMinusText(answer, units);
  return (
    <span className={styles.value}>
      {valueText(answer, answer.value, units)}
      {half !== null && <small> {half}</small>}
    </span>
  );
}

/** Names of fields as ways to them. */
export function FieldLinks({ paths, section }: { paths: readonly string[]; section: string }) {
  const { goTo } = useSheetActs();
  return paths.map((path, i) => (
    <span key={path}>
      {i > 0 && ', '}
      <button type="button" className={styles.way} onClick={() => goTo(path)}>
        {pathInWords(path, section)}
      </button>
    </span>
  ));
}
/** Where an answer comes from, place by place and step by step; folded until it is asked for. */
export function Background({ answer, window }: { answer: Figure; window?: Window }) {
  const { layout } = useSheetActs();
  const { units } = usePreferences();
  const places = placesOf(answer, layout);
  return (
    <details className={styles.background}>
      <summary>
        {answer.each === null ? 'How' : 'Each and how'}
        <span className="unseen"> {answer.label} comes about</span>
      </summary>
      {answer.each !== null && (
        <dl className={styles.each}>
          {answer.each.map((value, i) => (
            <div key={places[i] ?? i}>
              <dt>{places[i] ?? i + 1}</dt>
              <dd>{value === null ? '–' : valueText(answer, value, units)}</dd>
            </div>
          ))}
        </dl>
      )}
      <p>{answer.how}</p>
      {answer.range !== null && (
        <p>
          The rule itself leaves {valueText(answer, answer.range.low, units)} to{' '}
          {valueText(answer, answer.range.high, units)}.
        </p>
      )}
      {answer.from.length > 0 && (
        <p>
          From <FieldLinks paths={answer.from} section={answer.section} />.
        </p>
      )}
      {answer.assumed.length > 0 && (
        <p>
          Something usual stands for <FieldLinks paths={answer.assumed} section={answer.section} />.
        </p>
      )}
      {window !== undefined && (
        <p>
          Window: <SourceText {...window} />.
        </p>
      )}
      {answer.notes.map((note) => (
        <p key={note.sentence}>{inUnitsOf(noteText(note), units)}</p>
      ))}
    </details>
  );
}
