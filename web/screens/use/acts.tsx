import { Button, FileButton } from '@mantine/core';
import { useState } from 'react';
import { orRefuse, readUse } from '../../../src/compare/index.ts';
import { useChange } from '../../api/changes.ts';
import { ask } from '../../api/client.ts';
import { putFile } from '../../api/put-file.ts';
import type { KeptUse, KeptVehicle } from '../../api/types.gen.ts';
import { ChangeSheet } from '../../form/change-sheet.tsx';
import type { Field, Values } from '../../form/fields.ts';
import styles from '../../use/use.module.css';
import { VehicleForm } from '../../use/VehicleForm.tsx';
import { changedUse, rowsOfUse, typedUse } from './typed-use.ts';

interface ActsProps<T> {
  readonly engineId: string;
  readonly onKept: (kept: T) => void;
  readonly onRemoved: () => void;
}

function ChangeAndRemove({
  name,
  onChange,
  onRemove,
}: {
  readonly name: string;
  readonly onChange: () => void;
  readonly onRemove: () => void;
}) {
  return (
    <>
      <Button variant="default" size="xs" aria-label={`Change ${name}`} onClick={onChange}>
        Change
      </Button>
      <Button variant="default" size="xs" aria-label={`Remove ${name}`} onClick={onRemove}>
        Remove
      </Button>
    </>
  );
}

/** Adding, changing and removing the vehicles of an engine. */
export function VehicleActs({
  engineId,
  vehicle,
  onKept,
  onRemoved,
}: ActsProps<KeptVehicle> & { readonly vehicle: KeptVehicle | null }) {
  const [open, setOpen] = useState<'new' | 'change' | null>(null);
  const remove = useChange(
    (one: KeptVehicle) => ask('DELETE /vehicles/{id}', { params: { id: one.id } }),
    { done: 'The vehicle is removed.', after: onRemoved },
  );
  return (
    <div className={styles.acts}>
      <Button variant="default" size="xs" onClick={() => setOpen('new')}>
        Add a vehicle
      </Button>
      {vehicle !== null && (
        <ChangeAndRemove
          name={vehicle.name}
          onChange={() => setOpen('change')}
          onRemove={() => remove.mutate(vehicle)}
        />
      )}
      {open !== null && (
        <VehicleForm
          engineId={engineId}
          vehicle={open === 'new' ? null : vehicle}
          onKept={onKept}
          onClose={() => setOpen(null)}
        />
      )}
    </div>
  );
}

const USE_FIELDS: readonly Field[] = [
  { key: 'name', label: 'Name', kind: 'text', required: true },
  {
    key: 'rows',
    label: 'Speeds and time',
    kind: 'table',
    required: true,
    columns: ['Engine speed, rpm', 'Share of the time, %', 'Load, %'],
    hint: 'Such as 3000, 80, 40. Load empty: full. Shares are taken in proportion.',
  },
];

/** Adding, changing and removing uses of one's own: typed, or from a log. */
export function UseActs({
  engineId,
  use,
  onKept,
  onRemoved,
}: ActsProps<KeptUse> & { readonly use: KeptUse | null }) {
  const [open, setOpen] = useState<'new' | 'change' | null>(null);
  const params = { id: engineId };
  const keep = (name: string, written: Readonly<Record<string, unknown>>) =>
    ask('POST /engines/{id}/uses', { params, body: { name, written } });
  const log = useChange(
    async (file: File) => {
      const { name, written } = await putFile('POST /uses/from-log', undefined, file, {
        name: file.name,
      });
      return keep(name, written);
    },
    { done: (kept) => `${kept.name} is a use now.`, after: onKept },
  );
  const remove = useChange((one: KeptUse) => ask('DELETE /uses/{id}', { params: { id: one.id } }), {
    done: 'The use is removed.',
    after: onRemoved,
  });
  return (
    <div className={styles.acts}>
      <Button variant="default" size="xs" onClick={() => setOpen('new')}>
        Type a use
      </Button>
      <FileButton onChange={(file) => file !== null && log.mutate(file)}>
        {(props) => (
          <Button variant="default" size="xs" loading={log.isPending} {...props}>
            From a logged drive
          </Button>
        )}
      </FileButton>
      {use !== null && (
        <ChangeAndRemove
          name={use.name}
          onChange={() => setOpen('change')}
          onRemove={() => remove.mutate(use)}
        />
      )}
      {open === 'new' && (
        <ChangeSheet
          title="A use of one’s own"
          fields={USE_FIELDS}
          values={{}}
          saveLabel="Keep the use"
          save={async (values: Values) => {
            const written = typedUse(String(values.name ?? ''), String(values.rows ?? ''));
            // The same reader as the service's: a slip is said before anything is sent.
            orRefuse(readUse(written));
            return keep(String(values.name), written);
          }}
          done={(kept) => `${kept.name} is kept.`}
          after={onKept}
          onClose={() => setOpen(null)}
        />
      )}
      {open === 'change' && use !== null && (
        <ChangeSheet
          title={`Change ${use.name}`}
          fields={USE_FIELDS}
          values={{ name: use.name, rows: rowsOfUse(use.written) }}
          save={async (patch: Values) => {
            const name = String(patch.name ?? use.name);
            const rows = patch.rows === undefined ? undefined : String(patch.rows);
            const written = changedUse(use.written, { name, rows });
            orRefuse(readUse(written));
            return ask('PATCH /uses/{id}', { params: { id: use.id }, body: { name, written } });
          }}
          done={(kept) => `${kept.name} is changed.`}
          after={onKept}
          onClose={() => setOpen(null)}
        />
      )}
    </div>
  );
}
