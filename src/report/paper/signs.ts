/** Signs that steer a line instead of standing in it: they turn the writing or hide, and a name has no business with them. */
const STEERING =
  // biome-ignore lint/suspicious/noControlCharactersInRegex: they are what is spelled out
  /[\u0000-\u0008\u000b-\u001f\u007f-\u009f\u061c\u200e\u200f\u2028-\u202e\u2066-\u2069\ufeff]/g;

/** The number of a sign, as it can be read and searched for: `[U+202E]`. */
export const spelled = (sign: string): string =>
  `[U+${sign.codePointAt(0)!.toString(16).toUpperCase().padStart(4, '0')}]`;

/** Text from outside in which nothing steers. */
export const steady = (text: string): string => text.replace(STEERING, spelled);
