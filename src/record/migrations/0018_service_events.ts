/** What was done to an engine and when: refreshes, and other work that leaves its count of hours and pulls as it is. */
export const sql = `
CREATE TABLE service_event (
  id TEXT PRIMARY KEY,
  engine_id TEXT NOT NULL REFERENCES engine (id),
  kind TEXT NOT NULL,
  done_on TEXT NOT NULL,
  what TEXT NOT NULL,
  parts TEXT NOT NULL,
  hours_s REAL,
  who TEXT NOT NULL,
  written_at TEXT NOT NULL
) STRICT;
CREATE INDEX service_event_engine ON service_event (engine_id, done_on);
`;
