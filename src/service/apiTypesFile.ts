/** The browser's types as they stand in the tree, styled by the same tool as everything else. */
import { execFileSync } from 'node:child_process';
import { join } from 'node:path';
import { type ApiDocument, apiTypes } from './apiTypes.ts';
import { openApiDocument } from './contract/document.ts';

/** Text of `web/api/types.gen.ts`; only for the script that writes it and the test that compares it. */
export function formattedApiTypes(): string {
  const root = join(import.meta.dirname, '..', '..');
  return execFileSync(
    process.execPath,
    [
      join(root, 'node_modules', '@biomejs', 'biome', 'bin', 'biome'),
      'check',
      '--write',
      '--stdin-file-path=web/api/types.gen.ts',
    ],
    { cwd: root, input: apiTypes(openApiDocument() as unknown as ApiDocument), encoding: 'utf8' },
  );
}
