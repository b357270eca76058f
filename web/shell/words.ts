/** Small turns of phrase that several screens share. */

/** What we call an air standard on screen. */
export function nameOfStandard(name: string): string {
  if (name === 'none') return 'As observed';
  if (name === 'SAE 60F dry') return '60 °F dry standard';
  return name;
}

/** `1 pull`, `3 pulls`. */
export function count(number: number, one: string, many = `${one}s`): string {
  return `${number} ${number === 1 ? one : many}`;
}

/** `14 May 2026` from an ISO date; what cannot be read is shown as it stands. */
export function dateInWords(iso: string): string {
  const date = new Date(/^\d{4}-\d\d-\d\d$/.test(iso) ? `${iso}T12:00:00` : iso);
  if (Number.isNaN(date.getTime())) return iso;
  return new Intl.DateTimeFormat('en-GB', {
    day: 'numeric',
    month: 'long',
    year: 'numeric',
  }).format(date);
}

/** `14 May, 16:02` from an ISO time. */
export function timeInWords(iso: string): string {
  const date = new Date(iso);
  if (Number.isNaN(date.getTime())) return iso;
  return new Intl.DateTimeFormat('en-GB', {
    day: 'numeric',
    month: 'short',
    hour: '2-digit',
    minute: '2-digit',
  }).format(date);
}

/** First letter large, full stop at the end. The name of a file or folder at its head stays as it is. */
export function asSentence(text: string): string {
  const isName = /^\S*[./\\]\w/.test(text);
  const large = isName ? text : text.charAt(0).toUpperCase() + text.slice(1);
  return /[.!?]$/.test(large) ? large : `${large}.`;
}

/** A sentence with its numbers and units kept on one line. */
export const kept = (sentence: string): string =>
  sentence.replace(/(\d) (%|°|rpm|hp|kW|K|N·m|lb-ft|kPa|psi|inHg|degrees?\b)/g, '$1\u202f$2');

/** The day where the person stands, as an ISO date. */
export function today(): string {
  const now = new Date();
  const two = (number: number) => String(number).padStart(2, '0');
  return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
}
