import { expect, it } from 'vitest';
import { tableCsv } from './table-csv.ts';

it('is what a spreadsheet reads: units in the heads, plain numbers, intervals in two columns, no formula', () => {
  const csv = tableCsv({
    columns: ['pull', 'setting', 'power, hp', 'from – to, hp', '=A1, %'],
    rows: [
      ['=HYPERLINK("x")', '28.5°', '1\u202f412.3', '400 to 425', '\u22120.4'],
      ['@cmd, "quoted"', '–', '–', '–', '+1.5'],
      ['\u2212 two', '30°', '7', '6 to 8', 'not known'],
    ],
  });
  expect(csv).toBe(
    [
      '\ufeffpull,"setting, °","power, hp","from – to, hp (low)","from – to, hp (high)","\'=A1, %"',
      '"\'=HYPERLINK(""x"")",28.5,1412.3,400,425,-0.4',
      '"\'@cmd, ""quoted""",,,,,1.5',
      '\u2212 two,30,7,6,8,not known',
      '',
    ].join('\r\n'),
  );
});
