import { Drawer } from '@mantine/core';
import type { ReactNode } from 'react';
import type { LadderAnswer, LadderInput } from '../../src/ladder/types.ts';
import {
  chance,
  estimate,
  interval,
  percent,
  plain,
  rpm,
  setting,
  signedPercent,
} from '../charts/numbers.ts';
import { Heads } from '../table/Heads.tsx';
import {
  numberColumn,
  rangeColumn,
  settingColumn,
  settingUnit,
  type TableModel,
  tableFrom,
  wordsColumn,
} from '../table/model.ts';
import { TakeHead } from '../table/TakeTable.tsx';
import { Warnings } from './Answer.tsx';
import below from './below.module.css';
import styles from './ladder.module.css';
import { estimateDecimals, repeatabilityInWords } from './words.ts';

interface EvidenceProps {
  readonly input: LadderInput;
  readonly answer: LadderAnswer;
  readonly opened: boolean;
  readonly onClose: () => void;
}

/** One click behind the answer: what it rests on, what was assumed, and what nobody watched. */
export function Evidence({ input, answer, opened, onClose }: EvidenceProps) {
  return (
    <Drawer
      opened={opened}
      onClose={onClose}
      position="right"
      size="min(44rem, 100vw)"
      title="What the answer rests on"
      closeButtonProps={{ 'aria-label': 'Close' }}
      classNames={{ title: below.drawerTitle!, body: below.drawer! }}
    >
      <Warnings warnings={answer.warnings} />
      <Part title="How well the cell repeats">
        <p>{repeatabilityInWords(answer)}</p>
      </Part>
      <Part title="What each step gained" table={() => stepsTable({ input, answer })}>
        <Steps {...{ input, answer }} />
      </Part>
      <Part title="Best, knee and limit" table={() => placesTable({ input, answer })}>
        <Places {...{ input, answer }} />
      </Part>
      <Part title="What is left, and how sure that is" table={() => usesTable({ input, answer })}>
        <Uses {...{ input, answer }} />
      </Part>
      {answer.following !== null && (
        <Part
          title={`A ${input.kind.word} that follows speed`}
          table={() => followingTable({ input, answer })}
        >
          <Following {...{ input, answer }} />
        </Part>
      )}
      <Part title="What was assumed">
        <Assumed {...{ input, answer }} />
      </Part>
    </Drawer>
  );
}

function Part({
  title,
  table,
  children,
}: {
  readonly title: string;
  readonly table?: () => TableModel;
  readonly children: ReactNode;
}) {
  return (
    <section className={below.part}>
      {table === undefined ? (
        <h3>{title}</h3>
      ) : (
        <TakeHead title={title} table={table}>
          <h3>{title}</h3>
        </TakeHead>
      )}
      {children}
    </section>
  );
}

type Both = Pick<EvidenceProps, 'input' | 'answer'>;

const stepsTable = ({ input: { kind }, answer }: Both): TableModel =>
  tableFrom(answer.steps, [
    settingColumn('from', kind.unit, ({ from }) => from),
    settingColumn('to', kind.unit, ({ to }) => to),
    numberColumn('gain', '%', ({ gainPercent }) => gainPercent, { decimals: 1 }),
    rangeColumn('gain, 95 %', '%', ({ lowPercent: low, highPercent: high }) => ({ low, high }), {
      decimals: 1,
    }),
    wordsColumn('in words', ({ word }) => word),
    wordsColumn('also changed', ({ besides }) => besides),
  ]);

