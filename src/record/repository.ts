/**
 * What every later room may ask of the record, whatever database stands behind it.
 * Every writing method is one transaction, writes its event in it, and has reached the disk when it resolves.
 */
import type { PartLine, Sheet } from '../build/sheet/types.ts';
import type { UnitSystem } from '../units/types.ts';
import type { Comparison, PartTest } from './compared.ts';
import type { Finding, PullPeak } from './search/index.ts';
import type { ServiceEvent, ServiceReading } from './service.ts';
import type { SettingsTold } from './settings.ts';
import type {
  Build,
  BuildFile,
  Calibration,
  Cell,
  DayPlan,
  DaySummary,
  Decision,
  Engine,
  EntityName,
  HandOverKept,
  Id,
  Ladder,
  Mapping,
  Pull,
  RecordEvent,
  Shop,
  ShopSummary,
  StoredFile,
  StoredRecording,
  TestDay,
  Tick,
} from './types.ts';
import type { KeptUse, KeptVehicle } from './uses.ts';

/** A new entity: what is left out takes the default that `defaults.ts` documents. */
export type New<T extends { id: Id }, Required extends keyof T> = Pick<T, Required> &
  Partial<Omit<T, 'id' | Required>> & {
    /** Only where the caller needs a known id (demo, tests). */
    readonly id?: Id;
  };
export type NewCell = New<Cell, 'name'>;
type NewMapping = New<Mapping, 'cellId' | 'shape' | 'answers'>;
export type NewEngine = New<Engine, 'name'>;
export type NewBuild = New<Build, 'engineId' | 'name'>;
export type NewDay = New<TestDay, 'buildId' | 'cellId'>;
/** `order` left out: after the day's last pull. */
export type NewPull = New<Pull, 'dayId'>;
export type NewLadder = New<Ladder, 'dayId'>;
export type NewDecision = New<Decision, 'ladderId' | 'use' | 'setting' | 'who' | 'why'>;
export type NewPlan = New<DayPlan, 'dayId' | 'version' | 'plan'>;
export type NewComparison = New<Comparison, 'engineId' | 'engineIds' | 'name' | 'sides' | 'said'>;
export type NewKeptVehicle = New<KeptVehicle, 'engineId' | 'name' | 'written'>;
export type NewKeptUse = New<KeptUse, 'engineId' | 'name' | 'written'>;
export type NewServiceEvent = New<ServiceEvent, 'engineId' | 'doneOn'>;
export type NewServiceReading = New<ServiceReading, 'engineId' | 'readOn'>;
export type NewPartTest = New<PartTest, 'dayId' | 'gainPercent' | 'repeatabilityPercent' | 'plan'>;
export type NewCalibration = New<Calibration, 'cellId' | 'doneOn' | 'who' | 'measured'>;
type Patch<T> = Partial<Omit<T, 'id'>>;

/** Who changes and, where the default sentence would say too little, what is being done. */
export interface Change {
  readonly who?: string;
  readonly summary?: string;
}

/** The same six verbs for each kind of entity. */
export interface Shelf<T, N, Parent> {
  /** Ordered as people read them (days and pulls in time order). Without a parent: all. */
  list(parent?: Parent): Promise<readonly T[]>;
  /** @throws InputError where there is no such id. */
  get(id: Id): Promise<T>;
  find(id: Id): Promise<T | null>;
  create(entity: N, change?: Change): Promise<T>;
  update(id: Id, patch: Patch<T>, change?: Change): Promise<T>;
  /** Removes it with everything under it; undo brings all of it back. */
  remove(id: Id, change?: Change): Promise<void>;
}

