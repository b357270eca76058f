import type { Table } from './table.ts';

/** One table in a package, with where its file is. */
export interface Described {
  readonly table: Table;
  readonly path: string;
}

/**
 * A Data Package (Frictionless, specs.frictionlessdata.io) over CSV files: every column with its type, title and unit.
 * `unit` (UCUM) is a property of our own; the standard lets a field have more than it names.
 */
export function dataPackage(
  about: { readonly name: string; readonly title: string; readonly created: string },
  tables: readonly Described[],
): object {
  return {
    profile: 'tabular-data-package',
    ...about,
    resources: tables.map(({ table, path }) => ({
      profile: 'tabular-data-resource',
      name: table.name.toLowerCase(),
      path,
      title: table.title,
      description: table.description,
      format: 'csv',
      mediatype: 'text/csv',
      encoding: 'utf-8',
      dialect: {
        delimiter: ',',
        lineTerminator: '\r\n',
        quoteChar: '"',
        doubleQuote: true,
        header: true,
      },
      schema: {
        fields: table.columns.map(({ name, title, type, unit }) => ({
          name,
          title,
          type,
          ...(unit === null ? {} : { unit }),
        })),
        missingValues: [''],
      },
    })),
  };
}
