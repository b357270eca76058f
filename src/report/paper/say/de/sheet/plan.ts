import type { Phrase } from '../../phrases.ts';

/** The test plan: its groups and what its items say (`src/build/plan`). */
export const plan: readonly Phrase[] = [
  ['What keeps people safe', 'Was Menschen schützt'],
  ['Before the first start', 'Vor dem ersten Start'],
  ['When to shut down', 'Wann abzustellen ist'],
  ['Warming up', 'Warmlaufen'],
  ['Run-in', 'Einlaufen'],
  ['After run-in', 'Nach dem Einlaufen'],
  ['First settings', 'Erste Einstellungen'],
  ['Pulls', 'Läufe'],
  ['The ladder to expect', 'Die zu erwartende Stufenreihe'],
  ['To have at hand', 'Bereitzulegen'],

  // What keeps people safe
  [
    'Local codes and qualified people have the last word.',
    'Örtliche Vorschriften und fachkundige Personen haben das letzte Wort.',
  ],
  [
    "Pullbook records and advises; it never replaces the cell's own shutdowns.",
    'Pullbook zeichnet auf und rät; es ersetzt nie die Abschaltungen des Prüfstands.',
  ],
  [
    'The emergency stop was tried today: it cuts fuel and ignition and depends on no computer.',
    'Der Not-Aus wurde heute erprobt: Er unterbricht Kraftstoff und Zündung und hängt von keinem Rechner ab.',
  ],
  [
    'The coupling shaft is balanced and straight, its bolts are torqued, and its guard is closed.',
    'Die Kupplungswelle ist gewuchtet und gerade, ihre Schrauben sind angezogen, ihre Schutzhaube ist geschlossen.',
  ],
  [
    'Nobody stands in line with rotating parts: shaft, flywheel, damper, belts.',
    'Niemand steht in der Ebene drehender Teile: Welle, Schwungrad, Dämpfer, Riemen.',
  ],
  [
    'Ventilation runs, the exhaust leads outside, and the carbon monoxide alarm was tested.',
    'Die Lüftung läuft, das Abgas wird ins Freie geführt, der Kohlenmonoxid-Melder wurde geprüft.',
  ],
  [
    'Fire suppression is ready and in reach, fuel lines are dry, and the fuel shut-off can be reached from outside the cell.',
    'Löschmittel sind bereit und greifbar, die Kraftstoffleitungen sind trocken, der Kraftstoff ist von außerhalb der Zelle abzusperren.',
  ],
  [
    'Everybody near the engine wears hearing and eye protection.',
    'Alle in der Nähe des Motors tragen Gehör- und Augenschutz.',
  ],
  [
    'The fuel is not known here: read its safety sheet before it is handled, and name it on the build sheet.',
    'Der Kraftstoff ist hier nicht bekannt: vor dem Umgang sein Sicherheitsdatenblatt lesen und ihn auf dem Aufbaublatt nennen.',
  ],
  [
    'Nitrous bottles are strapped, vented outside and away from heat; nobody opens them until the engine runs as it should without.',
    'Lachgasflaschen sind festgezurrt, nach außen entlüftet und fern von Wärme; niemand öffnet sie, bevor der Motor ohne sie läuft, wie er soll.',
  ],

  // Before the first start
  ['{check}: the sheet says stop.', '{check}: Das Blatt sagt „anhalten“.'],
  ['{check}: the sheet says look again.', '{check}: Das Blatt sagt „noch einmal ansehen“.'],
  // A remedy is a sentence of its own; why values cannot be true begins small.
  ['{check}: the sheet says stop. {problem}', '{check}: Das Blatt sagt „anhalten“. {problem}'],
  [
    'Measure first, what decides most in front: {@labels}.',
    'Zuerst messen, das Entscheidendste voran: {@labels}.',
  ],
  [
    'Not marked done on the sheet: {@joints}.',
    'Auf dem Blatt nicht als erledigt vermerkt: {@joints}.',
  ],
  [
    'Not marked done on the sheet: a joint without a name.',
    'Auf dem Blatt nicht als erledigt vermerkt: eine Verschraubung ohne Namen.',
  ],
  [
    'Oil is filled to its mark and primed until the gauge shows pressure; put the amount on the sheet.',
    'Öl bis zur Marke einfüllen und vorfördern, bis Druck angezeigt wird; die Menge aufs Blatt schreiben.',
  ],
  [
    '{#amount} of oil are in, and primed until the gauge shows pressure.',
    '{#amount} Öl sind eingefüllt und vorgefördert, bis Druck angezeigt wird.',
  ],
  [
    'Coolant is filled and bled, and nothing leaks.',
    'Kühlmittel ist eingefüllt und entlüftet, nichts tropft.',
  ],
  [
    'The fuel system holds its pressure with the engine still, and nothing leaks.',
    'Die Kraftstoffanlage hält bei stehendem Motor ihren Druck, nichts tropft.',
  ],
  [
    'Top dead centre was found by a stop, the mark agrees, and the first lead is set with a light.',
    'Der obere Totpunkt ist mit Anschlag ermittelt, die Marke stimmt, der erste Zündzeitpunkt ist mit der Stroboskoplampe eingestellt.',
  ],
  [
    'The throttle opens fully and comes back by itself.',
    'Die Drosselklappe öffnet ganz und schließt von selbst.',
  ],
  [
    'At rest temperatures agree with the room and pressures read nothing.',
    'Im Stillstand stimmen die Temperaturen mit dem Raum überein, und die Drücke zeigen null.',
  ],
  [
    'Somebody or something watches for knock: ear, plugs or sensor.',
    'Jemand oder etwas achtet auf Klopfen: Ohr, Zündkerzen oder Sensor.',
  ],
  [
    'Where nobody does, every recommendation will say so.',
    'Wo es niemand tut, sagt es jede Empfehlung.',
  ],
  [
    'When the cell was last calibrated is not known: find out before a number is believed.',
    'Wann der Prüfstand zuletzt kalibriert wurde, ist nicht bekannt: klären, bevor einer Zahl geglaubt wird.',
  ],
  [
    "The cell's calibration was due on {@day}: calibrate it, or every pull will say that it is past its day.",
    'Die Kalibrierung des Prüfstands war am {@day} fällig: kalibrieren, sonst sagt jeder Lauf, dass sie überfällig ist.',
  ],
  [
    'The cell was calibrated on a day that is not known, and no day is set on which that falls due.',
    'Der Prüfstand wurde an einem unbekannten Tag kalibriert, und kein Tag ist festgelegt, an dem es fällig wird.',
  ],
  [
    'The cell was calibrated on {@day}, and no day is set on which that falls due.',
    'Der Prüfstand wurde am {@day} kalibriert, und kein Tag ist festgelegt, an dem es fällig wird.',
  ],
  ['The cell is calibrated until {@day}.', 'Der Prüfstand ist bis {@day} kalibriert.'],

  // When to shut down
  [
    'Set the overspeed cut of the cell once the highest speed that the parts stand is on the sheet.',
    'Die Überdrehzahl-Abschaltung des Prüfstands einstellen, sobald die höchste Drehzahl, die die Teile aushalten, auf dem Blatt steht.',
  ],
  [
    'Overspeed: the cell cuts at {#speed}, also when the brake loses its load.',
    'Überdrehzahl: Der Prüfstand schaltet bei {#speed} ab, auch wenn die Bremse ihre Last verliert.',
  ],
  [
    'Any knock that is heard or seen ends the pull at once, and the next one is made with less lead or a richer mixture.',
    'Jedes gehörte oder gesehene Klopfen beendet den Lauf sofort, und der nächste läuft mit weniger Frühzündung oder fetterem Gemisch.',
  ],
  [
    'A new noise, smoke, a leak or a shake ends the pull; look before the next.',
    'Ein neues Geräusch, Rauch, ein Leck oder eine Erschütterung beendet den Lauf; vor dem nächsten nachsehen.',
  ],
  [
    "{what}: no limit is set in the shop's windows; set one before the first start.",
    '{what}: In den Fenstern der Werkstatt steht keine Grenze; vor dem ersten Start eine festlegen.',
  ],
  ['{what}: shut down above {#stop}.', '{what}: abstellen über {#stop}.'],
  [
    '{what}: shut down above {#stop}, watch it above {#watch}.',
    '{what}: abstellen über {#stop}, beobachten über {#watch}.',
  ],
  ['Water leaving the engine', 'Wasser am Motoraustritt'],
  ['Exhaust, in the primaries', 'Abgas in den Krümmerrohren'],
  ['Oil pressure', 'Öldruck'],
  ['Speed', 'Drehzahl'],
  ['Least oil pressure', 'Geringster Öldruck'],
  [
    'Oil pressure, hot: shut down below the table, and below {#floor} at any speed.',
    'Öldruck, warm: abstellen unter der Tabelle, und unter {#floor} bei jeder Drehzahl.',
  ],

  // Warming up
  [
    '{what} where the shop wants it: no window is set.',
    '{what}, wo die Werkstatt es will: Ein Fenster ist nicht festgelegt.',
  ],
  ['{what} between {#low} and {#high}.', '{what} zwischen {#low} und {#high}.'],
  ['{what} above {#low}.', '{what} über {#low}.'],
  ['{what} below {#high}.', '{what} unter {#high}.'],
  [
    'No load before the oil stands where the shop wants it: no window is set.',
    'Keine Last, bevor das Öl die Temperatur hat, die die Werkstatt will: Ein Fenster ist nicht festgelegt.',
  ],
  [
    'No load before the oil stands between {#low} and {#high}.',
    'Keine Last, bevor das Öl zwischen {#low} und {#high} hat.',
  ],
  ['No load before the oil stands above {#low}.', 'Keine Last, bevor das Öl {#low} hat.'],
  ['No load before the oil stands below {#high}.', 'Keine Last, bevor das Öl unter {#high} ist.'],
  ['Pulls begin with the oil', 'Läufe beginnen mit Öl'],
  ['Pulls begin with the water', 'Läufe beginnen mit Wasser'],
  [
    'Every pull of a ladder begins within {#span} of the same oil and water.',
    'Jeder Lauf einer Stufenreihe beginnt bei gleichem Öl und Wasser, auf {#span} genau.',
  ],

  // Run-in
  [
    'Run in already, for {#time} minutes: warm up and go on.',
    'Schon eingelaufen, {#time} Minuten lang: warmlaufen lassen und weitermachen.',
  ],
  [
    'Say on the sheet which lifters run: flat ones must not idle for their first half hour.',
    'Auf dem Blatt angeben, welche Stößel laufen: Flache dürfen in der ersten halben Stunde nicht im Leerlauf drehen.',
  ],
  [
    'Until then run it in as if they were flat, varying between {#low} and {#high} for {#time} minutes.',
    'Bis dahin einlaufen lassen, als wären sie flach: {#time} Minuten wechselnd zwischen {#low} und {#high}.',
  ],
  [
    "Flat lifters: straight to {#low} after the start, no idling, varying to {#high} for {#time} minutes, with spring loads the cam's maker allows for it.",
    'Flache Stößel: nach dem Start sofort auf {#low}, kein Leerlauf, {#time} Minuten wechselnd bis {#high}, mit Federkräften, die der Hersteller der Nockenwelle dafür zulässt.',
  ],
  [
    'Start, look for oil pressure and leaks, then vary between {#low} and {#high} without load for {#time} minutes.',
    'Starten, auf Öldruck und Lecks achten, dann ohne Last {#time} Minuten wechselnd zwischen {#low} und {#high}.',
  ],
  [
    'No oil pressure within ten seconds of the first start: stop, and find out why.',
    'Kein Öldruck binnen zehn Sekunden nach dem ersten Start: abstellen und die Ursache suchen.',
  ],
  [
    'Let it cool right down, then look for leaks and at levels.',
    'Ganz abkühlen lassen, dann Lecks suchen und Füllstände prüfen.',
  ],
  [
    'Seat the rings by load: half throttle up and closed throttle down through the middle speeds, five or six times, then more throttle.',
    'Kolbenringe unter Last einlaufen lassen: im mittleren Drehzahlbereich mit halber Last hoch, im Schub hinunter, fünf- oder sechsmal, dann mehr Last.',
  ],
  [
    'Breather smoke and oil temperature settle before any full throttle.',
    'Vor jeder Volllast haben sich Rauch der Entlüftung und Öltemperatur beruhigt.',
  ],

  // After run-in
  [
    'Hydraulic lifters: listen for a loose one, and look at preload where one ticks.',
    'Hydrostößel: auf einen losen horchen und die Vorspannung prüfen, wo einer tickt.',
  ],
  [
    'Set the lash hot: intake {#intake}, exhaust {#exhaust}; write down what each had become.',
    'Ventilspiel warm einstellen: Einlass {#intake}, Auslass {#exhaust}; aufschreiben, wie groß jedes geworden war.',
  ],
  [
    'Set the lash again, hot, where the lifters are solid; the sheet does not say to what.',
    'Bei mechanischen Stößeln das Ventilspiel warm nachstellen; auf welches Maß, sagt das Blatt nicht.',
  ],
  [
    'Find out whether the head gasket asks for a second torquing, and do it if so.',
    'Klären, ob die Kopfdichtung Nachziehen verlangt, und es dann tun.',
  ],
  [
    'Torque the head again, cold, in its order, as the gasket asks.',
    'Kopf kalt in seiner Reihenfolge nachziehen, wie die Dichtung es verlangt.',
  ],
  [
    'The head gasket asks for no second torquing: leave it.',
    'Die Kopfdichtung verlangt kein Nachziehen: so lassen.',
  ],
  [
    'Change the oil, cut the filter open and spread its paper: shining flakes mean stop and find where they are from.',
    'Öl wechseln, Filter aufschneiden und sein Papier ausbreiten: Glänzende Späne heißen anhalten und ihre Herkunft suchen.',
  ],
  [
    'Leak-down warm on every cylinder, written beside that of the assembly.',
    'Druckverlust an jedem Zylinder warm messen und neben den der Montage schreiben.',
  ],
  [
    'Read every plug; one that differs is looked into before full throttle.',
    'Jedes Kerzenbild lesen; bei einem, das abweicht, vor Volllast nachsehen.',
  ],

  // First settings
  [
    '{what}: begin between {#low} and {#high} at full throttle.',
    '{what}: bei Volllast zwischen {#low} und {#high} beginnen.',
  ],
  [
    '{what}: no first window yet. Fill in first: {@labels}.',
    '{what}: noch kein erstes Fenster. Zuerst eintragen: {@labels}.',
  ],
  ['{what}: no first window is given here.', '{what}: Hier wird kein erstes Fenster genannt.'],
  [
    '{what}: no first window is given here. {why}',
    '{what}: Hier wird kein erstes Fenster genannt. {why}',
  ],
  [
    'The first pulls are short and end well below the highest speed; one thing is changed at a time.',
    'Die ersten Läufe sind kurz und enden weit unter der höchsten Drehzahl; geändert wird immer nur eines.',
  ],

  // Pulls
  [
    'Say on the sheet between which speeds to pull: the lowest at full throttle and the highest.',
    'Auf dem Blatt angeben, zwischen welchen Drehzahlen gelaufen wird: die niedrigste bei Volllast und die höchste.',
  ],
  ['Sweep from {#low} to just short of {#high}.', 'Hochlauf von {#low} bis knapp unter {#high}.'],
  [
    'Sweep every pull at one rate; no window of rates is set.',
    'Jeden Lauf mit derselben Rate hochfahren; ein Fenster dafür ist nicht festgelegt.',
  ],
  [
    'Sweep every pull at one rate, between {#low} and {#high} a second.',
    'Jeden Lauf mit derselben Rate hochfahren, zwischen {#low} und {#high} je Sekunde.',
  ],
  [
    'Make the first full pull twice without touching anything: the difference is what the cell repeats to.',
    'Den ersten vollen Lauf zweimal machen, ohne etwas anzufassen: Der Unterschied zeigt, wie genau der Prüfstand wiederholt.',
  ],

  // The ladder to expect
  [
    'First rung: there is no first window above to take it from; take it well to the safe side of where the best is expected.',
    'Erste Stufe: Oben steht kein erstes Fenster, aus dem sie käme; weit auf der sicheren Seite des erwarteten Bestwerts beginnen.',
  ],
  [
    'First rung: {#lead}, the late end of the first window.',
    'Erste Stufe: {#lead}, das späte Ende des ersten Fensters.',
  ],
  [
    'Step {#step} a rung; smaller ones are lost in what a cell repeats to.',
    'Schritt {#step} je Stufe; kleinere gehen in der Wiederholgenauigkeit eines Prüfstands unter.',
  ],
  [
    'A careful start usually stands {#short} short of the best, so expect {#steps} steps to it and one or two beyond.',
    'Ein vorsichtiger Anfang liegt meist {#short} vor dem Bestwert; bis dorthin sind {#steps} Schritte zu erwarten und ein oder zwei darüber hinaus.',
  ],
  [
    'Never promised: knock may end it sooner.',
    'Nichts davon ist versprochen: Klopfen kann es früher beenden.',
  ],
  [
    'What comes next is decided after each pull: go on while another rung has a fair chance to gain {#gain} of mean power, stop where it has not, go back where it knocked.',
    'Nach jedem Lauf wird entschieden, was folgt: weiter, solange eine weitere Stufe gute Aussicht auf {#gain} mittlere Leistung hat, aufhören, wo nicht, zurück, wo es klopfte.',
  ],
  ['Knock beats torque.', 'Klopfen geht vor Drehmoment.'],
  [
    'The lead to leave in the engine stands below the best, the highest clean rung and any limit, by a holdback that hangs on the use: choose one.',
    'Der Zündzeitpunkt, der im Motor bleibt, liegt unter dem Bestwert, der höchsten sauberen Stufe und jeder Grenze, um einen Abstand, der vom Zweck abhängt: einen wählen.',
  ],
  [
    'The lead to leave in the engine stands {#holdback} or more below the lowest of best, highest clean rung and limit, for {?use}.',
    'Der Zündzeitpunkt, der im Motor bleibt, liegt mindestens {#holdback} unter dem niedrigsten von Bestwert, höchster sauberer Stufe und Grenze, für {?use}.',
  ],

  // To have at hand
  [
    'Oil for two fillings; put the amount on the sheet.',
    'Öl für zwei Füllungen; die Menge aufs Blatt schreiben.',
  ],
  [
    '{#amount} of oil: the filling of the run-in and one after it.',
    '{#amount} Öl: die Füllung zum Einlaufen und eine danach.',
  ],
  ['{#amount} of oil: one filling.', '{#amount} Öl: eine Füllung.'],
  ['An oil filter, and a cutter to open it.', 'Ein Ölfilter, und ein Schneider, um ihn zu öffnen.'],
  [
    '{#count} oil filters, and a cutter to open them.',
    '{#count} Ölfilter, und ein Schneider, um sie zu öffnen.',
  ],
  [
    '{#count} plugs: a set to run and a fresh one to read.',
    '{#count} Zündkerzen: ein Satz zum Fahren und ein frischer für das Kerzenbild.',
  ],
  [
    'Gaskets of what is opened again: valve covers, intake, exhaust.',
    'Dichtungen für alles, was wieder geöffnet wird: Ventildeckel, Ansaugung, Auspuff.',
  ],
  [
    'Gaskets of what is opened again: valve covers, intake, exhaust, and a head gasket.',
    'Dichtungen für alles, was wieder geöffnet wird: Ventildeckel, Ansaugung, Auspuff, und eine Kopfdichtung.',
  ],
  [
    'Fuel for the day: not known yet. Fill in first: {@labels}.',
    'Kraftstoff für den Tag: noch nicht bekannt. Zuerst eintragen: {@labels}.',
  ],
  ['Fuel for the day: not known yet.', 'Kraftstoff für den Tag: noch nicht bekannt.'],
  [
    '{#amount} of fuel: {#pulls} pulls of {#time} at the power intended, {#minutes} minutes at a third of that, and {#reserve} in reserve.',
    '{#amount} Kraftstoff: {#pulls} Läufe von {#time} bei der gewünschten Leistung, {#minutes} Minuten bei einem Drittel davon, und {#reserve} Reserve.',
  ],
];
