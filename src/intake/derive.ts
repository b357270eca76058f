import type { Channel, TorqueBasis } from '../pull/recording.ts';
import { findFuel, fuelNamed, lambdaFromAfr } from '../trade/index.ts';
import { RAD_PER_S_PER_RPM } from '../trade/power.ts';
import type { Draft } from './channels.ts';
import { quoted } from './display.ts';
import { fuelQuestion } from './flow.ts';
import type { Question, ReadOptions } from './types.ts';

/**
 * The channels of the file with those that they imply: torque from power, lambda from AFR, one fuel flow from several. They say what
 * they come from. A fuel flow of several meters is put before those meters: the first channel of a quantity is the one
 * to use.
 */
export function deriveChannels(
  drafts: readonly Draft[],
  options: ReadOptions,
  warnings: string[],
  questions: Question[],
): Channel[] {
  const channels = drafts.map((draft) => draft.channel);
  for (const quantity of ['fuelFlow', 'airFlow'] as const) {
    const first = channels.findIndex((channel) => channel.quantity === quantity);
    if (first !== -1) channels.splice(first, 0, ...flowsOf(quantity, drafts, warnings));
  }
  const speed = crankSpeed(drafts, options, warnings);
  if (speed !== undefined) {
    if (speed.derivedFrom !== undefined)
      channels.splice(
        channels.findIndex((channel) => channel.quantity === 'speed'),
        0,
        speed,
      );
    channels.push(...torqueFromPower(drafts, speed, warnings));
  }
  channels.push(...lambdas(drafts, options, warnings, questions));
  return channels;
}

/** Whether a column holds anything at all. */
export function holdsNumbers({ values }: Channel): boolean {
  for (let row = 0; row < values.length; row++) if (!Number.isNaN(values[row]!)) return true;
  return false;
}

function combined(
  a: Float64Array,
  b: Float64Array,
  of: (a: number, b: number) => number,
): Float64Array {
  const values = new Float64Array(a.length);
  for (let row = 0; row < a.length; row++) values[row] = of(a[row]!, b[row]!);
  return values;
}

/** The engine's speed: the column that is not the brake's, else the brake's over its ratio to the crank. */
function crankSpeed(
  drafts: readonly Draft[],
  { brakeRatio = 1 }: ReadOptions,
  warnings: string[],
): Channel | undefined {
  const speeds = drafts.filter((draft) => draft.reading.quantity === 'speed');
  const atCrank = speeds.find((draft) => !draft.reading.atBrake) ?? speeds[0];
  if (atCrank === undefined || !atCrank.reading.atBrake || brakeRatio === 1)
    return atCrank?.channel;
  const { header, values } = atCrank.channel;
  warnings.push(
    `Engine speed is ${quoted(header)} over ${brakeRatio}, brake turns per crank turn.`,
  );
  return {
    header: `engine speed from ${header}`,
    quantity: 'speed',
    unit: null,
    values: values.map((rpm) => rpm / brakeRatio),
    derivedFrom: `${header} over ${brakeRatio}`,
  };
}

function torqueFromPower(drafts: readonly Draft[], speed: Channel, warnings: string[]): Channel[] {
  const torques = drafts.filter(
    (draft) => draft.reading.quantity === 'torque' && holdsNumbers(draft.channel),
  );
  const powers = drafts.filter(
    (draft) => draft.reading.quantity === 'power' && holdsNumbers(draft.channel),
  );
  if (torques.length === 0 && powers.length > 0) {
    warnings.push('The file has no torque: it was computed from power and speed.');
    return powers.map(({ channel }) => ({
      header: `torque from ${channel.header}`,
      quantity: 'torque',
      unit: null,
      values: combined(channel.values, speed.values, (powerW, speedRpm) =>
        speedRpm > 0 ? powerW / (speedRpm * RAD_PER_S_PER_RPM) : Number.NaN,
      ),
      derivedFrom: `${channel.header} and ${speed.header}`,
      basis: channel.basis as TorqueBasis,
    }));
  }
  return [];
}

