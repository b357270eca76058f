import { readdirSync, readFileSync, statSync } from 'node:fs';
import { join, resolve } from 'node:path';

const SRC = resolve(import.meta.dirname, '../../..');

/** Files of a folder of `src/`, or the one file; tests and fixtures left out. */
function filesOf(path: string): string[] {
  const whole = join(SRC, path);
  if (!statSync(whole).isDirectory()) return [whole];
  return readdirSync(whole).flatMap((name) => {
    if (statSync(join(whole, name)).isDirectory()) return filesOf(join(path, name));
    return /(?<!\.test|\.fixture)\.ts$/.test(name) ? [join(whole, name)] : [];
  });
}

/** A comment, a string, or what begins and ends a template and a place in it; a string never runs over its line. */
const TOKEN = /\/\*[\s\S]*?\*\/|\/\/[^\n]*|'((?:[^'\\\n]|\\.)*)'|"((?:[^"\\\n]|\\.)*)"|[`{}]/g;
/** A template up to its end or its next place. */
const PIECE = /((?:[^`\\$]|\\.|\$(?!\{))*)(`|\$\{)/gy;

/** The text of every string in these files of `src/`, templates in the pieces between their places. */
export function spokenParts(paths: readonly string[]): ReadonlySet<string> {
  const parts = new Set<string>();
  for (const file of paths.flatMap(filesOf)) partsIn(readFileSync(file, 'utf8'), parts);
  return parts;
}

function partsIn(code: string, parts: Set<string>): void {
  const keep = (text: string) => parts.add(text.replace(/\\(.)/g, '$1'));
  /** Of each template that is open, how many braces are open in its place. */
  const open: number[] = [];
  TOKEN.lastIndex = 0;
  const piece = () => {
    PIECE.lastIndex = TOKEN.lastIndex;
    const [, text, end] = PIECE.exec(code) ?? ['', '', '`'];
    keep(text!);
    if (end === '`') open.pop();
    TOKEN.lastIndex = Math.max(PIECE.lastIndex, TOKEN.lastIndex);
  };
  for (let found = TOKEN.exec(code); found !== null; found = TOKEN.exec(code)) {
    const [token, single, double] = found;
    if (single !== undefined || double !== undefined) keep((single ?? double)!);
    else if (token === '`') {
      open.push(0);
      piece();
    } else if (token === '{' && open.length > 0) open[open.length - 1]! += 1;
    else if (token === '}' && open.length > 0) {
      if (open.at(-1) === 0) piece();
      else open[open.length - 1]! -= 1;
    }
  }
}
