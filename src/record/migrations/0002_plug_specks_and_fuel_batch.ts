/**
 * Operators read plugs for specks and note which batch of fuel they ran: both are asked of every day and pull.
 * The index lets the first screen count pulls and find their leads without touching a pull's row.
 */
export const sql = `
ALTER TABLE pull ADD COLUMN specks_on_plug INTEGER NOT NULL DEFAULT 0;
ALTER TABLE test_day ADD COLUMN fuel_batch TEXT NOT NULL DEFAULT '';
CREATE INDEX pull_day_lead ON pull (day_id, lead_deg);
`;
