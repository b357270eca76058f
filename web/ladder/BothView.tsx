import { useState } from 'react';
import { placeText, type TwoAnswer, type TwoInput } from '../../src/ladder/two/index.ts';
import type { UnitSystem } from '../../src/units/types.ts';
import { ChartFrame } from '../charts/ChartFrame.tsx';
import {
  estimate,
  interval,
  kept,
  outside,
  percent,
  plain,
  setting,
  signed,
} from '../charts/numbers.ts';
import { PlaneMap } from '../charts/PlaneMap.tsx';
import { planeTable } from '../charts/plane-words.ts';
import type { Point } from '../charts/Surface.tsx';
import { SafetyLine } from '../shell/safety.tsx';
import {
  type ColumnOf,
  numberColumn,
  quantityColumn,
  rangeColumn,
  type TableModel,
  tableFrom,
  wordsColumn,
} from '../table/model.ts';
import { TakeTable } from '../table/TakeTable.tsx';
import { Warnings } from './Answer.tsx';
import below from './below.module.css';
import both from './both.module.css';
import styles from './ladder.module.css';
import type { LadderTitle } from './props.ts';
import { bandInWords } from './words.ts';

export interface BothViewProps {
  readonly input: Pick<TwoInput, 'bandRpm' | 'aspiration'>;
  readonly answer: TwoAnswer;
  /** The load that was held, in words; null: nobody held one, all is full throttle. */
  readonly load?: string | null;
  readonly title: LadderTitle;
  readonly units: UnitSystem;
  /** Air to fuel by mass at lambda 1 of the fuel burnt, and its name; null: a fuel that is not known. */
  readonly fuel: { readonly name: string; readonly stoichiometricAfr: number } | null;
  /** The use to speak about first. */
  readonly use: string | null;
  /** What a pull is called. */
  readonly nameOf: (id: string) => string;
  /** Where the table of a use is fetched as CSV. */
  readonly csvOf: (use: string) => string;
}

/** Lead and lambda at once: the answer, the plane with its ridge and pulls, what to leave, and the table by speed. */
export function BothView(props: BothViewProps) {
  const { input, answer, title, fuel, load = null } = props;
  const [chosen, setChosen] = useState<string | null>(null);
  const use = [chosen, props.use, answer.uses[0]?.name].find((name) =>
    answer.uses.some((one) => one.name === name),
  );
  const left = answer.uses.find((one) => one.name === use) ?? null;
  const [cursor, setCursor] = useState<Point | null>(null);
  const afr = (lambda: number | null) =>
    fuel === null || lambda === null
      ? ''
      : `air to ${fuel.name} ${plain(lambda * fuel.stoichiometricAfr, 1)}`;
  return (
    <article className={styles.page}>
      <header className={styles.answer}>
        <div className={styles.said} data-warned={answer.warnings.length > 0}>
          <h1 className={styles.headline} aria-live="polite">
            {answer.headline}
          </h1>
          <p className={styles.summary}>{kept(answer.summary)}</p>
          <Warnings warnings={answer.warnings} />
        </div>
        <Questions {...{ answer, afr }} use={use ?? null} />
      </header>
      <div className={both.work}>
        <ChartFrame
          title="Mean power given up, by lead and lambda"
          subtitle="Dashed: the best lead for each mixture. Dots: pulls. Ring: the next. Grey: not known from these pulls."
          scenario={`${title.scenario}, ${title.standard}, ${load === null ? '' : `${load}, `}judged ${bandInWords(input.bandRpm)}`}
          table={() => planeTable(answer)}
          className={both.canvas!}
        >
          {(box) => (
            <PlaneMap
              {...box}
              answer={answer}
              left={
                left === null || left.leadDeg === null || left.lambda === null
                  ? null
                  : { name: left.name, leadDeg: left.leadDeg, lambda: left.lambda }
              }
              cursor={cursor}
              onCursor={setCursor}
            />
          )}
        </ChartFrame>
        <div className={styles.side}>
          <Next answer={answer} />
          <section aria-labelledby="both-leave" className={below.leaveIn}>
            <h2 id="both-leave" className={styles.sectionTitle}>
              What would we leave in it
            </h2>
            <fieldset className={below.uses}>
              <legend className={styles.hidden}>Use of the engine</legend>
              {answer.uses.map(({ name, leadDeg, lambda, why }) => (
                <label key={name} className={below.use} data-chosen={name === use}>
                  <input
                    type="radio"
                    name="both-use"
                    checked={name === use}
                    onChange={() => setChosen(name)}
                  />
                  <span className={below.useName}>{name}</span>
                  <span className={below.useValue} data-unknown={leadDeg === null}>
                    {leadDeg === null || lambda === null
                      ? input.aspiration === 'natural'
                        ? 'not known yet'
                        : 'no rule'
                      : `${setting(leadDeg, 'deg')}, ${plain(lambda, 2)}`}
                  </span>
                  <span className={below.useWhy}>{kept(why)}</span>
                </label>
              ))}
            </fieldset>
          </section>
        </div>
      </div>
      <SpeedTable {...{ answer, fuel, load }} use={use ?? null} csvOf={props.csvOf} />
      <PullsMade {...{ answer, afr }} units={props.units} nameOf={props.nameOf} />
    </article>
  );
}

