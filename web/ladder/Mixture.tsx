import type { LadderAnswer } from '../../src/ladder/types.ts';
import type { UnitSystem } from '../../src/units/types.ts';
import { kept, outside, plain, signed } from '../charts/numbers.ts';
import { numberColumn, quantityColumn, rangeColumn, tableFrom } from '../table/model.ts';
import { TakeHead } from '../table/TakeTable.tsx';
import styles from './ladder.module.css';
import type { FuelNote } from './props.ts';

interface MixtureProps {
  readonly mixture: NonNullable<LadderAnswer['mixture']>;
  readonly fuel: FuelNote | null;
  readonly units: UnitSystem;
}

const TITLE = 'Power and fuel by mixture';
type Row = MixtureProps['mixture']['rows'][number];

/** Power and fuel along the mixture: what each gives up and burns, with air to fuel by the fuel that was burnt. */
export function Mixture({ mixture, fuel, units }: MixtureProps) {
  const { rows, measured, sentence } = mixture;
  const consumption = outside('specificConsumption', units);
  const measuredAt = (lambda: number) => {
    const own = measured.filter((one) => Math.abs(one.lambda - lambda) < 1e-4);
    if (own.length === 0) return null;
    return own.reduce((sum, { bsfcKgPerJ }) => sum + bsfcKgPerJ, 0) / own.length;
  };
  const table = tableFrom(rows, [
    numberColumn('lambda', '', ({ lambda }) => lambda, { decimals: 3 }),
    ...(fuel === null
      ? []
      : [
          numberColumn<Row>(
            `air to ${fuel.name}`,
            '',
            ({ lambda }) => lambda * fuel.stoichiometricAfr,
            { decimals: 2 },
          ),
        ]),
    numberColumn('power given up', '%', ({ lossPercent }) => lossPercent.value, { decimals: 2 }),
    rangeColumn('power given up, 95 %', '%', ({ lossPercent }) => lossPercent, { decimals: 2 }),
    numberColumn('fuel for the same air', '%', ({ fuelPercent }) => fuelPercent, { decimals: 1 }),
    numberColumn(
      'fuel for the same power',
      '%',
      ({ fuelForPowerPercent }) => fuelForPowerPercent.value,
      { decimals: 1 },
    ),
    ...(measured.length === 0
      ? []
      : [
          quantityColumn<Row>('measured', 'specificConsumption', units, ({ lambda }) =>
            measuredAt(lambda),
          ),
        ]),
  ]);
  return (
    <section aria-labelledby="ladder-mixture">
      <TakeHead title={TITLE} table={() => table}>
        <h2 id="ladder-mixture" className={styles.sectionTitle}>
          {TITLE}
        </h2>
      </TakeHead>
      <p className={styles.quiet}>{kept(sentence)}</p>
      {rows.length > 0 && (
        <div className={styles.tableWrap}>
          <table className={styles.table}>
            <thead>
              <tr>
                <th scope="col">lambda</th>
                <th scope="col">{fuel === null ? 'air to fuel' : `air to ${fuel.name}`}</th>
                <th scope="col">power given up, %</th>
                <th scope="col">from – to</th>
                <th scope="col">fuel for the same air, %</th>
                <th scope="col">fuel for the same power, %</th>
                {measured.length > 0 && <th scope="col">{`measured, ${consumption.symbol}`}</th>}
              </tr>
            </thead>
            <tbody>
              {rows.map(({ lambda, lossPercent, fuelPercent, fuelForPowerPercent }, at) => (
                <tr key={lambda}>
                  <th scope="row">
                    {`${plain(lambda, 3)}${at === 0 ? ' (richest)' : at === rows.length - 1 ? ' (leanest)' : ''}`}
                  </th>
                  <td>{fuel === null ? '–' : plain(lambda * fuel.stoichiometricAfr, 2)}</td>
                  <td>{plain(lossPercent.value, 2)}</td>
                  <td>{`${plain(lossPercent.low, 2)} to ${plain(lossPercent.high, 2)}`}</td>
                  <td>{signed(fuelPercent)}</td>
                  <td>{signed(fuelForPowerPercent.value)}</td>
                  {measured.length > 0 && <td>{measuredText(measuredAt(lambda), consumption)}</td>}
                </tr>
              ))}
            </tbody>
          </table>
        </div>
      )}
    </section>
  );
}

const measuredText = (kgPerJ: number | null, { of, decimals }: ReturnType<typeof outside>) =>
  kgPerJ === null ? '–' : plain(of(kgPerJ), decimals);
