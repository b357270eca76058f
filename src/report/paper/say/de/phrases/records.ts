import type { Phrase } from '../../phrases.ts';

/** What the record and the hand-over add: the state of the calibration, what a ladder or a hand-over lacks. */
export const records: readonly Phrase[] = [
  [
    'The torque calibration of {@cell} fell due {when}: until it is done again nothing shows that its torque is right. Gains within the day do not rest on it.',
    'Die Kalibrierung des Drehmoments von „{@cell}“ war {when} fällig: Bis sie wiederholt ist, zeigt nichts, dass das Drehmoment stimmt. Gewinne innerhalb des Tages hängen nicht davon ab.',
  ],
  [
    'The check of {@sensor} on {@cell} fell due {when}: hold it against a reference before it is relied on.',
    'Die Prüfung von „{@sensor}“ an „{@cell}“ war {when} fällig: Vergleichen Sie ihn mit einer Referenz, bevor Sie sich auf ihn verlassen.',
  ],
  ['on this very day', 'an eben diesem Tag'],
  ['on {#due}, {#days} day before this day', 'am {#due}, {#days} Tag vor diesem Tag,'],
  ['on {#due}, {#days} days before this day', 'am {#due}, {#days} Tage vor diesem Tag,'],
  [
    'The day has no date, so nobody can say which calibration of the cell held; the figure stated for the cell stands in.',
    'Der Tag hat kein Datum; niemand kann sagen, welche Kalibrierung des Prüfstands galt. An ihrer Stelle steht der angegebene Wert des Prüfstands.',
  ],
  [
    'The record holds no torque calibration of {@cell} for these pulls; the uncertainty stated for the cell stands in.',
    'Für diese Läufe steht keine Kalibrierung des Drehmoments von „{@cell}“ im Buch; an ihrer Stelle steht die angegebene Unsicherheit des Prüfstands.',
  ],
  [
    'The correction factor of the curve, {#factor}, is outside the {#window} that {@standard} allows; observed, the peaks are {#power} and {#torque}.',
    'Der Umrechnungsfaktor der Kurve, {#factor}, liegt außerhalb von {#window}, was {@standard} erlaubt; gemessen sind es höchstens {#power} und {#torque}.',
  ],
  ['No setting was stepped here.', 'Hier wurde keine Einstellung in Stufen gefahren.'],
  [
    'No pull yet: drop the run files of the day here, or type peaks.',
    'Noch kein Lauf: Legen Sie die Dateien des Tages hier ab, oder tippen Sie Höchstwerte ein.',
  ],
  [
    'None of the pulls of the day is of this ladder: choose which are, or set them in the table of pulls.',
    'Kein Lauf des Tages gehört zu dieser Stufenreihe: Wählen Sie, welche dazugehören, oder stellen Sie es in der Tabelle der Läufe ein.',
  ],
  [
    'No pull has its lead yet: set the lead of each in the table of pulls.',
    'Noch bei keinem Lauf steht der Zündzeitpunkt: Tragen Sie ihn in der Tabelle der Läufe bei jedem ein.',
  ],
  [
    'No pull has its lambda yet: set the lambda of each in the table of pulls.',
    'Noch bei keinem Lauf steht Lambda: Tragen Sie es in der Tabelle der Läufe bei jedem ein.',
  ],
  [
    'None of these pulls has a curve or a typed peak; each says why beside it.',
    'Keiner dieser Läufe hat eine Kurve oder einen eingetippten Höchstwert; bei jedem steht, warum.',
  ],

  // Why the final curve is of these pulls.
  [
    'the pulls at {setting}, the setting left in the engine',
    'die Läufe bei {setting}, der Einstellung, die im Motor blieb',
  ],
  [
    'the pulls at {setting}, the last setting that was run; nobody has decided on one yet',
    'die Läufe bei {setting}, der zuletzt gefahrenen Einstellung; noch hat niemand eine festgelegt',
  ],
  [
    'the pulls of the last day; nobody has decided on a setting yet',
    'die Läufe des letzten Tages; noch hat niemand eine Einstellung festgelegt',
  ],
];
