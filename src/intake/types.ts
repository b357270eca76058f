import type { Quantity, Recording, TorqueBasis } from '../pull/recording.ts';

/** What the user said of columns, by header; remembered for the cell and the shape of its files. */
export interface ChannelMapping {
  readonly [header: string]: {
    readonly quantity: Quantity;
    /** A unit as people spell it; where given it wins over what the header says. */
    readonly unit?: string;
    /** Kept, but as `other`: nothing is computed from it. */
    readonly ignore?: boolean;
    readonly basis?: TorqueBasis;
    readonly pressureReference?: 'absolute' | 'gauge';
    readonly bank?: number;
    readonly cylinder?: number;
  };
}

export interface ReadOptions {
  /** Name shown in messages; its ending is a hint, the bytes decide. */
  readonly fileName: string;
  readonly mapping?: ChannelMapping;
  /** A drive logged in a vehicle: it needs no torque, only engine speed. */
  readonly isDrive?: boolean;
  /** Answers what headers leave open about torque and power; what a header says stands. */
  readonly torqueIs?: TorqueBasis;
  /**
   * Brake turns per crank turn. Where the only speed is the brake's by its header, the engine's is added beside it.
   * Torque stays as the file has it: the curve takes it to the crank.
   */
  readonly brakeRatio?: number;
  /** Name of the fuel, for AFR to lambda and volume to mass of fuel (`gasoline`, `E10`, `E85`, `ethanol`, `methanol`). */
  readonly fuel?: string;
  readonly fuelDensityKgM3?: number;
  /** `03/04/2026` is the third of April (true) or the fourth of March (false). */
  readonly dayFirst?: boolean;
  /** Name or 1-based number of the spreadsheet's page; the first with a table unless said. */
  readonly sheet?: string | number;
  /** Values kept in memory at most (rows × columns); longer files are averaged while they are read. */
  readonly maxValues?: number;
  readonly onProgress?: (doneBytes: number, totalBytes: number | null) => void;
  readonly signal?: AbortSignal;
}

/** The options that an answer can set; they can be stored as JSON and given again with the next file. */
export type RememberedOptions = Pick<
  ReadOptions,
  'mapping' | 'torqueIs' | 'brakeRatio' | 'fuel' | 'fuelDensityKgM3' | 'dayFirst'
>;

/** Something the file does not say. Asked once per cell and file shape; until answered the reading says so. */
export interface Question {
  /** Stable name: `torqueIs`, `unit:Torque`, `fuel`, `pressure:Boost`, `dayFirst`. */
  readonly key: string;
  /** Column it is about, or null. */
  readonly header: string | null;
  readonly sentence: string;
  /** What was taken meanwhile, in words. */
  readonly meanwhile: string;
  readonly choices: readonly { readonly label: string; readonly answer: RememberedOptions }[];
}

/** What two files of the same logger setup have in common. */
export interface FileShape {
  /** SHA-256 over format, delimiter, headers and units. */
  readonly fingerprint: string;
  readonly format: 'delimited text' | 'spreadsheet' | 'parquet';
  readonly delimiter: string | null;
  readonly headers: readonly string[];
}

export interface RunFile {
  readonly recording: Recording;
  readonly shape: FileShape;
  readonly questions: readonly Question[];
  /** Lines before the header and notes or footers between and after the rows, as they stand, at most 100. */
  readonly notes: readonly { readonly line: number; readonly text: string }[];
}

/** Columns as they stand in the file, before anybody asked what they mean. */
export interface RawTable {
  readonly format: FileShape['format'];
  readonly delimiter: string | null;
  /** Line of the header, null where there is none. */
  readonly headerLine: number | null;
  readonly headers: readonly string[];
  /** From a row of units, '' where it says nothing; null: no such row. */
  readonly unitRow: readonly string[] | null;
  readonly unitLine: number | null;
  readonly columns: readonly RawColumn[];
  readonly rows: number;
  readonly lineOfRow: Uint32Array;
  readonly notes: readonly { readonly line: number; readonly text: string }[];
  readonly warnings: readonly string[];
  /** Whether a date's day and month could be told apart. */
  readonly dayMonthOpen: boolean;
}

interface RawColumn {
  readonly kind: 'number' | 'clock' | 'text';
  /** Numbers as the file has them; clock times in seconds; NaN for words. */
  readonly values: Float64Array;
}

/** Values kept at most unless told otherwise: 18 million doubles are 144 MB. */
export const MAX_VALUES = 18_000_000;
/** More columns than any logger has channels. */
export const MOST_COLUMNS = 4096;
