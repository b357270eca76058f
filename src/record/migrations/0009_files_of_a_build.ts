/**
 * Photos and files of a build are rows of their own: each with who put it there and when, so that one is put, captioned
 * and removed by itself, whoever works at the sheet meanwhile. Those that stood on a sheet come along.
 */
export const sql = `
CREATE TABLE build_file (
  id TEXT PRIMARY KEY,
  build_id TEXT NOT NULL REFERENCES build (id),
  sha256 TEXT NOT NULL REFERENCES file (sha256),
  file_name TEXT NOT NULL,
  section TEXT,
  caption TEXT NOT NULL,
  who TEXT NOT NULL,
  put_at TEXT NOT NULL
) STRICT;
CREATE INDEX build_file_build ON build_file (build_id, put_at);

INSERT INTO build_file (id, build_id, sha256, file_name, section, caption, who, put_at)
SELECT sheet.build_id || '/file/' || one.key, sheet.build_id,
    json_extract(one.value, '$.sha256'), json_extract(one.value, '$.fileName'),
    json_extract(one.value, '$.section'), coalesce(json_extract(one.value, '$.note'), ''), '', file.stored_at
  FROM sheet, json_each(sheet.attachments) AS one
    JOIN file ON file.sha256 = json_extract(one.value, '$.sha256');
UPDATE sheet SET attachments = '[]';
`;
