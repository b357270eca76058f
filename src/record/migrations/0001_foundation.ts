/** The first shape of the record. */
export const sql = `
CREATE TABLE shop (
  id TEXT PRIMARY KEY CHECK (id = 'shop'),
  name TEXT NOT NULL,
  units TEXT NOT NULL,
  standard TEXT NOT NULL,
  worth_percent REAL NOT NULL,
  step_deg REAL NOT NULL,
  repeatability_percent REAL,
  holdback_deg_per_10k REAL NOT NULL,
  holdback_deg_per_octane REAL NOT NULL,
  uses TEXT NOT NULL
) STRICT;

CREATE TABLE cell (
  id TEXT PRIMARY KEY,
  name TEXT NOT NULL,
  notes TEXT NOT NULL,
  inertia_kg_m2 REAL,
  sensor_lag_s REAL,
  ratio REAL NOT NULL,
  torque_is TEXT NOT NULL,
  calibration_rel_sd REAL NOT NULL
) STRICT;

CREATE TABLE mapping (
  id TEXT PRIMARY KEY,
  cell_id TEXT NOT NULL REFERENCES cell (id),
  shape TEXT NOT NULL,
  answers TEXT NOT NULL,
  UNIQUE (cell_id, shape)
) STRICT;

CREATE TABLE engine (
  id TEXT PRIMARY KEY,
  name TEXT NOT NULL,
  serial TEXT NOT NULL,
  owner TEXT NOT NULL,
  notes TEXT NOT NULL,
  cylinders INTEGER,
  displacement_m3 REAL,
  stroke_m REAL,
  compression_ratio REAL,
  cycle INTEGER NOT NULL,
  aspiration TEXT NOT NULL,
  fuel TEXT NOT NULL
) STRICT;

CREATE TABLE build (
  id TEXT PRIMARY KEY,
  engine_id TEXT NOT NULL REFERENCES engine (id),
  name TEXT NOT NULL,
  notes TEXT NOT NULL,
  cylinders INTEGER,
  displacement_m3 REAL,
  stroke_m REAL,
  compression_ratio REAL
) STRICT;
CREATE INDEX build_engine ON build (engine_id);

CREATE TABLE test_day (
  id TEXT PRIMARY KEY,
  build_id TEXT NOT NULL REFERENCES build (id),
  cell_id TEXT NOT NULL REFERENCES cell (id),
  name TEXT NOT NULL,
  date TEXT,
  notes TEXT NOT NULL,
  fuel TEXT,
  octane REAL,
  inlet_temperature_k REAL,
  worst_inlet_temperature_k REAL,
  worst_octane REAL,
  air_pressure_abs_pa REAL,
  air_temperature_k REAL,
  air_humidity REAL,
  configuration TEXT NOT NULL,
  standard TEXT,
  band_rpm TEXT,
  use_name TEXT,
  lambda_target REAL
) STRICT;
CREATE INDEX test_day_build ON test_day (build_id);
CREATE INDEX test_day_cell ON test_day (cell_id);

CREATE TABLE recording (
  sha256 TEXT PRIMARY KEY,
  file_name TEXT NOT NULL,
  size_bytes INTEGER NOT NULL,
  stored_bytes INTEGER NOT NULL,
  kind TEXT NOT NULL,
  rows INTEGER NOT NULL,
  shape TEXT NOT NULL,
  imported_at TEXT NOT NULL
) STRICT;

-- The bytes in pieces, each packed by itself, so that no file has to fit into memory.
CREATE TABLE recording_piece (
  sha256 TEXT NOT NULL REFERENCES recording (sha256),
  position INTEGER NOT NULL,
  packed BLOB NOT NULL,
  PRIMARY KEY (sha256, position)
) STRICT, WITHOUT ROWID;

CREATE TABLE pull (
  id TEXT PRIMARY KEY,
  day_id TEXT NOT NULL REFERENCES test_day (id),
  recording_sha256 TEXT REFERENCES recording (sha256),
  file_name TEXT,
  span TEXT,
  pull_order INTEGER NOT NULL,
  made_at TEXT,
  lead_deg REAL,
  lambda_target REAL,
  note TEXT NOT NULL,
  excluded_because TEXT,
  watched TEXT,
  knock_heard TEXT NOT NULL,
  aborted INTEGER NOT NULL,
  pull_group TEXT,
  configuration TEXT NOT NULL,
  peak_power_w REAL,
  peak_power_speed_rpm REAL,
  peak_torque_nm REAL,
  peak_torque_speed_rpm REAL,
  peaks_are TEXT
) STRICT;
CREATE INDEX pull_day ON pull (day_id, pull_order);
CREATE INDEX pull_recording ON pull (recording_sha256);

CREATE TABLE ladder (
  id TEXT PRIMARY KEY,
  day_id TEXT NOT NULL REFERENCES test_day (id),
  name TEXT NOT NULL,
  setting TEXT NOT NULL,
  pull_group TEXT,
  band_rpm TEXT,
  standard TEXT,
  use_name TEXT,
  step_deg REAL,
  worth_percent REAL,
  repeatability_percent REAL
) STRICT;
CREATE INDEX ladder_day ON ladder (day_id);

CREATE TABLE decision (
  id TEXT PRIMARY KEY,
  ladder_id TEXT NOT NULL REFERENCES ladder (id),
  use_name TEXT NOT NULL,
  lead_deg REAL,
  who TEXT NOT NULL,
  decided_at TEXT NOT NULL,
  why TEXT NOT NULL,
  advised_deg REAL,
  advised_why TEXT
) STRICT;
CREATE INDEX decision_ladder ON decision (ladder_id);

CREATE TABLE event (
  id INTEGER PRIMARY KEY AUTOINCREMENT,
  at TEXT NOT NULL,
  who TEXT NOT NULL,
  kind TEXT NOT NULL,
  summary TEXT NOT NULL,
  of_event INTEGER REFERENCES event (id),
  undone INTEGER NOT NULL DEFAULT 0
) STRICT;

CREATE TABLE event_row (
  event_id INTEGER NOT NULL REFERENCES event (id),
  position INTEGER NOT NULL,
  entity TEXT NOT NULL,
  entity_id TEXT NOT NULL,
  before TEXT,
  after TEXT,
  PRIMARY KEY (event_id, position)
) STRICT, WITHOUT ROWID;
CREATE INDEX event_row_entity ON event_row (entity_id, event_id);

-- Results that can be computed again at any time; never part of an event.
CREATE TABLE derived (
  recording_sha256 TEXT NOT NULL REFERENCES recording (sha256),
  question_sha256 TEXT NOT NULL,
  version INTEGER NOT NULL,
  result BLOB NOT NULL,
  PRIMARY KEY (recording_sha256, question_sha256)
) STRICT, WITHOUT ROWID;
`;
