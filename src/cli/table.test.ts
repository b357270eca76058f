import { describe, expect, it } from 'vitest';
import { jsonLine, plain } from './io.ts';
import { table, wrapped } from './table.ts';

describe('tables for people', () => {
  it('aligns by what is shown, numbers to the right, no trailing blanks', () => {
    expect(
      table(
        [{ title: 'unit' }, { title: 'value', align: 'right' }],
        [
          ['N·m', '9.5'],
          ['°F', '1000'],
        ],
      ),
    ).toBe('unit  value\nN·m     9.5\n°F     1000\n');
  });

  it('shows hostile text as text', () => {
    const hostile = 'Torque\u001b[2J\u0007\u202e\u009b31m';
    expect(plain(hostile)).toBe('Torque·[2J···31m');
    for (const letter of ['\u001b', '\u0007', '\u202e', '\u009b'])
      expect(table([{ title: 'column' }], [[hostile]])).not.toContain(letter);
  });

  it('breaks a paragraph at spaces only', () => {
    expect(wrapped('one two three', 9, '  ')).toBe('  one two\n  three\n');
    expect(wrapped('unbreakable', 4)).toBe('unbreakable\n');
  });
});

describe('JSON lines', () => {
  it('are one line, without NaN and without letters that a terminal acts upon', () => {
    const line = jsonLine({ header: 'a\u001b[2J\n\u009b\u2028', value: Number.NaN });
    expect(line).toBe('{"header":"a\\u001b[2J\\n\\u009b\\u2028","value":null}\n');
    expect(JSON.parse(line)).toEqual({ header: 'a\u001b[2J\n\u009b\u2028', value: null });
  });
});
