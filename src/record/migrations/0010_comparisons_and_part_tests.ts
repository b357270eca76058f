/** Kept comparisons, part tests with their plans, and days that the shop marks as made to learn how days differ. */
export const sql = `
ALTER TABLE test_day ADD COLUMN is_reference INTEGER NOT NULL DEFAULT 0;

CREATE TABLE comparison (
  id TEXT PRIMARY KEY,
  engine_id TEXT NOT NULL REFERENCES engine (id),
  engine_ids TEXT NOT NULL,
  name TEXT NOT NULL,
  note TEXT NOT NULL,
  sides TEXT NOT NULL,
  band_rpm TEXT,
  standard TEXT,
  who TEXT NOT NULL,
  kept_at TEXT NOT NULL,
  said TEXT NOT NULL
) STRICT;
CREATE INDEX comparison_engine ON comparison (engine_id);

CREATE TABLE part_test (
  id TEXT PRIMARY KEY,
  day_id TEXT NOT NULL REFERENCES test_day (id),
  name TEXT NOT NULL,
  group_a TEXT NOT NULL,
  group_b TEXT NOT NULL,
  gain_percent REAL NOT NULL,
  repeatability_percent REAL NOT NULL,
  band_rpm TEXT,
  plan TEXT NOT NULL,
  who TEXT NOT NULL,
  made_at TEXT NOT NULL
) STRICT;
CREATE INDEX part_test_day ON part_test (day_id);
`;
