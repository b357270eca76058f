/**
 * The build sheet as it is kept, written to a file and read back: what was measured, as it was typed.
 * Numbers stand in the unit that was typed beside them; inside units come in only where something is computed.
 */

/** How the engine is laid out: tells how many cylinders, journals and valves there are to measure. */
export interface Layout {
  readonly cylinders: number;
  readonly arrangement: Arrangement;
  /** Between the banks of a V; null where there is one bank. */
  readonly bankAngleDeg: number | null;
  readonly crank: CrankKind;
  readonly intakeValvesPerCylinder: number;
  readonly exhaustValvesPerCylinder: number;
  /** Null: as the arrangement usually has it. */
  readonly mainJournals: number | null;
  readonly rodJournals: number | null;
  readonly cycle: 2 | 4;
  readonly aspiration: SheetAspiration;
}
export type Arrangement = 'single' | 'inline' | 'V' | 'flat';
export type CrankKind = 'single-plane' | 'cross-plane' | 'other';
export type SheetAspiration = 'natural' | 'boosted' | 'nitrous';

/** Where a measurement is repeated. */
export type Place =
  | 'cylinder'
  | 'bank'
  | 'mainJournal'
  | 'rodJournal'
  | 'intakeValve'
  | 'exhaustValve';

/** Who measured, with what, when; and anything worth saying. */
export interface Provenance {
  readonly by?: string;
  readonly with?: string;
  /** `2026-05-17`. */
  readonly on?: string;
  readonly note?: string;
}

/** One value of a field that stands once on the sheet. */
export interface Entry extends Provenance {
  readonly value: number | string | boolean;
  /** As typed; left out where the field has none. */
  readonly unit?: string;
  /** Half width of what the value may be off by, in the same unit, taken as 95 %. */
  readonly plusMinus?: number;
}

/** The values of a field that is measured at each place; null where not measured. */
export interface EachEntry extends Provenance {
  readonly each: readonly (number | null)[];
  readonly unit?: string;
  readonly plusMinus?: number;
}

/** A free table (cam card, flow bench, fasteners): rows in the order typed, units by column. */
export interface Table extends Provenance {
  readonly units?: Readonly<Record<string, string>>;
  readonly rows: readonly Readonly<Record<string, number | string | boolean | null>>[];
}

/** A part by the shop's own name and serial, so that it can be followed from engine to engine. */
export interface PartLine {
  readonly name: string;
  /** The shop's own mark on it; parts with one keep a history over builds and engines. */
  readonly serial?: string;
  readonly note?: string;
}

/** What one section of the sheet holds. */
export interface SectionData {
  readonly values?: Readonly<Record<string, Entry | EachEntry>>;
  readonly tables?: Readonly<Record<string, Table>>;
  readonly parts?: readonly PartLine[];
  readonly notes?: string;
}

/** A photo or file that belongs to the sheet; its bytes stand in the record under their SHA-256. */
export interface Attachment {
  readonly sha256: string;
  readonly fileName: string;
  readonly section?: string;
  readonly note?: string;
}

/** The whole sheet of one build. */
export interface Sheet {
  readonly format: 'sheet/1';
  readonly name?: string;
  readonly layout: Layout;
  /** A use by its name in the shop; windows are chosen by it. */
  readonly use?: string;
  readonly sections: Readonly<Record<string, SectionData>>;
  readonly attachments?: readonly Attachment[];
}

export const isEach = (entry: Entry | EachEntry): entry is EachEntry => 'each' in entry;
