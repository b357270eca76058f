import { displayUnit } from '../../units/display.ts';
import type { FieldSpec } from './field.ts';
import { SECTIONS } from './index.ts';

const PLACES = {
  cylinder: 'cylinder',
  bank: 'bank',
  mainJournal: 'main journal',
  rodJournal: 'rod journal',
  intakeValve: 'intake valve',
  exhaustValve: 'exhaust valve',
} as const;

/** Every section, field and table of the sheet as Markdown, for the page that documents the format. */
export function fieldReference(): string {
  return SECTIONS.map((section) =>
    [
      `## ${section.title}: \`${section.id}\`\n`,
      section.fields.length === 0 ? '' : `\n${fieldTable(section.fields, true)}`,
      ...(section.tables ?? []).map(
        (table) =>
          `\nTable \`${table.id}\`: ${sentence(table.label, table.help)}\n\n${fieldTable(table.columns, false)}`,
      ),
    ].join(''),
  ).join('\n');
}

function fieldTable(fields: readonly FieldSpec[], withPlace: boolean): string {
  const rows = fields.map((field) => {
    const cells = [
      `\`${field.id}\``,
      sentence(field.label, field.help),
      takes(field),
      ...(withPlace ? [field.per === undefined ? 'once' : `each ${PLACES[field.per]}`] : []),
    ];
    return `| ${cells.join(' | ')} |`;
  });
  const heads = withPlace ? ['field', 'what', 'takes', 'where'] : ['column', 'what', 'takes'];
  return `${[`| ${heads.join(' | ')} |`, `|${' --- |'.repeat(heads.length)}`, ...rows].join('\n')}\n`;
}

const sentence = (label: string, help: string | undefined) =>
  help === undefined ? label : `${label}. ${help}`;

/** What may stand there; of a quantity the units in which it is shown, any of its kind being taken. */
function takes(field: FieldSpec): string {
  switch (field.kind) {
    case 'quantity': {
      const units = (['us', 'metric'] as const).map((system) =>
        displayUnit(field.shown!, system).symbol.replace(/^1$/, 'plain ratio'),
      );
      return [...new Set(units)].join(' or ');
    }
    case 'number':
      return field.low === undefined || field.high === undefined
        ? 'number'
        : `number, ${field.low} to ${field.high}`;
    case 'choice':
      return field.choices!.map(({ value }) => value).join(', ');
    case 'yesNo':
      return 'true or false';
    default:
      return field.kind;
  }
}
