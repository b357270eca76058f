import { Link } from '@tanstack/react-router';
import type { CalibrationState, Cell, Configuration, TestDay } from '../../api/types.gen.ts';
import { setting } from '../../charts/numbers.ts';
import { CONFIGURATION_FIELDS } from '../../form/specs.ts';
import { Facts, useFigures } from '../../shell/figures.tsx';
import { dateInWords } from '../../shell/words.ts';

interface DayFactsProps {
  readonly day: TestDay;
  readonly cell: Cell;
  readonly calibration: CalibrationState;
}

/** What was true of the whole day: fuel, air, cell, and how the engine stood on it. */
export function DayFacts({ day, cell, calibration }: DayFactsProps) {
  const { figure } = useFigures();
  const maybe = (value: number | null, kind: 'temperature' | 'barometer' | 'inertia') =>
    value === null ? null : figure(value, kind);
  return (
    <Facts
      rows={[
        ['Cell', cell.name],
        ['Calibration of the cell', <CalibrationFact key="calibration" {...calibration} />],
        [
          'Inertia',
          maybe(day.inertiaKgM2, 'inertia') ??
            (cell.inertiaKgM2 === null ? (
              <Link to="/settings">not known; write it down</Link>
            ) : (
              `${figure(cell.inertiaKgM2, 'inertia')}, as for the cell`
            )),
        ],
        ['Fuel', day.fuel],
        ['Octane number', day.octane],
        ['Fuel batch', day.fuelBatch],
        ['Inlet temperature', maybe(day.inletTemperatureK, 'temperature')],
        ['Hottest inlet the owner will see', maybe(day.worstInletTemperatureK, 'temperature')],
        ['Worst octane the owner will use', day.worstOctane],
        ['Air temperature', maybe(day.airTemperatureK, 'temperature')],
        ['Barometer', maybe(day.airPressureAbsPa, 'barometer')],
        ['Humidity', day.airHumidity === null ? null : `${Math.round(day.airHumidity * 100)} %`],
        ['Lambda target', day.lambdaTarget === null ? null : setting(day.lambdaTarget, '')],
        ['Use', day.use],
        ['Reference day', day.isReference ? 'yes, it teaches how days differ' : null],
        ...CONFIGURATION_FIELDS.map(
          ({ key, label }) => [label, day.configuration[key as keyof Configuration]] as const,
        ),
      ]}
    />
  );
}

/** How the torque of the cell stood on the day. */
function CalibrationFact({ cellId, on, torque }: CalibrationState) {
  const words =
    torque === null
      ? on === null
        ? 'the day has no date'
        : 'none on or before this day'
      : `${dateInWords(torque.doneOn)}${torque.due?.isDue ? ', past due' : ''}`;
  return (
    <Link to="/cells/$id/calibrations" params={{ id: cellId }}>
      {words}
    </Link>
  );
}
