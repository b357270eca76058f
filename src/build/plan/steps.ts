import type { Ask } from '../compute/ask.ts';
import type { SheetAnswer } from '../compute/types.ts';
import type { WindowRule } from '../compute/windows.ts';
import { windowFor } from './limits.ts';
import type { PlannedCalibration } from './plan.ts';
import { itemsOf, labelsOf, q, say } from './say.ts';
import type { PlanItem } from './types.ts';

/** Of what is not measured, so many are named; the sheet lists all. */
const NAMED = 5;
const pre = itemsOf('preRun', { weight: 'must', beforeFirstStart: true });
const warm = itemsOf('warmUp');
const run = itemsOf('runIn', { weight: 'must' });
const after = itemsOf('afterRunIn', { weight: 'must' });

/** What the sheet itself says, and what every engine asks for before it turns. */
export function preRunItems(
  ask: Ask,
  answer: SheetAnswer,
  calibration: PlannedCalibration | null,
): readonly PlanItem[] {
  const verdicts = answer.checks.flatMap((check) => {
    if (check.verdict !== 'stop' && check.verdict !== 'look again') return [];
    const stop = check.verdict === 'stop';
    const remedy = check.problem ?? check.remedy ?? '';
    return [
      pre(
        `preRun.check.${check.id}`,
        say`${check.label}: the sheet says ${check.verdict}. ${remedy}`,
        {
          weight: stop ? 'must' : 'should',
          source: check.window?.source ?? check.how,
        },
      ),
    ];
  });
  const open = answer.measureNext.slice(0, NAMED).map(({ path }) => path);
  const capacity = ask.numberOrNull('oiling.capacity');
  const joints = ask.rows('fasteners.joints').filter(({ done }) => done !== true);
  return [
    ...verdicts,
    ...(open.length === 0
      ? []
      : [
          pre(
            'preRun.measure',
            say`Measure first, what decides most in front: ${labelsOf(open)}.`,
            { weight: 'should', measure: open },
          ),
        ]),
    ...(joints.length === 0
      ? []
      : [
          pre(
            'preRun.joints',
            say`Not marked done on the sheet: ${joints.map(({ joint }) => String(joint || 'a joint without a name')).join(', ')}.`,
            { source: 'the build sheet' },
          ),
        ]),
    capacity === null
      ? pre(
          'preRun.oil',
          say`Oil is filled to its mark and primed until the gauge shows pressure; put the amount on the sheet.`,
          { measure: ['oiling.capacity'] },
        )
      : pre(
          'preRun.oil',
          say`${q(capacity, 'liquidVolume')} of oil are in, and primed until the gauge shows pressure.`,
        ),
    pre('preRun.water', say`Coolant is filled and bled, and nothing leaks.`),
    pre(
      'preRun.fuel',
      say`The fuel system holds its pressure with the engine still, and nothing leaks.`,
    ),
    pre(
      'preRun.timing',
      say`Top dead centre was found by a stop, the mark agrees, and the first lead is set with a light.`,
    ),
    pre('preRun.throttle', say`The throttle opens fully and comes back by itself.`),
    pre(
      'preRun.sensors',
      say`At rest temperatures agree with the room and pressures read nothing.`,
    ),
    pre(
      'preRun.watch',
      say`Somebody or something watches for knock: ear, plugs or sensor. Where nobody does, every recommendation will say so.`,
      { weight: 'should' },
    ),
    calibration === null
      ? pre(
          'preRun.calibration',
          say`When the cell was last calibrated is not known: find out before a number is believed.`,
          { weight: 'should' },
        )
      : calibration.isDue
        ? pre(
            'preRun.calibration',
            say`The cell's calibration was due on ${calibration.dueIso ?? ''}: calibrate it, or every pull will say that it is past its day.`,
            { weight: 'should', source: 'the cell’s own record' },
          )
        : pre(
            'preRun.calibration',
            calibration.dueIso === null
              ? say`The cell was calibrated on ${calibration.doneOn ?? 'a day that is not known'}, and no day is set on which that falls due.`
              : say`The cell is calibrated until ${calibration.dueIso}.`,
            { weight: 'should', source: 'the cell’s own record' },
          ),
  ];
}

/** No gauge on a cell is read to tenths of a degree. */
const warmth = (temperatureK: number) => q(temperatureK, 'temperature', { decimals: 0 });

