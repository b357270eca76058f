import { SECTIONS } from '../../src/build/index.ts';
import styles from './start.module.css';

interface ChangedSectionsProps {
  readonly changed: readonly string[];
  readonly onChange: (changed: readonly string[]) => void;
}

/** Which sections of a copied sheet are to be measured again, to be ticked. What it is for stays; its condition never does. */
export function ChangedSections({ changed, onChange }: ChangedSectionsProps) {
  return (
    <fieldset className={styles.changed}>
      <legend className="quiet">
        Tick what is new or was worked on: it is to be measured again. Assembly and condition always
        are.
      </legend>
      {SECTIONS.filter(({ id }) => id !== 'intent' && id !== 'condition').map(({ id, title }) => (
        <label key={id}>
          <input
            type="checkbox"
            checked={changed.includes(id)}
            onChange={(event) =>
              onChange(
                event.currentTarget.checked
                  ? [...changed, id]
                  : changed.filter((one) => one !== id),
              )
            }
          />
          {title}
        </label>
      ))}
    </fieldset>
  );
}
