/** What was understood of a run file, as the interface publishes it. */
import type { Question, RememberedOptions } from '../../intake/index.ts';
import type { PullSpan, TorqueBasis } from '../../pull/index.ts';
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
    channels: recording.channels.map((channel) => ({
      header: channel.header,
      quantity: channel.quantity,
      unit: channel.unit,
      basis: channel.basis ?? null,
      bank: channel.bank ?? null,
      cylinder: channel.cylinder ?? null,
      derivedFrom: channel.derivedFrom ?? null,
    })),
    spans,
    questions,
    warnings: recording.warnings,
    answers,
  };
}
