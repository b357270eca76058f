import { describe, expect, it } from 'vitest';
import { readHeader } from './header.ts';

/** Header, quantity, unit; then what else it says. Names are common practice of the trade, no source. */
const HEADERS: readonly (readonly [string, string, string | null, Record<string, unknown>?])[] = [
  ['Time, s', 'time', 's'],
  ['Elapsed Time (ms)', 'time', 'ms'],
  ['t [min]', 'time', 'min'],
  ['Timestamp', 'time', null],
  ['Time hh:mm:ss.000', 'time', null],
  ['Time (hh:mm:ss)', 'time', null],
  ['Time, mm:ss.0', 'time', null],
  ['Date Time [dd/mm/yyyy HH:MM:SS]', 'time', null],
  ['Engine Speed, rpm', 'speed', 'rpm'],
  ['RPM', 'speed', 'rpm'],
  ['Eng Spd', 'speed', null],
  ['n/min-1', 'speed', 'rpm'],
  ['EngineSpeedRPM', 'speed', 'rpm'],
  ['Drehzahl [1/min]', 'speed', 'rpm'],
  ['régime (tr/min)', 'speed', 'rpm'],
  ['Crank Speed (Hz)', 'speed', 'Hz'],
  ['Speed (mph)', 'other', 'mph'],
  ['Turbo Speed (rpm)', 'other', 'rpm'],
  ['Torque (lb-ft)', 'torque', 'lb-ft'],
  ['Torque [Nm]', 'torque', 'N·m'],
  ['Torque, lb-ft', 'torque', 'lb-ft'],
  ['Torque lb-ft', 'torque', 'lb-ft'],
  ['Torque_Nm', 'torque', 'N·m'],
  ['Engine Torque / Nm', 'torque', 'N·m'],
  ['TQ', 'torque', null],
  ['Mom. (kgf·m)', 'torque', 'kgf·m'],
  ['Drehmoment [Nm]', 'torque', 'N·m'],
  ['couple (N·m)', 'torque', 'N·m'],
  ['par (Nm)', 'torque', 'N·m'],
  ['lb-ft', 'torque', 'lb-ft'],
  ['Torque Setpoint (Nm)', 'other', 'N·m'],
  ['Power (kW)', 'power', 'kW'],
  ['HP', 'power', 'hp'],
  ['Leistung (PS)', 'power', 'PS'],
  ['Power, lb-ft', 'other', 'lb-ft'],
  ['Lambda, -', 'lambda', '1'],
  ['λ 2', 'lambda', null, { bank: 2 }],
  ['Lambda 1', 'lambda', null, { bank: 1 }],
  ['Lambda Cyl 3', 'lambda', null, { cylinder: 3 }],
  ['Target Lambda', 'other', null],
  ['AFR Left', 'afr', null, { bank: 1 }],
  ['A/F Right', 'afr', null, { bank: 2 }],
  ['air_fuel_ratio', 'afr', '1'],
  ['EGT 1 (°F)', 'exhaustTemperature', '°F', { cylinder: 1 }],
  ['EGT8_C', 'exhaustTemperature', '°C', { cylinder: 8 }],
  ['Cyl 7 EGT', 'exhaustTemperature', null, { cylinder: 7 }],
  ['CHT 2 (F)', 'other', '°F'],
  ['Oil P', 'oilPressure', null],
  ['Oil (psi)', 'oilPressure', 'psi'],
  ['Oil Press [psig]', 'oilPressure', 'psig', { pressureReference: 'gauge' }],
  ['Oil Temp deg F', 'oilTemperature', '°F'],
  ['Öltemperatur [°C]', 'oilTemperature', '°C'],
  ['Wtr Temp', 'waterTemperature', null],
  ['Coolant', 'waterTemperature', null],
  ['Coolant Pressure', 'other', null],
  ['IAT', 'airTemperature', null],
  ['Inlet Air [°C]', 'airTemperature', '°C'],
  ['Air Temp F', 'airTemperature', '°F'],
  ['Baro (inHg)', 'barometer', 'inHg', { pressureReference: 'absolute' }],
  ['Luftdruck [mbar]', 'barometer', 'mbar'],
  ['RH', 'humidity', null],
  ['Humidity, %', 'humidity', '%'],
  ['Vapor Pressure (inHg)', 'other', 'inHg'],
  ['MAP (kPa)', 'manifoldPressure', 'kPa', { pressureReference: 'absolute' }],
  ['Boost (psi)', 'manifoldPressure', 'psi', { pressureReference: 'gauge' }],
  ['Fuel A (lb/hr)', 'fuelFlow', 'lb/h', { bank: 1 }],
  ['Fuel B lb/hr', 'fuelFlow', 'lb/h', { bank: 2 }],
  ['Fuel Return (kg/h)', 'fuelFlow', 'kg/h', { fuelPath: 'return' }],
  ['Fuel Press (psi)', 'other', 'psi'],
  ['Air Flow (CFM)', 'airFlow', 'ft³/min'],
  ['Airflow scfm', 'airFlow', 'ft³/min'],
  ['Spark Lead, deg', 'lead', 'deg'],
  ['Ign Timing (°BTDC)', 'lead', 'deg'],
  ['TPS (%)', 'throttle', '%'],
  ['Drosselklappe', 'throttle', null],
  ['Knock 3 (counts)', 'knock', 'counts', { cylinder: 3 }],
  ['BSFC (lb/hp-h)', 'other', 'lb/hp·h'],
  ['Correction Factor', 'other', null],
  ['"; DROP TABLE pulls;--', 'other', null],
  ['constructor', 'other', null],
];

