/**
 * Stands in for `fflate` in the browser's side, where the writer of workbooks asks it to pack: a large file would go to a
 * worker made of a text, which our content security policy refuses. Packing here takes some milliseconds.
 */
import { strToU8, Zip, ZipPassThrough, type Zippable, zipSync } from 'fflate/browser';

// `Zip` and `ZipPassThrough` pack without a worker: the pictures of a replay go through them.
export { strToU8, Zip, ZipPassThrough, zipSync };

export function zip(files: Zippable, done: (error: Error | null, packed: Uint8Array) => void) {
  try {
    done(null, zipSync(files));
  } catch (error) {
    done(error instanceof Error ? error : new Error(String(error)), new Uint8Array());
  }
}
