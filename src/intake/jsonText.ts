import { FormatError } from '../errors.ts';
import { quoted, shown } from './display.ts';
import { asBytes, decoderFor, sniffEncoding } from './encoding.ts';
import { allBytes, type OpenedSource, openSource, type RunSource } from './source.ts';
import { keyTwice } from './twiceKey.ts';

/** What is written by hand is no larger. */
export const LARGEST_BY_HAND = 16e6;

/**
 * A JSON file that somebody wrote by hand, parsed.
 * @throws InputError   there is no such file, or it cannot be read
 * @throws FormatError  it is not whole JSON, or a key stands twice
 */
export async function readJsonFile(
  source: RunSource,
  options: { readonly fileName: string; readonly format: string },
): Promise<unknown> {
  const { fileName, format } = options;
  const opened = await openSource(source, fileName);
  try {
    return jsonOf(await wholeText(opened, fileName), fileName, format);
  } finally {
    await opened.close();
  }
}

/** The whole of a text file, in whatever encoding it stands. */
export async function wholeText(opened: OpenedSource, fileName: string): Promise<string> {
  const guess = sniffEncoding(opened.head, fileName, opened.whole);
  const bytes = await allBytes(opened, fileName, LARGEST_BY_HAND);
  const one = (async function* () {
    yield bytes;
  })();
  const decoder = decoderFor(guess.encoding);
  let text = '';
  for await (const part of asBytes(one, guess)) text += decoder.decode(part, { stream: true });
  return text + decoder.decode();
}

/** @throws FormatError  with the line where the JSON breaks, as far as the runtime tells */
export function jsonOf(text: string, fileName: string, format: string): unknown {
  let value: unknown;
  try {
    value = JSON.parse(text);
  } catch (error) {
    const why = error instanceof Error ? error.message : String(error);
    const position = Number(/position (\d+)/.exec(why)?.[1] ?? Number.NaN);
    const before = Number.isNaN(position) ? null : text.slice(0, position).split('\n');
    throw new FormatError(
      `the file is not whole JSON (${shown(why, 100)}): look for a comma, a quote or a bracket that is missing or too many`,
      {
        file: fileName,
        ...(before === null ? {} : { line: before.length, column: before.at(-1)!.length + 1 }),
        expected: `JSON of the format ${format}`,
      },
      error,
    );
  }
  const twice = keyTwice(text);
  if (twice === null) return value;
  throw new FormatError(`${quoted(twice.key)} stands twice in the same place: keep one of them`, {
    file: fileName,
    line: twice.line,
    column: twice.column,
    found: quoted(twice.key),
    expected: 'each key once',
  });
}
