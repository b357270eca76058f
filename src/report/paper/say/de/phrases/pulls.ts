import type { Phrase } from '../../phrases.ts';

/** What `src/pull` says: its checks, and why a pull has no curve. */
export const pulls: readonly Phrase[] = [
  [
    'Inlet air moved by {#moved} during the pull; one factor for the whole pull is off by {#off} of torque at its ends.',
    'Die Ansaugluft änderte sich während des Laufs um {#moved}; ein einziger Faktor für den ganzen Lauf liegt an seinen Enden um {#off} des Drehmoments daneben.',
  ],
];
