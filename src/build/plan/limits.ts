import type { DisplayKind } from '../../units/display.ts';
import { type Ask, ifThere } from '../compute/ask.ts';
import type { Window } from '../compute/types.ts';
import { ruleFor, type WindowRule, windowOf } from '../compute/windows.ts';
import { highestSpeedRpm } from '../topics/motion.ts';
import { itemsOf, q, say } from './say.ts';
import type { PlanItem, PlanPart } from './types.ts';

/** Limits are advice to be entered into the cell, which alone shuts down. They cannot be taken out, only edited. */
const limit = itemsOf('limits', { weight: 'must', beforeFirstStart: true, isSafety: true });

/** The window of a name as it stands for this sheet. */
export function windowFor(
  ask: Ask,
  rules: readonly WindowRule[],
  name: string,
  scale: number | null = null,
): Window | null {
  const rule = ruleFor(name, ask, rules);
  return rule === null ? null : windowOf(rule, scale);
}

const UPPER: readonly (readonly [id: string, name: string, what: string, shown: DisplayKind])[] = [
  ['limits.water', 'limitWater', 'Water leaving the engine', 'temperature'],
  ['limits.oil', 'limitOil', 'Oil', 'temperature'],
  ['limits.exhaust', 'limitExhaust', 'Exhaust, in the primaries', 'temperature'],
  ['limits.lean', 'limitLean', 'Lambda at full throttle', 'lambda'],
];

export function limitItems(ask: Ask, rules: readonly WindowRule[]): readonly PlanItem[] {
  const highest = ifThere(highestSpeedRpm)(ask);
  return [
    oilPressure(ask, rules, highest),
    ...UPPER.map(([id, name, what, shown]) =>
      upper(id, name, what, shown, windowFor(ask, rules, name)),
    ),
    highest === null
      ? limit(
          'limits.speed',
          say`Set the overspeed cut of the cell once the highest speed that the parts stand is on the sheet.`,
          {
            measure: ['intent.highestSpeed'],
          },
        )
      : limit(
          'limits.speed',
          say`Overspeed: the cell cuts at ${q(highest, 'speed')}, also when the brake loses its load.`,
          {
            source: 'the highest speed on the build sheet',
          },
        ),
    limit(
      'limits.knock',
      say`Any knock that is heard or seen ends the pull at once, and the next one is made with less lead or a richer mixture.`,
    ),
    limit(
      'limits.noise',
      say`A new noise, smoke, a leak or a shake ends the pull; look before the next.`,
    ),
  ];
}

function upper(
  id: string,
  name: string,
  what: string,
  shown: DisplayKind,
  window: Window | null,
): PlanItem {
  const stop = window?.stopAbove ?? window?.high ?? null;
  // No gauge on a cell is read to tenths of a degree.
  const at = (value: number) => q(value, shown, shown === 'temperature' ? { decimals: 0 } : {});
  if (window === null || stop === null)
    return limit(
      id,
      say`${what}: no limit is set in the shop's windows; set one before the first start.`,
      {
        window: name,
        source: window?.source ?? 'not known',
      },
    );
  const watch: readonly PlanPart[] =
    window.high !== null && window.high < stop ? say`, watch it above ${at(window.high)}` : [];
  return limit(id, [...say`${what}: shut down above ${at(stop)}`, ...watch, { text: '.' }], {
    window: name,
    source: window.source,
  });
}

/** Oil pressure to shut down at, by speed: the shop's window, and never less than what idle asks for. */
function oilPressure(ask: Ask, rules: readonly WindowRule[], highest: number | null): PlanItem {
  const name = 'limitOilPressure';
  const idle = windowFor(ask, rules, 'limitOilPressureIdle');
  const floor = idle?.stopBelow ?? idle?.low ?? 0;
  const at = (speed: number): readonly number[] | null => {
    const window = windowFor(ask, rules, name, speed);
    const stop = window?.stopBelow ?? window?.low ?? null;
    return stop === null ? null : [speed, Math.max(floor, stop)];
  };
  const speeds = Array.from({ length: Math.ceil((highest ?? 6000) / 1000) }, (_, i) =>
    Math.min((i + 1) * 1000, highest ?? 6000),
  );
  const rows = speeds.map(at).filter((row) => row !== null);
  const source = ruleFor(name, ask, rules)?.source ?? 'not known';
  if (rows.length === 0)
    return limit(
      'limits.oilPressure',
      say`Oil pressure: no limit is set in the shop's windows; set one before the first start.`,
      {
        window: name,
        source,
      },
    );
  return limit(
    'limits.oilPressure',
    say`Oil pressure, hot: shut down below the table, and below ${q(floor, 'gaugePressure')} at any speed.`,
    {
      window: name,
      source,
      measure: highest === null ? ['intent.highestSpeed'] : [],
      table: {
        columns: [
          { label: 'Speed', shown: 'speed' },
          { label: 'Least oil pressure', shown: 'gaugePressure' },
        ],
        rows,
      },
    },
  );
}
