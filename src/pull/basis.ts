import { InputError } from '../errors.ts';
import { RAD_PER_S_PER_RPM } from '../trade/index.ts';
import { channelsOf, sideOf, speedChannel } from './channels.ts';
import type { AirStandard, Channel, Recording, TorqueBasis } from './recording.ts';
import type { AirWish, Aspiration, FitOptions, Mark, PullAir } from './types.ts';

/** The torque column to use, and what has to be done to it. */
export interface ChosenTorque {
  readonly channel: Channel;
  /** What the column holds. */
  readonly basis: TorqueBasis;
  /** Brake to crank: what the column is multiplied by. */
  readonly ratio: number;
  readonly marks: readonly Mark[];
}

/**
 * The torque column of a recording: observed before corrected before unknown, brake reading (inertia out)
 * before compensated, the file's own before computed from power; what no header says is taken from the cell.
 * @throws InputError when the recording has neither torque nor power
 */
export function chooseTorque(recording: Recording, { cell }: FitOptions): ChosenTorque {
  const torques = channelsOf(recording, 'torque');
  const candidates = torques.length > 0 ? [...torques] : fromPower(recording);
  const basisOf = (channel: Channel): TorqueBasis => ({
    air:
      channel.basis === undefined || channel.basis.air === 'unknown'
        ? cell.torqueIs.air
        : channel.basis.air,
    inertia:
      channel.basis === undefined || channel.basis.inertia === 'unknown'
        ? cell.torqueIs.inertia
        : channel.basis.inertia,
  });
  const rank = (channel: Channel): number => {
    const { air, inertia } = basisOf(channel);
    const airRank = air === 'observed' ? 0 : air === 'unknown' ? 2 : 1;
    const inertiaRank = inertia === 'out' ? 0 : inertia === 'in' ? 1 : 2;
    return 10 * airRank + inertiaRank;
  };
  const channel = candidates.reduce((best, next) => (rank(next) < rank(best) ? next : best));
  const marks: Mark[] = [];
  const note = (sentence: string) => marks.push({ kind: 'basis', severity: 'note', sentence });
  if (channel.derivedFrom !== undefined) {
    note(`Torque was computed from ${channel.derivedFrom}.`);
  }
  const atBrake =
    cell.ratio !== 1 && sideOf(channel) !== 'crank' && channel.derivedFrom === undefined;
  if (atBrake) {
    note(`Torque of the brake was multiplied by ${cell.ratio}, brake turns per crank turn.`);
  }
  return { channel, basis: basisOf(channel), ratio: atBrake ? cell.ratio : 1, marks };
}

function fromPower(recording: Recording): Channel[] {
  const powers = channelsOf(recording, 'power');
  if (powers.length === 0) {
    throw new InputError('The recording has neither torque nor power, so it has no curve.');
  }
  const speed = speedChannel(recording);
  return powers.map((power) => ({
    ...power,
    quantity: 'torque',
    derivedFrom: `${power.header} and ${speed.header}`,
    values: power.values.map((watts, row) => {
      const speedRpm = speed.values[row]!;
      return speedRpm > 0 ? watts / (speedRpm * RAD_PER_S_PER_RPM) : Number.NaN;
    }),
  }));
}

/** Factor from the column to the torque that is shown, with the standard that this amounts to. */
interface AirStep {
  readonly factor: number;
  readonly standard: AirStandard;
  readonly basis: TorqueBasis;
  readonly marks: readonly Mark[];
}

/**
 * What brings a column to the standard asked for. Observed: that standard's factor. Corrected by the logger
 * to the same standard: nothing, it is never corrected twice; to another: out by its factor and in by ours,
 * where the air is known. Unknown: nothing, and says so. Boosted or nitrous: observed unless correction was
 * asked for in so many words.
 */
export function airStep(
  basis: TorqueBasis,
  air: PullAir,
  aspiration: Aspiration,
  { standard, correctBoosted = false }: AirWish,
): AirStep {
  const held = aspiration !== 'natural' && !correctBoosted && standard !== 'none';
  const wanted: AirStandard = held ? 'none' : standard;
  const marks: Mark[] = [];
  const note = (kind: Mark['kind'], sentence: string, severity: Mark['severity'] = 'note') =>
    marks.push({ kind, severity, sentence });
  if (held) {
    note(
      'boost',
      `The engine is ${aspiration === 'boosted' ? 'boosted' : 'on nitrous'}: observed figures are shown; ${standard} is written for natural aspiration and is there as an option.`,
    );
  }
  if (basis.air === 'unknown') {
    note(
      'basis',
      'Nobody has said whether this torque is observed or corrected, so it is shown as recorded and not corrected.',
      'look again',
    );
    return { factor: 1, standard: 'none', basis, marks };
  }
  const from: AirStandard = basis.air === 'observed' ? 'none' : basis.air;
  if (from === wanted) {
    if (from !== 'none') note('basis', `The logger has already corrected this torque to ${from}.`);
    return { factor: 1, standard: wanted, basis: { ...basis, air: shown(wanted) }, marks };
  }
  const [undo, apply] = [air.factors[from], air.factors[wanted]];
  if (undo === null || apply === null) {
    note(
      'air',
      `Air pressure and temperature were not recorded, so the torque could not be brought to ${wanted === 'none' ? 'observed' : wanted}; it is shown as ${from === 'none' ? 'observed' : `corrected by the logger to ${from}`}.`,
      'look again',
    );
    return { factor: 1, standard: from, basis, marks };
  }
  if (from !== 'none') {
    note(
      'basis',
      `The logger had corrected this torque to ${from}; that was taken out with this pull's air before anything else.`,
    );
  }
  return { factor: apply / undo, standard: wanted, basis: { ...basis, air: shown(wanted) }, marks };
}

const shown = (standard: AirStandard): TorqueBasis['air'] =>
  standard === 'none' ? 'observed' : standard;
