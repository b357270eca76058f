/** What engines are for: vehicles and uses as they were typed, each kept on the page of one engine. */
export const sql = `
CREATE TABLE vehicle (
  id TEXT PRIMARY KEY,
  engine_id TEXT NOT NULL REFERENCES engine (id),
  name TEXT NOT NULL,
  written TEXT NOT NULL,
  who TEXT NOT NULL,
  kept_at TEXT NOT NULL
) STRICT;
CREATE INDEX vehicle_engine ON vehicle (engine_id);

CREATE TABLE engine_use (
  id TEXT PRIMARY KEY,
  engine_id TEXT NOT NULL REFERENCES engine (id),
  name TEXT NOT NULL,
  written TEXT NOT NULL,
  who TEXT NOT NULL,
  kept_at TEXT NOT NULL
) STRICT;
CREATE INDEX engine_use_engine ON engine_use (engine_id);
`;