function Steps({ input, answer }: Both) {
  const { unit } = input.kind;
  return (
    <table className={styles.table}>
      <thead>
        <tr>
          <th scope="col">step</th>
          <th scope="col">gain</th>
          <th scope="col">95 %</th>
          <th scope="col" data-left="">
            in words
          </th>
          <th scope="col" data-left="">
            also changed
          </th>
        </tr>
      </thead>
      <tbody>
        {answer.steps.map((step) => (
          <tr key={`${step.from}-${step.to}`}>
            <th scope="row">{`${setting(step.from, unit, 2)} to ${setting(step.to, unit, 2)}`}</th>
            <td>{signedPercent(step.gainPercent)}</td>
            <td>{interval(step.lowPercent, step.highPercent)}</td>
            <td data-left="">{step.word}</td>
            <td data-left="">{step.besides ?? '–'}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

/** Best, knee and limit, and what each is. */
const placesOf = (answer: LadderAnswer) =>
  [
    { name: 'best', what: 'most mean power over the band', one: answer.best },
    { name: 'knee', what: 'another step stops paying', one: answer.knee },
    {
      name: 'limit',
      what: answer.limitWatched ? 'knock or what the operator saw' : 'nobody watched',
      one: answer.limit,
    },
  ] as const;

function placesTable({ input: { kind }, answer }: Both): TableModel {
  const decimals = estimateDecimals(kind);
  return tableFrom(placesOf(answer), [
    wordsColumn('place', ({ name }) => name),
    settingColumn('estimate', kind.unit, ({ one }) => one?.value, { decimals }),
    rangeColumn('estimate, 95 %', settingUnit(kind.unit), ({ one }) => one, { decimals }),
    wordsColumn('what it is', ({ what }) => what),
  ]);
}

function Places({ input, answer }: Both) {
  const { kind } = input;
  const decimals = estimateDecimals(kind);
  const row = ({ name, what, one }: ReturnType<typeof placesOf>[number]) => (
    <tr key={name}>
      <th scope="row">{name}</th>
      <td>{one === null ? '–' : estimate(one.value, kind.unit, decimals)}</td>
      <td>{one === null ? 'none found' : interval(one.low, one.high, decimals)}</td>
      <td data-left="">{what}</td>
    </tr>
  );
  return (
    <table className={styles.table}>
      <thead>
        <tr>
          <th scope="col">place</th>
          <th scope="col">estimate</th>
          <th scope="col">95 %</th>
          <th scope="col" data-left="">
            what it is
          </th>
        </tr>
      </thead>
      <tbody>{placesOf(answer).map(row)}</tbody>
    </table>
  );
}

function usesTable({ input: { kind, uses }, answer }: Both): TableModel {
  const percentOf = (share: number | null | undefined) => (share == null ? null : share * 100);
  return tableFrom(
    uses.map(({ name }) => ({ name, one: answer.uses[name] })),
    [
      wordsColumn('use', ({ name }) => name),
      settingColumn('left', kind.unit, ({ one }) => one?.value),
      numberColumn('gives up', '%', ({ one }) => one?.givesUpPercent, { decimals: 1 }),
      numberColumn('chance past the best', '%', ({ one }) => percentOf(one?.chancePastBest), {
        decimals: 1,
      }),
      numberColumn(
        'chance past the limit',
        '%',
        ({ one }) => (answer.limitWatched ? percentOf(one?.chancePastLimit) : null),
        {
          decimals: 1,
          note: answer.limitWatched
            ? 'by the limit as it was watched'
            : 'nobody watched for a limit',
        },
      ),
      settingColumn('held back', kind.unit, ({ one }) => one?.holdback),
    ],
  );
}

function Uses({ input, answer }: Both) {
  const { unit } = input.kind;
  return (
    <table className={styles.table}>
      <Heads of={['use', 'left', 'gives up', 'past the best', 'past the limit', 'held back']} />
      <tbody>
        {input.uses.map(({ name }) => {
          const one = answer.uses[name];
          return (
            <tr key={name}>
              <th scope="row">{name}</th>
              <td>{one?.value == null ? 'not known yet' : setting(one.value, unit, 2)}</td>
              <td>{percent(one?.givesUpPercent)}</td>
              <td>{chance(one?.chancePastBest)}</td>
              <td>{answer.limitWatched ? chance(one?.chancePastLimit) : 'not watched'}</td>
              <td>{setting(one?.holdback, unit)}</td>
            </tr>
          );
        })}
      </tbody>
    </table>
  );
}

const followingTable = ({ input: { kind }, answer }: Both): TableModel =>
  tableFrom(answer.following!.table, [
    numberColumn('engine speed', 'rpm', ({ speedRpm }) => speedRpm, { decimals: 0 }),
    settingColumn(`${kind.word} that follows`, kind.unit, (row) => row.setting),
    numberColumn('a fixed one costs here', '%', ({ fixedCostPercent }) => fixedCostPercent.value, {
      decimals: 1,
    }),
    rangeColumn('cost, 95 %', '%', ({ fixedCostPercent }) => fixedCostPercent, { decimals: 1 }),
  ]);

function Following({ input, answer }: Both) {
  const { unit, word } = input.kind;
  const following = answer.following!;
  const { value, low, high } = following.gainPercent;
  return (
    <>
      <p>{`A ${word} that follows engine speed would bring ${signedPercent(value)} (${interval(low, high)}) over the best fixed one.`}</p>
      <table className={styles.table}>
        <thead>
          <tr>
            <th scope="col">engine speed</th>
            <th scope="col">{`${word} that follows`}</th>
            <th scope="col">a fixed one costs here</th>
            <th scope="col">95 %</th>
          </tr>
        </thead>
        <tbody>
          {following.table.map((row) => (
            <tr key={row.speedRpm}>
              <th scope="row">{rpm(row.speedRpm)}</th>
              <td>{setting(row.setting, unit)}</td>
              <td>{percent(row.fixedCostPercent.value)}</td>
              <td>{interval(row.fixedCostPercent.low, row.fixedCostPercent.high)}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </>
  );
}

function Assumed({ input, answer }: Both) {
  const { kind } = input;
  const [flat, steep] = kind.curvaturePrior;
  const lines = [
    `A step is worth having from ${percent(input.worthPercent, 2)} of mean power a rung.`,
    `How sharply power falls away from the best was taken as unknown between ${percent(flat * 100, 3)} and ${percent(steep * 100, 2)} per squared ${kind.unit === 'deg' ? 'degree' : 'unit'}, every order of size equally likely beforehand.`,
    answer.repeatability.from === 'prior'
      ? 'How well the cell repeats: usual cells, standard deviation 0.4 % in the middle, 0.15 to 1.0 % (common practice, no source). A repeated rung replaces this.'
      : null,
    input.worstInletDeltaK > 0
      ? `The owner’s hottest inlet is ${plain(input.worstInletDeltaK, 0)} K hotter than this day: ${setting((input.worstInletDeltaK / 10) * input.holdbackPer10K, kind.unit)} more are held back (${setting(input.holdbackPer10K, kind.unit)} per 10 K, common practice, no source).`
      : null,
    input.worstFuelDeltaOctane > 0
      ? `The owner’s worst fuel is ${plain(input.worstFuelDeltaOctane, 0)} numbers lower than this day’s: ${setting(input.worstFuelDeltaOctane * input.holdbackPerOctane, kind.unit)} more are held back.`
      : null,
    'Correction to standard air corrects power, not knock.',
    'The cell’s calibration is common to all pulls of the day: it moves every figure of power together, and no gain.',
  ].filter((line) => line !== null);
  return (
    <ul className={below.lines}>
      {lines.map((line) => (
        <li key={line}>{line}</li>
      ))}
    </ul>
  );
}
