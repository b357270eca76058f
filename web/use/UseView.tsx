import { inUnitsOf } from '../../src/units/sentences.ts';
import styles from '../compare/compare.module.css';
import { OwnerText } from '../compare/OwnerText.tsx';
import { Sides } from '../compare/Sides.tsx';
import { Warnings } from '../ladder/Answer.tsx';
import ladder from '../ladder/ladder.module.css';
import { Choose } from './Choose.tsx';
import { Finding } from './Finding.tsx';
import type { UseViewProps } from './props.ts';
import { Times } from './Times.tsx';
import { UsePictures } from './UsePictures.tsx';
import { VehiclePictures } from './VehiclePictures.tsx';
import { paragraphs } from './words.ts';

/** What it is for, for given answers: builds, choice, finding, pictures, times, and what they stand on. */
export function UseView(props: UseViewProps) {
  const { vehicle, answer, warnings, assumed, units } = props;
  const said = paragraphs(props);
  const mind = [
    ...warnings,
    ...(answer?.warnings ?? []),
    ...(vehicle?.warnings ?? []),
    ...assumed,
  ].map((one) => inUnitsOf(one, units));
  return (
    <article className={ladder.page}>
      <Sides {...props} />
      <Choose {...props} />
      <Finding {...props} />
      <UsePictures {...props} />
      {vehicle !== null && <VehiclePictures {...props} vehicle={vehicle} />}
      <div className={styles.below}>
        {vehicle === null ? <NoVehicle {...props} /> : <Times {...props} vehicle={vehicle} />}
        <div className={ladder.side}>
          {said !== '' && <OwnerText id="use-owner" text={said} />}
          {mind.length > 0 && (
            <section aria-labelledby="use-mind">
              <h2 id="use-mind" className={ladder.sectionTitle}>
                To mind
              </h2>
              <Warnings warnings={[...new Set(mind)]} />
            </section>
          )}
        </div>
      </div>
    </article>
  );
}

function NoVehicle({ vehicleTrouble, vehicleActs, vehicles, units }: UseViewProps) {
  return (
    <section aria-labelledby="use-no-vehicle">
      <h2 id="use-no-vehicle" className={ladder.sectionTitle}>
        In a vehicle
      </h2>
      {vehicleTrouble !== null ? (
        <p role="alert">{inUnitsOf(vehicleTrouble, units)}</p>
      ) : (
        <p className={ladder.quiet}>
          {vehicles.length === 0
            ? 'Write down the vehicle that this engine goes into, and its times, top speed, best shift speeds and the gearing that suits each build are computed from the measured curves.'
            : 'Choose a vehicle above to see times, top speed, best shift speeds and the gearing that suits each build.'}
        </p>
      )}
      {vehicles.length === 0 && vehicleActs}
    </section>
  );
}
