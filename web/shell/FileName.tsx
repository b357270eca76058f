/** Characters that nobody sees, or that turn the reading of those around them. */
const UNSEEN = /[\p{Cc}\p{Bidi_Control}\p{Zl}\p{Zp}]/gu;

/** A file's name with a mark in the place of each character that would hide or turn others. */
export const plainName = (name: string): string => name.replace(UNSEEN, '\ufffd');

/** A file's name as text, whichever way its letters run; a long one breaks where it must. */
export function FileName({ name }: { readonly name: string }) {
  return <bdi className="file-name">{plainName(name)}</bdi>;
}
