import type { Sheet } from '../../src/build/index.ts';
import { ServiceError } from '../api/client.ts';

/** Code of a refusal because somebody else saved meanwhile. */
export const STALE = 'stale';

/** How far a sheet is kept, as it stands beside undo. */
export type Keeping =
  | { readonly state: 'saved' | 'waiting' | 'saving' | 'conflict' }
  | { readonly state: 'trouble'; readonly sentence: string };

/** What the record answers to a save: the version that stands now. */
export type Save = (
  sheet: Sheet,
  from: number,
  leaving: boolean,
) => Promise<{ readonly version: number }>;

/**
 * Keeps a sheet while it is worked on: one save at a time, each from the version that the last one left, the newest
 * sheet only. Where somebody else saved meanwhile nothing is sent until the person has chosen.
 */
export class Saver {
  #version: number;
  #kept: Sheet;
  #now: Sheet;
  #busy = false;
  #keeping: Keeping = { state: 'saved' };
  readonly #save: Save;
  readonly #tell: (keeping: Keeping) => void;

  constructor(sheet: Sheet, version: number, save: Save, tell: (keeping: Keeping) => void) {
    this.#kept = sheet;
    this.#now = sheet;
    this.#version = version;
    this.#save = save;
    this.#tell = tell;
  }

  get isKept(): boolean {
    return this.#kept === this.#now;
  }

  /** The sheet as it stands now; it is sent with the next `send`. */
  hold(sheet: Sheet): void {
    this.#now = sheet;
    if (this.isKept || this.#keeping.state === 'conflict' || this.#busy) return;
    this.#say({ state: 'waiting' });
  }

  /** Sends what is not kept yet, then what came meanwhile. `leaving`: must go out although the page is closed. */
  async send(leaving = false): Promise<void> {
    if (this.isKept || this.#busy || this.#keeping.state === 'conflict') return;
    const sheet = this.#now;
    this.#busy = true;
    this.#say({ state: 'saving' });
    try {
      const { version } = await this.#save(sheet, this.#version, leaving);
      this.#version = version;
      this.#kept = sheet;
      this.#busy = false;
      this.#say({ state: this.isKept ? 'saved' : 'waiting' });
    } catch (error) {
      this.#busy = false;
      if (error instanceof ServiceError && error.code === STALE) this.#say({ state: 'conflict' });
      else
        this.#say({
          state: 'trouble',
          sentence: error instanceof Error ? error.message : String(error),
        });
      return;
    }
    if (!this.isKept) await this.send(leaving);
  }

  /** The person keeps their own sheet over the other one, which stood at this version. */
  async overwrite(version: number): Promise<void> {
    this.#version = version;
    this.#say({ state: 'waiting' });
    await this.send();
  }

  #say(keeping: Keeping): void {
    this.#keeping = keeping;
    this.#tell(keeping);
  }
}
