import type { Phrase } from '../../phrases.ts';

/** Reasons and cautions that belong to figures and checks, and to the first settings and the fuel of a plan. */
export const notes: readonly Phrase[] = [
  // First settings (`src/trade/start`)
  [
    'A place to begin, not a promise: the engine maker’s figure wins.',
    'Ein Anfang, kein Versprechen: Der Wert des Motorherstellers geht vor.',
  ],
  [
    'Make the first pulls short, listen for knock, read the plugs, and change one thing at a time.',
    'Die ersten Läufe kurz halten, auf Klopfen horchen, Kerzenbild lesen und immer nur eines ändern.',
  ],
  [
    'A {chamber} chamber makes its best torque at {#range}; the window stands below the least of them.',
    'Ein {chamber} hat sein bestes Drehmoment bei {#range}; das Fenster liegt unter dem kleinsten Wert davon.',
  ],
  ['four-valve pent roof', 'Vierventil-Dachbrennraum'],
  ['two-valve fast burn', 'Zweiventil-Brennraum mit schneller Verbrennung'],
  ['two-valve wedge', 'Zweiventil-Keilbrennraum'],
  ['two-valve hemispherical', 'halbkugelförmiger Zweiventil-Brennraum'],
  [
    '{#ratio}:1 is above the {#limit}:1 that {fuel} is begun with: {#deg} off.',
    '{#ratio}:1 liegt über den {#limit}:1, mit denen bei {fuel} begonnen wird: {#deg} weniger.',
  ],
  [
    'Nobody states the octane of the gasoline in {fuel}, so it is taken for {#octane} RON: {#deg} off.',
    'Die Oktanzahl des Benzins in {fuel} nennt niemand, darum gilt {#octane} ROZ: {#deg} weniger.',
  ],
  [
    'In a bore of {#bore} the flame has far to go and the last of the charge long to knock: {#deg} off.',
    'In einer Bohrung von {#bore} hat die Flamme einen weiten Weg und der Rest der Ladung lange Zeit zu klopfen: {#deg} weniger.',
  ],
  [
    'What is taken off leaves less than {#least}: this fuel does not suit this engine; change fuel or ratio first.',
    'Nach allen Abzügen bleibt weniger als {#least}: Dieser Kraftstoff passt nicht zu diesem Motor; zuerst Kraftstoff oder Verdichtung ändern.',
  ],
  [
    '{#ratio}:1 is more than {#beyond} above the {#limit}:1 that {fuel} is begun with: no lead is safe to name without a knock sensor and someone who has run the like.',
    '{#ratio}:1 liegt um mehr als {#beyond} über den {#limit}:1, mit denen bei {fuel} begonnen wird: Ohne Klopfsensor und jemanden, der so etwas gefahren hat, ist kein Zündzeitpunkt sicher zu nennen.',
  ],
  [
    '{#ratio}:1 is above the {#limit}:1 that {fuel} is begun with: {#richer} lambda richer.',
    '{#ratio}:1 liegt über den {#limit}:1, mit denen bei {fuel} begonnen wird: um {#richer} Lambda fetter.',
  ],
  [
    'Nothing cautious is known here about beginning with {fuel}.',
    'Wie mit {fuel} vorsichtig zu beginnen ist, ist hier nicht bekannt.',
  ],
  [
    'Nothing cautious is known of a chamber that is none of the kinds here: begin with the figure of whoever runs the like.',
    'Von einem Brennraum, der keiner der Arten hier ist, ist nichts Vorsichtiges bekannt: mit dem Wert von jemandem beginnen, der so etwas fährt.',
  ],
  [
    'Boost decides more than all else here, and differs by engine, charge temperature and control: begin with the figure of whoever built the like, and with less boost.',
    'Der Ladedruck entscheidet hier mehr als alles andere, je nach Motor, Ladelufttemperatur und Regelung: mit dem Wert von jemandem beginnen, der so etwas gebaut hat, und mit weniger Ladedruck.',
  ],
  [
    'Nitrous speeds the burn by an amount that hangs on the shot and on its fuel: take the lead off that the kit’s maker states, and begin with the smallest shot.',
    'Lachgas beschleunigt die Verbrennung, je nach Menge und Zusatzkraftstoff: die Zündung um so viel zurücknehmen, wie der Hersteller des Satzes angibt, und mit der kleinsten Menge beginnen.',
  ],
  [
    'Nitromethane knocks without warning and its lead and mixture hang on the percentage: begin with the figures of whoever runs the like.',
    'Nitromethan klopft ohne Vorwarnung, Zündung und Gemisch hängen vom Anteil ab: mit den Werten von jemandem beginnen, der so etwas fährt.',
  ],

  // Figures and checks
  [
    'A starting length, good to about {#share}: valve timing, pipe taper, bends and gas temperature move the peak.',
    'Eine Länge für den Anfang, auf etwa {#share} genau: Steuerzeiten, Konizität, Bögen und Gastemperatur verschieben die Spitze.',
  ],
  [
    'Make it adjustable and let the dyno choose.',
    'Verstellbar bauen und den Prüfstand wählen lassen.',
  ],
  [
    'The exhaust opens {#opens} before the bottom; the rule is used between {#low} and {#high}.',
    'Der Auslass öffnet {#opens} vor UT; die Regel gilt zwischen {#low} und {#high}.',
  ],
  [
    'Volumetric efficiency is not on the sheet: taken as {#share}.',
    'Der Liefergrad steht nicht auf dem Blatt: {#share} angenommen.',
  ],
  [
    'BSFC is not on the sheet: taken as {#value} lb/(hp h) on gasoline and brought to this fuel by the air it takes.',
    'Der spezifische Verbrauch steht nicht auf dem Blatt: {#value} lb/(hp h) mit Benzin angenommen und über den Luftbedarf auf diesen Kraftstoff gebracht.',
  ],
  [
    'The boost comes on top of the pressure at which the pump is to give this.',
    'Der Ladedruck kommt zu dem Druck hinzu, bei dem die Pumpe das fördern soll.',
  ],
  [
    'How far the valve opens is not known: this is at the greatest lift that was flowed.',
    'Wie weit das Ventil öffnet, ist nicht bekannt: Dies gilt beim größten gemessenen Hub.',
  ],
  [
    'The valve opens further than was flowed: this is at the greatest lift that was flowed.',
    'Das Ventil öffnet weiter, als gemessen wurde: Dies gilt beim größten gemessenen Hub.',
  ],
  [
    'For {#deg} the valve stands higher than was flowed; the last reading was held there.',
    'Über {#deg} steht das Ventil höher, als gemessen wurde; dort gilt der letzte Wert.',
  ],
  [
    'The flanks of the lobe are an estimate: a duration at the seat, or at 0.200 in, would make them better.',
    'Die Flanken des Nockens sind geschätzt: Eine Öffnungsdauer am Sitz oder bei 0,200 in würde sie verbessern.',
  ],
  [
    'The flanks of the lobe are an estimate from one duration, good to a tenth of its lift: measure with clay or a checking spring.',
    'Die Flanken des Nockens sind aus einer Öffnungsdauer geschätzt, auf ein Zehntel des Hubs genau: mit Knetmasse oder Prüffeder messen.',
  ],
  [
    'The end of the ramp is run on from the card: measure with clay or a checking spring.',
    'Das Ende der Rampe ist aus der Nockenkarte verlängert: mit Knetmasse oder Prüffeder messen.',
  ],
  [
    'The acceleration between the few lines of a card is a guess: more lines of the card, or the lobe as measured, count.',
    'Die Beschleunigung zwischen den wenigen Zeilen einer Nockenkarte ist geraten: Mehr Zeilen, oder der vermessene Nocken, zählen.',
  ],
  [
    'Nearest of those sold: {#inches}, {#millimetres}.',
    'Die nächste käufliche: {#inches}, {#millimetres}.',
  ],
  [
    'Taken at {#warm} for housing and journal, from {#cold}, and even warmth.',
    'Angenommen sind {#warm} für Gehäuse und Zapfen, von {#cold} aus, und gleichmäßige Wärme.',
  ],
  [
    'The chart has no line for {block} block and {head} head: set one valve cold and measure it hot.',
    'Die Tabelle hat keine Zeile für einen Block aus {block} und einen Kopf aus {head}: ein Ventil kalt einstellen und warm messen.',
  ],
  [
    'A first setting only: measure one valve cold and hot.',
    'Nur eine erste Einstellung: ein Ventil kalt und warm messen.',
  ],
  [
    'The bolt size is no thread of the handbook: write it such as 7/16-20 or M9x1.',
    'Die Schraubengröße ist kein Gewinde des Handbuchs: schreiben wie 7/16-20 oder M9x1.',
  ],
  [
    'No joint says enough: thread and torque with a lubricant of the handbook, or stretch with free length; for an angle after a snug torque also the clamped length and what it clamps.',
    'Keine Verschraubung sagt genug: Gewinde und Anzugsmoment mit einem Schmiermittel des Handbuchs, oder Dehnung mit freier Länge; für einen Winkel nach dem Fügemoment auch Klemmlänge und was sie klemmt.',
  ],
  ['a thread of the handbook', 'ein Gewinde des Handbuchs'],
  ['the snug torque', 'das Fügemoment'],
  ['a lubricant of the handbook', 'ein Schmiermittel des Handbuchs'],
  ['the clamped length', 'die Klemmlänge'],
  [
    'what it clamps (steel, cast iron or aluminium)',
    'was sie klemmt (Stahl, Gusseisen oder Aluminium)',
  ],
  [
    '{@joint}: to tell its preload by angle, say {*lacks}.',
    '{@joint}: Damit die Vorspannkraft aus dem Winkel folgt, angeben: {*lacks}.',
  ],
  [
    '{@joint}: by angle, as long as the bolt stays elastic; one that is meant to be turned past yield goes by its maker’s angle.',
    '{@joint}: nach Winkel, solange die Schraube elastisch bleibt; für eine, die über die Streckgrenze gedreht werden soll, gilt der Winkel ihres Herstellers.',
  ],
  [
    'Its clamped length is {#length} diameters; the stiffness rule is meant for {#range}.',
    'Ihre Klemmlänge ist {#length} Durchmesser; die Steifigkeitsregel ist für {#range} gedacht.',
  ],
];
