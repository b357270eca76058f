import type { PublishedUse, PublishedVehicle, UseObject } from '../../report/index.ts';
import { inUnitsOf, quantityText, type UnitSystem } from '../../units/index.ts';
import { plain } from '../io.ts';
import { table, wrapped } from '../table.ts';

/** Uses and vehicle for a person: the finding first, then the numbers it stands on. */
export function showUse(object: UseObject, system: UnitSystem, columns: number): string {
  const air = object.standard === 'none' ? 'as observed' : object.standard;
  return [
    wrapped(inUnitsOf(object.finding, system), columns),
    '\n',
    `  ${plain(object.builds.join(', '))}, ${air}\n\n`,
    ...object.uses.map((use) => usePart(use, system, columns)),
    object.vehicle === null ? '' : vehiclePart(object.vehicle, system),
    ...object.warnings.map((warning) =>
      wrapped(`note: ${inUnitsOf(warning, system)}`, columns, '  '),
    ),
    ...(object.vehicle?.assumed ?? []).map((one) => wrapped(`taken: ${one}`, columns, '  ')),
  ].join('');
}

function usePart(use: PublishedUse, system: UnitSystem, columns: number): string {
  const head = `  ${plain(use.use)}\n${wrapped(use.reason, columns, '    ')}`;
  if (use.refused !== null)
    return `${head}${wrapped(`not answered: ${inUnitsOf(use.refused, system)}`, columns, '    ')}\n`;
  const rows = use.builds.map(({ name, meanPowerW: { value, low, high } }, i) => {
    const pair = i === 0 ? undefined : use.pairs[i - 1];
    return [
      name,
      `${quantityText(value, 'power', system)} (${quantityText(low, 'power', system)} to ${quantityText(high, 'power', system)})`,
      pair === undefined
        ? ''
        : `${signed(pair.gainPercent.value)} % (${signed(pair.gainPercent.low)} to ${signed(pair.gainPercent.high)}): ${pair.word}`,
    ];
  });
  const dragged = use.pairs.flatMap(({ b, dragged: one }) => {
    if (one === null) return [];
    const places = one.points.filter((_, i) => i % 5 === 0);
    const gains = places.map(
      ({ shareAbove, value }) => `${Math.round(100 * shareAbove)} %: ${signed(value)} %`,
    );
    return [
      `    ${plain(b)} by time above ${Math.round(one.aboveRpm)} rpm  ${gains.join('   ')}\n`,
    ];
  });
  return `${head}${table([{ title: '' }, { title: 'mean power there' }, { title: 'gain' }], rows, '    ')}${dragged.join('')}\n`;
}

function vehiclePart(vehicle: PublishedVehicle, system: UnitSystem): string {
  const figure = (one: { unit: 's' | 'm/s'; value: number | null }, value: number | null) =>
    quantityText(value, one.unit === 's' ? 'time' : 'roadSpeed', system);
  const rows = vehicle.builds[0]!.figures.map((first, f) => [
    first.name,
    ...vehicle.builds.map(({ figures }) => {
      const own = figures[f]!;
      return own.value === null
        ? 'not reached'
        : `${figure(own, own.value)} (${figure(own, own.low)} to ${figure(own, own.high)})`;
    }),
    ...vehicle.pairs.map(({ differences }) => {
      const own = differences[f]!;
      if (own.value === null) return '';
      const told = own.low! > 0 || own.high! < 0;
      return `${own.value > 0 ? '+' : ''}${figure(own, own.value)}${told ? '' : ', cannot be told'}`;
    }),
  ]);
  const shifts = vehicle.builds.map(
    ({ name, shifts: points }) =>
      `  ${plain(name)}, shifts: ${points.map(({ fromGear, speedRpm, nextRpm }) => `${fromGear}–${fromGear + 1} at ${speedRpm.toFixed(0)} (to ${nextRpm.toFixed(0)})`).join(', ') || 'none'} rpm\n`,
  );
  const gearing = (vehicle.gearing?.builds ?? []).map(
    ({ name, finalDrive, asGoodFrom, asGoodTo, timeS, presentTimeS }) =>
      `  ${plain(name)}, best final drive ${finalDrive.toFixed(2)} (${asGoodFrom.toFixed(2)} to ${asGoodTo.toFixed(2)} as good): ${timeS.toFixed(2)} s, ${presentTimeS.toFixed(2)} s with the present one\n`,
  );
  return [
    `  ${plain(vehicle.name)}\n`,
    table(
      [
        { title: '' },
        ...vehicle.builds.map(({ name }) => ({ title: name })),
        ...vehicle.pairs.map(({ b }) => ({ title: `${b}, difference` })),
      ],
      rows,
      '  ',
    ),
    '\n',
    ...shifts,
    ...gearing,
    '\n',
  ].join('');
}

function signed(value: number): string {
  const text = value.toFixed(1);
  return value > 0 && Number(text) !== 0 ? `+${text}` : text;
}
