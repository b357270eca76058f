import {
  airFlow,
  angle,
  area,
  choice,
  each,
  type FieldSpec,
  force,
  gap,
  lift,
  number,
  partMass,
  type SectionSpec,
  size,
  smallVolume,
  springRate,
  text,
} from './field.ts';

type Side = 'intake' | 'exhaust';
const SIDES: readonly Side[] = ['intake', 'exhaust'];
const NAMES: Readonly<Record<Side, string>> = { intake: 'Intake', exhaust: 'Exhaust' };
const VALVES = { intake: 'intakeValve', exhaust: 'exhaustValve' } as const;

/** The same field for the intake and the exhaust side. */
const both = (make: (side: Side, name: string) => FieldSpec): readonly FieldSpec[] =>
  SIDES.map((side) => make(side, NAMES[side]));

/** Test pressure of the bench: a difference, and so neither gauge nor absolute. */
const FLOW_DEPRESSION: FieldSpec = {
  id: 'flowDepression',
  label: 'Test depression',
  kind: 'quantity',
  dimension: 'pressure',
  shown: 'depression',
  low: 0,
  high: 5e4,
};

export const HEADS: SectionSpec = {
  id: 'heads',
  title: 'Heads',
  fields: [
    choice('material', 'Head material', ['iron', 'aluminium']),
    choice('chamber', 'Chamber', [
      'open wedge',
      'closed wedge',
      'bathtub',
      'hemispherical',
      'pent roof',
      'other',
    ]),
    each('cylinder', smallVolume('chamberVolume', 'Chamber volume')),
    ...both((side, name) => size(`${side}ValveDiameter`, `${name} valve head`)),
    ...both((side, name) => size(`${side}StemDiameter`, `${name} valve stem`)),
    ...both((side, name) => size(`${side}SeatDiameter`, `${name} seat, inner`)),
    ...both((side, name) => angle(`${side}SeatAngle`, `${name} seat angle`, { low: 0, high: 90 })),
    ...both((side, name) =>
      angle(`${side}ValveAngle`, `${name} valve from the bore`, {
        low: -60,
        high: 60,
        help: 'Between the valve stem and the bore centre line.',
      }),
    ),
    ...both((side, name) =>
      each(
        'cylinder',
        gap(`${side}ValveRecess`, `${name} valve above the head face`, {
          help: 'Lowest point of the closed valve, square to the face; negative where it hangs below.',
        }),
      ),
    ),
    ...both((side, name) =>
      each(VALVES[side], gap(`${side}GuideClearance`, `${name} guide clearance`)),
    ),
    area('intakePortArea', 'Intake port, smallest section'),
    angle('plugAngle', 'Plug from the bore', { low: -90, high: 90 }),
    FLOW_DEPRESSION,
    choice('flowIs', 'Flow bench reads', [
      ['volume', 'volume at bench air'],
      ['mass', 'mass, as volume of standard air'],
    ]),
  ],
  tables: [
    {
      id: 'flow',
      label: 'Flow bench',
      help: 'Flow at each lift at the depression above.',
      columns: [lift('lift', 'Lift'), airFlow('intake', 'Intake'), airFlow('exhaust', 'Exhaust')],
    },
  ],
};

