/** A ladder may step any kind of setting, in that setting's unit, over pulls where another setting was held. */
const renamedIn = (column: string) => `
UPDATE event_row SET ${column} = json_remove(
  json_set(${column}, '$.step', json_extract(${column}, '$.stepDeg')), '$.stepDeg')
WHERE entity = 'ladder' AND json_type(${column}, '$.stepDeg') IS NOT NULL;`;

export const sql = `
ALTER TABLE ladder RENAME COLUMN step_deg TO step;
ALTER TABLE ladder ADD COLUMN held_lead_deg REAL;
ALTER TABLE ladder ADD COLUMN held_lambda REAL;
${renamedIn('before')}
${renamedIn('after')}
`;
