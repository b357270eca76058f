/**
 * A decision keeps the whole advice that stood beside it, not its figure alone, and its setting is in the unit of its
 * ladder's kind. Events of before are told in the new words too, so that they can still be taken back.
 */
const INTO_ADVICE = (degrees: string, why: string) =>
  `json(CASE WHEN ${degrees} IS NULL AND ${why} IS NULL THEN 'null'
    ELSE json_object('value', ${degrees}, 'why', coalesce(${why}, ''), 'evidence', NULL) END)`;

const renamedIn = (column: string) => `
UPDATE event_row SET ${column} = json_remove(
  json_set(${column}, '$.setting', json_extract(${column}, '$.leadDeg')), '$.leadDeg')
WHERE entity = 'decision' AND json_type(${column}, '$.leadDeg') IS NOT NULL;
UPDATE event_row SET ${column} = json_remove(
  json_set(${column}, '$.advice', ${INTO_ADVICE(
    `json_extract(${column}, '$.advisedDeg')`,
    `json_extract(${column}, '$.advisedWhy')`,
  )}), '$.advisedDeg', '$.advisedWhy')
WHERE entity = 'decision' AND (json_type(${column}, '$.advisedDeg') IS NOT NULL
  OR json_type(${column}, '$.advisedWhy') IS NOT NULL);`;

export const sql = `
ALTER TABLE decision RENAME COLUMN lead_deg TO setting;
ALTER TABLE decision ADD COLUMN advice TEXT;
UPDATE decision SET advice = ${INTO_ADVICE('advised_deg', 'advised_why')}
WHERE advised_deg IS NOT NULL OR advised_why IS NOT NULL;
ALTER TABLE decision DROP COLUMN advised_deg;
ALTER TABLE decision DROP COLUMN advised_why;
${renamedIn('before')}
${renamedIn('after')}
`;
