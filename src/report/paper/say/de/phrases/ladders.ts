import type { Phrase } from '../../phrases.ts';

/** What `src/ladder` says: the answer, its warnings, the setting for each use, the next move. */
export const ladders: readonly Phrase[] = [
  // The uses that Pullbook ships.
  ['bursts', 'kurze Vollgasstöße'],
  ['sustained', 'Dauervollgas'],
  ['Spark lead', 'Zündzeitpunkt'],
  ['Lambda', 'Lambda'],

  // Headlines.
  ['No pulls yet.', 'Noch keine Läufe.'],
  ['Start careful.', 'Beginnen Sie vorsichtig.'],
  ['Repeat {#setting} and watch it.', '{#setting} wiederholen und dabei auf Klopfen achten.'],
  ['Try {#setting} and watch it.', '{#setting} versuchen und dabei auf Klopfen achten.'],
  ['The pulls disagree.', 'Die Läufe widersprechen sich.'],
  ['Repeat {#setting}.', '{#setting} wiederholen.'],
  [
    'Try {#setting}: this ladder began too far.',
    '{#setting} versuchen: Diese Stufenreihe begann zu weit.',
  ],
  ['Stop here.', 'Hier aufhören.'],
  ['Go back.', 'Zurückgehen.'],
  ['The limit lies {where}.', 'Die Grenze liegt {where}.'],
  ['near {#setting}', 'nahe {#setting}'],
  ['between {#settings}', 'zwischen {#settings}'],
  ['Not there yet.', 'Noch nicht am Ziel.'],
  ['Try {#setting}.', '{#setting} versuchen.'],
  ['More lead hardly pays.', 'Mehr Frühzündung lohnt kaum.'],
  ['More lambda hardly pays.', 'Mehr Lambda lohnt kaum.'],
  ['Repeat {#setting} to be sure.', '{#setting} wiederholen, um sicher zu sein.'],
  ['More lead no longer pays.', 'Mehr Frühzündung lohnt nicht mehr.'],
  ['Leaner no longer pays.', 'Magerer lohnt nicht mehr.'],
  ['It knocked at {#setting}.', 'Bei {#setting} klopfte es.'],
  ['The exhaust was too hot at {#setting}.', 'Bei {#setting} war das Abgas zu heiß.'],

  // Why this move.
  [
    'No pull counts yet: start at a careful lead, well to the safe side of where the best is expected.',
    'Noch zählt kein Lauf: Beginnen Sie mit einem vorsichtigen Zündzeitpunkt, weit auf der sicheren Seite des erwarteten besten Wertes.',
  ],
  [
    'No pull counts yet: start at a careful lambda, well to the safe side of where the best is expected.',
    'Noch zählt kein Lauf: Beginnen Sie mit einem vorsichtigen Lambda, weit auf der sicheren Seite des erwarteten besten Wertes.',
  ],
  [
    'No rung is known to have run clean: repeat {#setting} and watch for knock.',
    'Von keiner Stufe ist bekannt, dass sie sauber lief: {#setting} wiederholen und auf Klopfen achten.',
  ],
  [
    '{#unwatched} was run but nobody watched it: run {#setting} and watch for knock before going on.',
    '{#unwatched} wurde gefahren, aber niemand achtete auf Klopfen: {#setting} fahren und darauf achten, bevor es weitergeht.',
  ],
  [
    'The pull at {#setting} does not agree with the others; a second one tells which to believe.',
    'Der Lauf bei {#setting} passt nicht zu den anderen; ein zweiter sagt, welchem zu glauben ist.',
  ],
  [
    'The best lies below the most careful rung run so far, so the ladder needs {#setting}.',
    'Der beste Wert liegt unter der vorsichtigsten bisher gefahrenen Stufe; die Stufenreihe braucht {#setting}.',
  ],
  [
    'The limit lies near {#limit}, so {#setting} is not to be run.',
    'Die Grenze liegt nahe {#limit}; {#setting} ist nicht zu fahren.',
  ],
  [
    'One rung says nothing about the next: {#setting} is the second.',
    'Eine Stufe sagt nichts über die nächste: {#setting} ist die zweite.',
  ],
  [
    '{#setting} is expected to change mean power by {#gain}; {#rungs} rungs cannot show the knee yet.',
    'Von {#setting} ist eine Änderung der mittleren Leistung um {#gain} zu erwarten; {#rungs} Stufen können das Knie noch nicht zeigen.',
  ],
  [
    'The next rung has a chance of {chance} to gain {#worth} or more; {#gain} is expected.',
    'Die nächste Stufe bringt mit {chance} Wahrscheinlichkeit {#worth} oder mehr; zu erwarten sind {#gain}.',
  ],
  [
    'Another rung still has a chance of {chance} to gain {#worth}; repeating {#setting} tells gain from drift without more risk.',
    'Eine weitere Stufe bringt noch mit {chance} Wahrscheinlichkeit {#worth}; {#setting} zu wiederholen trennt Gewinn von Drift, ohne mehr zu wagen.',
  ],
  [
    'Another rung has a chance of {chance} to gain {#worth} of mean power: not worth its risk.',
    'Eine weitere Stufe bringt mit {chance} Wahrscheinlichkeit {#worth} mittlere Leistung: das Wagnis nicht wert.',
  ],
  ['less than {#percent}', 'weniger als {#percent}'],
  ['more than {#percent}', 'mehr als {#percent}'],
  [
    'It knocked at {#knocked}, the most careful rung run: go back to {#setting} or less and find a rung that runs clean.',
    'Bei {#knocked}, der vorsichtigsten gefahrenen Stufe, klopfte es: auf {#setting} oder weniger zurückgehen und eine Stufe finden, die sauber läuft.',
  ],
  [
    'The exhaust was too hot at {#knocked}, the most careful rung run: go back to {#setting} or less and find a rung that runs clean.',
    'Bei {#knocked}, der vorsichtigsten gefahrenen Stufe, war das Abgas zu heiß: auf {#setting} oder weniger zurückgehen und eine Stufe finden, die sauber läuft.',
  ],
  [
    '{sign}; the limit lies {where}, and {#clean} is the highest that ran clean from end to end.',
    '{sign}; die Grenze liegt {where}, und {#clean} ist die höchste Stufe, die durchweg sauber lief.',
  ],
  [
    '{sign}, if only outside the band; the limit in it lies {where}, and {#clean} is the highest that ran clean from end to end.',
    '{sign}, wenn auch nur außerhalb des Bandes; die Grenze darin liegt {where}, und {#clean} ist die höchste Stufe, die durchweg sauber lief.',
  ],
  [
    'The limit lies {where} and is in the way: more lead is not to be tried on this fuel and air.',
    'Die Grenze liegt {where} und steht im Weg: Mehr Frühzündung ist mit diesem Kraftstoff und dieser Luft nicht zu versuchen.',
  ],
  [
    'The limit lies {where} and is in the way: leaner is not to be tried on this fuel and air.',
    'Die Grenze liegt {where} und steht im Weg: Magerer ist mit diesem Kraftstoff und dieser Luft nicht zu versuchen.',
  ],

  // The summary.
  [
    'The step from {#from} to {#to} gained {#gain}.',
    'Der Schritt von {#from} auf {#to} brachte {#gain}.',
  ],
  [
    'The step from {#from} to {#to} gained only {#gain}.',
    'Der Schritt von {#from} auf {#to} brachte nur {#gain}.',
  ],
  [
    'The step from {#from} to {#to} cannot be told from chance.',
    'Der Schritt von {#from} auf {#to} ist nicht vom Zufall zu unterscheiden.',
  ],
  [
    'The step from {#from} to {#to} lost {#gain}.',
    'Der Schritt von {#from} auf {#to} kostete {#gain}.',
  ],
  ['The best is near {#best}.', 'Der beste Wert liegt nahe {#best}.'],
  ['The best is near {#best} ({range}).', 'Der beste Wert liegt nahe {#best} ({range}).'],
  ['above {#low}', 'über {#low}'],
  ['below {#high}', 'unter {#high}'],
  ['The best is not known yet.', 'Der beste Wert ist noch nicht bekannt.'],
  [
    'for {?use} leave {#setting}, which gives up {#loss}',
    'für {?use} {#setting} einstellen, das kostet {#loss}',
  ],
  ['The setting to leave is not known yet.', 'Was einzustellen ist, ist noch nicht bekannt.'],
  ['The limit was not watched.', 'Auf die Grenze wurde nicht geachtet.'],

  // The setting for a use.
  [
    '{#setting} stands {#apart} to the safe side of {base}; it gives up {#loss}, with a chance of {chance} to stand past the best.',
    '{#setting} liegt {#apart} sicherer als {base}; das kostet {#loss}, und mit {chance} Wahrscheinlichkeit liegt es jenseits des besten Wertes.',
  ],
  ['the best near {#best}', 'der beste Wert nahe {#best}'],
  ['the limit near {#limit}', 'die Grenze nahe {#limit}'],
  ['{#clean}, the highest rung that ran clean', '{#clean}, die höchste Stufe, die sauber lief'],
  [
    '{#clean}, the highest rung that ran clean at the speeds of this use',
    '{#clean}, die höchste Stufe, die bei den Drehzahlen dieses Einsatzes sauber lief',
  ],
  ['{#run}, the highest rung run', '{#run}, die höchste gefahrene Stufe'],
  [
    '{base}, {#extra} of it for the worst fuel and the hottest inlet',
    '{base}, davon {#extra} für den schlechtesten Kraftstoff und die heißeste Ansaugluft',
  ],
  [
    '{base} and lower than the rule because the best is not known better',
    '{base} und tiefer als die Regel, weil der beste Wert nicht genauer bekannt ist',
  ],
  [
    '{base} and lower than the rule because the limit is not known better',
    '{base} und tiefer als die Regel, weil die Grenze nicht genauer bekannt ist',
  ],
  ['limit not watched.', 'auf die Grenze wurde nicht geachtet.'],
  [
    'No rule is shipped for a boosted engine: its knock limit decides, and the shop must set its own.',
    'Für einen aufgeladenen Motor gibt es keine mitgelieferte Regel: Seine Klopfgrenze entscheidet, die Werkstatt muss ihre eigene festlegen.',
  ],
  [
    'No rule is shipped for an engine on nitrous: its knock limit decides, and the shop must set its own.',
    'Für einen Motor mit Lachgas gibt es keine mitgelieferte Regel: Seine Klopfgrenze entscheidet, die Werkstatt muss ihre eigene festlegen.',
  ],
  ['Not known yet: no rung has run clean.', 'Noch nicht bekannt: Keine Stufe lief sauber.'],
  [
    'Not known yet: the ladder has not come near enough to its best or a limit.',
    'Noch nicht bekannt: Die Stufenreihe kam dem besten Wert oder einer Grenze nicht nahe genug.',
  ],
  [
    'Not known yet: the ladder has not come near enough to its best or a limit (next: {#next}).',
    'Noch nicht bekannt: Die Stufenreihe kam dem besten Wert oder einer Grenze nicht nahe genug (als Nächstes: {#next}).',
  ],

  // Warnings.
  [
    'Limit not watched: no ear, plug, sensor or knock channel is noted, so the highest rung run stands in for the highest clean one.',
    'Auf die Grenze wurde nicht geachtet: Weder Ohr, Kerze, Sensor noch Klopfkanal ist vermerkt; die höchste gefahrene Stufe steht für die höchste saubere.',
  ],
  [
    'A rung reached its limit that another pull ran past without it; the lower one is believed.',
    'Eine Stufe kam an ihre Grenze, über die ein anderer Lauf ohne sie hinausging; geglaubt wird der tieferen.',
  ],
  [
    'Exhaust hotter than its limit at {#settings}: less lead makes it hotter still, a richer mixture cooler.',
    'Abgas heißer als seine Grenze bei {#settings}: Weniger Frühzündung macht es noch heißer, ein fetteres Gemisch kühler.',
  ],
  [
    'Pulls disagree: the one at {#setting} is off by more than this cell repeats and counts for little.',
    'Läufe widersprechen sich: Der bei {#setting} liegt weiter daneben, als dieser Prüfstand wiederholt, und zählt wenig.',
  ],
  ['The pull at {#setting} is left out: {?why}.', 'Der Lauf bei {#setting} zählt nicht: {?why}.'],
  ['A pull is left out: {?why}.', 'Ein Lauf zählt nicht: {?why}.'],
  ['its setting is not known', 'seine Einstellung ist nicht bekannt'],
  ['it was aborted', 'er wurde abgebrochen'],
  ['it has neither a curve nor a peak', 'er hat weder eine Kurve noch einen Höchstwert'],
  ['it has no peak power', 'er hat keine größte Leistung'],
  ['it has no peak torque', 'er hat kein größtes Drehmoment'],
  [
    'it runs {where} and misses too much of the band',
    'er reicht {where}, und ihm fehlt zu viel vom Band',
  ],
  [
    'it was made at {#load} load, and a ladder is of full throttle',
    'er wurde mit {#load} Last gefahren, und eine Stufenreihe gilt für Vollgas',
  ],
  [
    'its lead is {#lead}, and this ladder of lambda holds {#held}',
    'sein Zündzeitpunkt ist {#lead}, und diese Stufenreihe über Lambda hält {#held}',
  ],
  [
    'Judged by peak power alone, for not every pull has a curve; nothing can be said speed by speed.',
    'Nur nach der größten Leistung beurteilt, denn nicht jeder Lauf hat eine Kurve; über einzelne Drehzahlen lässt sich nichts sagen.',
  ],
  [
    'Judged by peak torque alone, for not every pull has a curve; nothing can be said speed by speed.',
    'Nur nach dem größten Drehmoment beurteilt, denn nicht jeder Lauf hat eine Kurve; über einzelne Drehzahlen lässt sich nichts sagen.',
  ],
  [
    'Judged from {#speeds}, the part of the band that every pull covers.',
    'Beurteilt von {#speeds}, dem Teil des Bandes, den jeder Lauf abdeckt.',
  ],
  [
    'No rung was repeated on a ladder that only climbs, so drift over the day cannot be told from the lead; repeating {#setting} now would tell.',
    'Keine Stufe wurde wiederholt, und die Reihe steigt nur; die Drift des Tages ist vom Zündzeitpunkt nicht zu trennen. {#setting} jetzt zu wiederholen, würde es sagen.',
  ],
  [
    'No rung was repeated on a ladder that only climbs, so drift over the day cannot be told from the lambda; repeating {#setting} now would tell.',
    'Keine Stufe wurde wiederholt, und die Reihe steigt nur; die Drift des Tages ist vom Lambda nicht zu trennen. {#setting} jetzt zu wiederholen, würde es sagen.',
  ],
];
