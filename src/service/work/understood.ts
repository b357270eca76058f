/** What was understood of a run file, as the interface publishes it. */
import type { Question, RememberedOptions, UnknownColumnsError } from '../../intake/index.ts';
import type { Channel, PullSpan, TorqueBasis } from '../../pull/index.ts';
import type { Reading } from './readings.ts';

export interface Understood {
  readonly fileName: string;
  readonly shape: string;
  readonly kind: 'time series' | 'speed table';
  readonly rows: number;
  readonly channels: readonly {
    readonly header: string;
    readonly quantity: string;
    readonly unit: string | null;
    readonly basis: TorqueBasis | null;
    readonly bank: number | null;
    readonly cylinder: number | null;
    readonly derivedFrom: string | null;
  }[];
  readonly spans: readonly PullSpan[];
  readonly questions: readonly Question[];
  readonly warnings: readonly string[];
  readonly answers: RememberedOptions;
}

export function understoodOf(
  fileName: string,
  { run, answers }: Reading,
  spans: readonly PullSpan[],
): Understood {
  const { recording, shape, questions } = run;
  return {
    fileName,
    shape: shape.fingerprint,
    kind: recording.kind,
    rows: recording.rows,
    channels: channelsOf(recording.channels),
    spans,
    questions,
    warnings: recording.warnings,
    answers,
  };
}

/** What was understood of a table that was refused because its columns are not known to be a run's. */
export function understoodSoFar(fileName: string, refused: UnknownColumnsError): Understood {
  return {
    fileName,
    shape: refused.shape.fingerprint,
    kind: 'time series',
    rows: refused.channels[0]?.values.length ?? 0,
    channels: channelsOf(refused.channels),
    spans: [],
    questions: [],
    warnings: [],
    answers: {},
  };
}

const channelsOf = (channels: readonly Channel[]): Understood['channels'] =>
  channels.map((channel) => ({
    header: channel.header,
    quantity: channel.quantity,
    unit: channel.unit,
    basis: channel.basis ?? null,
    bank: channel.bank ?? null,
    cylinder: channel.cylinder ?? null,
    derivedFrom: channel.derivedFrom ?? null,
  }));