function Questions({
  answer,
  afr,
  use,
}: {
  readonly answer: TwoAnswer;
  readonly afr: (lambda: number | null) => string;
  readonly use: string | null;
}) {
  const { bestLeadDeg: lead, bestLambda: lambda, next } = answer;
  return (
    <dl className={styles.questions}>
      <div className={styles.question}>
        <dt>Where is the best of both</dt>
        <dd className={styles.leaves}>
          <div>
            <span className={styles.figure} data-unknown={lead.value === null}>
              {lead.value === null ? 'not known' : estimate(lead.value, 'deg')}
            </span>
            <span className={styles.aside}>
              <b>lead</b>
              {` ${interval(lead.low, lead.high)}`}
            </span>
          </div>
          <div>
            <span className={styles.figure} data-unknown={lambda.value === null}>
              {lambda.value === null ? 'not known' : plain(lambda.value, 3)}
            </span>
            <span className={styles.aside}>
              <b>lambda</b>
              {` ${interval(lambda.low, lambda.high, 3)}${lambda.value === null || afr(lambda.value) === '' ? '' : `; ${afr(lambda.value)}`}`}
            </span>
          </div>
        </dd>
      </div>
      <div className={styles.question}>
        <dt>Which pull is worth most</dt>
        <dd>
          <span className={styles.figure} data-words="">
            {moveText(answer)}
          </span>
          <span className={styles.aside}>
            {next.worthPercent === null
              ? 'what it brings cannot be said yet'
              : next.action === 'stop'
                ? `the best of them would bring about ${percent(next.worthPercent, 2)}`
                : `worth about ${percent(next.worthPercent, 2)} of what is left in the engine`}
          </span>
        </dd>
      </div>
      <div className={styles.question}>
        <dt>What to leave in it</dt>
        <dd className={styles.leaves}>
          {answer.uses.map((one) => (
            <div key={one.name} className={styles.leave} data-chosen={one.name === use}>
              <span className={styles.figure} data-unknown={one.leadDeg === null}>
                {one.leadDeg === null || one.lambda === null
                  ? 'not known yet'
                  : `${setting(one.leadDeg, 'deg')}, ${plain(one.lambda, 2)}`}
              </span>
              <span className={styles.aside}>
                <b>{one.name}</b>
                {one.givesUpPercent === null ? '' : ` gives up ${percent(one.givesUpPercent)}`}
              </span>
            </div>
          ))}
        </dd>
      </div>
    </dl>
  );
}

function moveText({ next }: TwoAnswer): string {
  if (next.action === 'stop') return 'None. Stop.';
  if (next.at === null) return 'Begin rich';
  const word = { pull: 'Pull', repeat: 'Repeat', back: 'Back to' }[next.action];
  return `${word} ${setting(next.at.leadDeg, 'deg')}, ${plain(next.at.lambda, 2)}`;
}

/** What to do next and why; with the usual cautions wherever that is a pull. */
function Next({
  answer: { next, limitWatched, bestLambda, ridgeDegPerTenth: ridge },
}: {
  readonly answer: TwoAnswer;
}) {
  const isPull = next.action !== 'stop';
  return (
    <section aria-labelledby="both-next" className={styles.next}>
      <h2 id="both-next" className={styles.sectionTitle}>
        {next.at === null ? 'Next: stop here' : `Next: ${placeText(next.at)}`}
      </h2>
      <p>{kept(next.why)}</p>
      <p className={styles.quiet}>
        {bestLambda.value !== null &&
          `With each 0.1 of lambda leaner the best lead moves by ${signed(ridge.value)}° (${signed(ridge.low)} to ${signed(ridge.high)}).`}
        {isPull && !limitWatched
          ? ' Listen, read the plugs or record knock, and note it with the pull.'
          : ''}
      </p>
      {isPull && <SafetyLine />}
    </section>
  );
}

