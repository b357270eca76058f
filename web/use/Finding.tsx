import { ROAD_CAUTION } from '../../src/compare/index.ts';
import { inUnitsOf } from '../../src/units/sentences.ts';
import {
  chance,
  interval,
  kept,
  outside,
  percent,
  plain,
  signed,
  signedPercent,
  speed,
  withUnit,
} from '../charts/numbers.ts';
import compare from '../compare/compare.module.css';
import ladder from '../ladder/ladder.module.css';
import type { UseViewProps } from './props.ts';
import styles from './use.module.css';
import { differenceOf, goalName, headline, withoutCaution } from './words.ts';

/** The finding first: one line for the room, what it means, and the figures it stands on. */
export function Finding(props: UseViewProps) {
  const { answer, vehicle, trouble, units, settling } = props;
  const said = vehicle?.finding ?? answer?.pairs[0]?.finding ?? '';
  return (
    <header className={ladder.answer} data-settling={settling}>
      <div className={ladder.said}>
        <h1 className={ladder.headline} aria-live="polite">
          {kept(headline(props))}
        </h1>
        {said !== '' && (
          <p className={ladder.summary}>{kept(inUnitsOf(withoutCaution(said), units))}</p>
        )}
        {vehicle !== null && <p className={styles.caution}>{ROAD_CAUTION}</p>}
        {trouble !== null && <p role="alert">{inUnitsOf(trouble, units)}</p>}
      </div>
      <dl className={`${ladder.questions} ${compare.questions}`}>
        <Power {...props} />
        <Quicker {...props} />
        <Even {...props} />
      </dl>
    </header>
  );
}

function Power({ answer, units }: UseViewProps) {
  const [pair] = answer?.pairs ?? [];
  const power = outside('power', units);
  const mean = answer?.builds[0]?.meanPowerW;
  return (
    <div className={ladder.question}>
      <dt>{answer === null ? 'Mean power in the use' : `Mean power, ${answer.use.name}`}</dt>
      <dd>
        {pair !== undefined ? (
          <>
            <span
              className={ladder.figure}
              data-unknown={pair.word === 'cannot be told from chance'}
            >
              {signedPercent(pair.gainPercent.value)}
            </span>
            <span className={ladder.aside}>
              <b>{pair.word}</b>
              {`, ${withUnit(interval(pair.gainPercent.low, pair.gainPercent.high), '%')}; chance that ${pair.b} is ahead ${chance(pair.chanceAhead)}`}
            </span>
          </>
        ) : mean !== undefined ? (
          <>
            <span className={ladder.figure}>
              {withUnit(plain(power.of(mean.value), 0), power.symbol)}
            </span>
            <span className={ladder.aside}>
              {interval(power.of(mean.low), power.of(mean.high), 0)}
            </span>
          </>
        ) : (
          <Unknown>the use lies outside what was measured</Unknown>
        )}
      </dd>
    </div>
  );
}

function Quicker({ vehicle, units, chosen }: UseViewProps) {
  const road = outside('roadSpeed', units);
  if (vehicle === null)
    return (
      <div className={ladder.question}>
        <dt>In a vehicle</dt>
        <dd>
          <Unknown>no vehicle is chosen</Unknown>
        </dd>
      </div>
    );
  const figures = (id: string) =>
    vehicle.builds.map((build) => build.figures.find((one) => one.id === id)!.value);
  const [pair] = vehicle.pairs;
  const over = pair === undefined ? undefined : differenceOf(pair, chosen.goal);
  const trap = pair === undefined ? undefined : differenceOf(pair, 'quarterMileTrap');
  const [own] = figures(chosen.goal);
  const [ownTrap] = figures('quarterMileTrap');
  return (
    <div className={ladder.question}>
      <dt>{`${goalName(chosen.goal)}, ${vehicle.vehicle.name}`}</dt>
      <dd className={ladder.leaves}>
        <div>
          <span
            className={`${ladder.figure} ${compare.place}`}
            data-unknown={over?.value != null && !told(over.value)}
          >
            {over?.value != null
              ? withUnit(signed(over.value.value, 2), 's')
              : withUnit(plain(own?.value, 2), 's')}
          </span>
          <span className={ladder.aside}>
            {over?.value != null
              ? `${interval(over.value.low, over.value.high, 2)}; quicker ${chance(over.chanceBetter)}`
              : own == null
                ? 'not reached within a kilometre'
                : interval(own.low, own.high, 2)}
          </span>
        </div>
        <div>
          <span
            className={`${ladder.figure} ${compare.place}`}
            data-unknown={trap?.value != null && !told(trap.value)}
          >
            {trap?.value != null
              ? withUnit(signed(road.of(trap.value.value)), road.symbol)
              : withUnit(plain(ownTrap == null ? null : road.of(ownTrap.value)), road.symbol)}
          </span>
          <span className={ladder.aside}>trap speed, 1/4 mile</span>
        </div>
      </dd>
    </div>
  );
}

function Even({ answer, gearing, vehicle }: UseViewProps) {
  const [pair] = answer?.pairs ?? [];
  const sensitivity = pair?.sensitivity ?? null;
  if (pair === undefined || sensitivity === null) {
    const best = gearing?.builds[0];
    return (
      <div className={ladder.question}>
        <dt>Best final drive</dt>
        <dd>
          {best === undefined || vehicle === null ? (
            <Unknown>{answer === null ? 'no answer yet' : 'one build alone has no rival'}</Unknown>
          ) : (
            <>
              <span className={ladder.figure}>{plain(best.finalDrive, 2)}</span>
              <span
                className={ladder.aside}
              >{`${withUnit(plain(best.timeS, 2), 's')}; ${interval(best.asGood[0], best.asGood[1], 2)} as good`}</span>
            </>
          )}
        </dd>
      </div>
    );
  }
  const { aboveRpm, shareNow, evenShare } = sensitivity;
  const above = `above ${speed(50 * Math.round(aboveRpm / 50))} rpm`;
  return (
    <div className={ladder.question}>
      <dt>{`Even with so much of the time ${above}`}</dt>
      <dd>
        {evenShare === null ? (
          <>
            <span className={`${ladder.figure} ${compare.place}`} data-unknown="true">
              never
            </span>
            <span className={ladder.aside}>one side leads whatever the share</span>
          </>
        ) : (
          <>
            <span className={ladder.figure}>{percent(100 * evenShare.value, 0)}</span>
            <span className={ladder.aside}>
              {`${withUnit(interval(100 * evenShare.low, 100 * evenShare.high, 0), '%')}; this use ${percent(100 * shareNow, 0)}`}
            </span>
          </>
        )}
      </dd>
    </div>
  );
}

const told = ({ low, high }: { readonly low: number; readonly high: number }) =>
  low > 0 || high < 0;

function Unknown({ children }: { readonly children: string }) {
  return (
    <>
      <span className={`${ladder.figure} ${compare.place}`} data-unknown="true">
        –
      </span>
      <span className={ladder.aside}>{children}</span>
    </>
  );
}
