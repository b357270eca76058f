/**
 * What was read of an engine between its builds: hours, leak-down and cranking pressure by cylinder. A sheet holds one
 * reading, that of its assembly; these have dates of their own, so that they can be followed over time.
 */
export const sql = `
CREATE TABLE service_reading (
  id TEXT PRIMARY KEY,
  engine_id TEXT NOT NULL REFERENCES engine (id),
  read_on TEXT NOT NULL,
  hours_s REAL,
  leak_down TEXT,
  leak_down_error REAL,
  cranking_gauge_pa TEXT,
  cranking_error_pa REAL,
  note TEXT NOT NULL,
  who TEXT NOT NULL,
  written_at TEXT NOT NULL
) STRICT;
CREATE INDEX service_reading_engine ON service_reading (engine_id, read_on);
`;
