import type { Watched } from '../../../src/ladder/types.ts';
import type { Pull, PullPatch } from '../../api/types.gen.ts';

/** How each way of watching for knock is said on screen; the order is that of the choices. */
export const WATCHED_WORDS: readonly (readonly [Watched, string])[] = [
  ['ear', 'by ear'],
  ['plug', 'by plug'],
  ['sensor', 'by sensor'],
  ['not', 'not watched'],
];

/** What a cell's text means for the pull, or one sentence why it means nothing. */
export type Meaning = { readonly patch: PullPatch } | { readonly trouble: string };

export interface Column {
  readonly key: string;
  readonly title: string;
  /** Said to screen readers and as the hint of the column. */
  readonly hint: string;
  /** How the cell is filled in; `choices` belong to a choice. */
  readonly kind: 'text' | 'choice' | 'tick';
  readonly choices?: readonly string[];
  text(pull: Pull): string;
  meaning(text: string): Meaning;
}

/** Reads a number the way people type it: decimal point or comma, a degree sign or unit word behind it. */
export function readNumber(text: string): number | null {
  const found = /^([-+\u2212]?\d+(?:[.,]\d+)?)\s*(?:°|deg|degrees|rpm|rev\/min)?$/i.exec(
    text.trim(),
  );
  if (found === null) return null;
  return Number(found[1]!.replace(',', '.').replace('\u2212', '-'));
}

const YES = new Set(['yes', 'y', 'x', 'true', '1', 'heard']);
const NO = new Set(['', 'no', 'n', 'false', '0', '-', 'none']);

function numberColumn(
  key: 'leadDeg' | 'lambdaTarget' | 'lambdaMeasured' | 'lambdaErrorSd',
  title: string,
  hint: string,
  low: number,
  high: number,
  /** Fewest decimals it is shown with. */
  decimals = 0,
): Column {
  return {
    key,
    title,
    hint,
    kind: 'text',
    text: (pull) => numberText(pull[key], decimals),
    meaning(text) {
      if (text.trim() === '') return { patch: { [key]: null } };
      const value = readNumber(text);
      if (value === null) return { trouble: `“${text}” is not a number; expected ${hint}` };
      if (value < low || value > high)
        return { trouble: `${text} is outside of ${low} to ${high}; expected ${hint}` };
      return { patch: { [key]: value } };
    },
  };
}

/** A number as it is kept, with so many decimals at the least: lambda keeps its hundredths, `0.80`. */
function numberText(value: number | null, decimals: number): string {
  if (value === null) return '';
  const fixed = value.toFixed(decimals);
  return Number(fixed) === value ? fixed : String(value);
}

function yesColumn(key: 'specksOnPlug' | 'aborted', title: string, hint: string): Column {
  return {
    key,
    title,
    hint,
    kind: 'tick',
    text: (pull) => (pull[key] ? 'yes' : 'no'),
    meaning(text) {
      const word = text.trim().toLowerCase();
      if (YES.has(word)) return { patch: { [key]: true } };
      if (NO.has(word)) return { patch: { [key]: false } };
      return { trouble: `“${text}” is neither yes nor no` };
    },
  };
}

const watched: Column = {
  key: 'watched',
  title: 'Watched',
  hint: 'how knock was watched for: by ear, by plug, by sensor, not watched',
  kind: 'choice',
  choices: ['', ...WATCHED_WORDS.map(([, words]) => words)],
  text: (pull) => WATCHED_WORDS.find(([name]) => name === pull.watched)?.[1] ?? '',
  meaning(text) {
    const word = text.trim().toLowerCase();
    if (word === '') return { patch: { watched: null } };
    const found = WATCHED_WORDS.find(([name, words]) => word === name || word === words);
    if (found === undefined)
      return {
        trouble: `“${text}” is no way of watching; expected by ear, by plug, by sensor or not watched`,
      };
    return { patch: { watched: found[0] } };
  },
};

const knockHeard: Column = {
  key: 'knockHeard',
  title: 'Knock heard',
  hint: 'no, yes, or the speed at which it was heard in rpm',
  kind: 'text',
  text: (pull) =>
    pull.knockHeard === true ? 'yes' : pull.knockHeard === false ? 'no' : String(pull.knockHeard),
  meaning(text) {
    const word = text.trim().toLowerCase();
    if (YES.has(word)) return { patch: { knockHeard: true } };
    if (NO.has(word)) return { patch: { knockHeard: false } };
    const speed = readNumber(text.replace(/(\d)[\s\u202f\u00a0](?=\d{3})/g, '$1'));
    if (speed === null || speed < 200 || speed > 25_000)
      return { trouble: `“${text}” is no engine speed; expected no, yes or a speed in rpm` };
    return { patch: { knockHeard: speed } };
  },
};

