import type { Mark } from '../../pull/types.ts';
import type { CurveObject, PublishedPeak } from '../../report/index.ts';
import {
  type DisplayKind,
  displayUnit,
  formatQuantity,
  inUnitsOf,
  quantityText,
  type UnitSystem,
} from '../../units/index.ts';
import { plain } from '../io.ts';
import { table, wrapped } from '../table.ts';

/** Lines of the table of a curve: every how many rev/min, so that about this many stay. */
const ROWS = 20;

/** One pull's curve for a person: the peaks, a table at round speeds, what was marked. */
export function showCurve(curve: CurveObject, system: UnitSystem, columns: number): string {
  const torque = displayUnit('torque', system).symbol;
  const power = displayUnit('power', system).symbol;
  const text = (value: number, kind: DisplayKind) => formatQuantity(value, kind, system).text;
  const air =
    curve.standard === 'none'
      ? 'as observed'
      : `${curve.standard}, factor ${curve.correctionFactor.toFixed(4)}`;
  return [
    `${plain(curve.file)}, pull ${curve.pull}: ${air}\n`,
    `  peak torque  ${peakText(curve.peakTorque, 'torque', system)}\n`,
    `  peak power   ${peakText(curve.peakPower, 'power', system)}\n`,
    table(
      [
        { title: 'rpm', align: 'right' },
        { title: torque, align: 'right' },
        { title: '95 %' },
        { title: power, align: 'right' },
      ],
      thinned(curve.curve).map((point) => [
        point.speedRpm.toFixed(0),
        text(point.torqueNm, 'torque'),
        `${text(point.lowNm, 'torque')} to ${text(point.highNm, 'torque')}`,
        text(point.powerW, 'power'),
      ]),
      '  ',
    ),
    ...curve.marks.map((mark) => showMark(inUnits(mark, system), columns)),
  ].join('');
}

/** `621.4 hp at 6790 rpm (618.2 to 624.6)`; a typed peak has no interval. */
export function peakText(
  peak: PublishedPeak | null,
  kind: 'torque' | 'power',
  system: UnitSystem,
): string {
  if (peak === null) return '–';
  const text = (value: number) => formatQuantity(value, kind, system).text;
  const at = peak.speedRpm === null ? '' : ` at ${peak.speedRpm.toFixed(0)} rpm`;
  const band =
    peak.low === null || peak.high === null ? '' : ` (${text(peak.low)} to ${text(peak.high)})`;
  return `${quantityText(peak.value, kind, system)}${at}${band}`;
}

/** The mark as it reads in these units; JSON keeps the units of the computation. */
const inUnits = (mark: Mark, system: UnitSystem): Mark => ({
  ...mark,
  sentence: inUnitsOf(mark.sentence, system),
});

function showMark(mark: Mark, columns: number): string {
  const word = mark.severity === 'note' ? 'note' : mark.severity;
  return wrapped(`${word}: ${mark.sentence}`, columns, '  ');
}

/**
 * Marks of several pulls, those that differ only in their figures said once: a note that each pull of a day carries
 * would else hide the one that matters. What stops comes first.
 */
export function showMarksOf(
  pulls: readonly { readonly name: string; readonly marks: readonly Mark[] }[],
  system: UnitSystem,
  columns: number,
): string {
  const groups = new Map<string, { first: Mark; names: string[] }>();
  for (const { name, marks } of pulls)
    for (const mark of marks) {
      const key = `${mark.severity} ${mark.sentence.replace(/[\d.]+/g, '#')}`;
      const group = groups.get(key) ?? { first: inUnits(mark, system), names: [] };
      group.names.push(name);
      groups.set(key, group);
    }
  const rank = { stop: 0, 'look again': 1, note: 2 };
  return [...groups.values()]
    .sort((a, b) => rank[a.first.severity] - rank[b.first.severity])
    .map(({ first, names }) => {
      const others = new Set(names).size - 1;
      const also = others === 0 ? '' : ` (and alike in ${others} more)`;
      return showMark({ ...first, sentence: `${names[0]}: ${first.sentence}${also}` }, columns);
    })
    .join('');
}

function thinned<T>(points: readonly T[]): readonly T[] {
  const step = Math.max(1, Math.round(points.length / ROWS));
  return points.filter((_, index) => index % step === 0 || index === points.length - 1);
}
