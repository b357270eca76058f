import { FormatError, PullbookError } from '../../errors.ts';
import { displayUnit, parseQuantity } from '../../units/index.ts';
import type { WindowRule } from '../compute/windows.ts';
import {
  isPlain,
  orNear,
  type Plain,
  type Problems,
  pathTo,
  textOf,
  unknownKeys,
} from '../sheet/shape.ts';
import { CHECKS } from '../topics/index.ts';
import { SHIPPED_WINDOWS } from './shipped.ts';

export const WINDOWS_FORMAT = 'windows/1';

const LIMITS = ['low', 'high', 'stopBelow', 'stopAbove'] as const;
const KEYS = ['name', 'uses', 'when', ...LIMITS, 'perM', 'source', 'addresses'];
const NAMES = [...new Set(SHIPPED_WINDOWS.map(({ name }) => name))];

/**
 * Windows of a shop from parsed JSON, format windows/1 (docs/sheet.md); they stand before the shipped ones. A limit is
 * a text with its unit (`"0.035 in"`), or a number in the inside unit.
 * @throws FormatError  naming the first place that is wrong, and how many more there are
 */
export function readWindows(json: unknown, fileName?: string): readonly WindowRule[] {
  const found: { path: string; found: string; expected: string }[] = [];
  const problems: Problems = {
    add: (path, what, expected) => found.push({ path, found: textOf(what), expected }),
  };
  const rules = rulesIn(json, problems);
  const [first] = found;
  if (first === undefined) return rules;
  const more = found.length === 1 ? '' : ` (and ${found.length - 1} more)`;
  throw new FormatError(
    `${first.path === '' ? 'the file' : first.path}: found ${first.found}; expected ${first.expected}${more}`,
    {
      ...(fileName === undefined ? {} : { file: fileName }),
      column: first.path,
      found: first.found,
      expected: first.expected,
    },
  );
}

function rulesIn(json: unknown, problems: Problems): WindowRule[] {
  if (!isPlain(json)) {
    problems.add('', json, `an object with "format": "${WINDOWS_FORMAT}" and "windows"`);
    return [];
  }
  if (json.format !== WINDOWS_FORMAT) problems.add('format', json.format, `"${WINDOWS_FORMAT}"`);
  unknownKeys(json, ['format', 'windows'], '', problems);
  if (!Array.isArray(json.windows)) {
    problems.add('windows', json.windows, 'a list of windows');
    return [];
  }
  return json.windows.flatMap((one: unknown, i) => ruleIn(one, `windows[${i}]`, problems) ?? []);
}

function ruleIn(json: unknown, path: string, problems: Problems): WindowRule | null {
  if (!isPlain(json)) {
    problems.add(path, json, 'a window such as {"name": "quench", "low": "0.035 in"}');
    return null;
  }
  unknownKeys(json, KEYS, path, problems);
  const { name, uses = null, when = {}, perM = false, source = 'the shop’s own', addresses } = json;
  if (typeof name !== 'string' || !NAMES.includes(name)) {
    const expected =
      typeof name === 'string' ? orNear('a window that is known', name, NAMES) : 'its name';
    problems.add(pathTo(path, 'name'), name, expected);
    return null;
  }
  if (uses !== null && !isTexts(uses))
    problems.add(pathTo(path, 'uses'), uses, 'a list of uses, or null');
  if (!isPlain(when) || !isTexts(Object.values(when)))
    problems.add(pathTo(path, 'when'), when, 'fields and what they say, as texts');
  if (typeof perM !== 'boolean') problems.add(pathTo(path, 'perM'), perM, 'true or false');
  if (typeof source !== 'string') problems.add(pathTo(path, 'source'), source, 'a text');
  if (addresses !== undefined && !isTexts(addresses))
    problems.add(pathTo(path, 'addresses'), addresses, 'a list of addresses');
  const limits = Object.fromEntries(
    LIMITS.map((key) => [key, limitIn(json, key, name, perM === true, path, problems)]),
  ) as Record<(typeof LIMITS)[number], number | null>;
  const { low, high } = limits;
  if (low !== null && high !== null && low > high)
    problems.add(pathTo(path, 'high'), json.high, 'no less than low');
  return {
    name,
    uses: uses as readonly string[] | null,
    when: when as Readonly<Record<string, string>>,
    ...limits,
    perM: perM === true,
    source: String(source),
    ...(addresses === undefined ? {} : { addresses: addresses as readonly string[] }),
  };
}

const isTexts = (value: unknown): value is readonly string[] =>
  Array.isArray(value) && value.every((one) => typeof one === 'string');

/** A limit in inside units; null where it is left out. */
function limitIn(
  json: Plain,
  key: string,
  name: string,
  perM: boolean,
  path: string,
  problems: Problems,
): number | null {
  const value = json[key] ?? null;
  if (value === null) return null;
  if (typeof value === 'number' && Number.isFinite(value)) return value;
  const check = CHECKS.find(({ window }) => window === name);
  if (typeof value !== 'string' || perM || check === undefined) {
    problems.add(pathTo(path, key), value, 'a number');
    return null;
  }
  try {
    return parseQuantity(value, displayUnit(check.shown, 'metric').dimension);
  } catch (error) {
    if (!(error instanceof PullbookError)) throw error;
    problems.add(pathTo(path, key), value, 'a number with its unit, such as "0.035 in"');
    return null;
  }
}
