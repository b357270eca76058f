import { PullbookError } from '../../errors.ts';
import { fuelCautions } from '../../trade/fuel/index.ts';
import { type Ask, ifThere } from '../compute/ask.ts';
import { sheetFuel } from '../topics/fuelSystemFuel.ts';
import { itemsOf, q, say } from './say.ts';
import type { PlanItem } from './types.ts';

const safety = itemsOf('safety', { weight: 'must', beforeFirstStart: true, isSafety: true });

/** The cautions that stand in every plan. */
const ALWAYS: readonly PlanItem[] = [
  safety(
    'safety.law',
    say`Local codes and qualified people have the last word. Pullbook records and advises; it never replaces the cell's own shutdowns.`,
  ),
  safety(
    'safety.stop',
    say`The emergency stop was tried today: it cuts fuel and ignition and depends on no computer.`,
  ),
  safety(
    'safety.shaft',
    say`The coupling shaft is balanced and straight, its bolts are torqued, and its guard is closed.`,
  ),
  safety(
    'safety.line',
    say`Nobody stands in line with rotating parts: shaft, flywheel, damper, belts.`,
  ),
  safety(
    'safety.air',
    say`Ventilation runs, the exhaust leads outside, and the carbon monoxide alarm was tested.`,
  ),
  safety(
    'safety.fire',
    say`Fire suppression is ready and in reach, fuel lines are dry, and the fuel shut-off can be reached from outside the cell.`,
  ),
  safety('safety.ears', say`Everybody near the engine wears hearing and eye protection.`),
];

/** Safety items of a sheet: the usual ones, and what its fuel and aspiration ask for. */
export function safetyItems(ask: Ask): readonly PlanItem[] {
  return [...ALWAYS, ...fuelItems(ask), ...aspirationItems(ask)];
}

function fuelItems(ask: Ask): readonly PlanItem[] {
  let fuel = null;
  try {
    fuel = ifThere(sheetFuel)(ask);
  } catch (error) {
    // A fuel that nobody here knows has no cautions here either; the item below says so.
    if (!(error instanceof PullbookError)) throw error;
  }
  if (fuel === null)
    return [
      safety(
        'safety.fuel',
        say`The fuel is not known here: read its safety sheet before it is handled, and name it on the build sheet.`,
        {
          measure: ['fuelSystem.fuel'],
        },
      ),
    ];
  return fuelCautions(fuel).map(({ fuel: name, about, sentence, flashPointK, source }) => {
    const [before = '', after] = sentence.split('{flash}');
    const begin = `${name[0]!.toUpperCase()}${name.slice(1)}. ${before}`;
    return safety(
      `safety.fuel.${name.replace(/ /g, '-')}.${about}`,
      after === undefined || flashPointK === undefined
        ? say`${begin}`
        : say`${begin}${q(flashPointK, 'temperature', { decimals: 0 })}${after}`,
      { source },
    );
  });
}

function aspirationItems(ask: Ask): readonly PlanItem[] {
  if (ask.layout.aspiration !== 'nitrous') return [];
  return [
    safety(
      'safety.nitrous',
      say`Nitrous bottles are strapped, vented outside and away from heat; nobody opens them until the engine runs as it should without.`,
    ),
  ];
}
