import {
  airFlow,
  angle,
  choice,
  date,
  each,
  force,
  fuelVolumeFlow,
  gap,
  gaugePressure,
  massFlow,
  number,
  percent,
  pipe,
  power,
  rpm,
  type SectionSpec,
  size,
  temperature,
  text,
  time,
  torque,
  volume,
  yesNo,
} from './field.ts';

/** What the engine is meant to do, against which its parts are judged. */
export const INTENT: SectionSpec = {
  id: 'intent',
  title: 'What it is for',
  fields: [
    text('purpose', 'In the owner’s words'),
    rpm('highestSpeed', 'Highest speed', {
      help: 'The speed the parts must stand; the limiter or a little above.',
    }),
    rpm('peakPowerSpeed', 'Speed of peak power, intended'),
    rpm('peakTorqueSpeed', 'Speed of peak torque, intended'),
    rpm('lowSpeed', 'Lowest speed at full throttle'),
    power('power', 'Power intended'),
    number('compressionRatio', 'Compression ratio wanted', { low: 1, high: 40 }),
    temperature('hottestInlet', 'Hottest inlet it will see'),
  ],
};

export const INDUCTION: SectionSpec = {
  id: 'induction',
  title: 'Induction',
  fields: [
    choice('kind', 'Kind', ['carburettor', 'throttle body', 'one throttle a cylinder']),
    number('throttles', 'Throttles', { low: 1, high: 64 }),
    pipe('throttleDiameter', 'Throttle bore', { high: 0.5 }),
    pipe('throttleShaft', 'Throttle shaft, across the bore', {
      high: 0.1,
      help: 'What stands in the bore with the plate wide open; 0 where nothing does.',
    }),
    airFlow('ratedFlow', 'Rated flow, all together'),
    {
      id: 'ratedDepression',
      label: 'Rated at a depression of',
      kind: 'quantity',
      dimension: 'pressure',
      shown: 'depression',
      low: 0,
      high: 5e4,
      help: '1.5 inHg for a four-barrel and 3.0 inHg for a two-barrel are common practice, no source.',
    },
    volume('plenumVolume', 'Plenum volume'),
    pipe('runnerLength', 'Runner length, valve to plenum'),
    pipe('runnerDiameter', 'Runner bore, mean', { high: 0.5 }),
    percent('volumetricEfficiency', 'Volumetric efficiency expected', { high: 2 }),
  ],
};

export const FUEL_SYSTEM: SectionSpec = {
  id: 'fuelSystem',
  title: 'Fuel and its system',
  fields: [
    text('fuel', 'Fuel', 'A fuel of the handbook, or the blend below.'),
    choice('blendBy', 'Blend is', ['by volume', 'by mass']),
    number('octane', 'Octane number', { low: 0, high: 200 }),
    choice('octaneIs', 'Octane is', ['RON', '(R+M)/2']),
    number('lambda', 'Lambda at full throttle', { low: 0.4, high: 1.5 }),
    {
      id: 'bsfc',
      label: 'BSFC expected',
      kind: 'quantity',
      dimension: 'specificConsumption',
      shown: 'specificConsumption',
      low: 1e-8,
      high: 1e-6,
    },
    number('injectors', 'Injectors', { low: 0, high: 128 }),
    massFlow('injectorFlow', 'Injector flow, each', { high: 0.1 }),
    fuelVolumeFlow('injectorVolume', 'Injector flow by volume, each', { high: 1e-3 }),
    gaugePressure('injectorRatedPressure', 'Injector rated at'),
    gaugePressure('pressure', 'Fuel pressure across the injector'),
    percent('dutyLimit', 'Duty not beyond'),
    fuelVolumeFlow('pumpFlow', 'Pump flow at that pressure'),
    gaugePressure('reliefPressure', 'Regulator set to'),
  ],
  tables: [
    {
      id: 'blend',
      label: 'Blend',
      columns: [text('fuel', 'Fuel'), percent('share', 'Share')],
    },
    {
      id: 'jets',
      label: 'Jets',
      help: 'By position, as marked on them.',
      columns: [
        text('position', 'Position'),
        text('main', 'Main'),
        text('airBleed', 'Air bleed'),
        text('other', 'Other'),
      ],
    },
  ],
};

