import { begun } from '../begun.ts';
import type { BuildRun, RunPair } from './answer.ts';
import { FIGURES, type GoalId } from './figures.ts';
import type { Vehicle } from './types.ts';

/*
 * Sentences about runs, for the owner. They speak in s, km/h, N·m and rev/min; the edges turn them into the units of
 * whoever reads. Stretches of speed have names of their own and are not turned.
 */

/** What stands beside every computed time. */
export const ROAD_CAUTION =
  'A computed time compares builds under one ideal driver; it is not a promise. Full-throttle runs belong on a closed course.';

const seconds = (value: number) => `${Math.abs(value).toFixed(2)} s`;
export const kmh = (metresPerSecond: number) => `${(metresPerSecond * 3.6).toFixed(1)} km/h`;
const percent = (part: number) => `${Math.round(100 * part)} %`;
const rpm = (speed: number) => `${50 * Math.round(speed / 50)} rev/min`;

/** `99 %`, and never a certainty. */
export function chanceText(chance: number): string {
  if (chance > 0.995) return 'over 99 %';
  if (chance < 0.005) return 'under 1 %';
  return `${Math.round(100 * chance)} %`;
}

const indexOf = (id: string) => FIGURES.findIndex((figure) => figure.id === id);

/** Which of two is quicker, by how much, and with what certainty. */
export function runFinding(
  vehicle: Vehicle,
  a: BuildRun,
  b: BuildRun,
  pair: Omit<RunPair, 'finding'>,
  goal: GoalId,
): string {
  const at = indexOf(goal);
  const difference = pair.differences[at]!;
  const { name } = FIGURES[at]!;
  const over = goal.includes('-') ? `from ${name}` : `over the ${name}`;
  const [ta, tb] = [a.figures[at]!.value, b.figures[at]!.value];
  const out: string[] = [];
  if (difference.value === null || ta === null || tb === null)
    out.push(`In ${vehicle.name} not both builds reach ${name} within a kilometre.`);
  else {
    const { value, low, high } = difference.value;
    const told = low > 0 || high < 0;
    const [quicker, slower, qt, st] = value <= 0 ? [b, a, tb, ta] : [a, b, ta, tb];
    const chance = value <= 0 ? difference.chanceBetter : 1 - difference.chanceBetter;
    const [least, most] = [
      Math.min(Math.abs(low), Math.abs(high)),
      Math.max(Math.abs(low), Math.abs(high)),
    ];
    out.push(
      told
        ? `In ${vehicle.name}, ${quicker.name} is quicker than ${slower.name} ${over}: ${seconds(qt.value)} against ${seconds(st.value)}, ${seconds(value)} less (95 %: ${least.toFixed(2)} to ${seconds(most)}; chance ${chanceText(chance)}).`
        : `In ${vehicle.name}, ${b.name} cannot be told from ${a.name} ${over}: ${seconds(tb.value)} against ${seconds(ta.value)}, no difference larger than ${seconds(most)}.`,
    );
    out.push(...elsewhere(pair, quicker, told ? Math.sign(value) : 0));
  }
  const trap = indexOf('quarterMileTrap');
  const [va, vb] = [a.figures[trap]!.value, b.figures[trap]!.value];
  if (goal === 'quarterMile' && va !== null && vb !== null)
    out.push(`Trap speed is ${kmh(vb.value)} against ${kmh(va.value)}.`);
  out.push(ROAD_CAUTION);
  return out.join(' ');
}

/** What one build does in the vehicle, for whoever has only one. */
export function runSentence(vehicle: Vehicle, build: BuildRun, goal: GoalId): string {
  const at = indexOf(goal);
  const { name } = FIGURES[at]!;
  const time = build.figures[at]!.value;
  const trap = build.figures[indexOf('quarterMileTrap')]!.value;
  const top = build.topSpeed;
  const out = [
    time === null
      ? `In ${vehicle.name}, ${build.name} does not reach ${name} within a kilometre.`
      : `In ${vehicle.name}, ${build.name} takes ${seconds(time.value)} (95 %: ${time.low.toFixed(2)} to ${seconds(time.high)}) ${goal.includes('-') ? `from ${name}` : `over the ${name}`}${goal === 'quarterMile' && trap !== null ? `, with a trap speed of ${kmh(trap.value)}` : ''}.`,
  ];
  if (top !== null) out.push(`Top speed is ${kmh(top.speedMPerS)} in gear ${top.gear + 1}.`);
  out.push(ROAD_CAUTION);
  return out.join(' ');
}

/** Where the other one is quicker and it can be told. */
function elsewhere(pair: Omit<RunPair, 'finding'>, quicker: BuildRun, sign: number): string[] {
  if (sign === 0) return [];
  const other = quicker.name === pair.b ? pair.a : pair.b;
  const against = pair.differences.filter(
    (one) =>
      one.kind === 'time' &&
      // Each stretch has its like in the other units; one of the two is enough.
      !one.id.endsWith('kmh') &&
      one.value !== null &&
      (sign < 0 ? one.value.low > 0.005 : one.value.high < -0.005),
  );
  if (against.length === 0) return [];
  const parts = against.map(({ name, value }) => `${name} by ${seconds(value!.value)}`);
  return [begun(`${other} is quicker over ${parts.join(', ')}.`)];
}

/** Part of a run below the measured speeds that is worth a word. */
const MUCH_BELOW = 0.05;

/** What should be known beside the times. */
export function runWarnings(vehicle: Vehicle, builds: readonly BuildRun[]): string[] {
  const out: string[] = [];
  if (vehicle.traction === null)
    out.push(
      'Nothing is said of the tyres’ grip, so nothing limits the force at the start: with a strong engine the first metres come out too quick.',
    );
  for (const { name, timeShare, drawn, topSpeed } of builds) {
    if (timeShare.belowMeasuredShare > MUCH_BELOW)
      out.push(
        `${percent(timeShare.belowMeasuredShare)} of the quarter mile of ${name} is spent below ${rpm(drawn.run.engine.fromRpm)}, where nothing was measured: torque was held level there.`,
      );
    const held = drawn.run.pieces.find(({ phase }) => phase === 'at highest speed');
    if (held !== undefined)
      out.push(
        `With ${name} the engine reaches its highest speed in gear ${held.gear + 1} before a kilometre is over and is held there${held.gear === vehicle.gears.length - 1 ? '' : ': the next gear could not hold that speed'}.`,
      );
    if (topSpeed?.by === 'highest engine speed')
      out.push(
        `With ${name} the top speed is where the engine reaches ${rpm(topSpeed.engineRpm)}, the highest that was swept or is allowed; the vehicle would go on pulling.`,
      );
  }
  return out;
}
