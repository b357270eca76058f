/** Which calibrations of a cell hold on a day, what has fallen due by then, and what that means for a curve. */
import type { CellSetup, Mark } from '../../pull/index.ts';
import type { Calibration, Cell, Id, PullbookRecord } from '../../record/index.ts';
import {
  answerMeasured,
  calibrationDue,
  type DeadWeights,
  type DeadWeightsAnswer,
  type Due,
} from '../../trade/index.ts';

/** The newest calibration of one thing on or before a day. */
export interface Holding {
  readonly calibrationId: Id;
  /** `torque`, or the sensor by name. */
  readonly of: string;
  readonly doneOn: string;
  /** Seen from the day; null: it does not fall due. */
  readonly due: Due | null;
}

/** How the calibrations of a cell stand on a day. */
export interface CalibrationState {
  readonly cellId: Id;
  /** Null: the day has no date, so nobody can say which held. */
  readonly on: string | null;
  /** Null: none with dead weights is in the record on or before the day. */
  readonly torque: Holding | null;
  /** By name, each sensor that was ever beside a reference. */
  readonly sensors: readonly Holding[];
  /** What pulls, day and ladder say of it. */
  readonly remarks: readonly Mark[];
}

/** The state with the readings behind its torque, for a curve. */
export interface CalibrationOfDay {
  readonly state: CalibrationState;
  readonly torque: Calibration | null;
}

export async function calibrationOn(
  record: PullbookRecord,
  cell: Pick<Cell, 'id' | 'name'>,
  on: string | null,
): Promise<CalibrationOfDay> {
  return calibrationAmong(cell, await record.calibrations.list({ cellId: cell.id }), on);
}

/** @param calibrations  all of the cell, in the order of their days */
export function calibrationAmong(
  cell: Pick<Cell, 'id' | 'name'>,
  calibrations: readonly Calibration[],
  on: string | null,
): CalibrationOfDay {
  const newest = new Map<string, Calibration>();
  for (const one of calibrations) if (on !== null && one.doneOn <= on) newest.set(keyOf(one), one);
  const holding = (one: Calibration): Holding => ({
    calibrationId: one.id,
    of: one.measured.kind === 'sensor' ? one.measured.sensor : 'torque',
    doneOn: one.doneOn,
    due: dueOn(one, on!),
  });
  const torque = newest.get(TORQUE) ?? null;
  const sensors = [...newest]
    .filter(([key]) => key !== TORQUE)
    .map(([, one]) => holding(one))
    .sort((a, b) => (a.of < b.of ? -1 : 1));
  const held = torque === null ? null : holding(torque);
  const all = [...(held === null ? [] : [held]), ...sensors];
  const state: CalibrationState = {
    cellId: cell.id,
    on,
    torque: held,
    sensors,
    remarks: [
      ...all.flatMap((one) => pastDue(cell, one)),
      ...(on === null && calibrations.length > 0 ? [NO_DATE] : []),
    ],
  };
  return { state, torque };
}

/** When a calibration falls due, seen from a day; null: it does not. */
export function dueOn({ doneOn, intervalMonths }: Calibration, on: string): Due | null {
  return intervalMonths === null ? null : calibrationDue(doneOn, { months: intervalMonths }, on);
}

const TORQUE = '';
const keyOf = ({ measured }: Calibration) =>
  measured.kind === 'sensor' ? measured.sensor.trim().toLowerCase() : TORQUE;

const NO_DATE: Mark = {
  kind: 'calibration',
  severity: 'note',
  sentence:
    'The day has no date, so nobody can say which calibration of the cell held; the figure stated for the cell stands in.',
};

function pastDue({ name }: Pick<Cell, 'name'>, { of, due }: Holding): Mark[] {
  if (due === null || !due.isDue) return [];
  const days = -due.daysLeft;
  const when =
    days === 0
      ? 'on this very day'
      : `on ${due.dueIso}, ${days} ${days === 1 ? 'day' : 'days'} before this day`;
  return [
    {
      kind: 'calibration',
      severity: 'look again',
      sentence:
        of === 'torque'
          ? `The torque calibration of ${name} fell due ${when}: until it is done again nothing shows that its torque is right. Gains within the day do not rest on it.`
          : `The check of ${of} on ${name} fell due ${when}: hold it against a reference before it is relied on.`,
    },
  ];
}

/** What a curve takes of it; nothing where none holds, and the figure stated for the cell stands in. */
export function cellCalibration(
  cell: Pick<Cell, 'applyCalibration'>,
  { torque }: CalibrationOfDay,
): Pick<CellSetup, 'calibration'> {
  if (torque === null || torque.measured.kind !== 'dead weights') return {};
  const { zeroNm, gain, expanded, rangeNm } = answerOf(torque.measured);
  return {
    calibration: {
      doneOn: torque.doneOn,
      zeroNm,
      gain,
      expanded,
      mostNm: rangeNm[1],
      apply: cell.applyCalibration,
    },
  };
}

/** Every pull of a day asks for the same line. */
const answers = new WeakMap<DeadWeights, DeadWeightsAnswer>();

function answerOf(measured: DeadWeights): DeadWeightsAnswer {
  const known = answers.get(measured) ?? answerMeasured(measured);
  answers.set(measured, known);
  return known;
}

/** For the plan of a day: when the torque calibration falls due; null: there is none. */
export function planCalibration({ torque }: CalibrationState): {
  readonly isDue: boolean;
  readonly dueIso: string | null;
  readonly doneOn: string;
} | null {
  if (torque === null) return null;
  const { doneOn, due } = torque;
  return { isDue: due?.isDue ?? false, dueIso: due?.dueIso ?? null, doneOn };
}