/** Lead and lambda by speed for one use, as a controller’s table wants them. */
function SpeedTable({
  answer,
  use,
  fuel,
  load,
  csvOf,
}: Pick<BothViewProps, 'answer' | 'fuel' | 'csvOf'> & {
  readonly use: string | null;
  readonly load: string | null;
}) {
  const table = answer.tables.find((one) => one.use === use);
  if (table === undefined) return null;
  return (
    <section className="panel" aria-labelledby="both-table">
      <header>
        <h2 id="both-table">{`Lead and lambda by speed${load === null ? '' : ` at ${load}`}, for ${table.use}`}</h2>
        {table.rows !== null && (
          <span className={both.acts}>
            <a className={both.save} href={csvOf(table.use)} download="lead-and-lambda.csv">
              {load === null ? 'For a controller (CSV)' : 'For a controller (CSV), all loads'}
            </a>
            <TakeTable
              title="Lead and lambda by speed"
              table={() => speedTable(table.rows!, fuel)}
            />
          </span>
        )}
      </header>
      <p className={styles.quietText}>{kept(table.why)}</p>
      {table.rows !== null && (
        // biome-ignore lint/a11y/noNoninteractiveTabindex: a region that scrolls must be reachable by keyboard
        <section className={both.scroll} tabIndex={0} aria-label="Lead and lambda by speed">
          <table className="sheet">
            <thead>
              <tr>
                <th scope="col">Engine speed, rpm</th>
                <th scope="col">Spark lead, °</th>
                <th scope="col">Lambda</th>
                {fuel !== null && <th scope="col">{`Air to ${fuel.name}`}</th>}
                <th scope="col">Best lead, from – to</th>
                <th scope="col">Best lambda, from – to</th>
              </tr>
            </thead>
            <tbody>
              {table.rows.map((row) => (
                <tr key={row.speedRpm}>
                  <th scope="row">{row.speedRpm}</th>
                  <td>{plain(row.leadDeg, 1)}</td>
                  <td>{plain(row.lambda, 3)}</td>
                  {fuel !== null && <td>{plain(row.lambda * fuel.stoichiometricAfr, 2)}</td>}
                  <td>{interval(row.bestLeadDeg.low, row.bestLeadDeg.high)}</td>
                  <td>{interval(row.bestLambda.low, row.bestLambda.high, 3)}</td>
                </tr>
              ))}
            </tbody>
          </table>
        </section>
      )}
    </section>
  );
}

const speedTable = (
  rows: NonNullable<TwoAnswer['tables'][number]['rows']>,
  fuel: BothViewProps['fuel'],
): TableModel =>
  tableFrom(rows, [
    speedRowColumn,
    numberColumn('Spark lead', '°', ({ leadDeg }) => leadDeg, { decimals: 1 }),
    numberColumn('Lambda', '', ({ lambda }) => lambda, { decimals: 3 }),
    ...(fuel === null
      ? []
      : [
          numberColumn<SpeedRow>(
            `Air to ${fuel.name}`,
            '',
            ({ lambda }) => lambda * fuel.stoichiometricAfr,
            { decimals: 2 },
          ),
        ]),
    rangeColumn('Best lead, 95 %', '°', ({ bestLeadDeg }) => bestLeadDeg, { decimals: 1 }),
    rangeColumn('Best lambda, 95 %', '', ({ bestLambda }) => bestLambda, { decimals: 3 }),
  ]);

type SpeedRow = NonNullable<TwoAnswer['tables'][number]['rows']>[number];
const speedRowColumn: ColumnOf<SpeedRow> = numberColumn(
  'Engine speed',
  'rpm',
  ({ speedRpm }) => speedRpm,
  { decimals: 0 },
);

const STATE_WORDS = {
  clean: 'ran clean',
  limit: 'reached a limit',
  'not watched': 'nobody watched',
  'left out': 'left out',
} as const;

function PullsMade({
  answer,
  afr,
  units,
  nameOf,
}: {
  readonly answer: TwoAnswer;
  readonly units: UnitSystem;
  readonly afr: (lambda: number | null) => string;
  readonly nameOf: BothViewProps['nameOf'];
}) {
  const power = outside('power', units);
  const table = () =>
    tableFrom(answer.dots, [
      wordsColumn('Pull', ({ id }) => nameOf(id)),
      numberColumn('Lead', '°', ({ leadDeg }) => leadDeg, { decimals: 1 }),
      numberColumn('Lambda', '', ({ lambda }) => lambda, { decimals: 3 }),
      wordsColumn('Mixture', ({ lambda }) => afr(lambda)),
      quantityColumn('Mean power', 'power', units, ({ meanPowerW }) => meanPowerW),
      wordsColumn('Limit', ({ state }) => STATE_WORDS[state]),
    ]);
  return (
    <section className="panel" aria-labelledby="both-pulls">
      <header>
        <h2 id="both-pulls">The pulls</h2>
        <TakeTable title="The pulls" table={table} />
      </header>
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: a region that scrolls must be reachable by keyboard */}
      <section className={both.scroll} tabIndex={0} aria-label="The pulls">
        <table className="sheet">
          <thead>
            <tr>
              <th scope="col">Pull</th>
              <th scope="col">Lead</th>
              <th scope="col">Lambda</th>
              <th scope="col">Mixture</th>
              <th scope="col">{`Mean power, ${power.symbol}`}</th>
              <th scope="col">Limit</th>
            </tr>
          </thead>
          <tbody>
            {answer.dots.map((dot) => (
              <tr key={dot.id}>
                <th scope="row">{nameOf(dot.id)}</th>
                <td>{setting(dot.leadDeg, 'deg')}</td>
                <td>{plain(dot.lambda, 3)}</td>
                <td>{afr(dot.lambda)}</td>
                <td>
                  {dot.meanPowerW === null ? '–' : plain(power.of(dot.meanPowerW), power.decimals)}
                </td>
                <td>{STATE_WORDS[dot.state]}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </section>
    </section>
  );
}