/** Lambda for every AFR column that has no lambda column of its own bank or cylinder beside it. */
function lambdas(
  drafts: readonly Draft[],
  options: ReadOptions,
  warnings: string[],
  questions: Question[],
): Channel[] {
  const present = drafts.filter((draft) => draft.reading.quantity === 'lambda');
  const sources = drafts.filter(
    (draft) =>
      draft.reading.quantity === 'afr' &&
      !present.some(
        (lambda) =>
          lambda.channel.bank === draft.channel.bank &&
          lambda.channel.cylinder === draft.channel.cylinder,
      ),
  );
  if (sources.length === 0) return [];
  const fuel = options.fuel === undefined ? undefined : findFuel(options.fuel);
  const burned = fuel ?? fuelNamed('gasoline');
  const { name } = burned;
  const stoich = Number(burned.stoichiometricAfr.toPrecision(4));
  if (fuel === undefined) {
    warnings.push(
      `Lambda was computed from AFR as if for gasoline (${stoich}): ${options.fuel === undefined ? 'nobody has said which fuel ran' : `the fuel "${options.fuel}" is not known`}.`,
    );
    if (!questions.some((question) => question.key === 'fuel')) questions.push(fuelQuestion());
  }
  return sources.map(({ channel }) => ({
    header: `lambda from ${channel.header}`,
    quantity: 'lambda',
    unit: null,
    values: channel.values.map((afr) => lambdaFromAfr(afr, burned)),
    derivedFrom: `${channel.header} over ${stoich}, the stoichiometric ratio of ${name}`,
    ...(channel.bank === undefined ? {} : { bank: channel.bank }),
    ...(channel.cylinder === undefined ? {} : { cylinder: channel.cylinder }),
  }));
}

/** What the engine takes in: supply less return, or the sum of the meters, where no column holds it already. */
function flowsOf(
  quantity: 'fuelFlow' | 'airFlow',
  drafts: readonly Draft[],
  warnings: string[],
): Channel[] {
  const flows = drafts.filter((draft) => draft.reading.quantity === quantity);
  const name = quantity === 'fuelFlow' ? 'Fuel flow' : 'Air flow';
  const whole = flows.filter(
    ({ reading, channel }) => reading.fuelPath === null && channel.bank === undefined,
  );
  if (whole.length > 0 && !flows.some(({ reading }) => reading.fuelPath === 'return')) return [];
  const returns = flows.filter(({ reading }) => reading.fuelPath === 'return');
  const supplies = flows.filter(({ reading }) => reading.fuelPath === 'supply');
  if (returns.length > 0) {
    // Beside a return, a flow that says nothing more is what goes to the engine's rail.
    const into = supplies.length > 0 ? supplies : whole;
    if (into.length === 0) return [];
    const text = `${into.map(({ header }) => header).join(' + ')} less ${returns.map(({ header }) => header).join(' + ')}`;
    warnings.push(`${name} is ${text}.`);
    return [sumOf(quantity, into, returns, text)];
  }
  const banks = flows.filter(({ channel }) => channel.bank !== undefined);
  if (supplies.length === 0 && banks.length >= 2) {
    const text = banks.map(({ header }) => header).join(' + ');
    warnings.push(`${name} is ${text}.`);
    return [sumOf(quantity, banks, [], text)];
  }
  return [];
}

function sumOf(
  quantity: 'fuelFlow' | 'airFlow',
  added: readonly Draft[],
  taken: readonly Draft[],
  text: string,
): Channel {
  const values = new Float64Array(added[0]!.channel.values.length);
  for (const { channel } of added)
    for (let row = 0; row < values.length; row++) values[row] = values[row]! + channel.values[row]!;
  for (const { channel } of taken)
    for (let row = 0; row < values.length; row++) values[row] = values[row]! - channel.values[row]!;
  const header = quantity === 'fuelFlow' ? 'fuel flow' : 'air flow';
  return { header, quantity, unit: null, values, derivedFrom: text };
}
