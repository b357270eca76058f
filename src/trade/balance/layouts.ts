/**
 * Cranks and the share of reciprocating mass that is usually put on their bobweights. Shop-editable data: a layout is a
 * starting point, the crank's maker has the last word.
 */
export interface CrankLayout {
  readonly id: string;
  readonly name: string;
  readonly rodsPerThrow: number;
  /** Usual share of the reciprocating mass, and the span met in practice; null where no share is needed. */
  readonly reciprocatingShare: number | null;
  readonly shareRange: readonly [low: number, high: number] | null;
  /** Pins in order along the crank [crank degrees]; throws at equal distances. */
  readonly throwAnglesDeg: readonly number[];
  /** True where equal weights on all throws cancel (see throwResidual): bobweights then need only be equal. */
  readonly throwsCancel: boolean;
  readonly why: string;
  readonly source: string;
  /** F found at the source named, D derived here, M from memory: check before relying on it. */
  readonly tag: 'F' | 'D' | 'M';
}

export const CRANK_LAYOUTS: readonly CrankLayout[] = [
  {
    id: 'v8-cross-plane',
    name: '90° V8, cross-plane',
    rodsPerThrow: 2,
    reciprocatingShare: 0.5,
    shareRange: [0.5, 0.525],
    throwAnglesDeg: [0, 90, 270, 180],
    throwsCancel: false,
    why: 'Half of two cylinders at 90° is exactly what turns with the pin; without it a rocking couple stays. 51 to 52.5 % is overbalance.',
    source: 'S38, S39, S40, and derived; the overbalance figures from memory',
    tag: 'F',
  },
  {
    id: 'v8-single-plane',
    name: '90° V8, single-plane',
    rodsPerThrow: 2,
    reciprocatingShare: null,
    shareRange: null,
    throwAnglesDeg: [0, 180, 180, 0],
    throwsCancel: true,
    why: 'The throws cancel each other; equal bobweights, or none, show the same unbalance. Counterweights only relieve the bearings; a maker who asks for bobweights usually means 50 %.',
    source: 'derived from the symmetry of the throws; the 50 % from memory',
    tag: 'D',
  },
  {
    id: 'inline-4',
    name: 'inline 4, single-plane',
    rodsPerThrow: 1,
    reciprocatingShare: null,
    shareRange: null,
    throwAnglesDeg: [0, 180, 180, 0],
    throwsCancel: true,
    why: 'The throws cancel each other; bobweights are not needed.',
    source: 'derived from the symmetry of the throws',
    tag: 'D',
  },
  {
    id: 'inline-6',
    name: 'inline 6',
    rodsPerThrow: 1,
    reciprocatingShare: null,
    shareRange: null,
    throwAnglesDeg: [0, 120, 240, 240, 120, 0],
    throwsCancel: true,
    why: 'The throws cancel each other; bobweights are not needed.',
    source: 'derived from the symmetry of the throws',
    tag: 'D',
  },
  {
    id: 'inline-3',
    name: 'inline 3',
    rodsPerThrow: 1,
    reciprocatingShare: 0.5,
    shareRange: null,
    throwAnglesDeg: [0, 120, 240],
    throwsCancel: false,
    why: 'A rocking couple stays whatever the share; half of it splits the couple evenly between the two planes.',
    source: 'derived: half is the least of the larger remainder; the practice from memory',
    tag: 'M',
  },
  {
    id: 'v6-90-common-pin',
    name: '90° V6, two rods on a pin',
    rodsPerThrow: 2,
    reciprocatingShare: 0.5,
    shareRange: [0.366, 0.5],
    throwAnglesDeg: [0, 120, 240],
    throwsCancel: false,
    why: 'Makers differ: 36.6 % to 50 % are met. Ask for the crank’s own figure.',
    source: 'from memory, low confidence',
    tag: 'M',
  },
  {
    id: 'v6-90-split-pin',
    name: '90° V6, split pins, even firing',
    rodsPerThrow: 2,
    reciprocatingShare: 0.5,
    shareRange: [0.366, 0.5],
    throwAnglesDeg: [0, 120, 240],
    throwsCancel: false,
    why: 'Makers differ: 36.6 %, 46 % and 50 % are met. Ask for the crank’s own figure. Pins drawn at the middle of each pair.',
    source: 'from memory, low confidence',
    tag: 'M',
  },
  {
    id: 'v-twin',
    name: 'V twin on one pin',
    rodsPerThrow: 2,
    reciprocatingShare: 0.5,
    shareRange: [0.35, 0.66],
    throwAnglesDeg: [0],
    throwsCancel: false,
    why: 'At 90° half cancels the first order exactly; at narrower angles every share leaves some, and practice differs widely.',
    source:
      '90° derived; 35 to 65 % quoted to an owner (brufnut.de, crank_balance), else from memory',
    tag: 'M',
  },
  {
    id: 'single',
    name: 'single, or parallel twin with pistons together',
    rodsPerThrow: 1,
    reciprocatingShare: 0.5,
    shareRange: [0.5, 0.9],
    throwAnglesDeg: [0],
    throwsCancel: false,
    why: 'The share only chooses in which direction the engine shakes: up and down at a low one, to and fro at a high one. The frame decides.',
    source:
      '50 to 57 % (brufnut.de, crank_balance); 50 to 90 % for twins (victorylibrary.com, brit-bal)',
    tag: 'F',
  },
];
