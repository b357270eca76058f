import { type FieldSpec, SECTIONS, type SectionSpec } from '../sections/index.ts';
import { key } from './cells.ts';

/** The section of an id or a title. */
export const sectionNamed = (text: string): SectionSpec | undefined =>
  SECTIONS.find((one) => key(one.id) === key(text)) ??
  SECTIONS.find((one) => key(one.title) === key(text));

/** The field (or column) of an id or a label. */
export const fieldNamed = (
  owner: { readonly fields: readonly FieldSpec[] },
  text: string,
): FieldSpec | undefined =>
  owner.fields.find((one) => key(one.id) === key(text)) ??
  owner.fields.find((one) => key(one.label) === key(text));
