/** What the shop says of when an engine is to be refreshed: whichever of these comes first. */
export const sql = `
ALTER TABLE engine ADD COLUMN refresh_after_s REAL;
ALTER TABLE engine ADD COLUMN refresh_after_pulls INTEGER;
ALTER TABLE engine ADD COLUMN refresh_after_throttle_s REAL;
ALTER TABLE engine ADD COLUMN refresh_after_months INTEGER;
`;
