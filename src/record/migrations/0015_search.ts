/**
 * What anything in the shop is found by. A thing has its own words and those of what it stands under, so that one
 * question over one index finds `six may knock`; the program fills it (and again whenever its words change).
 * A row's number tells its kind and its day, so that the newest of a kind are read off the index without sorting.
 * Peaks of pulls stand beside it, because those of recorded pulls are computed.
 */
export const sql = `
CREATE TABLE search_row (
  row INTEGER PRIMARY KEY,
  kind TEXT NOT NULL,
  source TEXT NOT NULL,
  parent TEXT,
  label TEXT NOT NULL,
  trail TEXT NOT NULL,
  page TEXT NOT NULL,
  on_date TEXT NOT NULL,
  own TEXT NOT NULL,
  above TEXT NOT NULL
) STRICT;
CREATE INDEX search_row_source ON search_row (source);
CREATE INDEX search_row_parent ON search_row (parent);

CREATE VIRTUAL TABLE search_words USING fts5 (
  own, above, content = 'search_row', content_rowid = 'row',
  tokenize = 'unicode61 remove_diacritics 2', prefix = '1 2 3', detail = 'full'
);
CREATE TRIGGER search_row_in AFTER INSERT ON search_row BEGIN
  INSERT INTO search_words (rowid, own, above) VALUES (new.row, new.own, new.above);
END;
CREATE TRIGGER search_row_out AFTER DELETE ON search_row BEGIN
  INSERT INTO search_words (search_words, rowid, own, above) VALUES ('delete', old.row, old.own, old.above);
END;
CREATE TRIGGER search_row_anew AFTER UPDATE ON search_row BEGIN
  INSERT INTO search_words (search_words, rowid, own, above) VALUES ('delete', old.row, old.own, old.above);
  INSERT INTO search_words (rowid, own, above) VALUES (new.row, new.own, new.above);
END;

CREATE TABLE search_state (
  id INTEGER PRIMARY KEY CHECK (id = 1),
  version INTEGER NOT NULL,
  next INTEGER NOT NULL
) STRICT;

CREATE TABLE pull_peak (
  pull_id TEXT PRIMARY KEY,
  power_w REAL,
  torque_nm REAL
) STRICT, WITHOUT ROWID;
CREATE INDEX pull_peak_power ON pull_peak (power_w);
CREATE INDEX pull_peak_torque ON pull_peak (torque_nm);
`;
