import { type Air, trueAirFactor } from './air.ts';
import { bestTorqueNm, trueTorqueNm } from './engine.ts';
import type { ChannelKey, DayKnobs, LimitTruth } from './knobs.ts';
import { leadAtBest, mixtureLoss } from './mixture.ts';
import { type Profile, profileOf } from './profile.ts';
import { Chance } from './random.ts';

/** What one pull's logger wrote, in inside units, before headers and units are put to it. */
export interface Samples {
  readonly rows: number;
  readonly values: ReadonlyMap<ChannelKey, Float64Array>;
  /** One array an exhaust channel [K]. */
  readonly exhaustK: readonly Float64Array[];
  readonly air: Air;
}

/** Lead at which knock begins at a speed [crank degrees]. */
export function limitAtDeg(limit: LimitTruth, middleRpm: number, speedRpm: number): number {
  return limit.leadDeg + (limit.slopeDegPerKrpm * (speedRpm - middleRpm)) / 1000;
}

/** Expected knock counts a second at a speed and lead; the onset is rounded over about half a degree. */
export function knockRatePerS(
  limit: LimitTruth,
  middleRpm: number,
  speedRpm: number,
  leadDeg: number,
): number {
  const beyond = leadDeg - limitAtDeg(limit, middleRpm, speedRpm);
  const width = 0.15;
  const soft = beyond > 6 * width ? beyond : width * Math.log1p(Math.exp(beyond / width));
  return limit.backgroundPerS + limit.countsPerSPerDeg * soft;
}

/** Air at the pull's place in the day: the drift so far and a little of the hour's own. */
export function airOfPull(knobs: DayKnobs, pull: number): Air {
  const chance = new Chance(knobs.seed, `air ${pull}`);
  return {
    pressureAbsPa: knobs.air.pressureAbsPa + knobs.airDriftPaPerPull * pull + 12 * chance.normal(),
    temperatureK: knobs.air.temperatureK + knobs.airDriftKPerPull * pull + 0.4 * chance.normal(),
    humidity: Math.min(0.98, Math.max(0.02, knobs.air.humidity + 0.01 * chance.normal())),
  };
}

/** Relative error of a pull as a whole: the cell's offset of that pull and the day's drift up to it. */
export function offsetOfPull(knobs: DayKnobs, pull: number): number {
  const offset =
    knobs.offsetsPercent?.[pull] ??
    new Chance(knobs.seed, `offset ${pull}`).normal() * knobs.offsetSdPercent;
  return (offset + knobs.driftPercentPerPull * pull) / 100;
}

/** Lambda that the operator set at a pull. */
export const lambdaOfPull = (knobs: DayKnobs, pull: number): number =>
  knobs.lambdas?.[pull] ?? knobs.lambda;

const RAD_PER_S = (2 * Math.PI) / 60;

