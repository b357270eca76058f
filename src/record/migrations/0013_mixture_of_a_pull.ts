/** What set the mixture of a pull, what was read of it, and the load it was held at; until now only its target was kept. */
export const sql = `
ALTER TABLE pull ADD COLUMN lambda_measured REAL;
ALTER TABLE pull ADD COLUMN lambda_error_sd REAL;
ALTER TABLE pull ADD COLUMN jets TEXT;
ALTER TABLE pull ADD COLUMN load_percent REAL;
`;
