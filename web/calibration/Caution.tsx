import { CareIcon } from '../theme/icons.tsx';
import styles from './calibration.module.css';

/** Weights on an arm fall and swing; said wherever they are hung. */
export function HangingCaution() {
  return (
    <aside className={styles.caution} aria-label="Safety">
      <CareIcon />
      <div>
        <strong>Before a weight is hung</strong>
        <ul>
          <li>
            The engine is off and cannot be started; the shaft is locked so that it cannot turn.
          </li>
          <li>The arm is bolted to the shaft and secured; it cannot slip, swing or come down.</li>
          <li>
            Nobody stands or reaches beneath arm or weights; heavy ones are set down close to the
            ground and lifted by two, or by a hoist.
          </li>
          <li>Hanger and hooks carry more than all the weights together.</li>
          <li>Local rules and qualified people have the last word.</li>
        </ul>
      </div>
    </aside>
  );
}
