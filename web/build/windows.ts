import type { WindowRule } from '../../src/build/index.ts';
import { pathInWords } from './words.ts';

/** Whether a line stands in the place of another: of the same name, for the same uses, under the same conditions. */
export const isOwnOf = (one: WindowRule, other: WindowRule): boolean =>
  one.name === other.name && conditionKey(one) === conditionKey(other);

const conditionKey = ({ uses, when }: WindowRule): string =>
  JSON.stringify([uses === null ? null : [...uses].sort(), Object.entries(when).sort()]);

/** The shop's lines with this one, in the place of the one that it replaces. */
export function withOwn(own: readonly WindowRule[], rule: WindowRule): readonly WindowRule[] {
  return own.some((one) => isOwnOf(one, rule))
    ? own.map((one) => (isOwnOf(one, rule) ? rule : one))
    : [...own, rule];
}

export const withoutOwn = (own: readonly WindowRule[], rule: WindowRule): readonly WindowRule[] =>
  own.filter((one) => !isOwnOf(one, rule));

/** `use sustained, Rods: Rod material aluminium`; `all` where nothing is asked. */
export function conditionWords({ uses, when }: WindowRule): string {
  const words = [
    ...(uses === null ? [] : [`use ${uses.join(' or ')}`]),
    ...Object.entries(when).map(([path, value]) =>
      path === 'layout.aspiration' ? value : `${pathInWords(path)}: ${value}`,
    ),
  ];
  return words.length === 0 ? 'all' : words.join(', ');
}
