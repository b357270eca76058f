/** The build sheet with its checks, and what changed in it since the build before. */
import {
  type Check,
  type Figure,
  fieldOf,
  type MeasuredChange,
  type SheetChanges,
  sectionOf,
  type Verdict,
} from '../../build/index.ts';
import type { DisplayKind, FormatOptions } from '../../units/index.ts';
import type { HandOver } from '../handover/types.ts';
import { type Block, INDENT, left, right, wide } from './blocks.ts';
import type { Teller } from './tell.ts';

const RANK: Readonly<Record<Verdict, number>> = {
  stop: 0,
  'look again': 1,
  fine: 2,
  'not known': 3,
};
/** What decides less is left to the sheet itself. */
const MOST_TO_MEASURE = 15;

export function sheetBlocks({ sheet }: HandOver, tell: Teller): Block[] {
  const say = tell.words.sheet;
  const title = { kind: 'heading', level: 2, text: say.title } as const;
  if (sheet === null) return [title, { kind: 'paragraph', text: say.none }];
  const counts: Record<Verdict, number> = { fine: 0, 'look again': 0, stop: 0, 'not known': 0 };
  for (const { verdict } of sheet.checks) counts[verdict] += 1;
  const judged = sheet.checks
    .filter(({ verdict }) => verdict !== 'not known')
    .sort((a, b) => RANK[a.verdict] - RANK[b.verdict]);
  const sources = [
    ...new Set(judged.flatMap(({ window }) => (window?.source ? [window.source] : []))),
  ];
  const known = sheet.figures.filter(({ value }) => value !== null);
  const remedies = judged.flatMap(({ label, remedy, verdict }) =>
    verdict === 'fine' || remedy === null || remedy === ''
      ? []
      : [`${tell.told(label)}: ${tell.told(remedy)}`],
  );
  return [
    title,
    { kind: 'paragraph', text: say.summary(counts) },
    ...(remedies.length === 0
      ? []
      : [{ kind: 'care', word: say.remedy, items: remedies } as const]),
    ...(judged.length === 0
      ? []
      : [
          {
            kind: 'table',
            caption: say.checks,
            columns: [left(say.verdict), wide(say.check), right(say.value), left(say.window)],
            rows: judged.map((check) => [
              say.verdicts[check.verdict],
              tell.told(check.label),
              shownValue(check, tell),
              [windowOf(check, tell), ...sourceMark(sources, check.window?.source)].join(' '),
            ]),
            sources: { title: say.source, items: sources.map((one) => tell.toldOrTyped(one)) },
          } as const,
        ]),
    ...(known.length === 0
      ? []
      : [
          {
            kind: 'table',
            caption: say.figures,
            columns: [wide(say.figure), right(say.value)],
            rows: known.map((figure) => [tell.told(figure.label), shownValue(figure, tell)]),
            halves: true,
          } as const,
        ]),
    ...(sheet.toMeasure.length === 0
      ? []
      : [
          { kind: 'heading', level: 3, text: say.toMeasure } as const,
          {
            kind: 'paragraph',
            text: sheet.toMeasure
              .slice(0, MOST_TO_MEASURE)
              .map(({ label }) => tell.told(label))
              .join('; '),
          } as const,
        ]),
  ];
}

const sourceMark = (sources: readonly string[], source: string | undefined): string[] =>
  source ? [`[${sources.indexOf(source) + 1}]`] : [];

function shownValue(
  { value, plusMinus, shown, decimals, isDifference }: Figure | Check,
  tell: Teller,
): string {
  const options = {
    ...(decimals === null ? {} : { decimals }),
    ...(isDifference ? { difference: true } : {}),
  };
  const text = tell.number(value, shown, options);
  const half =
    plusMinus === null ? '' : tell.number(plusMinus, shown, { ...options, difference: true });
  // A half-width that vanishes in the last digit shown is no claim to be exact: the digits bound it already.
  const isSeen = /[1-9]/.test(half);
  return `${text}${isSeen ? ` ± ${half}` : ''} ${tell.unit(shown)}`.trim();
}

function windowOf({ window, shown, decimals, isDifference }: Check, tell: Teller): string {
  if (window === null) return '';
  const options = {
    ...(decimals === null ? {} : { decimals }),
    ...(isDifference ? { difference: true } : {}),
  };
  const at = (value: number) => tell.number(value, shown, options);
  const { low, high } = window;
  if (low !== null && high !== null)
    return tell.words.range(at(low), at(high), tell.unit(shown)).trim();
  const say = tell.words.sheet;
  if (high !== null) return say.below(`${at(high)} ${tell.unit(shown)}`.trim());
  return low === null ? '' : say.above(`${at(low)} ${tell.unit(shown)}`.trim());
}

export function changesBlocks({ sinceLast }: HandOver, tell: Teller): Block[] {
  const say = tell.words.changes;
  if (sinceLast === null) return [];
  const { changes, build } = sinceLast;
  const title = { kind: 'heading', level: 2, text: say.title(build.name) } as const;
  if (changes === null) return [title, { kind: 'paragraph', text: say.noSheets }];
  const blocks = [
    ...parts(changes, tell),
    ...verdicts(changes, tell),
    ...moved(changes, tell),
    ...tables(changes, tell),
  ];
  return [
    title,
    ...(blocks.length === 0 ? [{ kind: 'paragraph', text: say.none } as const] : blocks),
  ];
}

/** Which free tables differ; what of them bears on the engine stands in what follows. */
function tables({ tables: all }: SheetChanges, tell: Teller): Block[] {
  if (all.length === 0) return [];
  const labels = all.map(({ label }) => tell.told(label)).join('; ');
  return [{ kind: 'paragraph', text: tell.words.changes.tables(labels), quiet: true }];
}

