/** Signs in text from outside, for all that is written, printed or drawn. */

/** Signs that steer a line instead of standing in it: they turn the writing or hide, and a name has no business with them. */
const STEERING =
  // biome-ignore lint/suspicious/noControlCharactersInRegex: they are what is spelled out
  /[\u0000-\u0008\u000b-\u001f\u007f-\u009f\u061c\u200e\u200f\u2028-\u202e\u2066-\u2069\ufeff]/g;

/** The number of a sign, as it can be read and searched for: `[U+202E]`. */
export const spelled = (sign: string): string =>
  `[U+${sign.codePointAt(0)!.toString(16).toUpperCase().padStart(4, '0')}]`;

/** Text from outside in which nothing steers. */
export const steady = (text: string): string => text.replace(STEERING, spelled);

/** At most so many letters, the last an ellipsis where some are left out; no letter is cut in two. */
export function shortened(text: string, most: number): string {
  const letters = lettersOf(text);
  return letters.length <= most ? text : begun(letters, most - 1);
}

/** The text where it fits, else as much of it as fits with an ellipsis; only that where nothing does. */
export function fittedTo(text: string, fits: (text: string) => boolean): string {
  if (fits(text)) return text;
  const letters = lettersOf(text);
  let [low, high] = [0, Math.max(0, letters.length - 1)];
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if (fits(begun(letters, middle))) low = middle;
    else high = middle - 1;
  }
  return begun(letters, low);
}

const begun = (letters: readonly string[], most: number): string =>
  `${letters.slice(0, most).join('').trimEnd()}…`;

/** As people count them: a sign with all that is joined to it is one. */
const lettersOf = (text: string): string[] =>
  [...new Intl.Segmenter('en', { granularity: 'grapheme' }).segment(text)].map(
    ({ segment }) => segment,
  );

/** A number and what it is measured in stay in one line. */
export const bound = (text: string): string =>
  text
    .replace(/ ± /g, '\u00a0±\u00a0')
    .replace(
      /(\d) (?=(?:%|°|rpm|1\/min|kW|hp|PS|N·m|lb-ft|lb·ft|mm|cm|kPa|bar|kg|g\b|L\b|m\/s|s\b))/g,
      '$1\u00a0',
    );