/** A file too large for memory: its digest and size are known, its bytes can be read from the start at any time. */
export interface SpooledFile {
  readonly sha256: string;
  readonly sizeBytes: number;
  read(): AsyncIterable<Uint8Array>;
}
export interface Import {
  readonly dayId: Id;
  readonly fileName: string;
  readonly bytes: Uint8Array | SpooledFile;
  readonly kind: StoredRecording['kind'];
  readonly rows: number;
  readonly shape: string;
  /** One per pull found, in file order; day, recording and file name are filled in. */
  readonly pulls: readonly Omit<NewPull, 'dayId' | 'recordingSha256' | 'fileName'>[];
}
export interface Imported {
  readonly recording: StoredRecording;
  readonly pulls: readonly Pull[];
  /** These very bytes were in the record with live pulls: nothing was written, `pulls` are those that have them. */
  readonly duplicate: boolean;
}

/** The sheet of a build as it stands; null: it has none yet. */
export interface KeptSheet {
  readonly buildId: Id;
  /** The event that touched it last; 0: none ever. A save says which version it was made from. */
  readonly version: number;
  readonly sheet: Sheet | null;
}
export interface NewBuildFile extends Pick<BuildFile, 'buildId' | 'fileName'> {
  readonly section?: string | null;
  readonly caption?: string;
  readonly bytes: Uint8Array | SpooledFile;
  /** By the content of the file. */
  readonly mediaType: string;
}

/** A build whose sheet names a part by its serial. */
export interface PartHome {
  readonly engineId: Id;
  readonly engineName: string;
  readonly buildId: Id;
  readonly buildName: string;
  readonly lines: readonly {
    readonly section: string;
    readonly name: string;
    readonly serial: string;
    readonly note: string | null;
  }[];
  /** In the order of their dates. */
  readonly days: readonly {
    readonly id: Id;
    readonly name: string;
    readonly date: string | null;
    readonly pullCount: number;
  }[];
  readonly version: number;
  readonly sheet: Sheet;
}
export interface PartSerial extends Pick<PartLine, 'name'> {
  readonly serial: string;
  readonly section: string;
  readonly builds: number;
}

/** A derived result is found again only under the same recording, question and version of the computation. */
export interface DerivedKey {
  readonly recordingSha256: string;
  /** What was asked, as canonical text (span, options); its digest is the key. */
  readonly question: string;
  readonly version: number;
}

export interface DerivedResult {
  readonly key: DerivedKey;
  readonly result: unknown;
}

/** One engine or many with all under them, as rows by kind of entity, and what bytes they rest on. */
export interface Portion {
  /** Settings of the shop, where the whole of it goes. */
  readonly shop?: Shop;
  readonly rows: Readonly<
    Partial<Record<Exclude<EntityName, 'shop'>, readonly Readonly<Record<string, unknown>>[]>>
  >;
  readonly recordings: readonly StoredRecording[];
  readonly files: readonly StoredFile[];
}
/** What taking a portion in would do. */
export interface PortionLook {
  /** Rows by kind of entity that are not here yet. */
  readonly fresh: Readonly<Partial<Record<EntityName, number>>>;
  /** Rows that stand here already, alike. */
  readonly known: number;
  /** What stands here otherwise: while there is one, nothing is taken in. */
  readonly conflicts: readonly { readonly sentence: string }[];
  readonly settings: SettingsTold;
}
/** The bytes of a recording or file by their SHA-256. */
export type PortionBytes = (sha256: string) => Promise<Uint8Array | SpooledFile>;

