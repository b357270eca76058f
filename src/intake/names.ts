import type { Quantity } from '../pull/recording.ts';

/**
 * A header's name as plain lower-case words: accents gone, `EngineSpeed`, `eng_spd` and `EGT1` taken apart. Formulas
 * that are one word (`h2o`, `o2`) stay one.
 */
export function wordsOf(name: string): string {
  return name
    .replace(/λ/g, ' lambda ')
    .normalize('NFKD')
    .replace(/[\u0300-\u036f]/g, '')
    .replace(/ß/g, 'ss')
    .replace(/([a-z])([A-Z])/g, '$1 $2')
    .replace(/([A-Z])([A-Z][a-z]{2,})/g, '$1 $2')
    .toLowerCase()
    .replace(/\ba\s*[/:]\s*f(?:\s*r)?\b/g, ' afr ')
    .replace(/\bh2o\b/g, ' water ')
    .replace(/[^\p{L}\p{N}%]+/gu, ' ')
    .replace(/([a-z]{2,})(\d+)/g, '$1 $2')
    .replace(/\b(?:co 2|n 2|j 1349|j 607)\b/g, (formula) => formula.replace(' ', ''))
    .replace(/ {2,}/g, ' ')
    .trim();
}

const P = '(?:p|pr|prs|press|pressure|druck|pression|presion)';
const T = '(?:t|tmp|temp|temps|temperature|temperatur|temperatura)';

/** Looks like a channel we know by one of its words, but is another thing: kept as `other`. */
const OTHERWISE = new RegExp(
  [
    `fuel (?:rail )?(?:${P}|${T}|level|pump)`,
    'rail|injector|injection|inj|duty|pulse ?width|dwell',
    'battery|volts?|voltage|current|gear|gearbox|trans|transmission|diff|clutch|slip',
    'turbo (?:rpm|speed)|turbine speed|wheel|vehicle|road|ground|ramp|acceleration|sweep rate|rate of change',
    'set ?point|setpoint|target|demand|command|commanded|desired|limit|alarm|error|status|flag',
    'correction factor|corr factor|cf|corr fact|air factor|fan|pump|valve|camshaft|cam',
    'crank ?case|crankcase|blow ?by|dew ?point|vapou?r|wet bulb|grains',
    'bsfc|bsac|bmep|imep|fmep|ve|volumetric|efficiency|friction|specific|piston',
    'co|co2|hc|nox|o2|opacity|smoke|cht|head|cyl head|block|diff press',
  ]
    .map((alternatives) => ` (?:${alternatives}) `)
    .join('|'),
);