/** One pull: hold at part throttle, open, sweep at full throttle, close and fall off. */
export function samplesOfPull(knobs: DayKnobs, pull: number): Samples {
  const { seed, engine, rateHz } = knobs;
  const leadDeg = knobs.leadsDeg[pull]!;
  const stream = (purpose: string) => new Chance(seed, `${purpose} ${pull}`);
  const profile = profileOf(knobs, pull);
  const { mixture } = knobs;
  const lambda = lambdaOfPull(knobs, pull);
  const leadSeenDeg = mixture === null ? leadDeg : leadAtBest(mixture, leadDeg, lambda);
  const mixtureShare = mixture === null ? 1 : Math.exp(-mixtureLoss(mixture, lambda));
  // The air is given, so the fuel goes as 1/lambda.
  const fuelShare = mixture === null ? 1 : mixture.bestLambda / lambda;
  const rows = Math.floor(profile.endS * rateHz);
  const column = () => new Float64Array(rows);
  const time = column();
  const speed = column();
  const torque = column();
  const throttle = column();
  const trueSpeed = column();
  const fuelFlow = column();
  const air = airOfPull(knobs, pull);
  const airFactor = trueAirFactor(air);
  const gain = (1 + knobs.calibrationPercent / 100) * (1 + offsetOfPull(knobs, pull));
  const peakNm = (engine.peakBmepPa * engine.displacementM3) / (4 * Math.PI);

  const sub = Math.max(1, Math.ceil(200 / rateHz));
  const dt = 1 / (rateHz * sub);
  const quick = ornstein(stream('wander'), knobs.wanderPercent / 100, knobs.wanderS, dt);
  const slow = ornstein(
    stream('slow wander'),
    knobs.slowWanderPercent / 100,
    knobs.slowWanderS,
    dt,
  );
  const white = stream('white');
  const spikes = stream('spike');
  const speedNoise = stream('speed noise');
  const lagGain = knobs.sensorLagS > 0 ? 1 - Math.exp(-dt / knobs.sensorLagS) : 1;
  const fillGain = knobs.fillingS > 0 ? 1 - Math.exp(-dt / knobs.fillingS) : 1;
  const blips = knobs.blips
    .filter((blip) => blip.pull === pull)
    .map((blip) => ({ ...blip, centreS: profile.timeAtRpm(blip.atRpm) }));

  let sensed = 0.07 * peakNm;
  let shareNow = 0.24;
  const fresh = Math.sqrt(1 - knobs.whiteKeep ** 2);
  let noise = white.normal();
  for (let i = 0; i < rows; i++) {
    const t = i / rateHz;
    let rpm = knobs.fromRpm;
    for (let k = 1; k <= sub; k++) {
      const at = t - (sub - k) * dt;
      rpm = profile.speedAt(at);
      const alpha =
        ((profile.speedAt(at + dt / 2) - profile.speedAt(at - dt / 2)) / dt) * RAD_PER_S;
      const full = (trueTorqueNm(engine, rpm, leadSeenDeg) * mixtureShare) / airFactor;
      shareNow += (profile.shareAt(at) - shareNow) * fillGain;
      const wander = 1 + quick() + slow();
      let brake = shareNow * full * wander * gain - knobs.inertiaKgM2 * alpha;
      for (const blip of blips) {
        const z = (at - blip.centreS) / (blip.lengthS / 2);
        if (Math.abs(z) < 1) brake -= (full * blip.depthPercent * (1 - z * z)) / 100;
      }
      sensed += lagGain * (brake - sensed);
    }
    time[i] = t;
    trueSpeed[i] = rpm;
    speed[i] = rpm + knobs.speedNoiseRpm * speedNoise.normal();
    noise = knobs.whiteKeep * noise + fresh * white.normal();
    let reading = sensed + (peakNm * knobs.whitePercent * noise) / 100;
    if (spikes.uniform() < knobs.spikeChance) {
      reading += peakNm * spikes.pick([-1, 1]) * spikes.between(0.05, 0.3);
    }
    torque[i] = reading / knobs.brakeRatio;
    throttle[i] = profile.throttleAt(t);
    const bestW = (bestTorqueNm(engine, rpm) / airFactor) * rpm * RAD_PER_S;
    // 0.30 kg/kWh at the best lead; what the lead loses is lost from the same fuel.
    fuelFlow[i] = (bestW * (0.06 + 0.94 * profile.shareAt(t)) * 0.3 * fuelShare) / 3.6e6;
  }
  const others = slowChannels(knobs, pull, leadDeg, air, profile, trueSpeed);
  const values = new Map<ChannelKey, Float64Array>([
    ['time', time],
    ['speed', speed],
    ['torque', torque],
    ['throttle', throttle],
    ['fuelFlow', jitter(fuelFlow, stream('fuel flow'), 0.01)],
    ...others.values,
  ]);
  hold(values, knobs);
  stick(values, knobs, pull, trueSpeed);
  return { rows, values, exhaustK: others.exhaustK, air };
}