function parts({ parts: all }: SheetChanges, tell: Teller): Block[] {
  const say = tell.words.changes;
  if (all.length === 0) return [];
  const place = (id: string | null): string => {
    const section = id === null ? undefined : sectionOf(id);
    return section === undefined ? (id ?? '') : tell.told(section.title);
  };
  return [
    { kind: 'heading', level: 3, text: say.parts },
    {
      kind: 'list',
      items: all.map(({ what, name, serial, from, to }) => {
        const part = serial === null ? name : `${name} (${serial})`;
        if (what === 'added') return say.added(part, place(to));
        return what === 'gone'
          ? say.gone(part, place(from))
          : say.moved(part, place(from), place(to));
      }),
    },
  ];
}

/** One item for each way a verdict went, the gravest first, with all the checks that went so. */
function verdicts({ verdicts: all }: SheetChanges, tell: Teller): Block[] {
  if (all.length === 0) return [];
  const { changes: say, sheet } = tell.words;
  const ways = new Map<string, SheetChanges['verdicts']>();
  for (const change of all) {
    const way = `${change.before}/${change.after}`;
    ways.set(way, [...(ways.get(way) ?? []), change]);
  }
  return [
    { kind: 'heading', level: 3, text: say.verdicts },
    {
      kind: 'list',
      items: [...ways.values()].map((checks) => {
        const { before, after } = checks[0]!;
        const way = say.verdictWent(sheet.verdicts[before], sheet.verdicts[after]);
        return `${way}: ${checks.map(({ label }) => tell.told(label)).join('; ')}`;
      }),
    },
  ];
}

/** What both builds have, value beside value; how many more only one of them has. */
function moved({ computed, measured }: SheetChanges, tell: Teller): Block[] {
  const say = tell.words.changes;
  const by = (value: number | null, shown: DisplayKind | null, options: FormatOptions = {}) =>
    value === null || shown === null
      ? '–'
      : tell.number(value, shown, { ...options, signed: true, difference: true });
  const inUnit = (label: string, shown: DisplayKind | null) =>
    shown === null ? tell.told(label) : tell.headed(tell.told(label), shown);
  const follows = computed.filter(({ before, after }) => before !== null && after !== null);
  const read = measured.filter(
    ({ before, after }) => before.typed !== null && after.typed !== null,
  );
  const onlyOne = computed.length - follows.length + measured.length - read.length;
  const figures = read.filter((change) => !isInWords(change));
  const table = (caption: string, rows: readonly (readonly string[])[]): Block[] =>
    rows.length === 0
      ? []
      : [
          {
            kind: 'table',
            caption,
            columns: [wide(say.what), right(say.before), right(say.after), right(say.difference)],
            rows,
            halves: true,
          },
        ];
  return [
    ...table(
      say.computed,
      follows.map((change) => {
        const { label, shown, before, after, decimals, isDifference } = change;
        const options = {
          ...(decimals === null ? {} : { decimals }),
          ...(isDifference ? { difference: true } : {}),
        };
        return [
          inUnit(label, shown),
          tell.number(before, shown, options),
          tell.number(after, shown, options),
          by(change.by, shown, options),
        ];
      }),
    ),
    ...table(
      say.measured,
      figures.flatMap(
        ({ path, label, place, placeLabel, shown, before, after, by: difference }, i) => {
          const values = [
            stoodThere(path, before, shown, tell),
            stoodThere(path, after, shown, tell),
            by(difference, shown),
          ];
          if (place === null || placeLabel === null) return [[inUnit(label, shown), ...values]];
          const isFirst = figures[i - 1]?.path !== path;
          return [
            ...(isFirst ? [[inUnit(label, shown)]] : []),
            [`${INDENT}${tell.told(placeLabel)}`, ...values],
          ];
        },
      ),
    ),
    ...stated(read.filter(isInWords), tell),
    ...(onlyOne === 0
      ? []
      : [{ kind: 'paragraph', text: say.onlyOne(onlyOne), quiet: true } as const]),
  ];
}

/** Words may be long, and have no room in a column of figures. */
const isInWords = ({ before, after }: MeasuredChange): boolean =>
  typeof before.typed !== 'number' || typeof after.typed !== 'number';

function stated(changes: readonly MeasuredChange[], tell: Teller): Block[] {
  const say = tell.words.changes;
  if (changes.length === 0) return [];
  return [
    {
      kind: 'table',
      caption: say.stated,
      columns: [left(say.what), wide(say.before), wide(say.after)],
      rows: changes.map(({ path, label, placeLabel, shown, before, after }) => [
        [label, ...(placeLabel === null ? [] : [placeLabel])]
          .map((one) => tell.told(one))
          .join(', '),
        stoodThere(path, before, shown, tell),
        stoodThere(path, after, shown, tell),
      ]),
    },
  ];
}

/** What stood in a field: a figure, a word of the sheet's own, or what a person wrote. */
function stoodThere(
  path: string,
  { typed, inside }: MeasuredChange['before'],
  shown: DisplayKind | null,
  tell: Teller,
): string {
  if (typed === null) return '–';
  if (inside !== null && shown !== null) return tell.number(inside, shown);
  if (typeof typed === 'number') return tell.setting(typed, '');
  if (typeof typed === 'boolean') return typed ? tell.words.yes : tell.words.no;
  const field = fieldOf(path);
  if (field?.kind === 'date') return tell.date(typed);
  const word = field?.choices?.find(({ value }) => value === typed)?.label;
  return word === undefined ? typed : tell.told(word);
}
