import type { Mark } from '../../src/pull/types.ts';

/** Notes that speak of the day's air or the file's columns, and so of all its pulls alike. */
const OF_THE_DAY: ReadonlySet<Mark['kind']> = new Set([
  'air',
  'basis',
  'boost',
  'correction factor',
]);
const NUMBER = /\d+(?:\.\d+)?/g;

/** Inertia and calibration of a cell are one for the day, and said once even where they want a second look. */
const isOfTheDay = (mark: Mark) =>
  mark.kind === 'inertia' ||
  mark.kind === 'calibration' ||
  (mark.severity === 'note' && OF_THE_DAY.has(mark.kind));
const shapeOf = (sentence: string) => sentence.replace(NUMBER, '#');

export interface CommonNotes {
  /** One mark for what every pull says; figures that differ from pull to pull as `6 to 8`. */
  readonly marks: readonly Pick<Mark, 'severity' | 'sentence'>[];
  /** Whether a mark of a pull is said by one of them. */
  readonly says: (mark: Mark) => boolean;
}

/** Notes that every recorded pull of a ladder carries in the same words, so that they can be said once. */
export function commonNotes(pulls: readonly (readonly Mark[])[]): CommonNotes {
  const [first = []] = pulls;
  const common = new Map<string, CommonNotes['marks'][number]>();
  if (pulls.length > 1)
    for (const { sentence, severity } of first.filter(isOfTheDay)) {
      const shape = shapeOf(sentence);
      const alike = pulls.map((marks) =>
        marks.find((mark) => isOfTheDay(mark) && shapeOf(mark.sentence) === shape),
      );
      if (alike.every((mark) => mark !== undefined))
        common.set(shape, { severity, sentence: merged(alike.map((mark) => mark.sentence)) });
    }
  return {
    marks: [...common.values()],
    says: (mark) => isOfTheDay(mark) && common.has(shapeOf(mark.sentence)),
  };
}

/** Sentences of one shape as one, each figure from its least to its greatest. */
function merged(sentences: readonly string[]): string {
  const figures = sentences.map((sentence) => sentence.match(NUMBER) ?? []);
  let at = 0;
  return sentences[0]!.replace(NUMBER, () => {
    const here = figures.map((of) => of[at]!).sort((a, b) => Number(a) - Number(b));
    at += 1;
    const [least, greatest] = [here[0]!, here.at(-1)!];
    return Number(least) === Number(greatest) ? least : `${least} to ${greatest}`;
  });
}
