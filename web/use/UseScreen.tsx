import { useDeferredValue, useMemo, useState } from 'react';
import {
  answerGearing,
  answerUse,
  answerVehicle,
  chosenUse,
  type DrawnCurves,
  draggedUse,
  drawnCurves,
  isShape,
  measuredPart,
  orRefuse,
  peakPowerRpm,
  readUse,
  readVehicle,
  shareAboveOf,
  type Use,
  type VehicleAnswer,
  vehicleUse,
} from '../../src/compare/index.ts';
import { tried } from '../compare/CompareScreen.tsx';
import type { Dragged, UseScreenProps } from './props.ts';
import { UseView } from './UseView.tsx';

const UNTOUCHED: Dragged = { aboveRpm: null, shareAbove: null, finalDrive: null };

/** What it is for, answered live: sliders follow the hand, their answers follow as soon as the browser has them. */
export function UseScreen(props: UseScreenProps) {
  const { input, chosen, uses, vehicles } = props;
  const [dragged, setDragged] = useState(UNTOUCHED);
  const settled = useDeferredValue(dragged);
  const curves = useMemo(() => tried(() => drawnCurves(input)), [input]);
  const kept = vehicles.find(({ id }) => id === chosen.vehicle) ?? null;
  const read = useMemo(
    () => (kept === null ? null : tried(() => orRefuse(readVehicle(kept.written)))),
    [kept],
  );
  const vehicle = useMemo(
    () =>
      read?.value == null || curves.value === null
        ? null
        : tried(() =>
            answerVehicle(
              {
                ...read.value.vehicle,
                finalDrive: settled.finalDrive ?? read.value.vehicle.finalDrive,
              },
              curves.value,
              chosen.goal,
            ),
          ),
    [read, curves, settled.finalDrive, chosen.goal],
  );
  const gearing = useMemo(
    () =>
      read?.value == null || curves.value === null
        ? null
        : tried(() => answerGearing(read.value.vehicle, curves.value.curves, chosen.goal)),
    [read, curves, chosen.goal],
  );
  const use = useMemo(
    () =>
      curves.value === null
        ? null
        : tried(() => chosenOf(chosen.use, uses, curves.value, vehicle?.value ?? null)),
    [chosen.use, uses, curves, vehicle],
  );
  const under = useMemo(
    () =>
      curves.value === null || use?.value == null
        ? null
        : tried(() => underUse(curves.value, use.value, settled)),
    [curves, use, settled],
  );
  if (curves.value === null)
    return (
      <p role="alert" className="lede">
        {curves.trouble}
      </p>
    );
  return (
    <UseView
      {...props}
      curves={curves.value}
      use={use?.value ?? null}
      answer={under?.value?.answer ?? null}
      trouble={use?.trouble ?? under?.trouble ?? null}
      vehicle={vehicle?.value ?? null}
      vehicleTrouble={read?.trouble ?? vehicle?.trouble ?? null}
      gearing={gearing?.value ?? null}
      assumed={read?.value?.assumed ?? []}
      dragged={dragged}
      own={{
        aboveRpm: under?.value?.aboveRpm ?? 0,
        shareAbove: under?.value?.shareAbove ?? 0,
        finalDrive: read?.value?.vehicle.finalDrive ?? null,
      }}
      onDrag={setDragged}
      settling={settled !== dragged}
    />
  );
}

/** The answer for a use as it is dragged, and where it stands by itself. */
function underUse(curves: DrawnCurves, use: Use, { aboveRpm, shareAbove }: Dragged) {
  const itself = answerUse(curves, use);
  const at = aboveRpm ?? itself.pairs[0]?.sensitivity?.aboveRpm ?? middleOf(use);
  const measured = measuredPart(use, curves.commonRpm);
  const own = shareAboveOf(measured, at);
  if (aboveRpm === null && shareAbove === null)
    return { answer: itself, aboveRpm: at, shareAbove: own };
  const moved = answerUse(
    curves,
    shareAbove === null ? measured : draggedUse(measured, at, shareAbove),
    { aboveRpm: at },
  );
  const { coverage, warnings } = itself;
  return { answer: { ...moved, coverage, warnings }, aboveRpm: at, shareAbove: own };
}

const middleOf = ({ points }: Use) => points[points.length >> 1]!.speedRpm;

/** The chosen use: one by name, a kept one, or the vehicle's own. */
function chosenOf(
  chosen: string | null,
  uses: UseScreenProps['uses'],
  curves: DrawnCurves,
  vehicle: VehicleAnswer | null,
): Use {
  if (vehicle !== null && (chosen === null || chosen === 'vehicle'))
    return vehicleUse(vehicle.vehicle.name, '1/4 mile', vehicle.builds[0]!.timeShare);
  const kept = uses.find(({ id }) => `kept:${id}` === chosen);
  if (kept !== undefined) return { ...orRefuse(readUse(kept.written)), name: kept.name };
  const name = chosen !== null && isShape(chosen) ? chosen : 'circuit';
  return chosenUse(name, peakPowerRpm(curves));
}