/** Everything beside speed and torque. */
function slowChannels(
  knobs: DayKnobs,
  pull: number,
  leadDeg: number,
  air: Air,
  profile: Profile,
  speedRpm: Float64Array,
) {
  const stream = (purpose: string) => new Chance(knobs.seed, `${purpose} ${pull}`);
  const rows = speedRpm.length;
  const noisy = (purpose: string, of: (i: number) => number, sd: number) => {
    const chance = stream(purpose);
    return Float64Array.from({ length: rows }, (_, i) => of(i) + sd * chance.normal());
  };
  const soak = stream('soak');
  const oilK = knobs.oilTemperatureK + 0.5 * pull + 0.6 * soak.normal();
  const waterK = knobs.waterTemperatureK + 0.25 * pull + 0.6 * soak.normal();
  const timeOf = (i: number) => i / knobs.rateHz;
  const openAt = (i: number) => profile.throttleAt(timeOf(i)) === 1;
  const values: [ChannelKey, Float64Array][] = [
    ['lambda', noisy('lambda', () => lambdaOfPull(knobs, pull), 0.006)],
    ['lead', noisy('lead', () => leadDeg, 0.05)],
    [
      'oilPressure',
      noisy('oil pressure', (i) => 1e5 * (1.4 + 5.2 * (speedRpm[i]! / (speedRpm[i]! + 3600))), 7e3),
    ],
    ['oilTemperature', noisy('oil temperature', (i) => oilK + 0.06 * timeOf(i), 0.15)],
    ['waterTemperature', noisy('water temperature', (i) => waterK + 0.02 * timeOf(i), 0.35)],
    ['airTemperature', noisy('inlet temperature', () => air.temperatureK, 0.2)],
    ['barometer', noisy('barometer', () => air.pressureAbsPa, 8)],
    ['humidity', noisy('humidity', () => air.humidity, 0.002)],
    [
      'manifoldPressure',
      noisy(
        'manifold pressure',
        (i) => {
          const share = openAt(i)
            ? 0.99 - 2e-6 * speedRpm[i]!
            : timeOf(i) < profile.openS
              ? 0.72
              : 0.6;
          return air.pressureAbsPa * share;
        },
        200,
      ),
    ],
  ];
  if (knobs.limit?.channel) {
    const { limit } = knobs;
    const chance = stream('knock');
    values.push([
      'knock',
      Float64Array.from({ length: rows }, (_, i) => {
        const perS = openAt(i)
          ? knockRatePerS(limit, knobs.engine.middleRpm, speedRpm[i]!, leadDeg)
          : limit.backgroundPerS;
        return chance.poisson(perS / knobs.rateHz);
      }),
    ]);
  }
  const exhaustK = Array.from({ length: knobs.exhaustChannels }, (_, cylinder) => {
    const chance = stream(`exhaust ${cylinder}`);
    const own = new Chance(knobs.seed, `exhaust cylinder ${cylinder}`).normal() * 9;
    let now = 1055 + own;
    return Float64Array.from({ length: rows }, (_, i) => {
      const leaner = knobs.mixture === null ? 0 : lambdaOfPull(knobs, pull) - 0.87;
      const target = 1060 + own + 0.014 * speedRpm[i]! - 5 * (leadDeg - 30) + 600 * leaner;
      now += (target - now) * (1 - Math.exp(-1 / (knobs.rateHz * 3)));
      return now + 3 * chance.normal();
    });
  });
  return { values, exhaustK };
}

/** Steps of an Ornstein-Uhlenbeck process of a standard deviation and a correlation time, from its own law. */
function ornstein(chance: Chance, sd: number, timeS: number, dt: number): () => number {
  const keep = Math.exp(-dt / timeS);
  const kick = sd * Math.sqrt(1 - keep * keep);
  let state = sd * chance.normal();
  return () => {
    state = keep * state + kick * chance.normal();
    return state;
  };
}

function jitter(values: Float64Array, chance: Chance, relative: number): Float64Array {
  return values.map((value) => value * (1 + relative * chance.normal()));
}

/** A slow logger repeats its last value until the next refresh. */
function hold(values: Map<ChannelKey, Float64Array>, knobs: DayKnobs): void {
  for (const [key, everyS] of Object.entries(knobs.held)) {
    const channel = values.get(key as ChannelKey);
    const every = Math.max(1, Math.round(everyS * knobs.rateHz));
    if (channel === undefined) continue;
    for (let i = 0; i < channel.length; i++) channel[i] = channel[i - (i % every)]!;
  }
}

function stick(
  values: Map<ChannelKey, Float64Array>,
  knobs: DayKnobs,
  pull: number,
  trueSpeedRpm: Float64Array,
): void {
  for (const stuck of knobs.stuck) {
    const channel = values.get(stuck.channel);
    if (stuck.pull !== pull || channel === undefined) continue;
    const from =
      knobs.manner === 'falling'
        ? trueSpeedRpm.findIndex((rpm) => rpm <= stuck.fromRpm)
        : trueSpeedRpm.findIndex((rpm) => rpm >= stuck.fromRpm);
    if (from >= 0) channel.fill(channel[from]!, from);
  }
}
