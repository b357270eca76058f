import { defaultCell } from '../pull/index.ts';
import { AIR_STANDARDS, type AirStandard, type TorqueBasis } from '../pull/recording.ts';
import type { Aspiration, CellSetup, EngineSetup } from '../pull/types.ts';
import { standardNamed } from '../trade/index.ts';
import { parseSessionJson, type SessionNode } from './session-node.ts';

/** What a session's pulls step: one setting, or both at once. */
export const SESSION_SETTINGS = ['lead', 'lambda', 'both'] as const;
export type SessionSetting = (typeof SESSION_SETTINGS)[number];

/** A test day as a session file (`session/1` or `session/2`) gives it, quantities in inside units. */
export interface Session {
  /** What the pulls step; null: nobody said. */
  readonly setting: SessionSetting | null;
  /** Exhaust hotter than this is a limit reached [K]; null: not watched by temperature. */
  readonly exhaustLimitK: number | null;
  readonly engine: EngineSetup;
  readonly cell: CellSetup;
  readonly standard: AirStandard;
  /** Null: nobody chose one (a ladder of typed peaks has no speeds to choose from). */
  readonly bandRpm: readonly [number, number] | null;
  /** A use by name, or null: all shipped uses. */
  readonly use: string | null;
  /** ISO date, or null: a day of its own. */
  readonly day: string | null;
  readonly pulls: readonly SessionPull[];
  /** Keys that this version does not know, by their path: ignored, but said. */
  readonly warnings: readonly string[];
}

export interface SessionPull {
  /** Relative to the session file; null where the pull is given as figures alone. */
  readonly file: string | null;
  readonly leadDeg: number;
  readonly lambdaTarget: number | null;
  /** As read at this pull, typed; null: from the recording, where it has a channel. */
  readonly lambdaMeasured: number | null;
  /** Sd of that reading; null: nobody said. */
  readonly lambdaErrorSd: number | null;
  /** Jets by position, in words; pulls of one set of jets are one rung. */
  readonly jets: string | null;
  /** Held load [%]; null: full throttle. */
  readonly loadPercent: number | null;
  readonly peakPowerW: number | null;
  readonly peakTorqueNm: number | null;
  /** What typed peaks hold: as the cell's `torqueIs` unless the pull says otherwise. */
  readonly basis: TorqueBasis;
  readonly note: string | null;
  readonly excludedBecause: string | null;
  readonly group: string | null;
  readonly watched: 'ear' | 'plug' | 'sensor' | 'not' | null;
  /** true: heard somewhere; a number: at that speed [rev/min]; false: not heard, or nobody said. */
  readonly knockHeard: boolean | number;
  readonly aborted: boolean;
  /** What this pull's configuration says, by name; empty: as the day's. */
  readonly configuration: Readonly<Record<string, string>>;
}

/**
 * Reads a session file.
 * @throws FormatError  not JSON (with line and column), not `session/1`, or a key that is missing or wrong: the
 *                      message begins with its path (`pulls[2].lead`)
 */
export function readSession(text: string, fileName: string): Session {
  const root = parseSessionJson(text, fileName);
  const version = root.key('pullbook').text();
  if (version !== 'session/1' && version !== 'session/2')
    root
      .key('pullbook')
      .refuse(`"${version}" is not a version that can be read`, '"session/1" or "session/2"');
  const isSecond = version === 'session/2';
  const engine = readEngine(root.key('engine'));
  const cell = root.has('cell') ? readCell(root.key('cell')) : defaultCell();
  const standard = root.has('standard') ? readStandard(root.key('standard')) : 'SAE J1349';
  const bandRpm = root.has('band') ? readBand(root.key('band')) : null;
  const use = root.optionalText('use');
  const day = root.has('day') ? readDay(root.key('day')) : null;
  const list = root.key('pulls').items();
  if (list.length === 0) root.key('pulls').refuse('there are no pulls', 'at least one pull');
  const dayConfiguration = root.has('configuration')
    ? readConfiguration(root.key('configuration'))
    : {};
  const pulls = list.map((node) => ({
    ...readPull(node, cell.torqueIs, dayConfiguration),
    ...(isSecond ? readMixture(node) : NO_MIXTURE),
  }));
  return {
    setting: isSecond && root.has('setting') ? root.key('setting').oneOf(SESSION_SETTINGS) : null,
    exhaustLimitK:
      isSecond && root.has('exhaustLimit')
        ? root.key('exhaustLimit').quantity('temperature', 0)
        : null,
    engine,
    cell,
    standard,
    bandRpm,
    use,
    day,
    pulls,
    warnings: root.unread().map((path) => `"${path}" is not a key of ${version}: it was ignored.`),
  };
}

