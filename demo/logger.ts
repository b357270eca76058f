import type { SimulatedDay, SimulatedPull } from './cell.ts';
import type { ChannelKey } from './knobs.ts';
import { lambdaOfPull } from './sweep.ts';

/** How one cell's logger writes its run files. */
export interface Dialect {
  readonly name: string;
  readonly extension: string;
  readonly delimiter: ',' | ';' | '\t' | '|';
  readonly decimal: '.' | ',';
  /** `Torque (lb-ft)`, `Torque [Nm]`, `Torque, lb-ft`, `Torque lb-ft`, or a row of units under the names. */
  readonly unitStands: 'round' | 'square' | 'comma' | 'space' | 'row';
  readonly system: 'us' | 'metric';
  readonly quoted: boolean;
  readonly byteOrderMark: boolean;
  readonly encoding: 'utf8' | 'latin1' | 'utf16le';
  readonly lineEnd: '\n' | '\r\n' | '\r';
  readonly time: 's' | 'ms' | 'clock';
  /** Lines before the header and after the last row, as they stand. */
  readonly preamble: readonly string[];
  readonly footer: readonly string[];
  /** Names that this logger gives its channels, where not the plain ones. */
  readonly names: Readonly<Partial<Record<ChannelKey, string>>>;
  /** Channels that this logger does not write. */
  readonly without: readonly ChannelKey[];
}

const PLAIN_METRIC: Dialect = {
  name: 'comma metric',
  extension: 'csv',
  delimiter: ',',
  decimal: '.',
  unitStands: 'comma',
  system: 'metric',
  quoted: true,
  byteOrderMark: true,
  encoding: 'utf8',
  lineEnd: '\n',
  time: 's',
  preamble: [],
  footer: [],
  names: {},
  without: [],
};

/** Ways of writing that cells really differ in; none is any maker's own format. */
export const DIALECTS = {
  'comma metric': PLAIN_METRIC,
  'comma us': {
    ...PLAIN_METRIC,
    name: 'comma us',
    unitStands: 'round',
    system: 'us',
    quoted: false,
    byteOrderMark: false,
    lineEnd: '\r\n',
  },
  'semicolon comma': {
    ...PLAIN_METRIC,
    name: 'semicolon comma',
    delimiter: ';',
    decimal: ',',
    unitStands: 'square',
    quoted: false,
    byteOrderMark: false,
    encoding: 'latin1',
    lineEnd: '\r\n',
  },
  'tab units row': {
    ...PLAIN_METRIC,
    name: 'tab units row',
    extension: 'txt',
    delimiter: '\t',
    unitStands: 'row',
    system: 'us',
    quoted: false,
    byteOrderMark: false,
  },
  'pipe clock': {
    ...PLAIN_METRIC,
    name: 'pipe clock',
    extension: 'log',
    delimiter: '|',
    unitStands: 'space',
    quoted: false,
    byteOrderMark: false,
    time: 'clock',
    lineEnd: '\r',
  },
  'wide metric': {
    ...PLAIN_METRIC,
    name: 'wide metric',
    extension: 'txt',
    delimiter: '\t',
    unitStands: 'round',
    quoted: false,
    byteOrderMark: true,
    encoding: 'utf16le',
    time: 'ms',
    lineEnd: '\r\n',
  },
} as const satisfies Record<string, Dialect>;

interface Form {
  readonly name: string;
  readonly unit: string;
  readonly decimals: number;
  /** Outside value of an inside one. */
  readonly outside: (inside: number) => number;
}

const same = (value: number) => value;
const percent = (value: number) => 100 * value;
const celsius = (kelvin: number) => kelvin - 273.15;
const fahrenheit = (kelvin: number) => (kelvin - 273.15) * 1.8 + 32;
const per = (factor: number) => (value: number) => value / factor;

