import type { Phrase } from '../../phrases.ts';

/** What a comparison with the build before says beside its figures, and why there is none. */
export const comparisons: readonly Phrase[] = [
  // How the builds differ.
  [
    'By their sheets {@after} has other parts or measures than {@before}: {changes}.',
    'Nach den Blättern hat „{@after}“ andere Teile oder Maße als „{@before}“: {changes}.',
  ],
  ['new: {*parts}', 'neu: {*parts}'],
  ['gone: {*parts}', 'fort: {*parts}'],
  ['{figure} {#before} to {#after}', '{figure} von {#before} auf {#after}'],
  ['{#count} other figures moved', '{#count} weitere Größen änderten sich'],
  ['{#count} other figure moved', '{#count} weitere Größe änderte sich'],
  ['measured otherwise: {*places}', 'anders gemessen: {*places}'],
  [
    'They are different builds, {@before} and {@after}; their sheets say the same of both.',
    'Es sind verschiedene Aufbauten, „{@before}“ und „{@after}“; ihre Blätter sagen von beiden dasselbe.',
  ],
  [
    'They are different builds, {@before} and {@after}; not both have a sheet that would say what was changed.',
    'Es sind verschiedene Aufbauten, „{@before}“ und „{@after}“; nicht beide haben ein Blatt, das sagte, was geändert wurde.',
  ],
  [
    'They are different builds, {@before} and {@after}; neither has a sheet that would say what was changed.',
    'Es sind verschiedene Aufbauten, „{@before}“ und „{@after}“; keiner hat ein Blatt, das sagte, was geändert wurde.',
  ],
  [
    'Besides what is compared, the engine stood differently: {apart}.',
    'Außer in dem, was verglichen wird, stand der Motor anders: {apart}.',
  ],
  ['{part}: {?one} against {?other}', '{part}: {?one} gegen {?other}'],
  ['as the day says against {?other}', 'wie der Tag sagt gegen {?other}'],
  ['{?one} against as the day says', '{?one} gegen wie der Tag sagt'],
  ['exhaust', 'Auspuff'],
  ['air cleaner', 'Luftfilter'],
  ['accessories', 'Nebenantriebe'],
  ['oil', 'Öl'],
  ['plugs', 'Kerzen'],
  ['base timing', 'Grundzündzeitpunkt'],
  ['lead set by', 'Zündzeitpunkt eingestellt und geprüft'],
  ['distributor curve', 'Verstellkurve'],
  ['lead', 'Zündzeitpunkt'],
  ['lambda', 'Lambda'],
  ['jets', 'Düsen'],
  ['load', 'Last'],
  ['octane', 'Oktanzahl'],
  ['not said', 'nicht gesagt'],
  ['lead: {#lead}', 'Zündzeitpunkt: {#lead}'],
  ['lambda: {#lambda}', 'Lambda: {#lambda}'],
  ['base timing: {#lead}', 'Grundzündzeitpunkt: {#lead}'],
  ['load: {#load}', 'Last: {#load}'],

  // What should be known with it.
  [
    'Compared from {#speeds}: not every pull covers the whole band.',
    'Verglichen von {#speeds}: Nicht jeder Lauf deckt das ganze Band ab.',
  ],
  [
    'The groups were made on different days: their band carries how days differ, as the shop’s own reference pulls show it. More pulls do not shrink that part.',
    'Die Läufe der beiden Aufbauten sind von verschiedenen Tagen: Ihr Band enthält, wie sich Tage unterscheiden, so wie es die Referenzläufe der Werkstatt zeigen. Mehr Läufe verkleinern diesen Teil nicht.',
  ],
  [
    'The groups were made on different days: their band carries how days usually differ (1 to 2 % is what handbooks give). Reference pulls of an unchanged engine on several days would tell how days differ here; more pulls of these groups do not shrink that part.',
    'Die Läufe der beiden Aufbauten sind von verschiedenen Tagen: Ihr Band enthält, wie sich Tage üblicherweise unterscheiden (1 bis 2 % nennen die Handbücher). Referenzläufe eines unveränderten Motors an mehreren Tagen würden zeigen, wie sich Tage hier unterscheiden; mehr Läufe der beiden Aufbauten verkleinern diesen Teil nicht.',
  ],
  [
    'All pulls of one group were made before all of the other: a drift of the day (heat soak) cannot be told from the change. One pull of the first again would tell.',
    'Alle Läufe des einen waren vor allen des anderen: Eine Drift des Tages (Aufheizen) ist von der Änderung nicht zu trennen. Ein weiterer Lauf des ersten würde es sagen.',
  ],
  [
    'Compared at {setting}, which both have; by its own pulls the strongest setting is {one} for {@first} and {other} for {@second}.',
    'Verglichen bei {setting}, was beide haben; nach den eigenen Läufen ist die stärkste Einstellung {one} bei „{@first}“ und {other} bei „{@second}“.',
  ],
  [
    'Each side stands at the setting that gave most power on the day: what was lucky there counts for it.',
    'Jeder steht bei der Einstellung, die an seinem Tag am meisten Leistung gab: Was dort Glück war, zählt für ihn.',
  ],
  ['{#lead} degrees of lead', 'Zündzeitpunkt {#lead}°'],
  ['lambda {#lambda}', 'Lambda {#lambda}'],
  ['jets {@jets}', 'Düsen {@jets}'],
  ['{#lead} degrees of lead, {rest}', 'Zündzeitpunkt {#lead}°, {rest}'],
  ['lambda {#lambda}, {rest}', 'Lambda {#lambda}, {rest}'],
  [
    'Nobody has said whether the torque of these pulls is observed or corrected: they are compared as recorded, so a change of the weather may stand in the gain.',
    'Niemand hat gesagt, ob das Drehmoment dieser Läufe gemessen oder umgerechnet ist: Sie sind verglichen wie aufgezeichnet, eine Änderung des Wetters kann im Gewinn stecken.',
  ],
  [
    'Compared as observed and not in {@standard}: {why}. A change of the weather stands in the gain.',
    'Verglichen wie gemessen und nicht nach {@standard}: {why}. Eine Änderung des Wetters steckt im Gewinn.',
  ],
  [
    'Compared in {@chosen} and not in {@standard}: {why}.',
    'Verglichen nach {@chosen} und nicht nach {@standard}: {why}.',
  ],
  ['an engine is boosted or on nitrous', 'ein Motor ist aufgeladen oder läuft mit Lachgas'],
  [
    'not every pull can be brought there with the air that was recorded',
    'nicht jeder Lauf lässt sich mit der aufgezeichneten Luft dorthin bringen',
  ],
  [
    'Nobody has said whether inertia is in these torques; it was taken to be alike in all.',
    'Niemand hat gesagt, ob das Trägheitsmoment in diesen Drehmomenten steckt; es gilt bei allen als gleich.',
  ],
  [
    'The sweeps were not equally fast ({#first} against {#second} per second); a fast sweep shows what heat and filling lag behind.',
    'Die Hochläufe waren nicht gleich schnell ({#first} gegen {#second} je Sekunde); ein schneller Hochlauf zeigt, was Wärme und Füllung nachhinken.',
  ],
  [
    'The sweeps were not equally fast ({#first} against {#second} per second), with inertia out of the torque: part of the gain may be that; a fast sweep shows what heat and filling lag behind.',
    'Die Hochläufe waren nicht gleich schnell ({#first} gegen {#second} je Sekunde), ohne das Trägheitsmoment im Drehmoment: Ein Teil des Gewinns kann das sein; ein schneller Hochlauf zeigt, was Wärme und Füllung nachhinken.',
  ],
  [
    'Of some pulls the sweep rate is not known, so it could not be compared.',
    'Von einigen Läufen ist die Geschwindigkeit des Hochlaufs nicht bekannt; sie ließ sich nicht vergleichen.',
  ],
  [
    '{@first} and {@second} were made on different cells, as their settings say: the band carries how far each one’s calibration may be off.',
    '„{@first}“ und „{@second}“ entstanden nach ihren Angaben auf verschiedenen Prüfständen: Das Band enthält, wie weit die Kalibrierung von jedem daneben liegen kann.',
  ],
  [
    '{@first} and {@second} were made in different calibration states of the cell.',
    '„{@first}“ und „{@second}“ entstanden bei verschiedenem Stand der Kalibrierung des Prüfstands.',
  ],
  [
    'The fuel differs: {?one} against {?other}.',
    'Der Kraftstoff ist verschieden: {?one} gegen {?other}.',
  ],
  [
    'The lag of the torque sensor was {one} against {other}: at steep places of the curve part of the difference is that.',
    'Das Nachhinken des Drehmomentsensors ist {one} gegen {other}: An steilen Stellen der Kurve ist ein Teil des Unterschieds das.',
  ],
  ['taken out', 'herausgerechnet'],
  ['left in', 'nicht herausgerechnet'],
  ['left in, taken out', 'teils herausgerechnet'],
  [
    'The sides choose different bands; that of {@first} is taken.',
    'Für die beiden sind verschiedene Bänder gewählt; genommen ist das von „{@first}“.',
  ],

  // Why there is none.
  ['{@build} has no pull with a curve.', '„{@build}“ hat keinen Lauf mit einer Kurve.'],
  [
    '{@build} has no pull with a curve in the record.',
    '„{@build}“ hat keinen Lauf mit einer Kurve im Verzeichnis.',
  ],
  ['{@build} has no pull that counts.', '„{@build}“ hat keinen Lauf, der zählt.'],
  ['{@build} has no pull that counts: {why}', '„{@build}“ hat keinen Lauf, der zählt: {why}'],
  [
    'its peaks were typed, so it has no curve',
    'seine Höchstwerte wurden eingetippt, er hat keine Kurve',
  ],
  [
    'its typed peaks are of another setting than the strongest',
    'seine eingetippten Höchstwerte sind von einer anderen Einstellung als der stärksten',
  ],
  ['The pulls have no speeds in common.', 'Die Läufe haben keine Drehzahl gemeinsam.'],
  [
    'The pulls have only {#common} in common, less than half of the band {#wanted}; choose a band that all of them cover.',
    'Die Läufe haben nur {#common} gemeinsam, weniger als das halbe Band {#wanted}; wählen Sie ein Band, das alle abdecken.',
  ],
  [
    'The pulls have no speeds of the band {#wanted} in common.',
    'Die Läufe haben keine Drehzahl des Bandes {#wanted} gemeinsam.',
  ],
  [
    'Nobody has said whether the torque of {@pull} is observed or corrected, and that of the others is known: say it {where}.',
    'Niemand hat gesagt, ob das Drehmoment von „{@pull}“ gemessen oder umgerechnet ist; von den anderen ist es bekannt. Sagen Sie es {where}.',
  ],
  [
    'Nobody has said whether inertia is in the torque of {@pull}, and of the others it is known: say it {where}.',
    'Niemand hat gesagt, ob das Trägheitsmoment im Drehmoment von „{@pull}“ steckt; von den anderen ist es bekannt. Sagen Sie es {where}.',
  ],
  [
    'Inertia is out of the torque of {@pull} and in that of {@other}, and how much inertia turned with the first one is not known: say it {where}.',
    'Im Drehmoment von „{@pull}“ steckt das Trägheitsmoment nicht, in dem von „{@other}“ steckt es, und wie viel sich beim ersten mitdrehte, ist nicht bekannt: Sagen Sie es {where}.',
  ],
  [
    '{@pull} was swept with inertia out of its torque, other pulls were held step by step: they are not comparable unless it is said how much inertia turned with it, {where}.',
    '„{@pull}“ war ein Hochlauf ohne das Trägheitsmoment im Drehmoment, andere Läufe hielten Drehzahl um Drehzahl: Sie sind erst vergleichbar, wenn gesagt ist, wie viel sich mitdrehte, {where}.',
  ],
  [
    'on the page of its day, or of its cell in the settings',
    'auf der Seite seines Tages oder bei den Einstellungen seines Prüfstands',
  ],
  [
    'The pulls cannot be brought to one air standard: some are corrected by the logger and some observed, and the air of at least one was not recorded.',
    'Die Läufe lassen sich nicht auf eine Norm der Luft bringen: Einige sind vom Logger umgerechnet, einige gemessen, und von mindestens einem ist die Luft nicht aufgezeichnet.',
  ],
];
