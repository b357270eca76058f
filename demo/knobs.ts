import type { Air } from './air.ts';
import { bestLeadOverBandDeg, type EngineTruth } from './engine.ts';
import type { MixtureTruth } from './mixture.ts';
import { Chance } from './random.ts';
import { SHAPES } from './response.ts';

/** Where knock truly begins and how the channel counts beyond it. */
export interface LimitTruth {
  /** At the middle of the band [crank degrees]. */
  readonly leadDeg: number;
  /** Change of the limit with speed; above zero the low end of the sweep knocks first. */
  readonly slopeDegPerKrpm: number;
  readonly countsPerSPerDeg: number;
  readonly backgroundPerS: number;
  readonly channel: boolean;
}

export interface Blip {
  readonly pull: number;
  readonly atRpm: number;
  readonly depthPercent: number;
  readonly lengthS: number;
}

/** A channel that stops moving from a speed of the sweep on. */
interface Stuck {
  readonly pull: number;
  readonly channel: ChannelKey;
  readonly fromRpm: number;
}

export type ChannelKey =
  | 'time'
  | 'speed'
  | 'torque'
  | 'lambda'
  | 'lead'
  | 'throttle'
  | 'oilPressure'
  | 'oilTemperature'
  | 'waterTemperature'
  | 'airTemperature'
  | 'barometer'
  | 'humidity'
  | 'manifoldPressure'
  | 'fuelFlow'
  | 'exhaustTemperature'
  | 'knock';

/** Everything that can be turned on the simulated engine and cell. What is not given is drawn from the seed. */
export interface DayKnobs {
  readonly seed: number;
  readonly engine: EngineTruth;
  readonly limit: LimitTruth | null;
  /** Leads in the order in which the pulls are made. */
  readonly leadsDeg: readonly number[];
  readonly bandRpm: readonly [number, number];
  /** The sweep of each pull. */
  readonly fromRpm: number;
  readonly toRpm: number;
  readonly sweepRpmPerS: number;
  /** A sweep up, a sweep down, or speeds held some seconds each. */
  readonly manner: 'rising' | 'falling' | 'held steps';

  /** Pull-to-pull standard deviation of torque [%]. */
  readonly offsetSdPercent: number;
  /** Exact offsets of the day's pulls [%] in place of drawn ones; null: drawn. */
  readonly offsetsPercent: readonly number[] | null;
  /** Heat soak: torque lost or won with each pull of the day [%]. */
  readonly driftPercentPerPull: number;
  /** Coloured wander inside a pull: a quick part that residuals show, and a slow one that they hide. */
  readonly wanderPercent: number;
  readonly wanderS: number;
  readonly slowWanderPercent: number;
  readonly slowWanderS: number;
  /** Noise of one torque sample [% of the engine's peak torque], and its correlation with the sample before. */
  readonly whitePercent: number;
  readonly whiteKeep: number;
  readonly speedNoiseRpm: number;
  /** Chance that one torque sample is a spike. */
  readonly spikeChance: number;
  readonly blips: readonly Blip[];
  readonly stuck: readonly Stuck[];

  readonly inertiaKgM2: number;
  readonly sensorLagS: number;
  /** Time in which the charge follows the throttle (manifold filling); not to be taken for sensor lag. */
  readonly fillingS: number;
  /** Brake turns per crank turn: the torque column then holds what the brake felt; speed stays the crank's. */
  readonly brakeRatio: number;
  /** The day's true calibration error of the torque sensor [%], and the sd it is drawn with. */
  readonly calibrationSdPercent: number;
  readonly calibrationPercent: number;

  readonly air: Air;
  readonly airDriftPaPerPull: number;
  readonly airDriftKPerPull: number;
  readonly oilTemperatureK: number;
  readonly waterTemperatureK: number;
  readonly lambda: number;
  /** Lambda of each pull where the day varies it; null: `lambda` in all. */
  readonly lambdas: readonly number[] | null;
  /** How torque answers lambda; null: it does not, and every pull is made at the best. */
  readonly mixture: MixtureTruth | null;

