import type { Quantity, TorqueBasis } from '../pull/recording.ts';
import { type Dimension, unitsSpelled as spelledExactly, type Unit } from '../units/index.ts';
import { readBasis } from './basis.ts';
import { quantityOfWords, quantityOfWordsAndDimension, wordsOf } from './names.ts';

/** What is longer is text that somebody wrote, not a name: only its beginning is read. */
const LONGEST_READ = 200;
const LONGEST_UNIT = 40;
/** How a clock is written, standing where a unit stands: `hh:mm:ss.000`, `[mm:ss]`, `(dd/mm/yyyy hh:mm:ss)`. */
const CLOCK_FORM =
  /[([{]?\s*(?:\b[dmy]{1,4}([-/.])[dmy]{1,4}\1[dmy]{1,4}[\sT]+)?\b(?:h{1,2}:)?m{1,2}:s{1,2}(?:[.,:](?:0+|[fmsxz]+))?\b\s*[)\]}]?/i;

/** Everything one header says, before the values were looked at. */
export interface HeaderReading {
  readonly quantity: Quantity;
  readonly unit: Unit | null;
  /** What stands where a unit stands but is none that we know. */
  readonly unknownUnit: string | null;
  readonly basis: TorqueBasis;
  readonly correctedToWhat: boolean;
  readonly pressureReference: 'absolute' | 'gauge' | null;
  readonly bank: number | null;
  readonly cylinder: number | null;
  /** What the name alone speaks of, where the unit stated is none of it: the column is then another thing. */
  readonly misfit: Quantity | null;
  /** Measured at the brake, where that need not be the crank. */
  readonly atBrake: boolean;
  readonly fuelPath: 'supply' | 'return' | null;
  readonly words: string;
}

/** Dimensions that a quantity may be measured in; none listed: any. */
export const DIMENSIONS: Readonly<Record<Quantity, readonly Dimension[]>> = {
  time: ['time'],
  speed: ['rotationalSpeed'],
  torque: ['torque'],
  power: ['power'],
  lambda: ['fraction'],
  afr: ['fraction'],
  fuelFlow: ['massFlow', 'volumeFlow'],
  airFlow: ['massFlow', 'volumeFlow'],
  oilPressure: ['pressure'],
  oilTemperature: ['temperature'],
  waterTemperature: ['temperature'],
  airTemperature: ['temperature'],
  barometer: ['pressure'],
  humidity: ['fraction'],
  manifoldPressure: ['pressure'],
  exhaustTemperature: ['temperature'],
  lead: ['angle'],
  throttle: ['fraction'],
  knock: [],
  other: [],
};

/** Standard and actual cubic feet a minute are one unit; which air they count is the channel's affair. */
function unitsSpelled(text: string): readonly Unit[] {
  if (text.length > LONGEST_UNIT) return [];
  return spelledExactly(text.replace(/^\s*[sa](?=cfm\b)/i, ''));
}

/** The unit of a text that a quantity can have. */
export function unitFor(text: string, quantity: Quantity): Unit | null {
  const units = unitsSpelled(text);
  const wanted = DIMENSIONS[quantity];
  if (wanted.length === 0) return units[0] ?? null;
  return units.find((unit) => wanted.includes(unit.dimension)) ?? null;
}

/**
 * Reads a header: `Torque Corr (lb-ft)`, `Oil Press [kPa]`, `Time, s`, `EGT1_C`, `n/min-1`, `HP`.
 * @param unitCell  what a row of units holds for the column, '' for nothing
 */
export function readHeader(header: string, unitCell = ''): HeaderReading {
  const { name, unitText, brackets } = takeApart(
    header.slice(0, LONGEST_READ).replace(CLOCK_FORM, ' '),
    unitCell.slice(0, LONGEST_UNIT).replace(CLOCK_FORM, ''),
  );
  const stated = unitText === null ? null : (unitsSpelled(unitText)[0] ?? null);
  const named = recognise(name);
  let quantity: Quantity | null = named;
  let unit: Unit | null = null;
  let unknownUnit: string | null = null;
  let words = wordsOf(name);
  if (unitText !== null && stated === null) {
    if (looksLikeUnit(unitText)) unknownUnit = unitText;
  } else if (unitText !== null) {
    ({ quantity, unit } = settle(named, words, unitText));
  } else {
    const trailing = trailingUnit(name);
    if (trailing !== null) {
      ({ quantity, unit } = trailing);
      words = trailing.words;
    }
  }
  const basis = readBasis(words);
  const place = placeOf(words, quantity ?? 'other');
  return {
    quantity: quantity ?? 'other',
    unit,
    unknownUnit,
    basis: basis.basis,
    correctedToWhat: basis.correctedToWhat,
    pressureReference: referenceOf(words, brackets, unit),
    ...place,
    misfit: named !== null && quantity === null ? named : null,
    atBrake: / (?:brake|dyno|roller|absorber) /.test(` ${words} `),
    fuelPath: fuelPathOf(words),
    words,
  };
}

