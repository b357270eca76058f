import type { Phrase } from '../../phrases.ts';

/** Where windows and items of the plan are from. */
export const sources: readonly Phrase[] = [
  ['common practice, no source', 'übliche Praxis, ohne Quelle'],
  ['from memory, low confidence', 'aus dem Gedächtnis, wenig sicher'],
  [
    'from memory, low confidence; pump fuel of 91 to 93 AKI',
    'aus dem Gedächtnis, wenig sicher; Tankstellenkraftstoff von 91 bis 93 (ROZ+MOZ)/2',
  ],
  ['the maker’s least stretch', 'Mindestdehnung des Herstellers'],
  ['the maker’s most stretch', 'Höchstdehnung des Herstellers'],
  ['from memory (Heywood §6.3), low confidence', 'aus dem Gedächtnis (Heywood §6.3), wenig sicher'],
  [
    'heads sold: common practice, no source; 1: NACA TN 1365 (1947)',
    'käufliche Köpfe: übliche Praxis, ohne Quelle; 1: NACA TN 1365 (1947)',
  ],
  [
    'C. F. Taylor, vol. 1 ch. 6 (from memory); found with mild timing',
    'C. F. Taylor, Bd. 1 Kap. 6 (aus dem Gedächtnis); gefunden mit zahmen Steuerzeiten',
  ],
  [
    'ours, about the 20 % that such rules are good to; no source',
    'von uns, etwa die 20 %, auf die solche Regeln genau sind; ohne Quelle',
  ],
  [
    'tried on large engines; common practice, no source',
    'an großen Motoren erprobt; übliche Praxis, ohne Quelle',
  ],
  [
    '0.001 per inch of journal (clambaronline.com, hpacademy.com); span as 0.0020 to 0.0025 in for most (chevyhiperformance.com)',
    '0,001 je Zoll Zapfen (clambaronline.com, hpacademy.com); Spanne wie 0,0020 bis 0,0025 in für die meisten (chevyhiperformance.com)',
  ],
  [
    '0.001 per inch of journal and 0.0005 in for high output (hpacademy.com), on a 2.2 in journal',
    '0,001 je Zoll Zapfen und 0,0005 in für hohe Leistung (hpacademy.com), bei einem Zapfen von 2,2 in',
  ],
  [
    'least 0.0040 (ramforum.com) to 0.0045 (supertech.svmdev1.com, onallcylinders.com) per inch; upper end a vehicle maker’s service data, 7.4 L V8 of 1999 (charm.mcallihan.com), bore from memory',
    'mindestens 0,0040 (ramforum.com) bis 0,0045 (supertech.svmdev1.com, onallcylinders.com) je Zoll; oberes Ende nach Servicedaten eines Fahrzeugherstellers, 7,4-l-V8 von 1999 (charm.mcallihan.com), Bohrung aus dem Gedächtnis',
  ],
  [
    'least 0.0050 per inch (supertech.svmdev1.com, onallcylinders.com); upper end common practice, no source',
    'mindestens 0,0050 je Zoll (supertech.svmdev1.com, onallcylinders.com); oberes Ende übliche Praxis, ohne Quelle',
  ],
  [
    'least 0.0055 per inch (supertech.svmdev1.com, onallcylinders.com); upper end common practice, no source',
    'mindestens 0,0055 je Zoll (supertech.svmdev1.com, onallcylinders.com); oberes Ende übliche Praxis, ohne Quelle',
  ],
  [
    'least 0.0060 to 0.0070 per inch by source and by boost or nitrous (supertech.svmdev1.com, onallcylinders.com, ramforum.com); upper end no source',
    'mindestens 0,0060 bis 0,0070 je Zoll, je nach Quelle und je nach Aufladung oder Lachgas (supertech.svmdev1.com, onallcylinders.com, ramforum.com); oberes Ende ohne Quelle',
  ],
  [
    'least 0.0050 per inch (onallcylinders.com, ramforum.com); upper end a vehicle maker’s service data, 7.4 L V8 of 1999 (charm.mcallihan.com), bore from memory',
    'mindestens 0,0050 je Zoll (onallcylinders.com, ramforum.com); oberes Ende nach Servicedaten eines Fahrzeugherstellers, 7,4-l-V8 von 1999 (charm.mcallihan.com), Bohrung aus dem Gedächtnis',
  ],
  [
    'least 0.0055 per inch for boost (onallcylinders.com); sustained and upper end no source',
    'mindestens 0,0055 je Zoll bei Aufladung (onallcylinders.com); Dauerlast und oberes Ende ohne Quelle',
  ],
  [
    'least 0.0057 per inch (supertech.svmdev1.com, onallcylinders.com); upper end no source',
    'mindestens 0,0057 je Zoll (supertech.svmdev1.com, onallcylinders.com); oberes Ende ohne Quelle',
  ],
  [
    'least 0.0057 (ramforum.com) to 0.0070 (onallcylinders.com) per inch; upper end no source',
    'mindestens 0,0057 (ramforum.com) bis 0,0070 (onallcylinders.com) je Zoll; oberes Ende ohne Quelle',
  ],
  [
    'least 0.015 in (supertech.svmdev1.com, onallcylinders.com); service limit a vehicle maker’s service data, 7.4 L V8 of 1999 (charm.mcallihan.com)',
    'mindestens 0,015 in (supertech.svmdev1.com, onallcylinders.com); Verschleißgrenze nach Servicedaten eines Fahrzeugherstellers, 7,4-l-V8 von 1999 (charm.mcallihan.com)',
  ],
  [
    'production and service limit a vehicle maker’s service data, 7.4 L V8 of 1999 (charm.mcallihan.com)',
    'Fertigungsmaß und Verschleißgrenze nach Servicedaten eines Fahrzeugherstellers, 7,4-l-V8 von 1999 (charm.mcallihan.com)',
  ],
  [
    'least 0.080 in (h-o-m-e.org, lcengineering.com)',
    'mindestens 0,080 in (h-o-m-e.org, lcengineering.com)',
  ],
  [
    'least 0.100 in (h-o-m-e.org); lcengineering.com asks 0.080',
    'mindestens 0,100 in (h-o-m-e.org); lcengineering.com verlangt 0,080',
  ],
  [
    'that of steel rods and 0.030 in: common practice, no source',
    'der von Stahlpleueln und 0,030 in: übliche Praxis, ohne Quelle',
  ],
  [
    'half a step in which they are sold: common practice, no source',
    'halbe Stufe, in der sie verkauft werden: übliche Praxis, ohne Quelle',
  ],
  [
    'from memory, low confidence: parts float 5 to 15 % early',
    'aus dem Gedächtnis, wenig sicher: Ventile flattern 5 bis 15 % früher',
  ],
  [
    'upper end Shigley eq. 8-31 (from memory); lower end no source',
    'oberes Ende Shigley Gl. 8-31 (aus dem Gedächtnis); unteres Ende ohne Quelle',
  ],
  [
    'common practice, no source; to stop at: three quarters of it, ours',
    'übliche Praxis, ohne Quelle; zum Anhalten drei Viertel davon, von uns',
  ],
  ['ours, common practice, no source', 'von uns, übliche Praxis, ohne Quelle'],
];