describe('headers', () => {
  it.each(
    HEADERS.map(([header, quantity, unit, more]) => ({ header, quantity, unit, more: more ?? {} })),
  )('$header is $quantity in $unit', ({ header, quantity, unit, more }) => {
    const reading = readHeader(header);
    expect(reading.quantity).toBe(quantity);
    expect(reading.unit?.symbol ?? null).toBe(unit);
    expect(reading).toMatchObject(more);
  });

  it.each([
    ['Torque', 'unknown', 'unknown'],
    ['Torque Obs (lb-ft)', 'observed', 'unknown'],
    ['Raw Power (kW)', 'observed', 'unknown'],
    ['STD Power (hp)', 'SAE 60F dry', 'unknown'],
    ['Torque Corr SAE (lb-ft)', 'SAE J1349', 'unknown'],
    ['Torque SAE J1349 (Nm)', 'SAE J1349', 'unknown'],
    ['Leistung DIN (PS)', 'DIN 70020', 'unknown'],
    ['Power ISO 1585 [kW]', 'ISO 1585', 'unknown'],
    ['Inertia Comp Torque (lb-ft)', 'unknown', 'in'],
    ['Torque w/o inertia (Nm)', 'unknown', 'out'],
    ['Torque Observed, no inertia (Nm)', 'observed', 'out'],
    ['Uncorrected Torque', 'observed', 'unknown'],
  ])('%s holds air %s and inertia %s', (header, air, inertia) => {
    const reading = readHeader(header);
    expect(['torque', 'power']).toContain(reading.quantity);
    expect(reading.basis).toEqual({ air, inertia });
  });

  it('knows that corrected without a standard leaves a question', () => {
    expect(readHeader('Torque Corr (lb-ft)').correctedToWhat).toBe(true);
    expect(readHeader('Torque (corrected)').correctedToWhat).toBe(true);
    expect(readHeader('Torque STD Corr').correctedToWhat).toBe(false);
    expect(readHeader('Torque').correctedToWhat).toBe(false);
  });

  it('tells a unit it does not know from a remark', () => {
    expect(readHeader('Torque (furlongs)').unknownUnit).toBe('furlongs');
    expect(readHeader('Torque, furlongs').unknownUnit).toBe('furlongs');
    expect(readHeader('Torque', 'furlongs').unknownUnit).toBe('furlongs');
    expect(readHeader('Torque (left bank sensor)').unknownUnit).toBeNull();
  });

  it('takes the unit from a row of its own', () => {
    expect(readHeader('Torque', 'lb-ft').unit?.symbol).toBe('lb-ft');
    expect(readHeader('Oil', 'psi').quantity).toBe('oilPressure');
    expect(readHeader('Oil', '°F').quantity).toBe('oilTemperature');
    expect(readHeader('Torque', '[Nm]').unit?.symbol).toBe('N·m');
  });
});
