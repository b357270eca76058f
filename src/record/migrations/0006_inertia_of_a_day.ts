/** What turns with the crank is said of an engine on a cell, not of the cell alone. */
export const sql = 'ALTER TABLE test_day ADD COLUMN inertia_kg_m2 REAL;';
