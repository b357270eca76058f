import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { formattedApiTypes } from './apiTypesFile.ts';

describe("the browser's types of the interface", () => {
  it('are current: run `npm run openapi` after a change of the contract', () => {
    const committed = join(import.meta.dirname, '..', '..', 'web', 'api', 'types.gen.ts');
    expect(readFileSync(committed, 'utf8')).toBe(formattedApiTypes());
  });
});
