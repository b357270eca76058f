import type { Phrase } from '../../phrases.ts';

/** The fuels of the handbook, in the dative. */
const FUELS: readonly Phrase[] = [
  ['gasoline', 'Benzin'],
  ['gasoline 87', 'Benzin 87'],
  ['gasoline 91', 'Benzin 91'],
  ['gasoline 93', 'Benzin 93'],
  ['petrol 95', 'Benzin 95'],
  ['petrol 98', 'Benzin 98'],
  ['E10', 'E10'],
  ['E85', 'E85'],
  ['ethanol', 'Ethanol'],
  ['methanol', 'Methanol'],
  ['nitromethane', 'Nitromethan'],
  ['propane', 'Propan'],
  ['methane', 'Methan'],
  ['natural gas', 'Erdgas'],
  ['isooctane', 'Isooktan'],
  ['n-heptane', 'n-Heptan'],
  ['toluene', 'Toluol'],
  ['MTBE', 'MTBE'],
  ['the blend', 'der Mischung'],
];

/** A sentence that begins with the name of a fuel, for each of them: a place at its head could be taken for a sentence before it. */
const ofEach = (english: string, german: string): readonly Phrase[] =>
  FUELS.map(([name, own]) => [
    `${name.charAt(0).toUpperCase()}${name.slice(1)}${english}`,
    german.replace('{fuel}', own),
  ]);