function textColumn(key: 'note' | 'excludedBecause', title: string, hint: string): Column {
  return {
    key,
    title,
    hint,
    kind: 'text',
    text: (pull) => pull[key] ?? '',
    meaning: (text) => {
      const words = text.trim();
      return { patch: { [key]: key === 'excludedBecause' && words === '' ? null : words } };
    },
  };
}

/** Part tests share a day: each is a ladder of its own. */
const group: Column = {
  key: 'group',
  title: 'Part test',
  hint: 'A or B where the pull is of a part test; empty: of none',
  kind: 'text',
  text: (pull) => pull.group ?? '',
  meaning(text) {
    const word = text.trim();
    if (word.length > GROUP_LETTERS)
      return { trouble: `“${word}” is long for a part test; expected a letter or a short word` };
    return { patch: { group: word === '' ? null : word } };
  },
};
const GROUP_LETTERS = 20;

const jets: Column = {
  key: 'jets',
  title: 'Jets',
  hint: 'jets by position, such as primary 68, secondary 76; one set of jets is one rung',
  kind: 'text',
  text: (pull) => pull.jets ?? '',
  meaning(text) {
    const words = text.trim();
    if (words.length > 200)
      return { trouble: 'These jets are more than 200 letters; say them shorter' };
    return { patch: { jets: words === '' ? null : words } };
  },
};

const load: Column = {
  key: 'loadPercent',
  title: 'Load, %',
  hint: 'the load it was held at in percent; empty: full throttle',
  kind: 'text',
  text: (pull) => numberText(pull.loadPercent, 0),
  meaning(text) {
    const word = text.trim().toLowerCase().replace(/\s*%$/, '');
    if (word === '' || word === 'full') return { patch: { loadPercent: null } };
    const value = readNumber(word);
    if (value === null || value <= 0 || value > 100)
      return { trouble: `“${text}” is no load; expected a percent such as 60, or nothing` };
    return { patch: { loadPercent: value === 100 ? null : value } };
  },
};

/** All columns of the table of pulls that a person fills in, in the order in which a paste runs across. */
export const COLUMNS: readonly Column[] = [
  numberColumn('leadDeg', 'Lead', 'degrees before top centre', -20, 80),
  numberColumn('lambdaTarget', 'Lambda target', 'a lambda such as 0.87', 0.4, 2, 2),
  numberColumn('lambdaMeasured', 'Lambda read', 'what a sensor read, such as 0.853', 0.4, 2, 2),
  numberColumn('lambdaErrorSd', 'Its error, sd', 'an sd in lambda such as 0.01', 0, 0.5),
  jets,
  load,
  watched,
  knockHeard,
  yesColumn('specksOnPlug', 'Specks on plug', 'specks of aluminium or pepper on a plug'),
  yesColumn('aborted', 'Aborted', 'whether the pull was broken off'),
  group,
  textColumn('note', 'Note', 'anything worth remembering'),
  textColumn('excludedBecause', 'Left out because', 'a reason leaves the pull out of the ladder'),
];

/** Columns that most days leave empty; they stand in the table of a day that uses them. */
const SELDOM_KEYS = ['lambdaMeasured', 'lambdaErrorSd', 'jets', 'loadPercent'] as const;
type SeldomKey = (typeof SELDOM_KEYS)[number];

/**
 * The columns that a day's table shows.
 * @param stepsLambda  a ladder of the day steps lambda
 * @param wantsAll     somebody asked for all of them
 */
export function columnsOf(
  pulls: readonly Pick<Pull, SeldomKey>[],
  { stepsLambda, wantsAll }: { readonly stepsLambda: boolean; readonly wantsAll: boolean },
): readonly Column[] {
  const hidden = SELDOM_KEYS.filter(
    (key) =>
      !wantsAll &&
      !(stepsLambda && key !== 'loadPercent') &&
      pulls.every((pull) => pull[key] === null),
  ) as readonly string[];
  return COLUMNS.filter(({ key }) => !hidden.includes(key));
}
