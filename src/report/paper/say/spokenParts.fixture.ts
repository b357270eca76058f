import { readdirSync, readFileSync, statSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { parseSync } from 'vite';

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

/** The text of every string in these files of `src/`, templates in the pieces between their places. */
export function spokenParts(paths: readonly string[]): ReadonlySet<string> {
  const parts = new Set<string>();
  const look = (node: unknown): void => {
    if (typeof node !== 'object' || node === null) return;
    const { type, value } = node as { readonly type?: unknown; readonly value?: unknown };
    if (type === 'Literal' && typeof value === 'string') parts.add(value);
    if (type === 'TemplateElement') parts.add((value as { readonly cooked: string }).cooked);
    for (const child of Object.values(node)) look(child);
  };
  for (const file of paths.flatMap(filesOf))
    look(parseSync(file, readFileSync(file, 'utf8')).program.body);
  return parts;
}