export interface PullbookRecord {
  /** Folder of the database, absolute. */
  readonly folder: string;
  /** true while nothing was ever recorded in it, when it was opened. */
  readonly isNew: boolean;
  readonly shop: {
    get(): Promise<Shop>;
    update(patch: Partial<Shop>, change?: Change): Promise<Shop>;
  };
  readonly cells: Shelf<Cell, NewCell, never>;
  readonly mappings: Shelf<Mapping, NewMapping, { cellId: Id }> & {
    findByShape(cellId: Id, shape: string): Promise<Mapping | null>;
    /** Makes or replaces the answers for this cell and shape. */
    put(cellId: Id, shape: string, answers: Mapping['answers'], change?: Change): Promise<Mapping>;
  };
  readonly engines: Shelf<Engine, NewEngine, never>;
  readonly builds: Shelf<Build, NewBuild, { engineId: Id }>;
  /** A new day gets its spark-lead ladder in the same change. */
  readonly days: Shelf<TestDay, NewDay, { buildId: Id }>;
  readonly pulls: Shelf<Pull, NewPull, { dayId: Id }> & {
    /** Many pulls in one change (a pasted table). */
    updateMany(
      patches: readonly { readonly id: Id; readonly patch: Patch<Pull> }[],
      change?: Change,
    ): Promise<readonly Pull[]>;
  };
  readonly ladders: Shelf<Ladder, NewLadder, { dayId: Id }>;
  readonly decisions: Shelf<Decision, NewDecision, { ladderId: Id }>;
  readonly recordings: {
    find(sha256: string): Promise<StoredRecording | null>;
    /** The file as it came. @throws InputError unknown; StoreError when the bytes no longer match their digest. */
    bytes(sha256: string): Promise<Uint8Array>;
    /** The same in pieces of at most 1 MiB; the digest is checked as the last piece is handed out. */
    pieces(sha256: string): AsyncIterable<Uint8Array>;
    /** Live pulls that have these bytes. */
    pulls(sha256: string): Promise<readonly Pull[]>;
    /** Stores bytes and pulls in one transaction, or answers with the pulls that have the bytes already. */
    import(from: Import, change?: Change): Promise<Imported>;
  };
  readonly sheets: {
    /** @throws NotInRecordError where there is no such build. */
    get(buildId: Id): Promise<KeptSheet>;
    /**
     * Makes or replaces the sheet of a build. Its photos and files stay as they are, whatever the sheet names.
     * @throws FormatError naming the field; StaleSheetError where `from` is not the version that stands
     */
    save(buildId: Id, sheet: Sheet, from: number, change?: Change): Promise<KeptSheet>;
    /** A new build of the same engine as a copy of one, with its sheet, in which the changed sections are to be measured again. */
    startBuild(
      fromBuildId: Id,
      fresh: {
        readonly name: string;
        readonly notes?: string;
        readonly changed?: readonly string[];
        readonly id?: Id;
      },
      change?: Change,
    ): Promise<Build>;
    /** Every build whose sheet names this serial, in the order the builds were made. */
    withSerial(serial: string): Promise<readonly PartHome[]>;
    serials(): Promise<readonly PartSerial[]>;
  };
  /** Photos and files of a build and its sections, in the order in which they were put there. */
  readonly buildFiles: Pick<
    Shelf<BuildFile, never, { buildId: Id }>,
    'list' | 'get' | 'update' | 'remove'
  > & {
    /** Stores the bytes once and puts the file to the build; the same bytes stand once in a section (`isNew` false). */
    put(
      fresh: NewBuildFile,
      change?: Change,
    ): Promise<{ readonly file: BuildFile; readonly isNew: boolean }>;
  };
  readonly files: {
    find(sha256: string): Promise<StoredFile | null>;
    /** In pieces of at most 1 MiB; the digest is checked as the last piece is handed out. */
    pieces(sha256: string): AsyncIterable<Uint8Array>;
  };
  /** The newest of a day is the one that counts; older ones stay. */
  readonly plans: Shelf<DayPlan, NewPlan, { dayId: Id }> & {
    ticks(planId: Id): Promise<readonly Tick[]>;
    /** Ticks or unticks an item; `change.who` is who did, `at` when, now unless told. @returns all ticks of the plan */
    tick(
      planId: Id,
      itemId: string,
      ticked: boolean,
      change?: Change & { readonly at?: string },
    ): Promise<readonly Tick[]>;
    /** Many items that one person did, in one change. */
    tickAll(
      planId: Id,
      done: readonly { readonly itemId: string; readonly at: string }[],
      change?: Change,
    ): Promise<readonly Tick[]>;
    /** Changes the plan as it stands now, read and written in one. */
    revise(planId: Id, make: (plan: DayPlan) => unknown, change?: Change): Promise<DayPlan>;
  };
  readonly calibrations: Shelf<Calibration, NewCalibration, { cellId: Id }>;
  readonly comparisons: Shelf<Comparison, NewComparison, { engineId: Id }>;
  readonly vehicles: Shelf<KeptVehicle, NewKeptVehicle, { engineId: Id }>;
  readonly uses: Shelf<KeptUse, NewKeptUse, { engineId: Id }>;
  readonly partTests: Shelf<PartTest, NewPartTest, { dayId: Id }>;
  readonly serviceEvents: Shelf<ServiceEvent, NewServiceEvent, { engineId: Id }>;
  readonly serviceReadings: Shelf<ServiceReading, NewServiceReading, { engineId: Id }>;
  readonly portions: {
    /** What a portion would bring, and what of it stands here otherwise; nothing is written. */
    look(portion: Portion): Promise<PortionLook>;
    /** These engines, or all, with all under them and the cells they were tested on. */
    of(engineIds: readonly Id[] | 'all'): Promise<Portion>;
    /**
     * Takes a portion in with its ids, in one change that can be undone; what stands here already, alike, is passed over.
     * @throws ConflictError where something stands here otherwise; StoreError where bytes are not those of their digest
     */
    take(
      portion: Portion,
      bytes: PortionBytes,
      change?: Change,
    ): Promise<{
      readonly taken: number;
      readonly known: number;
      readonly settings: SettingsTold;
    }>;
  };
  /** Anything in the shop by words, days and peaks, whatever signs the text has. */
  search(
    text: string,
    how: { readonly units: UnitSystem; readonly limit: number },
  ): Promise<Finding>;
  /** The peaks that pulls are found by. */
  readonly peaks: {
    put(peaks: readonly PullPeak[]): Promise<void>;
    /** Days with pulls whose peaks are to be computed. */
    daysWithout(): Promise<readonly Id[]>;
  };
  readonly handOvers: Pick<
    Shelf<HandOverKept, never, { buildId: Id }>,
    'list' | 'get' | 'find' | 'remove'
  > & {
    keep(
      fresh: Omit<HandOverKept, 'id' | 'documentSha256' | 'partSha256'> & {
        readonly document: Uint8Array;
        readonly part: Uint8Array;
      },
      change?: Change,
    ): Promise<HandOverKept>;
    /** What was told, and what it was computed from, byte for byte as it was frozen. */
    texts(id: Id): Promise<{ readonly document: Uint8Array; readonly part: Uint8Array }>;
    /** The key that the shop signs with (PEM), made where there is none yet. */
    key(make: () => string): Promise<string>;
  };
  readonly derived: {
    find(key: DerivedKey): Promise<unknown | null>;
    /** All of them in one transaction, since each waits for the disk. */
    put(...results: readonly DerivedResult[]): Promise<void>;
  };
  readonly events: {
    /** Newest first. */
    list(page?: {
      readonly before?: number;
      readonly limit?: number;
    }): Promise<readonly RecordEvent[]>;
    get(id: number): Promise<RecordEvent>;
    /** Takes back one event, the newest that stands unless told. @throws InputError where a later change stands in the way, naming it. */
    undo(id?: number, change?: Change): Promise<RecordEvent>;
    /** Brings back an undone event, the one last undone unless told. */
    redo(id?: number, change?: Change): Promise<RecordEvent>;
  };
  summary(): Promise<ShopSummary>;
  /** Days of all builds of an engine, newest first. */
  daysOfEngine(engineId: Id): Promise<readonly DaySummary[]>;
  /** Whole files and rows still stand as they should. @throws StoreError when damaged. */
  check(): Promise<void>;
  /** Writes a whole, consistent copy to a new file while the record stays in use. */
  backup(toFile: string, progress?: (share: number) => void): Promise<void>;
  isClosed(): boolean;
  close(): Promise<void>;
}
