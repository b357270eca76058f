import { orRefuse, readVehicle } from '../../src/compare/index.ts';
import { ask } from '../api/client.ts';
import type { KeptVehicle } from '../api/types.gen.ts';
import { ChangeSheet } from '../form/change-sheet.tsx';
import { usePreferences } from '../shell/preferences.tsx';
import { NEW_VEHICLE, VEHICLE_FIELDS, vehicleFrom, vehicleValues } from './vehicle-fields.ts';

/** A vehicle of an engine, new or to be changed. What the form does not show (losses by gear) stays as it is. */
export function VehicleForm({
  engineId,
  vehicle,
  onClose,
  onKept,
}: {
  readonly engineId: string;
  /** Null: a new one. */
  readonly vehicle: KeptVehicle | null;
  readonly onClose: () => void;
  readonly onKept: (kept: KeptVehicle) => void;
}) {
  const { units } = usePreferences();
  return (
    <ChangeSheet
      title={vehicle === null ? 'A vehicle for this engine' : `Change ${vehicle.name}`}
      fields={VEHICLE_FIELDS}
      values={vehicle === null ? NEW_VEHICLE : vehicleValues(vehicle.written)}
      saveLabel={vehicle === null ? 'Keep the vehicle' : 'Save'}
      sendUntouched={vehicle === null}
      save={async (patch) => {
        const written = vehicleFrom(vehicle?.written ?? {}, patch, units);
        // The same reader as the service's: a slip is said before anything is sent.
        const { name } = orRefuse(readVehicle(written)).vehicle;
        return vehicle === null
          ? ask('POST /engines/{id}/vehicles', {
              params: { id: engineId },
              body: { name, written },
            })
          : ask('PATCH /vehicles/{id}', { params: { id: vehicle.id }, body: { name, written } });
      }}
      done={(kept) => `${kept.name} is kept.`}
      after={onKept}
      onClose={onClose}
    />
  );
}
