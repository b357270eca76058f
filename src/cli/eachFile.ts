import { type RefusedObject, refusedObject } from '../report/index.ts';
import { type CommandIo, EXIT, jsonLine } from './io.ts';
import { Progress } from './progress.ts';
import { showRefusal } from './show/look.ts';

/**
 * Answers files one after another: each by what `answer` prints of it, or by why it was refused; then the others go on.
 * @param answer  the published objects of a file
 * @param show    one of them in words
 * @returns the exit code: 1 where a file was refused
 */
export async function eachFile<T>(
  files: readonly string[],
  io: CommandIo,
  isJson: boolean,
  answer: (file: string, progress: Progress) => Promise<readonly T[]>,
  show: (object: T) => string,
): Promise<number> {
  let refused = false;
  const progress = new Progress(io);
  for (const [index, file] of files.entries()) {
    progress.file(file, index, files.length);
    try {
      const objects = await answer(file, progress);
      progress.clear();
      for (const one of objects) io.out(isJson ? jsonLine(one) : show(one));
    } catch (error) {
      if (io.signal.aborted) throw error;
      progress.clear();
      refused = true;
      sayRefused(refusedObject(file, error), io, isJson);
    }
  }
  return refused ? EXIT.refused : EXIT.done;
}

function sayRefused(object: RefusedObject, io: CommandIo, isJson: boolean): void {
  if (isJson) io.out(jsonLine(object));
  else io.err(showRefusal(object));
}