const METRIC: Readonly<Record<ChannelKey, Form>> = {
  time: { name: 'Time', unit: 's', decimals: 3, outside: same },
  speed: { name: 'Engine Speed', unit: 'rpm', decimals: 1, outside: same },
  torque: { name: 'Torque', unit: 'N·m', decimals: 2, outside: same },
  lambda: { name: 'Lambda', unit: '-', decimals: 3, outside: same },
  lead: { name: 'Spark Lead', unit: 'deg', decimals: 1, outside: same },
  throttle: { name: 'Throttle', unit: '%', decimals: 0, outside: percent },
  oilPressure: { name: 'Oil Pressure', unit: 'kPa', decimals: 1, outside: per(1000) },
  oilTemperature: { name: 'Oil Temp', unit: '°C', decimals: 1, outside: celsius },
  waterTemperature: { name: 'Water Temp', unit: '°C', decimals: 1, outside: celsius },
  airTemperature: { name: 'Inlet Air Temp', unit: '°C', decimals: 1, outside: celsius },
  barometer: { name: 'Barometer', unit: 'kPa', decimals: 3, outside: per(1000) },
  humidity: { name: 'Humidity', unit: '%', decimals: 0, outside: percent },
  manifoldPressure: { name: 'Manifold Pressure', unit: 'kPa', decimals: 1, outside: per(1000) },
  fuelFlow: { name: 'Fuel Flow', unit: 'kg/h', decimals: 2, outside: per(1 / 3600) },
  exhaustTemperature: { name: 'EGT', unit: '°C', decimals: 0, outside: celsius },
  knock: { name: 'Knock', unit: 'counts', decimals: 0, outside: same },
};

/** Factors by definition: 1 lbf = 4.4482216152605 N, 1 ft = 0.3048 m, 1 lb = 0.45359237 kg, 1 inHg (0 °C) = 3386.389 Pa. */
const US: Readonly<Record<ChannelKey, Form>> = {
  ...METRIC,
  torque: { ...METRIC.torque, unit: 'lb-ft', outside: per(4.4482216152605 * 0.3048) },
  oilPressure: {
    ...METRIC.oilPressure,
    unit: 'psi',
    outside: per(4.4482216152605 / 0.0254 ** 2),
  },
  oilTemperature: { ...METRIC.oilTemperature, unit: '°F', outside: fahrenheit },
  waterTemperature: { ...METRIC.waterTemperature, unit: '°F', outside: fahrenheit },
  airTemperature: { ...METRIC.airTemperature, unit: '°F', outside: fahrenheit },
  barometer: { ...METRIC.barometer, unit: 'inHg', outside: per(3386.389) },
  fuelFlow: { ...METRIC.fuelFlow, unit: 'lb/h', outside: per(0.45359237 / 3600) },
  exhaustTemperature: { ...METRIC.exhaustTemperature, unit: '°F', outside: fahrenheit },
};

interface Written {
  readonly header: string;
  readonly unit: string;
  readonly cell: (row: number) => string;
}

/** The bytes of one pull's run file. */
export function runFileBytes(pull: SimulatedPull, dialect: Dialect): Uint8Array {
  const written = columnsOf(pull, dialect);
  const { delimiter } = dialect;
  const quote = (text: string) =>
    dialect.quoted || text.includes(delimiter) ? `"${text.replaceAll('"', '""')}"` : text;
  const lines = [...dialect.preamble];
  lines.push(written.map((column) => quote(headerOf(column, dialect))).join(delimiter));
  if (dialect.unitStands === 'row') {
    lines.push(written.map((column) => quote(column.unit)).join(delimiter));
  }
  for (let row = 0; row < pull.samples.rows; row++) {
    lines.push(written.map((column) => column.cell(row)).join(delimiter));
  }
  lines.push(...dialect.footer, '');
  const text = (dialect.byteOrderMark ? '\ufeff' : '') + lines.join(dialect.lineEnd);
  return new Uint8Array(Buffer.from(text, dialect.encoding));
}

function headerOf(column: Written, dialect: Dialect): string {
  if (column.unit === '') return column.header;
  switch (dialect.unitStands) {
    case 'round':
      return `${column.header} (${column.unit})`;
    case 'square':
      return `${column.header} [${column.unit}]`;
    case 'comma':
      return `${column.header}, ${column.unit}`;
    case 'space':
      return column.unit === '-' ? column.header : `${column.header} ${column.unit}`;
    case 'row':
      return column.header;
  }
}

function columnsOf(pull: SimulatedPull, dialect: Dialect): Written[] {
  const forms = dialect.system === 'us' ? US : METRIC;
  const number = (values: Float64Array, form: Form) => (row: number) => {
    const text = form.outside(values[row]!).toFixed(form.decimals);
    return dialect.decimal === ',' ? text.replace('.', ',') : text;
  };
  const columns: Written[] = [];
  for (const key of ORDER) {
    const values = pull.samples.values.get(key);
    if (dialect.without.includes(key)) continue;
    const form = { ...forms[key], name: dialect.names[key] ?? forms[key].name };
    if (key === 'exhaustTemperature') {
      pull.samples.exhaustK.forEach((channel, i) => {
        columns.push({
          header: `${form.name} ${i + 1}`,
          unit: form.unit,
          cell: number(channel, form),
        });
      });
    } else if (values !== undefined) {
      columns.push(
        key === 'time' && dialect.time !== 's'
          ? timeColumn(form.name, values, dialect.time)
          : { header: form.name, unit: form.unit, cell: number(values, form) },
      );
    }
  }
  return columns;
}