/** Fuels, what is to be known of them and how they are begun with (`src/trade/fuel`, `src/trade/start`). */
export const fuels: readonly Phrase[] = [
  ...FUELS,
  ...ofEach(
    ' is begun with on the rich side of its best power, where a few per cent of torque buy a cooler, quieter burn.',
    'Mit {fuel} wird auf der fetten Seite der besten Leistung begonnen: Ein paar Prozent Drehmoment erkaufen eine kühlere, ruhigere Verbrennung.',
  ),
  ...FUELS.map(
    ([name, own]): Phrase => [
      `${name} resists knock less than {#octane} RON: {#deg} off.`,
      `Mit ${own} klopft er eher als mit {#octane} ROZ: {#deg} weniger.`,
    ],
  ),
  ...FUELS.map(
    ([name, own]): Phrase => [
      `${name} is a gas, or nobody states its latent heat.`,
      `Von ${own} nennt niemand eine Verdampfungswärme, oder es ist ein Gas.`,
    ],
  ),
  ...FUELS.map(([name, own]): Phrase => [`${name}: {note}`, `${own}: {note}`]),
  [
    'What is sold by this name often holds {#share} ethanol: then blend it in.',
    'Was so verkauft wird, enthält oft {#share} Ethanol: dann beimischen.',
  ],
  [
    'Octane of neat alcohols hangs on the method: {#range} RON are printed.',
    'Die Oktanzahl reiner Alkohole hängt vom Verfahren ab: Gedruckt stehen {#range} ROZ.',
  ],
  [
    'No octane number means anything for it: it knocks, and burns without air.',
    'Eine Oktanzahl sagt hier nichts: Es klopft, und es brennt ohne Luft.',
  ],
  [
    'Its latent heat cools the charge only where it is injected as a liquid.',
    'Seine Verdampfungswärme kühlt die Ladung nur, wo es flüssig eingespritzt wird.',
  ],
  [
    'Methane {#share}: composition and heating value change with the supply.',
    'Methan {#share}: Zusammensetzung und Heizwert wechseln mit der Lieferung.',
  ],
  [
    'Nominal. At the pump it holds {#share} ethanol by season (ASTM D5798, from memory): test what was bought.',
    'Nennwert. An der Tankstelle enthält es je nach Jahreszeit {#share} Ethanol (ASTM D5798, aus dem Gedächtnis): prüfen, was gekauft wurde.',
  ],
  ['Gasoline.', 'Benzin.'],
  ['Ethanol.', 'Ethanol.'],
  ['Methanol.', 'Methanol.'],
  ['Nitromethane.', 'Nitromethan.'],
  ['Propane.', 'Propan.'],
  ['Natural gas.', 'Erdgas.'],
  ['Toluene.', 'Toluol.'],
  ['MTBE.', 'MTBE.'],
  [
    'Its vapour is heavier than air and lights at {#flash} and above: ventilate low, keep sparks away, bond the cans.',
    'Sein Dampf ist schwerer als Luft und ab {#flash} entzündlich: unten lüften, Funken fernhalten, Kanister erden.',
  ],
  [
    'Its flame is hard to see in daylight and water makes it burn on until it is much diluted: keep alcohol-resistant foam at hand.',
    'Seine Flamme ist bei Tageslicht kaum zu sehen, und mit Wasser brennt es weiter, bis es stark verdünnt ist: alkoholbeständigen Schaum bereithalten.',
  ],
  [
    'It draws water and attacks rubbers, zinc and bare aluminium: use parts made for it and drain what stands.',
    'Es zieht Wasser und greift Gummi, Zink und blankes Aluminium an: nur dafür gemachte Teile verwenden und Reste ablassen.',
  ],
  [
    'Its flame cannot be seen in daylight: watch for heat shimmer, and treat anybody who acts as if burning as burning.',
    'Seine Flamme ist bei Tageslicht unsichtbar: auf Hitzeflimmern achten, und wer sich verhält, als brenne er, brennt.',
  ],
  [
    'It poisons through skin, lungs and mouth and can blind: gloves, face shield, air; limit {#limit} ppm over a shift.',
    'Es vergiftet über Haut, Lunge und Mund und kann blind machen: Handschuhe, Gesichtsschutz, Lüftung; Grenzwert {#limit} ppm über eine Schicht.',
  ],
  [
    'It corrodes aluminium and magnesium and gets into the oil: run the engine out on gasoline, then change the oil.',
    'Es greift Aluminium und Magnesium an und gelangt ins Öl: den Motor mit Benzin leerfahren, dann das Öl wechseln.',
  ],
  [
    'Shock, heat or squeezing in a closed line can set it off, and amines, alkalis, acids or metal oxides make it far worse: keep it blended as supplied, in small stock, away from all of them.',
    'Stoß, Hitze oder Druck in einer geschlossenen Leitung können es zünden, Amine, Laugen, Säuren oder Metalloxide machen es weit schlimmer: gemischt lassen, wie geliefert, in kleinem Vorrat, fern von all dem.',
  ],
  [
    'Limit {#shift} ppm over a shift, {#once} ppm at once endangers life; possibly causes cancer.',
    'Grenzwert {#shift} ppm über eine Schicht, {#once} ppm auf einmal sind lebensgefährlich; möglicherweise krebserregend.',
  ],
  [
    'Its exhaust holds nitric acid vapour that burns eyes and lungs: masks, and nobody downwind.',
    'Sein Abgas enthält Salpetersäuredampf, der Augen und Lunge verätzt: Masken, und niemand in Windrichtung.',
  ],
  [
    'It leaks as a heavy, freezing gas that lies in pits: gas alarm at floor level, shut-off valve outside the cell.',
    'Es tritt als schweres, eiskaltes Gas aus, das in Gruben liegt: Gasmelder am Boden, Absperrventil außerhalb der Zelle.',
  ],
  [
    'It is stored at up to {#pressure} and gathers under the roof: rated parts only, gas alarm and vent high up.',
    'Es wird bei bis zu {#pressure} gelagert und sammelt sich unter der Decke: nur zugelassene Teile, Gasmelder und Abzug oben.',
  ],
  [
    'It dulls and harms nerves when breathed: gloves, ventilation.',
    'Eingeatmet betäubt es und schädigt die Nerven: Handschuhe, Lüftung.',
  ],
  [
    'A little of it spoils much ground water: nothing down the drain.',
    'Wenig davon verdirbt viel Grundwasser: nichts in den Abfluss.',
  ],
];
