import type { Phrase } from '../../phrases.ts';

/** What would bring a value right. */
export const remedies: readonly Phrase[] = [
  ['A thicker gasket, or less off the deck.', 'Eine dickere Kopfdichtung, oder weniger planen.'],
  [
    'A thinner gasket, or the deck cut down; look at the ratio that follows.',
    'Eine dünnere Kopfdichtung, oder die Dichtfläche planen; auf die Verdichtung achten, die daraus folgt.',
  ],
  ['Even out chambers and decks.', 'Brennräume und Kolbenstand angleichen.'],
  [
    'A lower limit of speed, or a shorter stroke.',
    'Eine niedrigere Drehzahlgrenze, oder weniger Hub.',
  ],
  [
    'A smaller clearance volume, or an earlier closing of the intake.',
    'Ein kleinerer Verdichtungsraum, oder den Einlass früher schließen.',
  ],
  [
    'A larger clearance volume, a later closing of the intake, or a fuel of more octane.',
    'Ein größerer Verdichtungsraum, den Einlass später schließen, oder Kraftstoff mit mehr Oktan.',
  ],
  [
    'Tighten to the stretch that the maker asks for.',
    'Auf die Dehnung anziehen, die der Hersteller verlangt.',
  ],
  [
    'The bolt may have yielded: replace it.',
    'Die Schraube kann sich bleibend gedehnt haben: ersetzen.',
  ],
  [
    'Leak-down on the weak cylinder; look at lash and valve sealing first.',
    'Druckverlusttest am schwachen Zylinder; zuerst Ventilspiel und Dichtheit der Ventile prüfen.',
  ],
  [
    'Listen at intake, exhaust, breather and radiator for where it goes.',
    'An Ansaugung, Auspuff, Entlüftung und Kühler horchen, wo die Luft entweicht.',
  ],
  [
    'Parts have become heavier than the crank was balanced for: balance it again.',
    'Teile sind schwerer, als die Kurbelwelle gewuchtet ist: neu wuchten.',
  ],
  [
    'Parts have become lighter than the crank was balanced for: balance it again.',
    'Teile sind leichter, als die Kurbelwelle gewuchtet ist: neu wuchten.',
  ],
  ['Take the heavier ones down to the lightest.', 'Die schwereren auf das leichteste abarbeiten.'],
  [
    'Advance the cam at its sprocket, and measure the valves to the pistons again.',
    'Nockenwelle am Kettenrad auf früher stellen und den Abstand der Ventile zu den Kolben neu messen.',
  ],
  [
    'Retard the cam at its sprocket, and measure the valves to the pistons again.',
    'Nockenwelle am Kettenrad auf später stellen und den Abstand der Ventile zu den Kolben neu messen.',
  ],
  [
    'Look for what stands in the way beside the valve: throat, bowl, a shrouding wall; or the bench leaks the other way.',
    'Suchen, was neben dem Ventil im Weg steht: Sitzring, Kanal hinter dem Ventil, eine nahe Wand; oder die Fließbank ist undicht.',
  ],
  [
    'Look at the test depression, the valve diameter and the unit of the flow: no valve passes so much.',
    'Unterdruck der Bank, Ventildurchmesser und Einheit des Durchflusses prüfen: So viel lässt kein Ventil durch.',
  ],
  [
    'A better exhaust port, or a longer exhaust duration.',
    'Ein besserer Auslasskanal, oder eine längere Auslass-Öffnungsdauer.',
  ],
  [
    'The intake is what holds this head back: spend the next work there.',
    'Der Einlass hält diesen Kopf zurück: dort weiterarbeiten.',
  ],
  [
    'More intake area (valve, port, lift or duration), or a lower speed of peak power.',
    'Mehr Einlassfläche (Ventil, Kanal, Hub oder Öffnungsdauer), oder die größte Leistung bei niedrigerer Drehzahl.',
  ],
  [
    'A smaller carburettor: it hardly feels the air, and metering suffers low down.',
    'Ein kleinerer Vergaser: Dieser spürt die Luft kaum, und unten leidet die Dosierung.',
  ],
  [
    'A larger carburettor: this one takes filling at the top.',
    'Ein größerer Vergaser: Dieser kostet oben Füllung.',
  ],
  ['A larger throttle, or more of them.', 'Eine größere Drosselklappe, oder mehr davon.'],
  [
    'Larger injectors, or more pressure within what they are rated for.',
    'Größere Einspritzventile, oder mehr Druck, soweit sie dafür zugelassen sind.',
  ],
  [
    'A larger pump or a second one; look at its feed, voltage and filters first.',
    'Eine größere Pumpe oder eine zweite; zuerst Zulauf, Spannung und Filter prüfen.',
  ],
  [
    'A larger pipe where power at speed is wanted; a small one fills in low down.',
    'Ein weiteres Rohr, wo Leistung bei hoher Drehzahl gewünscht ist; ein enges füllt unten.',
  ],
  [
    'A smaller pipe where torque low down is wanted; the dyno has the last word.',
    'Ein engeres Rohr, wo unten Drehmoment gewünscht ist; das letzte Wort hat der Prüfstand.',
  ],
  [
    'Try a longer collector: it fills in below the peak.',
    'Ein längeres Sammelrohr versuchen: Es füllt unterhalb der Spitze.',
  ],
  [
    'Try a shorter collector: it may help above the peak.',
    'Ein kürzeres Sammelrohr versuchen: Es kann oberhalb der Spitze helfen.',
  ],
  [
    'Look at level, oil temperature and pick-up; then relief spring, pump and bearing clearances.',
    'Ölstand, Öltemperatur und Ansaugung prüfen; dann Feder des Überdruckventils, Pumpe und Lagerspiele.',
  ],
  [
    'Look at oil temperature and grade; then pump and bearing clearances.',
    'Öltemperatur und Ölsorte prüfen; dann Pumpe und Lagerspiele.',
  ],
  [
    'A stronger relief spring, or a lower highest speed.',
    'Eine stärkere Feder im Überdruckventil, oder eine niedrigere Höchstdrehzahl.',
  ],
  [
    'Hone to the next size that its pistons allow, with a torque plate.',
    'Mit Honbrille auf das nächste Maß honen, das die Kolben zulassen.',
  ],
  [
    'Fit each piston to its own bore, or hone the smaller bores.',
    'Jeden Kolben seiner Bohrung zuordnen, oder die kleineren Bohrungen nachhonen.',
  ],
  [
    'Hone the bore to what the piston’s maker asks for.',
    'Bohrung auf das Maß honen, das der Kolbenhersteller verlangt.',
  ],
  [
    'A larger piston; what rocks is heard cold and wears the rings.',
    'Ein größerer Kolben; was kippt, ist kalt zu hören und verschleißt die Ringe.',
  ],
  [
    'Bearings of the next size under, or take the journal down; never run it tighter.',
    'Lagerschalen für mehr Spiel, oder den Zapfen nachschleifen; nie enger laufen lassen.',
  ],
  [
    'Bearings of the next size, or a heavier oil and a pump that holds its pressure.',
    'Lagerschalen für weniger Spiel, oder dickeres Öl und eine Pumpe, die seinen Druck hält.',
  ],
  [
    'Bearings of the next size, or take the journal down; never run it tighter.',
    'Lagerschalen der nächsten Stufe, oder den Zapfen nachschleifen; nie enger laufen lassen.',
  ],
  [
    'Line up the thrust halves, or dress the thrust face.',
    'Anlaufscheiben ausrichten, oder die Anlauffläche abziehen.',
  ],
  [
    'New thrust bearing; measure the crank’s thrust face.',
    'Neues Axiallager; Anlauffläche der Kurbelwelle messen.',
  ],
  ['Have the crank straightened or ground.', 'Kurbelwelle richten oder schleifen lassen.'],
  [
    'Have the journals ground to the next size.',
    'Zapfen auf das nächste Untermaß schleifen lassen.',
  ],
  ['Take the sides of the big ends down.', 'Die großen Pleuelaugen seitlich abnehmen.'],
  [
    'Wider rods, or accept more oil thrown at the bores.',
    'Breitere Pleuel, oder mehr Spritzöl an den Bohrungen hinnehmen.',
  ],
  ['Hone the bush.', 'Pleuelbuchse honen.'],
  ['New bush, honed to the pin.', 'Neue Pleuelbuchse, auf den Bolzen gehont.'],
  ['File the ring.', 'Stoß des Kolbenrings nachfeilen.'],
  ['Another ring, filed anew.', 'Ein anderer Kolbenring, neu eingepasst.'],
  ['Another ring, or the groove re-cut.', 'Ein anderer Kolbenring, oder die Nut nacharbeiten.'],
  ['A wider ring, or another piston.', 'Ein höherer Kolbenring, oder ein anderer Kolben.'],
  ['Ream or hone the guide.', 'Ventilführung aufreiben oder honen.'],
  [
    'New guide, or a valve with a larger stem.',
    'Neue Ventilführung, oder ein Ventil mit dickerem Schaft.',
  ],
  [
    'Open the smaller chambers, or sink their valves a little.',
    'Die kleineren Brennräume erweitern, oder ihre Ventile etwas tiefer setzen.',
  ],
  [
    'Open the lash: a valve held off its seat burns.',
    'Ventilspiel vergrößern: Ein Ventil, das nicht schließt, verbrennt.',
  ],
  [
    'Close the lash: too much hammers the train and takes lift.',
    'Ventilspiel verkleinern: Zu viel hämmert im Ventiltrieb und kostet Hub.',
  ],
  [
    'A greater installed height, less lift, or a spring that binds lower.',
    'Größere Einbaulänge, weniger Hub, oder eine Feder mit kleinerer Blocklänge.',
  ],
  [
    'Shim the spring: coils far from meeting damp each other less.',
    'Feder unterlegen: Windungen, die sich nicht nahe kommen, dämpfen einander weniger.',
  ],
  [
    'Cut the guide down, a lower seal, or a longer valve.',
    'Ventilführung kürzen, eine niedrigere Schaftdichtung, oder ein längeres Ventil.',
  ],
  [
    'More spring, lighter parts at the valve, or a lower limit of speed.',
    'Mehr Federkraft, leichtere Teile am Ventil, oder eine niedrigere Drehzahlgrenze.',
  ],
  [
    'Look for flex, a wrong pushrod length or a worn lobe.',
    'Nach Nachgiebigkeit, falscher Stößelstange oder eingelaufenem Nocken suchen.',
  ],
  [
    'Measure again; then margins to piston, coil bind and seal by the lift as measured.',
    'Noch einmal messen; dann die Abstände zu Kolben, Block und Schaftdichtung mit dem gemessenen Hub.',
  ],
  [
    'Shim the spring, and look at coil bind again.',
    'Feder unterlegen und den Rest bis Block neu prüfen.',
  ],
  ['Take shims out.', 'Unterlegscheiben herausnehmen.'],
  ['Cut the pocket wider.', 'Ventiltasche weiter fräsen.'],
  [
    'A longer pushrod: a short one sweeps the tip across the stem and takes preload.',
    'Eine längere Stößelstange: Eine kurze wischt über das Schaftende und nimmt Vorspannung.',
  ],
  [
    'A shorter pushrod: a long one sweeps the tip across the stem and may hold the valve open.',
    'Eine kürzere Stößelstange: Eine lange wischt über das Schaftende und kann das Ventil offen halten.',
  ],
  [
    'A longer pushrod, or the adjuster further down.',
    'Eine längere Stößelstange, oder die Einstellschraube weiter hinein.',
  ],
  [
    'A shorter pushrod, or the adjuster back.',
    'Eine kürzere Stößelstange, oder die Einstellschraube zurück.',
  ],
  [
    'Deeper pockets, a thicker gasket, less lift, or the cam retarded.',
    'Tiefere Ventiltaschen, eine dickere Kopfdichtung, weniger Hub, oder die Nockenwelle auf später.',
  ],
  [
    'Deeper pockets, a thicker gasket, less lift, or the cam advanced.',
    'Tiefere Ventiltaschen, eine dickere Kopfdichtung, weniger Hub, oder die Nockenwelle auf früher.',
  ],
  [
    'More torque, or a slipperier lubricant, as the part’s maker allows.',
    'Mehr Anzugsmoment, oder ein besseres Schmiermittel, soweit der Hersteller es zulässt.',
  ],
  [
    'Less torque for this lubricant; a bolt past its proof load is replaced.',
    'Weniger Anzugsmoment bei diesem Schmiermittel; eine Schraube jenseits ihrer Prüflast wird ersetzt.',
  ],
  [
    'More or stronger bolts, or set them by stretch.',
    'Mehr oder festere Schrauben, oder nach Dehnung anziehen.',
  ],
  [
    'Stronger bolts, lighter pistons, or a lower limit of speed.',
    'Festere Schrauben, leichtere Kolben, oder eine niedrigere Drehzahlgrenze.',
  ],
];
