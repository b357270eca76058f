import { describe, expect, it } from 'vitest';
import { FormatError, InputError } from '../errors.ts';
import { readBuildFile } from './buildFile.ts';

const read = (text: string) => readBuildFile(new TextEncoder().encode(text), { fileName: 'build' });
const refused = async (text: string) => {
  const error = await read(text).catch((one: unknown) => one);
  expect(error).toBeInstanceOf(FormatError);
  return error as FormatError;
};

describe('a build file', () => {
  it('is told from a table by what it holds, and keeps what was typed', async () => {
    const json = await read(
      '\ufeff{"format":"sheet/1","layout":{"cylinders":1},"sections":{"crank":{"values":{"stroke":"84,0 mm"}}}}',
    );
    const csv = await read('section;field;value;unit\nlayout;cylinders;1\ncrank;stroke;84,0;mm\n');
    expect(json.sections).toEqual({ crank: { values: { stroke: { value: 84, unit: 'mm' } } } });
    expect(csv).toEqual(json);
  });

  it('that breaks off is refused with its line, as far as the runtime tells', async () => {
    const error = await refused(
      '{"format":"sheet/1",\n"layout":{"cylinders":1},\n"sections":{"crank":}}',
    );
    expect(error.message).toContain('not whole JSON');
    expect(error.place.file).toBe('build');
  });

  it('with a key twice is refused with its line: one of the two would be lost in silence', async () => {
    const error = await refused(
      '{"format":"sheet/1","layout":{"cylinders":1},"sections":{"crank":{"values":{\n"stroke":"84 mm",\n"stroke" : "85 mm"}}}}',
    );
    expect(error.place).toMatchObject({ line: 3, column: 1, found: '"stroke"' });
    // The same word as a value, in another object, or behind an escaped quote is no key that stands twice.
    await expect(
      read(
        '{"format":"sheet/1","name":"name \\" name","layout":{"cylinders":1},"sections":{"block":{"notes":"notes"},"crank":{"notes":"x"}}}',
      ),
    ).resolves.toMatchObject({ sections: { block: { notes: 'notes' } } });
  });

  it('is refused by line and column where a quoted cell above runs over several lines', async () => {
    const error = await refused(
      'section,field,value,unit\nlayout,cylinders,1\ndeck,notes,"cut\nonce"\ncrank,stroke,long,mm\n',
    );
    expect(error.place).toMatchObject({ line: 5, column: 3, found: '"long"' });
  });

  it('that is not there, or holds nothing, is refused by name', async () => {
    await expect(readBuildFile('/nowhere/at/all.json', { fileName: 'all.json' })).rejects.toThrow(
      InputError,
    );
    expect((await refused('')).message).toContain('empty');
    expect((await refused('\n\n')).place.file).toBe('build');
  });
});
