import { describe, expect, it } from 'vitest';
import { killWhileImporting } from './kill.ts';
import { temporaryFolder } from './testing.ts';

describe('a process killed in the middle of its imports', () => {
  it('loses nothing it acknowledged, stores nothing by halves, 20 times on one folder', async () => {
    const { folder, remove } = temporaryFolder();
    try {
      const report = await killWhileImporting(folder, 20, 20260517);
      expect(report).toMatchObject({ kills: 20, lost: [], halfStored: 0 });
      expect(report.acknowledged).toBeGreaterThanOrEqual(20);
    } finally {
      remove();
    }
  }, 120_000);
});
