import type { Phrase } from '../../phrases.ts';

/** Pairs of the intake side, each with the one of the exhaust side that says the same. */
export const bothSides = (intake: readonly Phrase[]): readonly Phrase[] =>
  intake.flatMap(([english, german]): readonly Phrase[] => [
    [english, german],
    [
      english.replaceAll('Intake', 'Exhaust').replaceAll('intake', 'exhaust'),
      german.replaceAll('Einlass', 'Auslass').replaceAll('einlass', 'auslass'),
    ],
  ]);
