import type { Layout, Place } from './types.ts';

const PLACE_NAMES: Readonly<Record<Place, string>> = {
  cylinder: 'Cylinder',
  bank: 'Bank',
  mainJournal: 'Main',
  rodJournal: 'Rod journal',
  intakeValve: 'Intake',
  exhaustValve: 'Exhaust',
};

/** What the shop's engines are when a new sheet is begun and nothing is known. */
export const layoutOf = (cylinders: number): Layout => ({
  cylinders,
  arrangement: cylinders === 1 ? 'single' : cylinders >= 8 ? 'V' : 'inline',
  bankAngleDeg: cylinders >= 8 ? 90 : null,
  crank: cylinders >= 8 ? 'cross-plane' : 'single-plane',
  intakeValvesPerCylinder: 1,
  exhaustValvesPerCylinder: 1,
  mainJournals: null,
  rodJournals: null,
  cycle: 4,
  aspiration: 'natural',
});

/** How often a measurement of this place stands on the sheet. Mains and rod journals by the usual arrangement unless said. */
export function countOf(place: Place, layout: Layout): number {
  const { cylinders, arrangement } = layout;
  const shared = arrangement === 'V';
  switch (place) {
    case 'cylinder':
      return cylinders;
    case 'bank':
      return arrangement === 'V' || arrangement === 'flat' ? 2 : 1;
    case 'rodJournal':
      return layout.rodJournals ?? (shared ? Math.ceil(cylinders / 2) : cylinders);
    case 'mainJournal':
      return layout.mainJournals ?? (shared ? Math.ceil(cylinders / 2) : cylinders) + 1;
    case 'intakeValve':
      return cylinders * layout.intakeValvesPerCylinder;
    case 'exhaustValve':
      return cylinders * layout.exhaustValvesPerCylinder;
  }
}

/** What stands at the head of each row: `Cylinder 3`, `Main 2`, `Intake 4`, `Intake 4b` where a cylinder has more. */
export function placeLabels(place: Place, layout: Layout): readonly string[] {
  const perCylinder =
    place === 'intakeValve'
      ? layout.intakeValvesPerCylinder
      : place === 'exhaustValve'
        ? layout.exhaustValvesPerCylinder
        : 1;
  return Array.from({ length: countOf(place, layout) }, (_, i) =>
    perCylinder <= 1
      ? `${PLACE_NAMES[place]} ${i + 1}`
      : `${PLACE_NAMES[place]} ${Math.floor(i / perCylinder) + 1}${'abcdefgh'[i % perCylinder]}`,
  );
}
