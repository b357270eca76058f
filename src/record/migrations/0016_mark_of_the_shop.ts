/** What the shop's papers carry: its address in a line, and its mark as the picture itself (a data URL, PNG or SVG). */
export const sql = `
ALTER TABLE shop ADD COLUMN address TEXT NOT NULL DEFAULT '';
ALTER TABLE shop ADD COLUMN mark TEXT;
`;
