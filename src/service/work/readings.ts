/** Run files read with what is remembered of their shape, and the last few kept in memory. */
import { FormatError, InputError } from '../../errors.ts';
import {
  type ReadOptions,
  type RememberedOptions,
  type RunFile,
  type RunSource,
  readRunFile,
} from '../../intake/index.ts';
import type { Cell, Mapping, PullbookRecord, StoredRecording } from '../../record/index.ts';
import { readingOptions } from './context.ts';

export interface Reading {
  readonly run: RunFile;
  /** Everything that was told to intake beside the file's name. */
  readonly told: RememberedOptions;
  /** The remembered part of it. */
  readonly answers: RememberedOptions;
}

type Watch = Pick<ReadOptions, 'signal' | 'onProgress'>;

/** A file of this size is read from the record in pieces instead of whole. */
const WHOLE_BYTES = 64 * 1024 * 1024;
/** Values kept in memory over all kept files: 8 million doubles are 64 MB. */
const KEPT_VALUES = 8_000_000;

export class Readings {
  readonly #record: PullbookRecord;
  #turn: Promise<unknown> = Promise.resolve();
  readonly #kept = new Map<string, Promise<Reading>>();

  constructor(record: PullbookRecord) {
    this.#record = record;
  }

  /** One file at a time: reading is work of one thread, and two long files would need twice the memory. */
  fresh(
    source: () => RunSource,
    fileName: string,
    cell: Cell,
    fuel: string | null,
    watch: Watch = {},
  ): Promise<Reading> {
    const turn = this.#turn.then(() => {
      watch.signal?.throwIfAborted();
      return this.#fresh(source, fileName, cell, fuel, watch);
    });
    this.#turn = turn.catch(() => {});
    return turn;
  }

  /**
   * Reads a file that is not in the record yet. Its shape is known only after reading, so a file whose shape has
   * remembered answers is read again with them; one that is refused gets the answers of each known shape.
   * @throws FormatError when it is no run file.
   */
  async #fresh(
    source: () => RunSource,
    fileName: string,
    cell: Cell,
    fuel: string | null,
    watch: Watch,
  ): Promise<Reading> {
    const base = readingOptions(cell, fuel);
    const mappings = await this.#record.mappings.list({ cellId: cell.id });
    const readWith = async (mapping: Mapping | null): Promise<Reading> => {
      const answers = mapping?.answers ?? {};
      const told = { ...base, ...answers };
      return { run: await readRunFile(source(), { ...told, ...watch, fileName }), told, answers };
    };
    let plain: Reading;
    try {
      plain = await readWith(null);
    } catch (error) {
      if (!(error instanceof FormatError || error instanceof InputError)) throw error;
      for (const mapping of mappings) {
        const reading = await readWith(mapping).catch(() => null);
        watch.signal?.throwIfAborted();
        if (reading?.run.shape.fingerprint === mapping.shape) return reading;
      }
      throw error;
    }
    // The search must not hold on to the first reading: a long file would stand in memory twice.
    const { fingerprint } = plain.run.shape;
    const remembered = mappings.find(({ shape }) => shape === fingerprint);
    return remembered === undefined ? plain : readWith(remembered);
  }

  /** What is told to intake with a stored file of this cell. */
  async toldFor(
    recording: StoredRecording,
    cell: Cell | null,
    fuel: string | null,
  ): Promise<Omit<Reading, 'run'>> {
    if (cell === null) return { told: {}, answers: {} };
    const mapping = await this.#record.mappings.findByShape(cell.id, recording.shape);
    const answers = mapping?.answers ?? {};
    return { told: { ...readingOptions(cell, fuel), ...answers }, answers };
  }

  /** A stored file, read again or from memory. */
  async stored(
    recording: StoredRecording,
    { told, answers }: Omit<Reading, 'run'>,
  ): Promise<Reading> {
    const key = `${recording.sha256} ${JSON.stringify(told)}`;
    const kept = this.#kept.get(key);
    if (kept !== undefined) {
      // Last used goes last, so that the first is the one to let go.
      this.#kept.delete(key);
      this.#kept.set(key, kept);
      return kept;
    }
    const reading = this.#read(recording, told).then((run) => ({ run, told, answers }));
    this.#kept.set(key, reading);
    try {
      await reading;
    } catch (error) {
      this.#kept.delete(key);
      throw error;
    }
    await this.#letGo();
    return reading;
  }

  /** Remembers a file just read, so that its curve need not read it again. */
  async keep(recording: StoredRecording, reading: Reading): Promise<void> {
    this.#kept.set(`${recording.sha256} ${JSON.stringify(reading.told)}`, Promise.resolve(reading));
    await this.#letGo();
  }

  async #read(recording: StoredRecording, told: RememberedOptions): Promise<RunFile> {
    const { recordings } = this.#record;
    const source =
      recording.sizeBytes <= WHOLE_BYTES
        ? await recordings.bytes(recording.sha256)
        : recordings.pieces(recording.sha256);
    return readRunFile(source, { ...told, fileName: recording.fileName });
  }

  async #letGo(): Promise<void> {
    let values = 0;
    for (const [key, reading] of [...this.#kept].reverse()) {
      const run = (await reading.catch(() => null))?.run;
      values += (run?.recording.rows ?? 0) * (run?.recording.channels.length ?? 0);
      if (values > KEPT_VALUES) this.#kept.delete(key);
    }
  }
}
