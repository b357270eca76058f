import type { FieldSpec } from '../../src/build/index.ts';
import styles from './inputs.module.css';
import { unitChoices } from './typing.ts';

interface UnitPickProps {
  readonly field: FieldSpec;
  readonly unit: string | undefined;
  readonly onPick: (unit: string) => void;
}

/** The unit that the number beside it was typed in. Another unit leaves the number as it stands. */
export function UnitPick({ field, unit, onPick }: UnitPickProps) {
  if (field.kind !== 'quantity' || unit === undefined) return <span />;
  return (
    <select
      className={styles.unit}
      aria-label={`${field.label}: unit`}
      value={unit}
      onChange={(event) => onPick(event.currentTarget.value)}
    >
      {unitChoices(field, unit).map((symbol) => (
        <option key={symbol}>{symbol}</option>
      ))}
    </select>
  );
}
