/** That a shop is invented was told by the end of its name; now the record says it, whatever it is called. */
export const sql = `
ALTER TABLE shop ADD COLUMN invented INTEGER NOT NULL DEFAULT 0;
UPDATE shop SET invented = 1, name = rtrim(substr(name, 1, length(name) - length('(invented)')))
WHERE name LIKE '_%(invented)';
`;
