import { Button } from '@mantine/core';
import { Link } from '@tanstack/react-router';
import { useState } from 'react';
import type { UnitSystem } from '../../../src/units/types.ts';
import { useChange } from '../../api/changes.ts';
import { ask } from '../../api/client.ts';
import type { Cell, CellPatch, NewCell } from '../../api/types.gen.ts';
import { EditSheet } from '../../form/edit-sheet.tsx';
import type { Values } from '../../form/fields.ts';
import { BASIS_FIELDS, CELL_FIELDS } from '../../form/specs.ts';
import { useFigures } from '../../shell/figures.tsx';
import { nameOfStandard } from '../../shell/words.ts';
import { Heads } from '../../table/Heads.tsx';
import {
  numberColumn,
  quantityColumn,
  type TableModel,
  tableFrom,
  wordsColumn,
} from '../../table/model.ts';
import { TakeTable } from '../../table/TakeTable.tsx';
import take from '../../table/table.module.css';
import styles from './settings.module.css';

const AIR_WORDS = (air: string) =>
  air === 'observed'
    ? 'as observed'
    : air === 'unknown'
      ? 'air not known'
      : `corrected to ${nameOfStandard(air)}`;
const INERTIA_WORDS = {
  in: 'inertia put back',
  out: 'inertia not put back',
  unknown: 'inertia not known',
};

/** The test cells of the shop: what a curve must know of where it was made. */
export function Cells({ cells }: { cells: readonly Cell[] }) {
  const { figure, units } = useFigures();
  const [editing, setEditing] = useState<Cell | 'new' | null>(null);
  const close = () => setEditing(null);
  const edit = useChange(
    ({ id, body }: { id: string; body: CellPatch }) =>
      ask('PATCH /cells/{id}', { params: { id }, body }),
    { done: (cell) => `${cell.name} is changed; its curves follow.`, after: close },
  );
  const create = useChange((body: NewCell) => ask('POST /cells', { body }), {
    done: (cell) => `${cell.name} is in the shop.`,
    after: close,
  });
  const of = editing === 'new' || editing === null ? null : editing;
  return (
    <section className="panel" aria-labelledby="cells">
      <header>
        <h2 id="cells">Cells</h2>
        <span className={take.acts}>
          <Button variant="subtle" size="compact-sm" onClick={() => setEditing('new')}>
            New cell
          </Button>
          {cells.length > 0 && <TakeTable title="Cells" table={() => cellsTable(cells, units)} />}
        </span>
      </header>
      {cells.length === 0 ? (
        <p className="quiet">
          No cell yet. The first test day makes one; its inertia is worth writing down, since every
          sweep needs it.
        </p>
      ) : (
        <div className={styles.scroll}>
          <table className="sheet">
            <Heads
              of={[
                'Cell',
                'Inertia',
                'Sensor lag',
                'Brake turns per crank turn',
                'Torque column, where files do not say',
                'Calibration',
              ]}
              acts="Acts"
            />
            <tbody>
              {cells.map((cell) => (
                <tr key={cell.id}>
                  <th scope="row">{cell.name}</th>
                  <td>
                    {cell.inertiaKgM2 === null ? 'not known' : figure(cell.inertiaKgM2, 'inertia')}
                  </td>
                  <td>{cell.sensorLagS === null ? 'not known' : `${cell.sensorLagS} s`}</td>
                  <td>{cell.ratio}</td>
                  <td>
                    {AIR_WORDS(cell.torqueIs.air)}, {INERTIA_WORDS[cell.torqueIs.inertia]}
                  </td>
                  <td>
                    <Link to="/cells/$id/calibrations" params={{ id: cell.id }}>
                      Calibrations
                    </Link>{' '}
                    <span className="quiet">
                      ± {Number((cell.calibrationRelSd * 100).toFixed(2))} % stated
                    </span>
                  </td>
                  <td>
                    <Button
                      variant="default"
                      size="compact-xs"
                      aria-label={`Edit ${cell.name}`}
                      onClick={() => setEditing(cell)}
                    >
                      Edit
                    </Button>
                  </td>
                </tr>
              ))}
            </tbody>
          </table>
        </div>
      )}
      {editing !== null && (
        <EditSheet
          title={of === null ? 'New cell' : `Cell: ${of.name}`}
          fields={[...CELL_FIELDS, ...BASIS_FIELDS]}
          values={
            of === null
              ? { ratio: 1, calibrationRelSd: 0.005, air: 'unknown', inertia: 'unknown' }
              : { ...of, ...of.torqueIs }
          }
          sendUntouched={of === null}
          busy={edit.isPending || create.isPending}
          onClose={close}
          onSave={(patch) => {
            const body = cellBody(patch, of);
            if (of === null) create.mutate(body as NewCell);
            else edit.mutate({ id: of.id, body });
          }}
        />
      )}
    </section>
  );
}

const cellsTable = (cells: readonly Cell[], units: UnitSystem): TableModel =>
  tableFrom(cells, [
    wordsColumn('Cell', ({ name }) => name),
    quantityColumn('Inertia', 'inertia', units, ({ inertiaKgM2 }) => inertiaKgM2),
    numberColumn('Sensor lag', 's', ({ sensorLagS }) => sensorLagS),
    numberColumn('Brake turns per crank turn', '', ({ ratio }) => ratio),
    wordsColumn(
      'Torque column, where files do not say',
      ({ torqueIs }) => `${AIR_WORDS(torqueIs.air)}, ${INERTIA_WORDS[torqueIs.inertia]}`,
    ),
    numberColumn(
      'Calibration stated, standard deviation',
      '%',
      (cell) => cell.calibrationRelSd * 100,
    ),
  ]);

/** The two choices of what the torque column holds are one thing to the service. */
function cellBody({ air, inertia, ...patch }: Values, of: Cell | null): CellPatch {
  if (air === undefined && inertia === undefined) return patch as CellPatch;
  const now = of?.torqueIs ?? { air: 'unknown', inertia: 'unknown' };
  return {
    ...patch,
    torqueIs: { air: air ?? now.air, inertia: inertia ?? now.inertia },
  } as CellPatch;
}