export const CAMSHAFT: SectionSpec = {
  id: 'camshaft',
  title: 'Camshaft',
  fields: [
    choice('lifter', 'Lifter', [
      'hydraulic flat',
      'hydraulic roller',
      'solid flat',
      'solid roller',
      'overhead bucket',
      'overhead finger',
    ]),
    lift('checkingLift', 'Checking lift of the durations', {
      help: 'At the lifter; .050 in as the card usually says.',
    }),
    ...both((side, name) =>
      angle(`${side}Duration`, `${name} duration at checking lift`, { low: 50, high: 400 }),
    ),
    lift('seatLift', 'Lift of the seat durations', {
      help: 'At the lifter; .006 in for many hydraulic cards.',
    }),
    ...both((side, name) =>
      angle(`${side}SeatDuration`, `${name} seat duration`, { low: 50, high: 450 }),
    ),
    ...both((side, name) => lift(`${side}LobeLift`, `${name} lobe lift`)),
    angle('separation', 'Lobe separation', {
      low: 80,
      high: 140,
      help: 'In cam degrees, as the card says.',
    }),
    angle('advance', 'Ground in advance', {
      low: -20,
      high: 20,
      help: 'Plus advances: a 112 "plus four" has its intake centreline at 108.',
    }),
    angle('intakeCentreline', 'Intake centreline on the card', { low: 60, high: 160 }),
  ],
  tables: [
    {
      id: 'card',
      label: 'More lines of the card',
      help: 'Durations at other lifts, such as .200 in.',
      columns: [
        lift('lift', 'Lift at the lifter'),
        angle('intake', 'Intake', { low: 0, high: 450 }),
        angle('exhaust', 'Exhaust', { low: 0, high: 450 }),
      ],
    },
    {
      id: 'degreeWheel',
      label: 'Degree wheel, intake of cylinder 1',
      help: 'The same lift on the way up and on the way down; degrees after top dead centre.',
      columns: [
        lift('lift', 'Lift at the lifter'),
        angle('opening', 'On the way up'),
        angle('closing', 'On the way down'),
      ],
    },
  ],
};

export const VALVE_TRAIN: SectionSpec = {
  id: 'valveTrain',
  title: 'Valve train',
  fields: [
    ...both((side, name) =>
      number(`${side}RockerRatio`, `${name} rocker ratio`, { low: 0.5, high: 3 }),
    ),
    ...both((side, name) => gap(`${side}LashCold`, `${name} lash, cold`, { low: 0 })),
    ...both((side, name) => gap(`${side}LashHot`, `${name} lash, hot`, { low: 0 })),
    ...both((side, name) =>
      each(VALVES[side], gap(`${side}LashSet`, `${name} lash as set, cold`, { low: 0 })),
    ),
    gap('preload', 'Lifter preload', { low: 0, help: 'Of a hydraulic lifter, below its clip.' }),
    ...both((side, name) =>
      each(VALVES[side], lift(`${side}LiftMeasured`, `${name} valve lift, measured`)),
    ),
    springRate('springRate', 'Spring rate'),
    force('seatLoadWanted', 'Seat load wanted'),
    ...both((side, name) =>
      each(VALVES[side], force(`${side}SeatLoad`, `${name} spring, seat load measured`)),
    ),
    ...both((side, name) =>
      each(VALVES[side], force(`${side}OpenLoad`, `${name} spring, open load measured`)),
    ),
    ...both((side, name) =>
      each(VALVES[side], size(`${side}InstalledHeight`, `${name} installed height`, { high: 0.2 })),
    ),
    size('coilBindHeight', 'Height at coil bind', { high: 0.2 }),
    ...both((side, name) =>
      each(
        VALVES[side],
        gap(`${side}RetainerToSeal`, `${name} retainer to seal, valve closed`, { high: 0.05 }),
      ),
    ),
    ...both((side, name) => partMass(`${side}ValveMass`, `${name} valve weight`)),
    partMass('retainerMass', 'Retainer and locks weight'),
    partMass('springMass', 'Spring weight', { help: 'All springs of one valve.' }),
    partMass('rockerMassAtValve', 'Rocker, as weight at the valve', {
      help: 'Its inertia divided by the square of its arm at the valve.',
    }),
    partMass('lifterMass', 'Lifter weight'),
    partMass('pushrodMass', 'Pushrod weight'),
    size('pushrodLength', 'Pushrod length'),
    size('checkingPushrod', 'Checking pushrod, all lash taken up', {
      help: 'Length at which it just touches, the witness mark right and the adjuster in the middle.',
    }),
    text(
      'witness',
      'Witness mark on the valve tip',
      'Centred, towards the intake, towards the exhaust; how wide.',
    ),
    ...both((side, name) =>
      each('cylinder', gap(`${side}ToPiston`, `${name} valve to piston, measured`, { low: 0 })),
    ),
    ...both((side, name) =>
      gap(`${side}Radial`, `${name} valve to edge of its pocket`, { low: 0 }),
    ),
  ],
  tables: [
    {
      id: 'springCheck',
      label: 'Spring on the tester',
      help: 'Load at two or more heights gives the rate.',
      columns: [size('height', 'Height', { high: 0.2 }), force('load', 'Load')],
    },
  ],
};
