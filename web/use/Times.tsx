import type { VehicleAnswer } from '../../src/compare/index.ts';
import type { Banded } from '../../src/pull/types.ts';
import { interval, outside, plain, rpm, signed, speed } from '../charts/numbers.ts';
import styles from '../compare/compare.module.css';
import { SideHeads } from '../compare/SideHeads.tsx';
import { letterOf } from '../compare/words.ts';
import ladder from '../ladder/ladder.module.css';
import {
  numberColumn,
  rangeColumn,
  type TableModel,
  tableFrom,
  wordsColumn,
} from '../table/model.ts';
import { TakeHead } from '../table/TakeTable.tsx';
import type { UseViewProps } from './props.ts';
import { goalName, isFor } from './words.ts';

/** Times, speeds, shifts and gearing of each build, with what differs. */
export function Times({
  vehicle,
  gearing,
  units,
  chosen,
}: UseViewProps & { readonly vehicle: VehicleAnswer }) {
  const road = outside('roadSpeed', units);
  const title = `In ${vehicle.vehicle.name}`;
  const [first] = vehicle.builds;
  const rows = first!.figures.flatMap((figure, f) =>
    isFor(figure.id, units) ? [{ figure, f }] : [],
  );
  const of = (kind: 'time' | 'speed') => (value: number) =>
    kind === 'time' ? value : road.of(value);
  const decimals = (kind: 'time' | 'speed') => (kind === 'time' ? 2 : 1);
  return (
    <section aria-labelledby="use-times" className={styles.measures}>
      <TakeHead title={title} table={() => timesTable({ vehicle, gearing, units, chosen })}>
        <h2 id="use-times" className={ladder.sectionTitle}>
          {title}
        </h2>
      </TakeHead>
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: a region that scrolls must be reachable by keyboard */}
      <section className={ladder.tableWrap} tabIndex={0} aria-label="Times and speeds, a table">
        <table className={ladder.table}>
          <thead>
            <tr>
              <th scope="col" data-left="">
                95 % intervals beside
              </th>
              <SideHeads names={vehicle.builds.map(({ name }) => name)} />
              {vehicle.pairs.map(({ b }, at) => (
                <th key={b} scope="col">{`${letterOf(at + 1)} less A`}</th>
              ))}
            </tr>
          </thead>
          <tbody>
            {rows.map(({ figure, f }) => (
              <tr key={figure.id}>
                <th scope="row" data-left="" className={styles.measure}>
                  {figure.name}
                  <small className={styles.unit}>
                    {`, ${figure.kind === 'time' ? 's' : road.symbol}`}
                  </small>
                </th>
                {vehicle.builds.map(({ name, figures }) => (
                  <Value
                    key={name}
                    value={figures[f]!.value}
                    of={of(figure.kind)}
                    decimals={decimals(figure.kind)}
                  />
                ))}
                {vehicle.pairs.map(({ b, differences }) => (
                  <Change
                    key={b}
                    value={differences[f]!.value}
                    kind={figure.kind}
                    of={of(figure.kind)}
                  />
                ))}
              </tr>
            ))}
            {first!.shifts.map((_, gear) => (
              // biome-ignore lint/suspicious/noArrayIndexKey: a shift is its place
              <tr key={gear}>
                <th scope="row" data-left="" className={styles.measure}>
                  {`shift ${gear + 1} to ${gear + 2}, ${first!.shifts[gear]!.best ? 'best' : 'as said'}`}
                  <small className={styles.unit}>, rpm</small>
                </th>
                {vehicle.builds.map(({ name, shifts }) => (
                  <td key={name}>
                    {speed(shifts[gear]!.speedRpm)}
                    <small
                      className={styles.under}
                    >{`drops to ${speed(shifts[gear]!.nextRpm)}${shifts[gear]!.atLimit ? '; as far as it turns' : ''}`}</small>
                  </td>
                ))}
                {vehicle.pairs.map(({ b }) => (
                  <td key={b} />
                ))}
              </tr>
            ))}
            {gearing !== null && (
              <tr>
                <th scope="row" data-left="" className={styles.measure}>
                  best final drive
                  <small>{goalName(chosen.goal)}</small>
                </th>
                {gearing.builds.map(({ name, finalDrive, asGood }) => (
                  <td key={name}>
                    {plain(finalDrive, 2)}
                    <small className={styles.under}>
                      {`${interval(asGood[0], asGood[1], 2)} as good`}
                    </small>
                  </td>
                ))}
                {gearing.pairs.map(({ b, value }) => (
                  <Change
                    key={b}
                    value={value}
                    kind="time"
                    of={(one) => one}
                    under="each its own"
                  />
                ))}
              </tr>
            )}
          </tbody>
        </table>
      </section>
      <p className={ladder.quiet}>
        {`Intervals are the curve’s; what is not known of the vehicle is in none, but is alike for all builds. Torque below ${rpm(Math.round(first!.drawn.run.engine.fromRpm))} was not measured and is held level.`}
      </p>
    </section>
  );
}

