import { dateInWords } from './words.ts';

/** How a test day is called where it has no name of its own. */
export function dayLabel(day: { readonly name: string; readonly date: string | null }): string {
  if (day.name !== '' && day.date !== null) return `${day.name}, ${dateInWords(day.date)}`;
  if (day.name !== '') return day.name;
  return day.date === null ? 'Test day' : dateInWords(day.date);
}
