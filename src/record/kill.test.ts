import { describe, expect, it } from 'vitest';
import { killWhileImporting } from './kill.ts';
import { temporaryFolder } from './testing.ts';

describe('a process killed in the middle of its imports, saves of a sheet and calibrations', () => {
  it('loses nothing it acknowledged, stores nothing by halves, 20 times on one folder', async () => {
    const { folder, remove } = temporaryFolder();
    try {
      const report = await killWhileImporting(folder, 20, 20260517);
      expect(report).toMatchObject({ kills: 20, lost: [], halfStored: 0 });
      expect(report.acknowledged).toBeGreaterThanOrEqual(20);
      expect(report.calibrations).toBeGreaterThanOrEqual(15);
    } finally {
      remove();
    }
  }, 120_000);
});