function readEngine(node: SessionNode): EngineSetup {
  const cycle = node.has('cycle') ? readCycle(node.key('cycle')) : 4;
  return {
    name: node.key('name').text(),
    cylinders: node.has('cylinders') ? node.key('cylinders').count(1, 48) : null,
    displacementM3: node.has('displacement') ? node.key('displacement').quantity('volume') : null,
    strokeM: node.has('stroke') ? node.key('stroke').quantity('length') : null,
    compressionRatio: node.has('compressionRatio')
      ? node.key('compressionRatio').number(1, 40)
      : null,
    cycle,
    aspiration: node.has('aspiration')
      ? node.key('aspiration').oneOf<Aspiration>(['natural', 'boosted', 'nitrous'])
      : 'natural',
    fuel: node.key('fuel').text(),
  };
}

function readCycle(node: SessionNode): 2 | 4 {
  const text = String(node.value).trim();
  const strokes = /^(?:(2|two)|(4|four))(?:[\s-]*strokes?)?$/i.exec(text);
  if (strokes === null) return node.refuse(`"${text}" is not a cycle`, '2 or 4 strokes');
  return strokes[1] === undefined ? 4 : 2;
}

function readCell(node: SessionNode): CellSetup {
  const unsaid = defaultCell();
  return {
    inertiaKgM2: node.has('inertia')
      ? node.key('inertia').quantity('inertia', 0)
      : unsaid.inertiaKgM2,
    sensorLagS: node.has('sensorLag')
      ? node.key('sensorLag').quantity('time', 0)
      : unsaid.sensorLagS,
    ratio: node.has('ratio') ? node.key('ratio').number(0.01, 100) : unsaid.ratio,
    torqueIs: node.has('torqueIs') ? readBasis(node.key('torqueIs')) : unsaid.torqueIs,
    calibrationRelSd: node.has('calibration')
      ? node.key('calibration').quantity('fraction', 0)
      : unsaid.calibrationRelSd,
  };
}

/** `"observed"`, `"SAE J1349, inertia in"`, or `{"air": "observed", "inertia": "out"}`. */
function readBasis(node: SessionNode): TorqueBasis {
  if (typeof node.value === 'object' && node.value !== null)
    return {
      air: node.has('air') ? readAir(node.key('air'), node.key('air').text()) : 'observed',
      inertia: node.has('inertia')
        ? node.key('inertia').oneOf<TorqueBasis['inertia']>(['in', 'out', 'unknown'])
        : 'out',
    };
  const text = node.text();
  const inertia = /[\s,;]*\binertia\s+(in|out)\s*$/i.exec(text);
  const air = inertia === null ? text : text.slice(0, inertia.index);
  return {
    air: air.trim() === '' ? 'observed' : readAir(node, air),
    inertia: inertia?.[1]?.toLowerCase() === 'in' ? 'in' : 'out',
  };
}

function readAir(node: SessionNode, text: string): TorqueBasis['air'] {
  const key = text.trim().toLowerCase();
  if (key === 'observed' || key === 'unknown') return key;
  const standard = standardNamed(key);
  return (
    standard ?? node.refuse(`"${text}" is not a standard`, `observed, ${AIR_STANDARDS.join(', ')}`)
  );
}

function readStandard(node: SessionNode): AirStandard {
  const text = node.text();
  return (
    standardNamed(text) ?? node.refuse(`"${text}" is not a standard`, AIR_STANDARDS.join(', '))
  );
}

function readBand(node: SessionNode): readonly [number, number] {
  const ends = node.items();
  if (ends.length !== 2) node.refuse(`${ends.length} speeds stand here`, 'two speeds');
  const from = ends[0]!.quantity('rotationalSpeed', 0);
  const to = ends[1]!.quantity('rotationalSpeed', 0);
  if (!(to > from)) node.refuse(`${from} to ${to} rpm is no band`, 'the lower speed first');
  return [from, to];
}