/** First match wins. Plain English, common abbreviations, and German, French and Spanish words of the trade. */
const RULES: readonly (readonly [Quantity, RegExp])[] = [
  ['knock', / (?:knock|knk|ping|detonation|klopf\w*|cliquetis|detonacion) /],
  [
    'lead',
    / (?:(?:spark|ign|ignition|total|base|dist|distributor) (?:lead|advance|adv|timing|angle)|lead|timing|advance|spark|ign|zundwinkel|zundung|zundzeitpunkt|avance|avance allumage|encendido) /,
  ],
  [
    'throttle',
    / (?:tps|throttle|throttle (?:pos|position)|pedal|accelerator|drosselklappe|drossel|papillon|mariposa|acelerador) /,
  ],
  ['lambda', / (?:lambda|lam|lmbd|luftzahl|richesse lambda) /],
  ['afr', / (?:afr|air fuel(?: ratio)?|air to fuel(?: ratio)?) /],
  [
    'exhaustTemperature',
    new RegExp(
      ` (?:egt|egts|(?:exhaust|exh|abgas|echappement|escape|collector|primary) (?:gas )?${T}|abgastemp\\w*|${T} (?:exhaust|exh|abgas|echappement|escape)) `,
    ),
  ],
  [
    'oilTemperature',
    new RegExp(
      ` (?:(?:oil|sump|ol|oel|huile|aceite) ${T}|oltemp\\w*|oeltemp\\w*|${T} (?:oil|ol|oel|huile|aceite)) `,
    ),
  ],
  [
    'oilPressure',
    new RegExp(
      ` (?:(?:oil|ol|oel|huile|aceite|gallery) ${P}|oldruck|oeldruck|${P} (?:oil|ol|oel|huile|aceite)) `,
    ),
  ],
  [
    'waterTemperature',
    new RegExp(
      ` (?:(?:water|wtr|wat|coolant|cool|engine|eau|agua|kuhlwasser|wasser|clnt)(?: (?:in|out|inlet|outlet))? ${T}|clt|ect|coolant(?! ${P} )|kuhlwassertemp\\w*|wassertemp\\w*|${T} (?:water|eau|agua|kuhlwasser|wasser)) `,
    ),
  ],
  [
    'humidity',
    / (?:humidity|rel hum\w*|hum|humid|feuchte|luftfeuchte|luftfeuchtigkeit|humidite|humedad) |^ (?:(?:cell|amb|ambient|air|room|rel|inlet) )?rh $/,
  ],
  [
    'barometer',
    new RegExp(
      ` (?:baro|barometer|barometric|barom|bp|(?:atm|atmospheric|ambient|amb|room|cell) ${P}|luftdruck|barometerstand|pression (?:atm|atmospherique)|presion (?:atm|atmosferica)) `,
    ),
  ],
  [
    'manifoldPressure',
    new RegExp(
      ` (?:map|boost|vacuum|vac|(?:manifold|mani|man|manif|intake|inlet|plenum|charge) (?:absolute |abs |vacuum )?${P}|manifold|mani|saugrohrdruck|ladedruck|suralimentation) `,
    ),
  ],
  [
    'airTemperature',
    new RegExp(
      ` (?:iat|(?:(?:inlet|intake|ambient|amb|cell|room|carb|carburetor|induction|charge) (?:air )?|air (?:in |inlet |intake )?)${T}|inlet air|intake air|ansaugluft(?:temp\\w*)?|lufttemp\\w*|${T} (?:air|ansaugluft|admission)) |^ (?:mat|act) $`,
    ),
  ],
  [
    'fuelFlow',
    / (?:fuel|fuel (?:flow|rate|mass|consumption|supply|return|feed|total|a|b|used)|kraftstoff\w*|carburant|combustible|consommation|verbrauch) /,
  ],
  [
    'airFlow',
    / (?:air ?flow|airflow|maf|mass air(?: ?flow)?|air mass|air (?:flow|turbine|rate|total|a|b)|cfm|scfm|acfm|luftmasse|luftmenge|debit air) /,
  ],
  ['torque', / (?:torque|tq|trq|tqe|torq|drehmoment|moment|mom|md|couple|par|par motor) /],
  ['power', / (?:power|pwr|hp|bhp|whp|kw|ps|horsepower|leistung|puissance|potencia|puiss) /],
  [
    'speed',
    / (?:rpm|rpms|(?:engine|eng|crank|motor|brake|dyno|roller|absorber|shaft) (?:speed|spd|revs|rev)|speed|spd|revs|drehzahl|motordrehzahl|nmot|regime|regimen|tours|giri) |^ n $/,
  ],
  [
    'time',
    /^ (?:(?:run|elapsed|elap|sample|log|test|total|rel|relative|abs|session|engine)? ?(?:time|zeit|temps|tiempo|timestamp|time stamp|clock|uhrzeit|heure|hora|messzeit)(?: (?:stamp|of day|elapsed|since start))?|t|date time|datetime|timestamp|sec|secs|seconds|ms|msec) $/,
  ],
];

/** The quantity that a name alone speaks of; null where it is none that we know. */
export function quantityOfWords(words: string): Quantity | null {
  const padded = ` ${words} `;
  if (OTHERWISE.test(padded)) return null;
  for (const [quantity, pattern] of RULES) if (pattern.test(padded)) return quantity;
  return null;
}

/** Names that a unit completes: `Oil (psi)`, `Water (°F)`, `P (kW)`. */
const COMPLETED: Readonly<Record<string, readonly (readonly [RegExp, Quantity])[]>> = {
  pressure: [
    [/ (?:oil|ol|oel|huile|aceite) /, 'oilPressure'],
    [/ (?:intake|inlet|plenum) /, 'manifoldPressure'],
    [/ (?:atm|atmosphere|ambient|air) /, 'barometer'],
  ],
  temperature: [
    [/ (?:oil|ol|oel|huile|aceite|sump) /, 'oilTemperature'],
    [/ (?:water|wtr|coolant|kuhlwasser|wasser|eau|agua) /, 'waterTemperature'],
    [/ (?:exhaust|exh|abgas) /, 'exhaustTemperature'],
    [/ (?:air|intake|inlet|ambient|carb) /, 'airTemperature'],
  ],
  massFlow: [[/ (?:air|intake|inlet) /, 'airFlow']],
  volumeFlow: [[/ (?:air|intake|inlet) /, 'airFlow']],
  torque: [[/^ (?:t|m|me|md) $/, 'torque']],
  power: [[/^ (?:p|pe|n|ne|w) $/, 'power']],
  rotationalSpeed: [[/^ (?:n|ne|w|omega|f|engine|eng|motor|crank) $/, 'speed']],
  time: [[/^ (?:t|x) $/, 'time']],
};

/** The quantity of a name that its unit's dimension settles; null where it does not. */
export function quantityOfWordsAndDimension(words: string, dimension: string): Quantity | null {
  const padded = ` ${words} `;
  if (OTHERWISE.test(padded)) return null;
  return COMPLETED[dimension]?.find(([pattern]) => pattern.test(padded))?.[1] ?? null;
}
