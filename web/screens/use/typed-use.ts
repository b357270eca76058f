import { readUse, writeUse } from '../../../src/compare/index.ts';
import { textOfRows } from '../../form/table-text.ts';

/** Typed lines as a file of the format use/1; a bare speed is in rpm, a bare share or load in percent. */
export function typedUse(name: string, text: string): Readonly<Record<string, unknown>> {
  const points = text
    .split('\n')
    .filter((line) => line.trim() !== '')
    .map((line) => {
      const cells = line.split(line.includes('\t') ? '\t' : /[,;]/);
      const [speed = '', share = '', load = ''] = cells.map((cell) => cell.trim());
      const withUnit = (one: string, unit: string) =>
        /^[\d.,]+$/.test(one) ? `${one} ${unit}` : one;
      return {
        speed: withUnit(speed, 'rpm'),
        share: withUnit(share, '%'),
        ...(load === '' ? {} : { load: withUnit(load, '%') }),
      };
    });
  return { format: 'use/1', name: name.slice(0, 80), points };
}

/** The table of a use that is kept: speed in rpm, share and load in percent; empty where it cannot be read any more. */
export function rowsOfUse(written: Readonly<Record<string, unknown>>): string {
  const read = readUse(written);
  if ('problems' in read) return '';
  const { points } = writeUse(read.value) as {
    readonly points: readonly Readonly<Record<'speed' | 'share' | 'load', string>>[];
  };
  const bare = (text: string) => text.replace(/ (rpm|%)$/, '');
  return textOfRows(
    points.map(({ speed, share, load }) => [speed, share, load].map((one) => bare(one))),
  );
}

/** A kept use after its form: a new name leaves its points as they were; points that were typed are its own. */
export function changedUse(
  before: Readonly<Record<string, unknown>>,
  { name, rows }: { readonly name: string; readonly rows: string | undefined },
): Readonly<Record<string, unknown>> {
  return rows === undefined ? { ...before, name: name.slice(0, 80) } : typedUse(name, rows);
}