function readDay(node: SessionNode): string {
  const text = node.text();
  const isDate = /^\d{4}-\d{2}-\d{2}$/.test(text) && !Number.isNaN(Date.parse(text));
  return isDate ? text : node.refuse(`"${text}" is not a date`, 'a date such as "2026-05-17"');
}

function readConfiguration(node: SessionNode): Record<string, string> {
  if (typeof node.value === 'string') return { configuration: node.value };
  const entries = node.entries().map(([name, child]) => [name, child.text()] as const);
  return Object.fromEntries(entries);
}

type Mixture = Pick<SessionPull, 'lambdaMeasured' | 'lambdaErrorSd' | 'jets' | 'loadPercent'>;
const NO_MIXTURE: Mixture = {
  lambdaMeasured: null,
  lambdaErrorSd: null,
  jets: null,
  loadPercent: null,
};

/** What only session/2 says of a pull. */
function readMixture(node: SessionNode): Mixture {
  return {
    lambdaMeasured: node.has('lambdaMeasured') ? node.key('lambdaMeasured').number(0.3, 3) : null,
    lambdaErrorSd: node.has('lambdaError') ? node.key('lambdaError').number(0, 0.5) : null,
    jets: node.has('jets') ? readJets(node.key('jets')) : null,
    loadPercent: node.has('load') ? readLoad(node.key('load')) : null,
  };
}

/** Percent; full throttle is what stands where nobody says. */
function readLoad(node: SessionNode): number | null {
  const load = node.quantity('fraction', 0, 1);
  return load < 1 ? Number((100 * load).toFixed(3)) : null;
}

/** `"68"`, or by position: `{ "primary": 68, "secondary": 76 }`. */
function readJets(node: SessionNode): string {
  if (typeof node.value !== 'object' || node.value === null) return String(node.value).trim();
  return node
    .entries()
    .map(([position, child]) => `${position} ${String(child.value).trim()}`)
    .join(', ');
}

/** What differs from the day, in words, is for the ladder to say; here the two are laid over each other. */
function readPull(
  node: SessionNode,
  torqueIs: TorqueBasis,
  dayConfiguration: Record<string, string>,
): Omit<SessionPull, keyof Mixture> {
  const file = node.optionalText('file');
  const peakPowerW = node.has('peakPower') ? node.key('peakPower').quantity('power', 0) : null;
  const peakTorqueNm = node.has('peakTorque') ? node.key('peakTorque').quantity('torque', 0) : null;
  if (file === null && peakPowerW === null && peakTorqueNm === null)
    node.refuse('the pull has neither a file nor a peak', '"file", "peakPower" or "peakTorque"');
  return {
    file,
    leadDeg: node.key('lead').quantity('angle', -90, 180, 'deg'),
    lambdaTarget: node.has('lambda') ? node.key('lambda').number(0.3, 3) : null,
    peakPowerW,
    peakTorqueNm,
    basis: node.has('torqueIs') ? readBasis(node.key('torqueIs')) : torqueIs,
    note: node.optionalText('note'),
    excludedBecause: readExclude(node),
    group: node.optionalText('group'),
    watched: node.has('watched')
      ? node.key('watched').oneOf(['ear', 'plug', 'sensor', 'not'] as const)
      : null,
    knockHeard: readKnock(node),
    aborted: node.has('aborted') ? node.key('aborted').truth() : false,
    configuration: {
      ...dayConfiguration,
      ...(node.has('configuration') ? readConfiguration(node.key('configuration')) : {}),
    },
  };
}

function readExclude(node: SessionNode): string | null {
  if (!node.has('exclude')) return null;
  const child = node.key('exclude');
  if (typeof child.value === 'boolean') return child.truth() ? 'excluded, no reason given' : null;
  return child.text();
}

function readKnock(node: SessionNode): boolean | number {
  if (!node.has('knockHeard')) return false;
  const child = node.key('knockHeard');
  if (typeof child.value === 'boolean') return child.truth();
  return child.quantity('rotationalSpeed', 0, 100_000, 'rpm');
}