  readonly rateHz: number;
  /** Channels that the logger refreshes only every so many seconds. */
  readonly held: Readonly<Partial<Record<ChannelKey, number>>>;
  readonly exhaustChannels: number;
}

type EngineKnobs = Partial<EngineTruth>;
export type DayOptions = { readonly seed: number } & Partial<Omit<DayKnobs, 'engine' | 'limit'>> & {
    readonly engine?: EngineKnobs;
    readonly limit?: Partial<LimitTruth> | null;
  };

/**
 * Full knobs from what was asked; each one not given comes from its own stream of the seed, so that giving
 * one leaves the rest alone. By default: 6 rungs of 2 degrees from well below the best, no repeat, no drift,
 * no limit (give `limit: {}` for one that lies near the best).
 */
export function knobsOf(options: DayOptions): DayKnobs {
  const { seed } = options;
  const draw = (purpose: string) => new Chance(seed, purpose);
  const fromRpm = options.fromRpm ?? 250 * Math.round(draw('from').between(2300, 3300) / 250);
  const toRpm = options.toRpm ?? fromRpm + 250 * Math.round(draw('to').between(3300, 5200) / 250);
  const bandRpm = options.bandRpm ?? [
    100 * Math.round((fromRpm + 0.45 * (toRpm - fromRpm)) / 100),
    100 * Math.round((fromRpm + 0.95 * (toRpm - fromRpm)) / 100),
  ];
  const engine = engineOf(seed, options.engine ?? {}, fromRpm, toRpm, bandRpm);
  const best = bestLeadOverBandDeg(engine, bandRpm);
  const firstDeg = 2 * Math.round((best - draw('first rung').between(6, 10)) / 2);
  const peakTorqueNm = (engine.peakBmepPa * engine.displacementM3) / (4 * Math.PI);
  const calibrationSdPercent = options.calibrationSdPercent ?? 0.5;
  return {
    seed,
    engine,
    limit: limitOf(seed, options.limit ?? null, best),
    leadsDeg: options.leadsDeg ?? [0, 2, 4, 6, 8, 10].map((step) => firstDeg + step),
    bandRpm,
    fromRpm,
    toRpm,
    sweepRpmPerS: options.sweepRpmPerS ?? draw('sweep').logBetween(250, 600),
    manner: options.manner ?? 'rising',
    offsetSdPercent: options.offsetSdPercent ?? Math.exp(draw('offset sd').normal() * 0.48) * 0.4,
    offsetsPercent: options.offsetsPercent ?? null,
    driftPercentPerPull: options.driftPercentPerPull ?? 0,
    wanderPercent: options.wanderPercent ?? draw('wander').between(0.2, 0.5),
    wanderS: options.wanderS ?? draw('wander time').between(0.2, 0.8),
    slowWanderPercent: options.slowWanderPercent ?? draw('slow wander').between(0.05, 0.25),
    slowWanderS: options.slowWanderS ?? draw('slow wander time').between(2, 6),
    whitePercent: options.whitePercent ?? draw('white').between(0.4, 1.4),
    whiteKeep: options.whiteKeep ?? draw('white keep').between(0, 0.65),
    speedNoiseRpm: options.speedNoiseRpm ?? draw('speed noise').between(2, 7),
    spikeChance: options.spikeChance ?? draw('spikes').between(0, 0.004),
    blips: options.blips ?? [],
    stuck: options.stuck ?? [],
    inertiaKgM2: options.inertiaKgM2 ?? (peakTorqueNm / 800) * draw('inertia').between(0.6, 1.3),
    sensorLagS: options.sensorLagS ?? draw('lag').between(0.02, 0.12),
    fillingS: options.fillingS ?? draw('filling').between(0, 0.05),
    brakeRatio: options.brakeRatio ?? 1,
    calibrationSdPercent,
    calibrationPercent:
      options.calibrationPercent ?? calibrationSdPercent * draw('calibration').normal(),
    air: options.air ?? {
      pressureAbsPa: draw('barometer').between(96500, 102500),
      temperatureK: 273.15 + draw('inlet').between(8, 34),
      humidity: draw('humidity').between(0.2, 0.85),
    },
    airDriftPaPerPull: options.airDriftPaPerPull ?? draw('barometer drift').between(-25, 25),
    airDriftKPerPull: options.airDriftKPerPull ?? draw('inlet drift').between(-0.3, 0.7),
    oilTemperatureK: options.oilTemperatureK ?? 273.15 + draw('oil').between(82, 102),
    waterTemperatureK: options.waterTemperatureK ?? 273.15 + draw('water').between(74, 88),
    lambda: options.lambda ?? 0.87,
    lambdas: options.lambdas ?? null,
    mixture: options.mixture ?? null,
    rateHz: options.rateHz ?? draw('rate').pick([20, 50, 50, 100]),
    held: options.held ?? { airTemperature: 0.5, barometer: 1, humidity: 2 },
    exhaustChannels: options.exhaustChannels ?? 1,
  };
}