interface TimesLine {
  readonly what: string;
  readonly unit: string;
  readonly builds: readonly (Banded | null)[];
  readonly pairs: readonly (Banded | null)[];
}

/** The same as a table that leaves: the unit of each line in a column of its own. */
function timesTable({
  vehicle,
  gearing,
  units,
  chosen,
}: Pick<UseViewProps, 'gearing' | 'units' | 'chosen'> & {
  readonly vehicle: VehicleAnswer;
}): TableModel {
  const road = outside('roadSpeed', units);
  const { builds, pairs } = vehicle;
  const alone = (value: number): Banded => ({ value, low: value, high: value });
  const figures = builds[0]!.figures.flatMap(({ id, name, kind }, f): TimesLine[] => {
    if (!isFor(id, units)) return [];
    const shown = (one: Banded | null) =>
      one === null || kind === 'time'
        ? one
        : { value: road.of(one.value), low: road.of(one.low), high: road.of(one.high) };
    return [
      {
        what: name,
        unit: kind === 'time' ? 's' : road.symbol,
        builds: builds.map((build) => shown(build.figures[f]!.value)),
        pairs: pairs.map(({ differences }) => shown(differences[f]!.value)),
      },
    ];
  });
  const shifts = builds[0]!.shifts.flatMap(({ best }, gear): TimesLine[] => {
    const name = `shift ${gear + 1} to ${gear + 2}, ${best ? 'best' : 'as said'}`;
    const line = (
      what: string,
      of: (shift: (typeof builds)[number]['shifts'][number]) => number,
    ) => ({
      what,
      unit: 'rpm',
      builds: builds.map((build) => alone(of(build.shifts[gear]!))),
      pairs: [],
    });
    return [
      line(name, ({ speedRpm }) => speedRpm),
      line(`${name}: drops to`, ({ nextRpm }) => nextRpm),
    ];
  });
  const drive: TimesLine[] =
    gearing === null
      ? []
      : [
          {
            what: `best final drive, ${goalName(chosen.goal)}`,
            unit: '1',
            builds: gearing.builds.map(({ finalDrive, asGood: [low, high] }) => ({
              value: finalDrive,
              low,
              high,
            })),
            pairs: [],
          },
          {
            what: `${goalName(chosen.goal)}, each with its own final drive`,
            unit: 's',
            builds: [],
            pairs: gearing.pairs.map(({ value }) => value),
          },
        ];
  const column = (name: string, of: (line: TimesLine) => Banded | null | undefined) => [
    numberColumn<TimesLine>(name, null, (line) => of(line)?.value),
    rangeColumn<TimesLine>(`${name}, 95 %`, null, of),
  ];
  return tableFrom(
    [...figures, ...shifts, ...drive],
    [
      wordsColumn('What', ({ what }) => what),
      wordsColumn('Unit', ({ unit }) => unit),
      ...builds.flatMap(({ name }, at) => column(name, (line) => line.builds[at])),
      ...pairs.flatMap((_, at) => column(`${letterOf(at + 1)} less A`, (line) => line.pairs[at])),
    ],
  );
}

function Value({
  value,
  of,
  decimals,
}: {
  readonly value: Banded | null;
  readonly of: (value: number) => number;
  readonly decimals: number;
}) {
  if (value === null)
    return (
      <td>
        <small>not reached</small>
      </td>
    );
  return (
    <td>
      {plain(of(value.value), decimals)}
      <small className={styles.under}>{interval(of(value.low), of(value.high), decimals)}</small>
    </td>
  );
}

function Change({
  value,
  kind,
  of,
  under,
}: {
  readonly value: Banded | null;
  readonly kind: 'time' | 'speed';
  readonly of: (value: number) => number;
  readonly under?: string;
}) {
  if (value === null)
    return (
      <td>
        <small>not known</small>
      </td>
    );
  const told = value.low > 0 || value.high < 0;
  const better = kind === 'time' ? value.value < 0 : value.value > 0;
  const decimals = kind === 'time' ? 2 : 1;
  const text = interval(of(value.low), of(value.high), decimals);
  // A difference that the digits shown do not have is neither gain nor loss to anybody.
  const isTooSmall = told && Number(of(value.value).toFixed(decimals)) === 0;
  const way = told && !isTooSmall ? { 'data-way': better ? 'gain' : 'loss' } : {};
  return (
    <td data-told={told && !isTooSmall} {...way}>
      <b>{signed(of(value.value), decimals)}</b>
      <small className={styles.under}>
        {[isTooSmall ? 'too small to show' : told ? text : `${text}, chance`, under]
          .filter(Boolean)
          .join(', ')}
      </small>
    </td>
  );
}