const ORDER: readonly ChannelKey[] = [
  'time',
  'speed',
  'torque',
  'lambda',
  'lead',
  'throttle',
  'oilPressure',
  'oilTemperature',
  'waterTemperature',
  'airTemperature',
  'barometer',
  'humidity',
  'manifoldPressure',
  'fuelFlow',
  'exhaustTemperature',
  'knock',
];

function timeColumn(header: string, timeS: Float64Array, form: 'ms' | 'clock'): Written {
  if (form === 'ms') {
    return { header, unit: 'ms', cell: (row) => (timeS[row]! * 1000).toFixed(0) };
  }
  const two = (value: number) => String(value).padStart(2, '0');
  return {
    header,
    unit: '',
    cell: (row) => {
      const ms = Math.round(timeS[row]! * 1000) + 37_812_000;
      const s = Math.floor(ms / 1000);
      const clock = `${two(Math.floor(s / 3600))}:${two(Math.floor(s / 60) % 60)}:${two(s % 60)}`;
      return `${clock}.${String(ms % 1000).padStart(3, '0')}`;
    },
  };
}

interface DayFiles {
  readonly files: readonly { readonly name: string; readonly bytes: Uint8Array }[];
  /** The text of `session.json` (format session/1) that goes with them. */
  readonly session: string;
  /** What is true, as plain data for `truth.json`. */
  readonly truth: string;
}

/** A simulated day as a folder of run files, a session file and its truth. */
export function toText(day: SimulatedDay, dialect: Dialect): DayFiles {
  const { knobs, truth } = day;
  const { engine } = knobs;
  const name = (pull: number) => `pull-${String(pull + 1).padStart(2, '0')}.${dialect.extension}`;
  const session = {
    pullbook: 'session/1',
    engine: {
      name: 'engine under test',
      cylinders: engine.cylinders,
      displacement: `${(engine.displacementM3 * 1000).toFixed(3)} L`,
      stroke: `${(engine.strokeM * 1000).toFixed(1)} mm`,
      compressionRatio: Number(engine.compressionRatio.toFixed(1)),
      fuel: 'gasoline',
    },
    cell: {
      inertia: `${knobs.inertiaKgM2.toFixed(4)} kg m^2`,
      calibration: `${knobs.calibrationSdPercent} %`,
      sensorLag: `${knobs.sensorLagS.toFixed(3)} s`,
      ...(knobs.brakeRatio === 1 ? {} : { ratio: knobs.brakeRatio }),
    },
    standard: 'SAE J1349',
    band: knobs.bandRpm.map((rpm) => `${rpm} rpm`),
    pulls: knobs.leadsDeg.map((lead, pull) => ({
      file: name(pull),
      lead: `${lead} deg`,
      lambda: lambdaOfPull(knobs, pull),
      watched: knobs.limit?.channel ? 'sensor' : 'not',
    })),
  };
  const from = Math.floor(truth.bestLeadOverBandDeg) - 14;
  const leads = Array.from({ length: 31 }, (_, i) => from + i);
  const speeds: number[] = [];
  for (let rpm = Math.ceil(knobs.fromRpm / 100) * 100; rpm <= knobs.toRpm; rpm += 100) {
    speeds.push(rpm);
  }
  const told = {
    bestLeadOverBand: Number(truth.bestLeadOverBandDeg.toFixed(2)),
    limitLead: truth.limitLeadDeg === null ? null : Number(truth.limitLeadDeg.toFixed(2)),
    powerLossPercentByLead: Object.fromEntries(
      leads.map((lead) => [lead, Number(truth.lossPercent(lead).toFixed(3))]),
    ),
    torqueInStandardAirByRpm_Nm: speeds.map((rpm) => ({
      rpm,
      ...Object.fromEntries(
        knobs.leadsDeg.map((lead, pull) => [
          `pull-${String(pull + 1).padStart(2, '0')}`,
          Number(truth.torqueNm(rpm, lead).toFixed(2)),
        ]),
      ),
    })),
    offsetSdPercent: knobs.offsetSdPercent,
    offsetsPercent: truth.offsetsPercent,
    calibrationPercent: truth.calibrationPercent,
  };
  return {
    files: day.pulls.map((pull, i) => ({ name: name(i), bytes: runFileBytes(pull, dialect) })),
    session: `${JSON.stringify(session, null, 2)}\n`,
    truth: `${JSON.stringify(told, null, 2)}\n`,
  };
}
