import type { Phrase } from '../../phrases.ts';

const VALVES = [
  ['Intake', 'Einlass'],
  ['Exhaust', 'Auslass'],
] as const;

/** What stands at the head of each row of a field that is measured at several places. */
export const places: readonly Phrase[] = [
  ['Cylinder {#number}', 'Zylinder {#number}'],
  ['Bank {#number}', 'Bank {#number}'],
  ['Main {#number}', 'Hauptlager {#number}'],
  ['Rod journal {#number}', 'Hubzapfen {#number}'],
  ...VALVES.flatMap(([english, german]) =>
    // A cylinder has its second intake valve at `4b`.
    ['', ...'abcdefgh'].map(
      (letter): Phrase => [`${english} {#number}${letter}`, `${german} {#number}${letter}`],
    ),
  ),
];
