import { Button, Slider } from '@mantine/core';
import styles from './use.module.css';

/** A value that is dragged, with the way back to where it stands by itself. */
export function Slide({
  label,
  value,
  own,
  range,
  step,
  text,
  onChange,
  onReset,
}: {
  readonly label: string;
  readonly value: number;
  readonly own: number;
  readonly range: readonly [number, number];
  readonly step: number;
  readonly text: (value: number) => string;
  readonly onChange: (value: number) => void;
  readonly onReset: () => void;
}) {
  return (
    <div className={styles.slide}>
      <span>{label}</span>
      <Slider
        value={Math.min(Math.max(value, range[0]), range[1])}
        min={range[0]}
        max={range[1]}
        step={step}
        label={null}
        thumbLabel={label}
        onChange={onChange}
      />
      <output>{text(value)}</output>
      {value !== own && (
        <Button className={styles.slideAct!} variant="subtle" size="compact-xs" onClick={onReset}>
          {`back to ${text(own)}`}
        </Button>
      )}
    </div>
  );
}
