import { finite, notNegative, positive, possible } from '../possible.ts';

/** Valve lift [m] that a lobe lift gives through a lash: lobe × ratio − lash, never below 0. */
export function valveLiftWithLashM(lobeLiftM: number, rockerRatio: number, lashM: number): number {
  return Math.max(
    0,
    finite('lobe lift', lobeLiftM, 'm') * positive('rocker ratio', rockerRatio, '') -
      notNegative('lash', lashM, 'm'),
  );
}

/** Lobe lift [m] that is spent before the valve moves: lash over ratio. */
export function lobeLiftSpentM(lashM: number, rockerRatio: number): number {
  return notNegative('lash', lashM, 'm') / positive('rocker ratio', rockerRatio, '');
}

export interface OpenSpan {
  readonly opensDeg: number;
  readonly closesDeg: number;
  readonly durationDeg: number;
}

/**
 * When the valve is open with a lash, in whatever degrees the lobe's lift is given in; null when it stays shut.
 * @param lobe.atValveLiftM  checking lift at the valve; 0 for off the seat
 * @validity  one lobe that rises once and falls once between its limits
 */
export function openWithLash(
  lobe: {
    readonly lobeLiftM: (deg: number) => number;
    readonly fromDeg: number;
    readonly toDeg: number;
    readonly atValveLiftM?: number;
  },
  rockerRatio: number,
  lashM: number,
): OpenSpan | null {
  const { lobeLiftM, fromDeg, toDeg, atValveLiftM = 0 } = lobe;
  possible('start of the lobe', fromDeg, 'deg', fromDeg < toDeg, 'less than its end');
  const spent =
    (notNegative('lash', lashM, 'm') + notNegative('checking lift', atValveLiftM, 'm')) /
    positive('rocker ratio', rockerRatio, '');
  const above = (deg: number) => finite('lobe lift', lobeLiftM(deg), 'm') > spent;
  const steps = Math.ceil((toDeg - fromDeg) / 0.5);
  const at = (i: number) => fromDeg + ((toDeg - fromDeg) * i) / steps;
  const open = Array.from({ length: steps + 1 }, (_, i) => above(at(i)));
  const [first, last] = [open.indexOf(true), open.lastIndexOf(true)];
  if (first < 0) return null;
  const opensDeg = first === 0 ? fromDeg : crossing(above, at(first - 1), at(first));
  const closesDeg = last === steps ? toDeg : crossing(above, at(last + 1), at(last));
  return { opensDeg, closesDeg, durationDeg: closesDeg - opensDeg };
}

/** Angle between a shut and an open one at which the valve leaves or meets its seat. */
function crossing(above: (deg: number) => boolean, shutDeg: number, openDeg: number): number {
  let [shut, open] = [shutDeg, openDeg];
  for (let i = 0; i < 40; i++) {
    const middle = (shut + open) / 2;
    if (above(middle)) open = middle;
    else shut = middle;
  }
  return (shut + open) / 2;
}

/**
 * Plunger preload [m] of a hydraulic lifter from the turns of an adjuster past zero lash.
 *
 * A screw at the pushrod's end of the rocker moves the pushrod by its own travel. A nut on the stud moves the rocker's pivot
 * by s: with the valve shut the rocker tilts about the valve's tip and the pushrod's end moves s (1 + 1/R).
 * Counting turns on a stud without that factor sets some 1.6 times what was meant.
 * @throws NonPhysicalError  turns below 0, a pitch or ratio of 0
 */
export function preloadFromTurnsM(adjuster: {
  readonly turns: number;
  readonly pitchM: number;
  readonly at: 'stud' | 'pushrod';
  readonly rockerRatio: number;
}): number {
  const travelM =
    notNegative('turns', adjuster.turns, '') * positive('thread pitch', adjuster.pitchM, 'm');
  const ratio = positive('rocker ratio', adjuster.rockerRatio, '');
  return adjuster.at === 'stud' ? travelM * (1 + 1 / ratio) : travelM;
}

/** Plunger preload [m] where nothing adjusts: pushrod fitted less the length that just takes up all lash; below 0 is lash. */
export function preloadFromPushrodM(pushrodM: number, zeroLashLengthM: number): number {
  return (
    positive('pushrod length', pushrodM, 'm') - positive('zero-lash length', zeroLashLengthM, 'm')
  );
}
