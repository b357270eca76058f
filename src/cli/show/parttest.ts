import { inUnitsOf, type UnitSystem } from '../../units/index.ts';
import type { PartObject } from '../parttest.ts';
import { wrapped } from '../table.ts';

/** A part test for a person: the plan, the order, and what the pulls made say. */
export function showPartTest(object: PartObject, system: UnitSystem, columns: number): string {
  const { made, order, next } = object;
  const said = (text: string, indent = '') => wrapped(inUnitsOf(text, system), columns, indent);
  const isBegun = made.a + made.b > 0;
  return [
    ...(isBegun ? [said(object.finding), '\n'] : []),
    ...(object.sideBySide === null ? [] : [said(object.sideBySide), '\n']),
    said(object.plan),
    said(`In this order: ${order.map((side) => side.toUpperCase()).join(' ')}`),
    said(`Made: ${made.a} of A, ${made.b} of B.`),
    said(
      next === null
        ? 'Stop here.'
        : `${isBegun ? 'Go on' : 'Begin'} with a pull of ${next.toUpperCase()}.`,
    ),
    ...object.warnings.map((warning) => said(`note: ${warning}`, '  ')),
  ].join('');
}