/** Splits off a unit that stands in brackets, behind a comma or in a row of its own. */
function takeApart(
  header: string,
  unitCell: string,
): { name: string; unitText: string | null; brackets: string } {
  let name = header;
  let unitText: string | null = bare(unitCell) === '' ? null : bare(unitCell);
  let brackets = '';
  name = name.replace(/[([{]([^()[\]{}]*)[)\]}]/g, (_, inside: string) => {
    const text = inside.trim();
    brackets += ` ${text}`;
    if (unitText === null && isUnitText(text)) {
      unitText = text;
      return ' ';
    }
    // What is neither unit nor a word of the trade may be a unit we do not know; later brackets may still hold one.
    return ` ${text} `;
  });
  if (unitText === null) {
    const comma = name.lastIndexOf(',');
    if (comma > 0) {
      const tail = name.slice(comma + 1).trim();
      if (isUnitText(tail) || (tail !== '' && !isVocabulary(tail))) {
        unitText = tail;
        name = name.slice(0, comma);
      }
    }
  }
  if (unitText === null) {
    const unknown = [...header.matchAll(/[([{]([^()[\]{}]*)[)\]}]/g)]
      .map((match) => match[1]!.trim())
      .find((text) => text !== '' && !isVocabulary(text));
    if (unknown !== undefined) {
      unitText = unknown;
      name = name.replace(unknown, ' ');
    }
  }
  return { name: name.replace(/\s+/g, ' ').trim(), unitText, brackets };
}

function bare(cell: string): string {
  return cell.replace(/^[[({]\s*|\s*[\])}]$/g, '').trim();
}

/** A unit's spelling, or the dash that says there is none; a bare number in brackets is a channel's number. */
function isUnitText(text: string): boolean {
  return !/^\d*$/.test(text) && unitsSpelled(text).length > 0;
}

const VOCABULARY =
  /^(?:obs|observed|raw|uncorr\w*|corr\w*|std|stp|sae|j1349|j607|din|iso|1585|70020|inertia|comp\w*|in|out|no|with|without|left|right|lh|rh|l|r|bank|cyl|cylinder|sensor|channel|chan|ch|ecu|can|dyno|brake|engine|eng|crank|cell|front|rear|gauge|abs|absolute|rel|relative|avg|mean|max|min|peak|filtered|filt|smoothed|wb|wideband|air|oil|water|fuel|supply|return|feed|total|set|spark|logged|calc\w*|derived|meas\w*|actual|\d+|[a-h]|and|of|the|not|to|for|by)$/;

/** Only words that a name may hold in brackets: `(corrected)`, `(left)`, `(cyl 3)`. */
function isVocabulary(text: string): boolean {
  const words = wordsOf(text);
  return (
    words === '' ||
    quantityOfWords(words) !== null ||
    words.split(' ').every((word) => VOCABULARY.test(word))
  );
}

/** Short enough to be meant as a unit; longer text is a remark. */
function looksLikeUnit(text: string): boolean {
  return text.length <= 16 && text.split(/\s+/).length <= 2;
}

function recognise(name: string): Quantity | null {
  const words = wordsOf(name);
  return quantityOfWords(words) === null
    ? null
    : (quantityOfWords(readBasis(words).rest) ?? quantityOfWords(words));
}

/** The quantity and unit where a unit is stated: the two must agree, or the unit's dimension decides, or it is another thing. */
function settle(
  named: Quantity | null,
  words: string,
  unitText: string,
): { quantity: Quantity | null; unit: Unit | null } {
  if (named !== null) {
    const unit = unitFor(unitText, named);
    if (unit !== null) return { quantity: named, unit };
  }
  for (const unit of unitsSpelled(unitText)) {
    const quantity = quantityOfWordsAndDimension(stripNumbers(words), unit.dimension);
    if (quantity !== null) return { quantity, unit };
  }
  return { quantity: null, unit: unitsSpelled(unitText)[0] ?? null };
}

function stripNumbers(words: string): string {
  return words.replace(/ ?\b\d+\b/g, '').trim();
}