export const IGNITION: SectionSpec = {
  id: 'ignition',
  title: 'Ignition',
  fields: [
    text('kind', 'Kind'),
    text('plugs', 'Plugs', 'Heat range and reach, in the shop’s own words.'),
    gap('plugGap', 'Plug gap', { low: 0 }),
    text('firingOrder', 'Firing order'),
    angle('baseTiming', 'Base timing', { low: -40, high: 60 }),
    text('leadSetBy', 'How lead is set and checked', 'With a light, at which speed.'),
  ],
  tables: [
    {
      id: 'advance',
      label: 'Distributor curve',
      columns: [rpm('speed', 'Engine speed'), angle('lead', 'Lead, total', { low: -40, high: 90 })],
    },
  ],
};

export const EXHAUST: SectionSpec = {
  id: 'exhaust',
  title: 'Exhaust',
  fields: [
    pipe('primaryLength', 'Primary length, valve to collector'),
    pipe('primaryDiameter', 'Primary bore', { high: 0.3 }),
    text('steps', 'Steps of the primary'),
    pipe('collectorLength', 'Collector length'),
    pipe('collectorDiameter', 'Collector bore', { high: 0.5 }),
    text('beyond', 'Beyond the collector'),
  ],
};

export const OILING: SectionSpec = {
  id: 'oiling',
  title: 'Oiling',
  fields: [
    text('oil', 'Oil', 'Grade and kind.'),
    text('pump', 'Pump and pan'),
    text('filter', 'Filter'),
    volume('capacity', 'Oil in the engine', { high: 1 }),
    gaugePressure('reliefPressure', 'Relief set to'),
    gaugePressure('hotPressure', 'Pressure, hot'),
    rpm('hotPressureSpeed', 'at a speed of'),
    gaugePressure('idlePressure', 'Pressure at hot idle'),
    gap('pumpClearance', 'Pump end clearance', { low: 0 }),
  ],
};

export const FASTENERS: SectionSpec = {
  id: 'fasteners',
  title: 'Fasteners and torques',
  fields: [],
  tables: [
    {
      id: 'joints',
      label: 'Joints',
      help: 'Thread such as 7/16-20 or M10x1.5; whichever of torque, stretch and angle was used.',
      columns: [
        text('joint', 'Joint'),
        text('thread', 'Thread'),
        text('grade', 'Grade'),
        text('lubricant', 'Lubricant'),
        number('count', 'How many', { low: 1, high: 500 }),
        torque('torque', 'Torque'),
        angle('angle', 'Angle after', { low: 0, high: 720 }),
        gap('stretch', 'Stretch', { low: 0 }),
        size('freeLength', 'Free length'),
        size('grip', 'Clamped length', {
          help: 'From under the head to the first thread that holds; tells the preload of an angle.',
        }),
        text('clamped', 'What it clamps', 'Steel, cast iron or aluminium.'),
        force('separating', 'Force that pulls it apart', { help: 'A bolt, where known.' }),
        yesNo('done', 'Done'),
      ],
    },
  ],
};

export const CONDITION: SectionSpec = {
  id: 'condition',
  title: 'Assembly and condition',
  fields: [
    date('assembled', 'Assembled on'),
    text('assembledBy', 'Assembled by'),
    each('cylinder', percent('leakDown', 'Leak-down')),
    each('cylinder', gaugePressure('crankingPressure', 'Cranking compression')),
    number('crankingThrottle', 'Throttle when cranked, open share', { low: 0, high: 1 }),
    gaugePressure('leakDownPressure', 'Leak-down pressure'),
    temperature('leakDownAt', 'Leak-down, engine at'),
    time('hours', 'Hours since refresh'),
    number('pulls', 'Pulls since refresh', { low: 0, high: 100_000 }),
    time('runIn', 'Run-in done'),
  ],
};
