const LONGEST = 120;

/** Text from a file made fit to show: control and direction marks gone, white space single, length capped. */
export function shown(text: string, longest = LONGEST): string {
  const clean = text
    .slice(0, longest * 10)
    .replace(/[\p{Cc}\p{Zs}\p{Zl}\p{Zp}]+/gu, ' ')
    .replace(/[\p{Cf}\p{Cs}\ufffe\uffff]/gu, '')
    .replace(/ {2,}/g, ' ')
    .trim();
  const points = [...clean];
  return points.length <= longest ? clean : `${points.slice(0, longest - 1).join('')}…`;
}

/** The same, short enough for the middle of a sentence. */
export function quoted(text: string): string {
  return `"${shown(text, 48)}"`;
}
