import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';

/** Version of the package, read beside the built command or above the sources. */
export function version(): string {
  const here = import.meta.dirname;
  const file = [join(here, '..', 'package.json'), join(here, '..', '..', 'package.json')].find(
    (path) => existsSync(path),
  );
  if (file === undefined) return 'unknown';
  return (JSON.parse(readFileSync(file, 'utf8')) as { version: string }).version;
}
