import { NativeSelect } from '@mantine/core';
import { FIGURES, isGoal, SHAPE_NAMES } from '../../src/compare/index.ts';
import type { UseViewProps } from './props.ts';
import styles from './use.module.css';
import { vehicleWords } from './vehicle-fields.ts';
import { isFor } from './words.ts';

const GOALS = FIGURES.filter(({ kind }) => kind === 'time');

/** The use and the vehicle that the builds are judged by. */
export function Choose({
  chosen,
  onChoose,
  uses,
  vehicles,
  vehicleActs,
  useActs,
  use,
  vehicle,
  units,
}: UseViewProps) {
  const kept = vehicles.find(({ id }) => id === chosen.vehicle);
  return (
    <section className={styles.choose} aria-label="Use and vehicle">
      <div>
        <NativeSelect
          label="Use"
          value={
            chosen.use === 'vehicle' || chosen.use === null
              ? vehicle === null
                ? 'circuit'
                : 'vehicle'
              : chosen.use
          }
          onChange={(event) => onChoose({ ...chosen, use: event.currentTarget.value })}
          data={[
            ...(vehicle === null
              ? []
              : [{ value: 'vehicle', label: `${vehicle.vehicle.name}, its 1/4 mile` }]),
            ...SHAPE_NAMES.map((name) => ({ value: name, label: name })),
            ...uses.map(({ id, name }) => ({ value: `kept:${id}`, label: name })),
          ]}
        />
        <p className={styles.why}>{use?.reason}</p>
        {useActs}
      </div>
      <div>
        <NativeSelect
          label="Vehicle"
          value={kept?.id ?? ''}
          onChange={(event) =>
            onChoose({
              ...chosen,
              vehicle: event.currentTarget.value === '' ? null : event.currentTarget.value,
            })
          }
          data={[
            { value: '', label: vehicles.length === 0 ? 'none written down yet' : 'none' },
            ...vehicles.map(({ id, name }) => ({ value: id, label: name })),
          ]}
        />
        <p className={styles.why}>
          {kept === undefined
            ? 'Times and gearing need the vehicle; a use by itself does not.'
            : vehicleWords(kept.written, units)}
        </p>
        {vehicleActs}
      </div>
      {vehicle !== null && (
        <div>
          <NativeSelect
            label="Judged over"
            value={chosen.goal}
            onChange={(event) => {
              const goal = event.currentTarget.value;
              if (isGoal(goal)) onChoose({ ...chosen, goal });
            }}
            data={GOALS.filter(({ id }) => id === chosen.goal || isFor(id, units)).map(
              ({ id, name }) => ({ value: id, label: name }),
            )}
          />
          <p className={styles.why}>The time by which the builds and their gearing are judged.</p>
        </div>
      )}
    </section>
  );
}
