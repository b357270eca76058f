import { describe, expect, it } from 'vitest';
import { openApiDocument } from './document.ts';

type Operation = {
  summary?: string;
  parameters?: { name: string; in: string }[];
  responses: Record<string, unknown>;
};

describe('the published document', () => {
  const document = openApiDocument() as unknown as {
    openapi: string;
    paths: Record<string, Record<string, Operation>>;
    components: { schemas: Record<string, unknown> };
  };

  it('names nothing that it does not define', () => {
    const text = JSON.stringify(document);
    const named = [...text.matchAll(/"#\/components\/schemas\/(\w+)"/g)].map((match) => match[1]!);
    expect(named.length).toBeGreaterThan(50);
    expect([...new Set(named)].filter((name) => !(name in document.components.schemas))).toEqual(
      [],
    );
  });

  it('declares every parameter of every path, says what each route does, and how it refuses', () => {
    for (const [path, operations] of Object.entries(document.paths)) {
      const wanted = [...path.matchAll(/\{(\w+)\}/g)].map((match) => match[1]);
      for (const [method, operation] of Object.entries(operations)) {
        const inPath = (operation.parameters ?? []).filter((one) => one.in === 'path');
        expect(inPath.map((one) => one.name).sort(), `${method} ${path}`).toEqual(wanted.sort());
        expect(operation.summary, `${method} ${path}`).toMatch(/\w{3}/);
        expect(operation.responses.default, `${method} ${path}`).toBeDefined();
      }
    }
  });
});
