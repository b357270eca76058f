/**
 * A sentence with a large letter at its beginning. The name of a side may begin small (`old part`, `the day “Ladder”`);
 * a sentence does not. A file's name (`six-a-03.csv`) and a single letter (`a`) stay as they are written.
 */
export const begun = (sentence: string): string =>
  /^\p{Ll}\p{L}+(?=[\s,:;.]|$)(?!\.\p{L})/u.test(sentence)
    ? sentence.charAt(0).toUpperCase() + sentence.slice(1)
    : sentence;