/** Temperatures to load and to pull at. */
export function warmUpItems(ask: Ask, rules: readonly WindowRule[]): readonly PlanItem[] {
  const lines = [
    ['warmUp.load', 'loadOil', 'No load before the oil stands'],
    ['warmUp.oil', 'pullOil', 'Pulls begin with the oil'],
    ['warmUp.water', 'pullWater', 'Pulls begin with the water'],
  ] as const;
  return [
    ...lines.map(([id, name, what]) => {
      const window = windowFor(ask, rules, name);
      const more = { window: name, source: window?.source ?? 'not known' };
      if (window === null || (window.low === null && window.high === null))
        return warm(id, say`${what} where the shop wants it: no window is set.`, more);
      const { low, high } = window;
      if (low !== null && high !== null)
        return warm(id, say`${what} between ${warmth(low)} and ${warmth(high)}.`, more);
      return low === null
        ? warm(id, say`${what} below ${warmth(high!)}.`, more)
        : warm(id, say`${what} above ${warmth(low)}.`, more);
    }),
    warm(
      'warmUp.same',
      say`Every pull of a ladder begins within ${q(3, 'temperature', { decimals: 0, isDifference: true })} of the same oil and water.`,
    ),
  ];
}

export function runInItems(ask: Ask): readonly PlanItem[] {
  const done = ask.numberOrNull('condition.runIn');
  if (done !== null && done > 0)
    return [
      run(
        'runIn.done',
        say`Run in already, for ${(done / 60).toFixed(0)} minutes: warm up and go on.`,
        { source: 'the build sheet', weight: 'should' },
      ),
    ];
  const lifter = ask.textOrNull('camshaft.lifter');
  const flat = lifter?.endsWith(' flat') ?? false;
  const first =
    lifter === null
      ? run(
          'runIn.cam',
          say`Say on the sheet which lifters run: flat ones must not idle for their first half hour. Until then run it in as if they were flat, varying between ${q(2000, 'speed')} and ${q(2500, 'speed')} for 20 to 30 minutes.`,
          { measure: ['camshaft.lifter'] },
        )
      : flat
        ? run(
            'runIn.cam',
            say`Flat lifters: straight to ${q(2000, 'speed')} after the start, no idling, varying to ${q(2500, 'speed')} for 20 to 30 minutes, with spring loads the cam's maker allows for it.`,
          )
        : run(
            'runIn.cam',
            say`Start, look for oil pressure and leaks, then vary between ${q(1500, 'speed')} and ${q(2500, 'speed')} without load for 15 to 20 minutes.`,
          );
  return [
    run(
      'runIn.pressure',
      say`No oil pressure within ten seconds of the first start: stop, and find out why.`,
    ),
    first,
    run('runIn.cool', say`Let it cool right down, then look for leaks and at levels.`, {
      weight: 'should',
    }),
    run(
      'runIn.rings',
      say`Seat the rings by load: half throttle up and closed throttle down through the middle speeds, five or six times, then more throttle.`,
    ),
    run('runIn.watch', say`Breather smoke and oil temperature settle before any full throttle.`, {
      weight: 'should',
    }),
  ];
}

export function afterRunInItems(ask: Ask): readonly PlanItem[] {
  const retorque = ask.yesOrNull('deck.retorque');
  const lifter = ask.textOrNull('camshaft.lifter');
  const [intake, exhaust] = [
    ask.numberOrNull('valveTrain.intakeLashHot'),
    ask.numberOrNull('valveTrain.exhaustLashHot'),
  ];
  const lash = lifter?.startsWith('hydraulic')
    ? after(
        'afterRunIn.lash',
        say`Hydraulic lifters: listen for a loose one, and look at preload where one ticks.`,
        { weight: 'should' },
      )
    : intake !== null && exhaust !== null
      ? after(
          'afterRunIn.lash',
          say`Set the lash hot: intake ${q(intake, 'lift')}, exhaust ${q(exhaust, 'lift')}; write down what each had become.`,
          { source: 'the build sheet' },
        )
      : after(
          'afterRunIn.lash',
          say`Set the lash again, hot, where the lifters are solid; the sheet does not say to what.`,
          { measure: ['valveTrain.intakeLashHot', 'valveTrain.exhaustLashHot'] },
        );
  return [
    lash,
    retorque === null
      ? after(
          'afterRunIn.retorque',
          say`Find out whether the head gasket asks for a second torquing, and do it if so.`,
          { measure: ['deck.retorque'], source: 'the gasket’s maker' },
        )
      : retorque
        ? after(
            'afterRunIn.retorque',
            say`Torque the head again, cold, in its order, as the gasket asks.`,
            { source: 'the build sheet' },
          )
        : after(
            'afterRunIn.retorque',
            say`The head gasket asks for no second torquing: leave it.`,
            { weight: 'should', source: 'the build sheet' },
          ),
    after(
      'afterRunIn.filter',
      say`Change the oil, cut the filter open and spread its paper: shining flakes mean stop and find where they are from.`,
    ),
    after(
      'afterRunIn.leakDown',
      say`Leak-down warm on every cylinder, written beside that of the assembly.`,
      { measure: ask.eachOrNull('condition.leakDown') === null ? ['condition.leakDown'] : [] },
    ),
    after(
      'afterRunIn.plugs',
      say`Read every plug; one that differs is looked into before full throttle.`,
      { weight: 'should' },
    ),
  ];
}
