/** What is said of a hand-over that was held against its recordings: the verdict, and the sentence for its owner. */
import { apart, type BundleProblem, type Difference, type Versions } from '../../report/index.ts';

/**
 * `follows`: nothing was changed and every figure follows; `changed`: something was changed after it was made;
 * `does not follow`: figures that the recordings do not give; `other version`: another version of Pullbook made it, and
 * what it told otherwise, or could not be held here, is named; `cannot be computed`: what it takes is not whole.
 */
export type Verdict =
  | 'follows'
  | 'changed'
  | 'does not follow'
  | 'other version'
  | 'cannot be computed';

export interface Found {
  /** What was changed since it was made. */
  readonly problems: readonly BundleProblem[];
  /** What another version, or this machine, cannot hold against the figures. */
  readonly unheld: readonly BundleProblem[];
  readonly differences: readonly Difference[];
  /** How many figures and words were held against what was computed again; null: that could not be. */
  readonly held: number | null;
  /** The most by which figures that agree differ in their last digits, as a part of them. */
  readonly rounding: number;
  readonly says: Partial<Versions>;
  readonly here: Versions;
}

type Computation = Exclude<keyof Versions, 'pullbook'>;

/** Where figures stand that each computation has a hand in. */
const COMPUTATIONS: Readonly<Record<Computation, { readonly name: string; readonly at: RegExp }>> =
  {
    handover: { name: 'what a hand-over tells', at: /^/ },
    curve: {
      name: 'the curve of a pull',
      at: /^(days\[\d+\]\.(pulls|ladders)|final|sinceLast\.(comparison|whyNo)|cautions)/,
    },
    ladder: { name: 'the ladder', at: /^(days\[\d+\]\.ladders|final|cautions)/ },
    sheet: { name: 'the build sheet', at: /^(sheet|sinceLast\.changes)/ },
    compare: { name: 'the comparison of builds', at: /^sinceLast\.(comparison|whyNo)/ },
    plan: { name: 'the test plan', at: /^days\[\d+\]\.plan/ },
  };
const ALL = Object.keys(COMPUTATIONS) as Computation[];

/** The computations that it names in another version than they have here. */
const othersIn = (says: Partial<Versions>, here: Versions): readonly Computation[] =>
  ALL.filter((one) => says[one] !== here[one]);

/** The same program made it, to the byte, with the same computations. */
export const isThisProgram = (says: Partial<Versions>, here: Versions): boolean =>
  says.pullbook === here.pullbook && othersIn(says, here).length === 0;

export function verdictOf(found: Found): Verdict {
  const { problems, unheld, held } = found;
  if (held === null)
    return problems.length === 0 && unheld.length > 0 ? 'other version' : 'cannot be computed';
  if (problems.length > 0) return 'changed';
  if (unexplained(found).length > 0) return 'does not follow';
  return found.differences.length > 0 || unheld.length > 0 ? 'other version' : 'follows';
}

/** What differs though no computation that has a hand in it is another. */
function unexplained({ says, here, differences }: Found): readonly Difference[] {
  const others = othersIn(says, here);
  return differences.filter(({ where }) => !others.some((one) => COMPUTATIONS[one].at.test(where)));
}

export function sentenceOf(found: Found): string {
  const { differences, held, unheld, problems } = found;
  const changed = `It was changed since it was made (${problems.length} place${problems.length === 1 ? '' : 's'})`;
  switch (verdictOf(found)) {
    case 'follows':
      return `Nothing was changed since it was signed, and all ${figures(held ?? 0)} and words follow from the recordings in it${digits(found)}.`;
    case 'changed':
      return differences.length === 0
        ? `${changed}; what is told of the engine still follows from the recordings in it.`
        : `${changed}, and ${ofThem(differences, held)} not follow from the recordings in it.`;
    case 'does not follow':
      return `${ofThem(unexplained(found), held)} not follow from the recordings in it.`;
    case 'other version':
      return held === null
        ? `It was made with ${otherProgram(found)}; here it cannot be computed again. Nothing in the file shows that it was changed.`
        : differences.length > 0
          ? `${differences.length} of its ${held} figures and words ${differences.length === 1 ? 'comes' : 'come'} out otherwise here${byHowMuch(differences)}. ${whyOtherwise(found)}`
          : `All ${figures(held)} and words follow from the recordings in it${digits(found)}. ${sizeOf(unheld)} could not be held against them here.`;
    case 'cannot be computed':
      return 'It cannot be computed again: what that takes is missing or was changed.';
  }
}

const figures = (count: number) => `${count} figure${count === 1 ? '' : 's'}`;
const ofThem = ({ length }: readonly unknown[], held: number | null) =>
  `${length} of its ${figures(held ?? 0)} and words ${length === 1 ? 'does' : 'do'}`;
const sizeOf = ({ length }: readonly unknown[]) => (length === 1 ? 'One file' : `${length} files`);

const digits = ({ rounding }: Found) =>
  rounding === 0
    ? ''
    : `, to ${Math.floor(-Math.log10(rounding))} digits at the least (this machine rounds the last ones otherwise)`;

/** `, by 0.02 % in the middle of them and by 3 % at the most`. */
function byHowMuch(differences: readonly Difference[]): string {
  const parts = differences
    .map(({ says, follows }) => apart(says, follows))
    .filter((part) => part > 0)
    .sort((a, b) => a - b);
  if (parts.length === 0) return '';
  const percent = (part: number) => `${Number((100 * part).toPrecision(2))} %`;
  const most = percent(parts.at(-1)!);
  return parts.length === 1
    ? `, by ${most}`
    : `, half of them by no more than ${percent(parts[Math.floor((parts.length - 1) / 2)]!)}, the most by ${most}`;
}

function whyOtherwise({ says, here }: Found): string {
  const others = othersIn(says, here).map(
    (one) => `${COMPUTATIONS[one].name} (${says[one] ?? 'none'} there, ${here[one]} here)`,
  );
  return `It was made with another version of ${listed(others)}, which may be why; nothing else in the file shows that it was changed. The version that made it can say whether they follow.`;
}

function otherProgram({ says, here }: Found): string {
  const isNewer = ALL.some((one) => Number(says[one]) > here[one]);
  return `${isNewer ? 'a newer version of Pullbook' : 'another version of Pullbook'} (${says.pullbook ?? 'not said which'}) than this one (${here.pullbook})`;
}

const listed = (all: readonly string[]): string =>
  all.length < 2 ? all.join('') : `${all.slice(0, -1).join(', ')} and ${all.at(-1)}`;
