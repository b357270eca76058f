/**
 * Hand-overs as they were frozen: what was told and what it was computed from are files under their SHA-256. The key
 * that the shop signs with, so that a restored backup signs as before.
 */
export const sql = `
CREATE TABLE hand_over (
  id TEXT PRIMARY KEY,
  build_id TEXT NOT NULL REFERENCES build (id),
  made_at TEXT NOT NULL,
  made_by TEXT NOT NULL,
  pullbook TEXT NOT NULL,
  choice TEXT NOT NULL,
  document_sha256 TEXT NOT NULL REFERENCES file (sha256),
  part_sha256 TEXT NOT NULL REFERENCES file (sha256)
) STRICT;
CREATE INDEX hand_over_build ON hand_over (build_id, made_at);

CREATE TABLE shop_key (
  id TEXT PRIMARY KEY CHECK (id = 'shop'),
  pem TEXT NOT NULL,
  made_at TEXT NOT NULL
) STRICT;
`;