function engineOf(
  seed: number,
  given: EngineKnobs,
  fromRpm: number,
  toRpm: number,
  bandRpm: readonly [number, number],
): EngineTruth {
  const draw = (purpose: string) => new Chance(seed, `engine ${purpose}`);
  const cylinders = given.cylinders ?? draw('cylinders').pick([1, 2, 4, 4, 6, 6, 8, 8]);
  const peakTorqueRpm =
    given.peakTorqueRpm ?? fromRpm + (toRpm - fromRpm) * draw('peak').between(0.3, 0.6);
  const humps = draw('humps');
  const span = toRpm - fromRpm;
  return {
    cylinders,
    displacementM3:
      given.displacementM3 ?? cylinders * 1e-6 * draw('displacement').between(330, 740),
    strokeM: given.strokeM ?? draw('stroke').between(0.072, 0.096),
    compressionRatio: given.compressionRatio ?? draw('compression').between(9, 12),
    peakBmepPa: given.peakBmepPa ?? draw('bmep').between(10e5, 13.5e5),
    peakTorqueRpm,
    fall: given.fall ?? draw('fall').between(0.5, 1.1),
    fallTilt: given.fallTilt ?? draw('fall tilt').between(-0.3, 0.9),
    humps:
      given.humps ??
      [0, 1, 2].map(() => ({
        height: humps.between(-0.025, 0.025),
        atRpm: humps.between(fromRpm, toRpm),
        widthRpm: span * humps.between(0.06, 0.16),
      })),
    curvature: given.curvature ?? draw('curvature').logBetween(2e-4, 1.5e-3),
    curvatureTiltPerKrpm: given.curvatureTiltPerKrpm ?? draw('curvature tilt').between(-0.06, 0.06),
    shape: given.shape ?? draw('shape').pick(SHAPES),
    lean: given.lean ?? draw('lean').pick([-1, 1]) * draw('how lean').between(0.02, 0.05),
    middleRpm: given.middleRpm ?? (bandRpm[0] + bandRpm[1]) / 2,
    bestLeadDeg: given.bestLeadDeg ?? draw('best').between(26, 36),
    bestLeadSlopeDegPerKrpm: given.bestLeadSlopeDegPerKrpm ?? draw('best slope').between(0.3, 1.9),
    bestLeadBendDegPerKrpm2:
      given.bestLeadBendDegPerKrpm2 ?? draw('best bend').between(-0.15, 0.05),
  };
}

function limitOf(
  seed: number,
  given: Partial<LimitTruth> | null,
  bestDeg: number,
): LimitTruth | null {
  if (given === null) return null;
  const draw = (purpose: string) => new Chance(seed, `limit ${purpose}`);
  return {
    leadDeg: given.leadDeg ?? bestDeg + draw('lead').between(-3.5, 2.5),
    slopeDegPerKrpm: given.slopeDegPerKrpm ?? draw('slope').between(0.2, 1.2),
    countsPerSPerDeg: given.countsPerSPerDeg ?? draw('counts').between(6, 14),
    backgroundPerS: given.backgroundPerS ?? draw('background').between(0.3, 2.5),
    channel: given.channel ?? true,
  };
}
