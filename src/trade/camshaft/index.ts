export * from './degreeWheel.ts';
export {
  advancedCentrelines,
  type CamEvents,
  type CamFromEvents,
  CENTRELINE_DEG,
  type Centrelines,
  camEvents,
  camFromEvents,
  centrelinesOfCard,
  DURATION_DEG,
  type Durations,
  type Lobe,
  lobeCentreDeg,
  valveOverlapDeg,
} from './events.ts';
export * from './liftCurve.ts';
export * from './pistonToValve.ts';
export * from './valveLift.ts';