/** A unit at the end of a name (`Torque lb-ft`, `EGT1_C`, `n/min-1`), or a name that is nothing but a unit (`kW`). */
function trailingUnit(
  name: string,
): { quantity: Quantity | null; unit: Unit | null; words: string } | null {
  for (const [head, tail] of splits(name)) {
    if (/^[\d\s-]*$/.test(tail) || unitsSpelled(tail).length === 0) continue;
    const words = wordsOf(head);
    const { quantity, unit } = settle(recognise(head), words, tail);
    if (quantity !== null && unit !== null) return { quantity, unit, words };
  }
  const named = recognise(name);
  const whole = unitsSpelled(name);
  if (named !== null) {
    const tail = wordsOf(name).split(' ').at(-1)!;
    const unit =
      DIMENSIONS[named].length === 0 ? null : (unitFor(name, named) ?? unitFor(tail, named));
    // `Lambda` and `AFR` name the quantity, not a unit of it.
    return unit === null || unit.dimension === 'fraction'
      ? null
      : { quantity: named, unit, words: wordsOf(name) };
  }
  const alone = whole.find(
    (unit) =>
      unit.dimension === 'torque' ||
      unit.dimension === 'power' ||
      unit.dimension === 'rotationalSpeed',
  );
  if (alone === undefined) return null;
  const quantity =
    alone.dimension === 'torque' ? 'torque' : alone.dimension === 'power' ? 'power' : 'speed';
  return { quantity, unit: alone, words: wordsOf(name) };
}

/** A name cut in two at each place where a unit may begin, longest tail first. */
function* splits(name: string): Generator<[string, string]> {
  const tokens = name.split(/[\s_]+/).filter((token) => token !== '');
  for (let taken = Math.min(3, tokens.length - 1); taken >= 1; taken--)
    yield [tokens.slice(0, -taken).join(' '), tokens.slice(-taken).join(' ')];
  const cut = /^(.+?)\s*[-/:]\s*(.+)$/.exec(name);
  if (cut !== null) yield [cut[1]!, cut[2]!];
}

function referenceOf(
  words: string,
  brackets: string,
  unit: Unit | null,
): 'absolute' | 'gauge' | null {
  if (unit?.pressureReference !== undefined) return unit.pressureReference;
  const padded = ` ${words} ${wordsOf(brackets)} `;
  if (/ (?:gauge|gage|boost|vacuum|vac|ladedruck|uberdruck) /.test(padded)) return 'gauge';
  if (/ (?:abs|absolute|map|baro\w*|barometric|absolut) /.test(padded)) return 'absolute';
  return null;
}

function fuelPathOf(words: string): 'supply' | 'return' | null {
  const padded = ` ${words} `;
  if (/ (?:return|ret|rtn|back|rucklauf|retour) /.test(padded)) return 'return';
  if (/ (?:supply|sup|feed|delivery|vorlauf|alimentation) /.test(padded)) return 'supply';
  return null;
}

const BY_NUMBER_CYLINDER: readonly Quantity[] = ['exhaustTemperature', 'knock', 'lead'];
const WITH_BANKS: readonly Quantity[] = [
  'lambda',
  'afr',
  'fuelFlow',
  'airFlow',
  'exhaustTemperature',
  'knock',
  'manifoldPressure',
];

/** Bank and cylinder as the words say: `left`, `bank 2`, `cyl 5`, and bare numbers by what they number. */
function placeOf(
  words: string,
  quantity: Quantity,
): { bank: number | null; cylinder: number | null } {
  const padded = ` ${words} `;
  const cylinder = / (?:cyl|cylinder|zyl|zylinder|cylindre|cilindro) ?(\d{1,2}) /.exec(padded);
  if (cylinder !== null) return { bank: null, cylinder: Number(cylinder[1]) };
  if (!WITH_BANKS.includes(quantity) && !BY_NUMBER_CYLINDER.includes(quantity))
    return { bank: null, cylinder: null };
  const bank = / (?:bank|bk|b) ?([12ab]) /.exec(padded)?.[1];
  if (bank !== undefined) return { bank: bank === '1' || bank === 'a' ? 1 : 2, cylinder: null };
  if (/ (?:left|lh|l|lt|links|gauche|izq\w*|front|a) /.test(padded))
    return { bank: 1, cylinder: null };
  if (/ (?:right|rh|r|rt|rechts|droite?|der\w*|rear|b) /.test(padded))
    return { bank: 2, cylinder: null };
  const number = / (\d{1,2}) /.exec(padded)?.[1];
  if (number === undefined || Number(number) < 1) return { bank: null, cylinder: null };
  if (BY_NUMBER_CYLINDER.includes(quantity)) return { bank: null, cylinder: Number(number) };
  if (Number(number) <= 2) return { bank: Number(number), cylinder: null };
  return { bank: null, cylinder: Number(number) };
}
