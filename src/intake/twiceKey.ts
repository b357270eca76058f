/**
 * The first key that stands twice in one object of a JSON text, of which the parser would keep the last in silence.
 * @param text  JSON that has been parsed already, and so is whole
 * @returns the key with its place, counted from 1, or null
 */
export function keyTwice(text: string): { key: string; line: number; column: number } | null {
  // One set of keys for each object that is open, null for each list.
  const open: (Set<string> | null)[] = [];
  const mark = /["{}[\]]/g;
  for (let match = mark.exec(text); match !== null; match = mark.exec(text)) {
    const [found] = match;
    if (found === '{') open.push(new Set());
    else if (found === '[') open.push(null);
    else if (found === '}' || found === ']') open.pop();
    else {
      const keys = open.at(-1);
      const end = stringEnd(text, match.index);
      mark.lastIndex = end;
      if (keys === null || keys === undefined || !isKey(text, end)) continue;
      const key = JSON.parse(text.slice(match.index, end)) as string;
      if (keys.has(key)) {
        const before = text.slice(0, match.index).split('\n');
        return { key, line: before.length, column: before.at(-1)!.length + 1 };
      }
      keys.add(key);
    }
  }
  return null;
}

/** Index behind the quote that closes the string: one before which no or two backslashes stand, or four. */
function stringEnd(text: string, start: number): number {
  for (let at = start + 1; ; at += 1) {
    at = text.indexOf('"', at);
    if (at === -1) return text.length;
    let slashes = 0;
    while (text[at - 1 - slashes] === '\\') slashes += 1;
    if (slashes % 2 === 0) return at + 1;
  }
}

/** A string is a key where a colon follows it. */
function isKey(text: string, at: number): boolean {
  let next = at;
  while (/\s/.test(text[next] ?? '')) next += 1;
  return text[next] === ':';
}
