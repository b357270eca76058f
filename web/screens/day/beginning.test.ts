import { describe, expect, it } from 'vitest';
import { beginningOf } from './beginning.ts';

describe('the beginning of a file', () => {
  it('shows whole lines, whatever ends them', async () => {
    expect(await beginningOf(new Blob(['A;B\r\n1;2\r\n3;']))).toBe('A;B\n1;2');
    expect(await beginningOf(new Blob(['only a header']))).toBe('only a header');
  });

  it('shows no more than a person needs to tell the columns apart', async () => {
    const text = Array.from({ length: 3000 }, (_, row) => `${row},${row}`).join('\n');
    expect((await beginningOf(new Blob([text])))?.split('\n')).toHaveLength(8);
  });

  it('reads the wide letters that a mark announces', async () => {
    const wide = Uint8Array.from([
      0xff,
      0xfe,
      ...[...'A,B\n1,2\n'].flatMap((c) => [c.charCodeAt(0), 0]),
    ]);
    expect(await beginningOf(new Blob([wide]))).toBe('A,B\n1,2');
  });

  it('shows nothing of a file that is no text', async () => {
    expect(await beginningOf(new Blob([Uint8Array.of(0x50, 0x4b, 3, 4, 0, 0, 8)]))).toBeNull();
  });
});
