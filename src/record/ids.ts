/** Opaque ids that sort by the time they were made, so that rows of one import lie together on disk. */
import { randomBytes } from 'node:crypto';

const ALPHABET = '0123456789abcdefghjkmnpqrstvwxyz';

/** `pull_01jdk2m3f4…`: the kind, nine characters of time, eight of chance. */
export function makeId(kind: string, nowMs: number): string {
  let time = '';
  for (let rest = nowMs, place = 0; place < 9; place += 1) {
    time = ALPHABET[rest % 32]! + time;
    rest = Math.floor(rest / 32);
  }
  const chance = [...randomBytes(8)].map((byte) => ALPHABET[byte % 32]).join('');
  return `${kind}_${time}${chance}`;
}
