/**
 * The build sheet, kept section by section so that an event holds what changed and no more; the shop's own windows;
 * files beside a sheet; the plan of a test day with its ticks; calibrations of a cell.
 */
export const sql = `
ALTER TABLE shop ADD COLUMN windows TEXT NOT NULL DEFAULT '[]';
ALTER TABLE cell ADD COLUMN apply_calibration INTEGER NOT NULL DEFAULT 0;

CREATE TABLE sheet (
  id TEXT PRIMARY KEY,
  build_id TEXT NOT NULL UNIQUE REFERENCES build (id),
  name TEXT,
  layout TEXT NOT NULL,
  use_name TEXT,
  attachments TEXT NOT NULL
) STRICT;

CREATE TABLE sheet_section (
  id TEXT PRIMARY KEY,
  sheet_id TEXT NOT NULL REFERENCES sheet (id),
  section TEXT NOT NULL,
  data TEXT NOT NULL,
  UNIQUE (sheet_id, section)
) STRICT;

-- Photos and files of sheets, in pieces like the recordings; no event ever removes one.
CREATE TABLE file (
  sha256 TEXT PRIMARY KEY,
  file_name TEXT NOT NULL,
  size_bytes INTEGER NOT NULL,
  stored_bytes INTEGER NOT NULL,
  media_type TEXT NOT NULL,
  stored_at TEXT NOT NULL
) STRICT;
CREATE TABLE file_piece (
  sha256 TEXT NOT NULL REFERENCES file (sha256),
  position INTEGER NOT NULL,
  packed BLOB NOT NULL,
  PRIMARY KEY (sha256, position)
) STRICT, WITHOUT ROWID;

CREATE TABLE plan (
  id TEXT PRIMARY KEY,
  day_id TEXT NOT NULL REFERENCES test_day (id),
  made_at TEXT NOT NULL,
  who TEXT NOT NULL,
  version INTEGER NOT NULL,
  plan TEXT NOT NULL
) STRICT;
CREATE INDEX plan_day ON plan (day_id);
CREATE TABLE tick (
  id TEXT PRIMARY KEY,
  plan_id TEXT NOT NULL REFERENCES plan (id),
  item_id TEXT NOT NULL,
  who TEXT NOT NULL,
  ticked_at TEXT NOT NULL,
  UNIQUE (plan_id, item_id)
) STRICT;

CREATE TABLE calibration (
  id TEXT PRIMARY KEY,
  cell_id TEXT NOT NULL REFERENCES cell (id),
  done_on TEXT NOT NULL,
  who TEXT NOT NULL,
  interval_months INTEGER,
  notes TEXT NOT NULL,
  measured TEXT NOT NULL
) STRICT;
CREATE INDEX calibration_cell ON calibration (cell_id, done_on);
`;
