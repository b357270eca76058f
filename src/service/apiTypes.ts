/**
 * Types of the interface for the browser, written from the published OpenAPI document, so that the two
 * cannot part. What a computing room already has a type for is borrowed from there, not repeated.
 */

interface JsonSchema {
  readonly $ref?: string;
  readonly type?: string | readonly string[];
  readonly enum?: readonly unknown[];
  readonly anyOf?: readonly JsonSchema[];
  readonly oneOf?: readonly JsonSchema[];
  readonly allOf?: readonly JsonSchema[];
  readonly items?: JsonSchema;
  readonly prefixItems?: readonly JsonSchema[];
  readonly properties?: Readonly<Record<string, JsonSchema>>;
  readonly additionalProperties?: boolean | JsonSchema;
  readonly required?: readonly string[];
  readonly description?: string;
  readonly format?: string;
}
interface Operation {
  readonly summary?: string;
  readonly parameters?: readonly {
    name: string;
    in: string;
    required?: boolean;
    schema: JsonSchema;
  }[];
  readonly requestBody?: { content: Readonly<Record<string, { schema: JsonSchema }>> };
  readonly responses: Readonly<
    Record<string, { content?: Readonly<Record<string, { schema: JsonSchema }>> }>
  >;
}
export interface ApiDocument {
  readonly paths: Readonly<Record<string, Readonly<Record<string, Operation>>>>;
  readonly components: { readonly schemas: Readonly<Record<string, JsonSchema>> };
}

/** Schemas whose type a computing room owns, by the file that the browser may import. */
const BORROWED: Readonly<Record<string, readonly string[]>> = {
  '../../src/build/index.ts': ['PartStay', 'Plan', 'Sheet', 'SheetAnswer'],
  '../../src/compare/index.ts': [
    'CompareAnswer',
    'CompareInput',
    'PartAnswer',
    'PartPlan',
    'PeakSide',
    'PeaksAnswer',
  ],
  '../../src/figures.ts': ['FigureWanted', 'ReplayWanted'],
  '../../src/ladder/types.ts': [
    'LadderAnswer',
    'LadderInput',
    'NextMove',
    'SettingInterval',
    'UseAnswer',
    'UseRule',
  ],
  '../../src/numerics/spline.ts': ['SplineFit'],
  '../../src/pull/recording.ts': ['AirStandard', 'PullSpan', 'TorqueBasis'],
  '../../src/pull/types.ts': ['Banded', 'Curve', 'Mark', 'Peak'],
};
const borrowed = new Set(Object.values(BORROWED).flat());

/** The text of `web/api/types.gen.ts`. */
export function apiTypes(document: ApiDocument): string {
  const schemas = Object.entries(document.components.schemas)
    .filter(([name]) => !borrowed.has(name) && name !== 'StepAnswer')
    .sort(([a], [b]) => (a < b ? -1 : 1));
  return [
    '// Written by `npm run openapi` from the published OpenAPI document. Do not edit by hand.',
    ...Object.entries(BORROWED).map(
      ([file, names]) => `import type { ${names.join(', ')} } from '${file}';`,
    ),
    '',
    `export type { ${[...borrowed].sort().join(', ')} };`,
    '',
    ...schemas.flatMap(([name, schema]) => [
      ...(schema.description === undefined ? [] : [`/** ${schema.description} */`]),
      `export type ${name} = ${typeOf(schema)};`,
    ]),
    '',
    '/** Every route by method and path: what it takes and what it answers. */',
    'export interface Routes {',
    ...Object.entries(document.paths)
      .sort(([a], [b]) => (a < b ? -1 : 1))
      .flatMap(([path, operations]) =>
        Object.entries(operations).flatMap(([method, operation]) =>
          routeType(path, method, operation),
        ),
      ),
    '}',
    '',
  ].join('\n');
}

function routeType(path: string, method: string, operation: Operation): string[] {
  const params = (place: string) => {
    const found = (operation.parameters ?? []).filter((parameter) => parameter.in === place);
    if (found.length === 0) return 'undefined';
    const fields = found.map(
      ({ name, required, schema }) =>
        `readonly ${name}${required === true ? '' : '?'}: ${typeOf(schema)}`,
    );
    return `{ ${fields.join('; ')} }`;
  };
  const request = operation.requestBody?.content;
  const requestType =
    request === undefined
      ? 'undefined'
      : request['application/json'] === undefined
        ? 'Blob | Uint8Array'
        : typeOf(request['application/json'].schema);
  const good = Object.entries(operation.responses).find(([status]) => status.startsWith('2'))?.[1];
  const answer = good?.content;
  const answerType =
    answer === undefined
      ? 'undefined'
      : answer['application/json'] === undefined
        ? 'Blob'
        : typeOf(answer['application/json'].schema);
  return [
    ...(operation.summary === undefined ? [] : [`  /** ${operation.summary}. */`]),
    `  readonly '${method.toUpperCase()} ${path}': {`,
    `    readonly params: ${params('path')};`,
    `    readonly query: ${params('query')};`,
    `    readonly body: ${requestType};`,
    `    readonly answer: ${answerType};`,
    '  };',
  ];
}

function typeOf(schema: JsonSchema): string {
  if (schema.$ref !== undefined) return schema.$ref.slice(schema.$ref.lastIndexOf('/') + 1);
  const union = schema.anyOf ?? schema.oneOf;
  if (union !== undefined) return union.map(typeOf).join(' | ');
  if (schema.allOf !== undefined) {
    // A part that only describes says nothing about the type.
    const parts = schema.allOf.map(typeOf).filter((part) => part !== 'unknown');
    return parts.map((part) => (parts.length === 1 ? part : `(${part})`)).join(' & ');
  }
  if (schema.enum !== undefined) {
    const values = schema.enum.map((value) => JSON.stringify(value));
    return values.join(' | ');
  }
  const types = schema.type === undefined ? [] : [schema.type].flat();
  if (types.length === 0) return 'unknown';
  return types.map((type) => simpleType(type, schema)).join(' | ');
}

function simpleType(type: string, schema: JsonSchema): string {
  switch (type) {
    case 'integer':
      return 'number';
    case 'array':
      return schema.prefixItems === undefined
        ? `readonly (${typeOf(schema.items ?? {})})[]`
        : `readonly [${schema.prefixItems.map(typeOf).join(', ')}]`;
    case 'object':
      return objectType(schema);
    default:
      return type;
  }
}

function objectType(schema: JsonSchema): string {
  const required = new Set(schema.required);
  const fields = Object.entries(schema.properties ?? {}).map(([name, field]) => {
    const comment = field.description === undefined ? '' : `/** ${field.description} */ `;
    const key = /^[a-z]\w*$/i.test(name) ? name : `'${name}'`;
    return `${comment}readonly ${key}${required.has(name) ? '' : '?'}: ${typeOf(field)}`;
  });
  if (fields.length > 0) return `{ ${fields.join('; ')} }`;
  const rest = schema.additionalProperties;
  return typeof rest === 'object' ? `Readonly<Record<string, ${typeOf(rest)}>>` : '{}';
}
