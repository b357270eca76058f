import { Button, Popover, TextInput } from '@mantine/core';
import { useState } from 'react';
import type { LadderInput, LadderPull } from '../../src/ladder/types.ts';
import type { Mark, Peak } from '../../src/pull/types.ts';
import { inUnitsOf } from '../../src/units/sentences.ts';
import type { UnitSystem } from '../../src/units/types.ts';
import {
  kept,
  type Outside,
  outside,
  plain,
  rpm,
  setting,
  threeFigures,
  UNKNOWN,
} from '../charts/numbers.ts';
import { extentOf } from '../charts/scale.ts';
import {
  numberColumn,
  quantityColumn,
  quantityRangeColumn,
  settingColumn,
  type TableModel,
  tableFrom,
  wordsColumn,
} from '../table/model.ts';
import { TakeHead } from '../table/TakeTable.tsx';
import { useChartStyle } from '../theme/chart-style.ts';
import { LookIcon, NoteIcon, StopIcon } from '../theme/icons.tsx';
import { rungColour } from '../theme/palette.ts';
import below from './below.module.css';
import { type CommonNotes, commonNotes } from './common-notes.ts';
import styles from './ladder.module.css';
import type { LadderCallbacks, PullDetail } from './props.ts';

interface PullsTableProps {
  readonly input: LadderInput;
  readonly units: UnitSystem;
  readonly details: ReadonlyMap<string, PullDetail>;
  readonly onExclude?: LadderCallbacks['onExclude'];
}

/** Every pull of the ladder in the order it was made; those left out stay, struck through, with their reason. */
export function PullsTable({ input, units, details, onExclude }: PullsTableProps) {
  const power = outside('power', units);
  const torque = outside('torque', units);
  const pulls = [...input.pulls].sort((a, b) => a.order - b.order);
  // Typed peaks have no marks of their own and do not unsay what every recording says.
  const recorded = pulls.flatMap(({ id }) => details.get(id) ?? []).filter((one) => one.peakPower);
  const common = commonNotes(recorded.map(({ marks }) => marks));
  return (
    <section aria-labelledby="ladder-pulls" className={below.pulls}>
      <TakeHead
        title="Pulls of the ladder"
        table={() => pullsTable(pulls, { input, units, details })}
      >
        <h2 id="ladder-pulls" className={styles.sectionTitle}>
          Pulls
        </h2>
      </TakeHead>
      <div className={styles.tableWrap}>
        <table className={styles.table}>
          <thead>
            <tr>
              <th scope="col">pull</th>
              <th scope="col" data-left="">
                {input.kind.word}
              </th>
              <th scope="col">{`peak ${power.symbol}`}</th>
              <th scope="col">at rpm</th>
              <th scope="col">{`peak ${torque.symbol}`}</th>
              <th scope="col">at rpm</th>
              <th scope="col">{input.kind.name === 'lambda' ? 'measured' : 'lambda'}</th>
              <th scope="col">air factor</th>
              <th scope="col" data-left="">
                seen in it
              </th>
              {onExclude !== undefined && (
                <th scope="col">
                  <span className={styles.hidden}>leave out</span>
                </th>
              )}
            </tr>
          </thead>
          <tbody>
            {pulls.map((pull) => (
              <Row
                key={pull.id}
                {...{ pull, input, power, torque, units, common, onExclude }}
                detail={details.get(pull.id)}
              />
            ))}
          </tbody>
        </table>
      </div>
      {common.marks.length > 0 && (
        <ul className={`${below.seen} ${below.everyPull}`} aria-label="Said of every pull">
          {common.marks.map(({ sentence, severity }) => (
            <li key={sentence} data-icon={severity === 'note' ? 'note' : 'look'}>
              {severity === 'note' ? <NoteIcon /> : <LookIcon />}
              <span>Every pull: {kept(inUnitsOf(sentence, units))}</span>
            </li>
          ))}
        </ul>
      )}
    </section>
  );
}

/** The same as a table that leaves: peaks with both ends of their intervals, everything seen in a pull in words. */
function pullsTable(
  pulls: readonly LadderPull[],
  { input: { kind }, units, details }: Pick<PullsTableProps, 'input' | 'units' | 'details'>,
): TableModel {
  const of = ({ id }: LadderPull) => details.get(id);
  const peak = (
    title: string,
    quantity: 'power' | 'torque',
    found: (pull: LadderPull) => Peak | null | undefined,
    typed: (pull: LadderPull) => number | null,
  ) => [
    quantityColumn<LadderPull>(title, quantity, units, (pull) => found(pull)?.value ?? typed(pull)),
    quantityRangeColumn<LadderPull>(`${title}, 95 %`, quantity, units, found),
    numberColumn<LadderPull>(`${title} at`, 'rpm', (pull) => found(pull)?.speedRpm, {
      decimals: 0,
    }),
  ];
  return tableFrom(pulls, [
    wordsColumn('pull', (pull) => of(pull)?.name ?? `${pull.order + 1}`),
    settingColumn(kind.word, kind.unit, (pull) => pull.setting),
    ...peak(
      'peak power',
      'power',
      (pull) => of(pull)?.peakPower,
      (pull) => pull.peakPowerW,
    ),
    ...peak(
      'peak torque',
      'torque',
      (pull) => of(pull)?.peakTorque,
      (pull) => pull.peakTorqueNm,
    ),
    numberColumn(
      kind.name === 'lambda' ? 'lambda measured' : 'lambda',
      '',
      (pull) => of(pull)?.lambda,
      {
        decimals: 2,
      },
    ),
    numberColumn('air factor', '', (pull) => of(pull)?.airFactor, { decimals: 3 }),
    wordsColumn('left out because', (pull) => pull.excludedBecause),
    wordsColumn('seen in it', (pull) =>
      seenIn(pull, units, of(pull)?.marks ?? [])
        .filter(({ key }) => key !== 'out')
        .map(({ text }) => text.replace(/\.$/, ''))
        .join('; '),
    ),
  ]);
}

function Row({
  pull,
  input,
  power,
  torque,
  units,
  common,
  detail,
  onExclude,
}: {
  pull: LadderPull;
  input: LadderInput;
  power: Outside;
  torque: Outside;
  units: UnitSystem;
  common: CommonNotes;
  detail: PullDetail | undefined;
  onExclude: LadderCallbacks['onExclude'];
}) {
  const { palette } = useChartStyle();
  const range = extentOf(input.pulls.map((one) => one.setting))!;
  const out = pull.excludedBecause !== null;
  const name = detail?.name ?? `${pull.order + 1}`;
  return (
    <tr data-out={out}>
      <th scope="row">{detail?.href === undefined ? name : <a href={detail.href}>{name}</a>}</th>
      <td data-left="">
        <svg className={below.rung} viewBox="0 0 12 12" aria-hidden="true">
          <circle
            cx="6"
            cy="6"
            r="5"
            fill={out ? palette.chance : rungColour(pull.setting, range, palette)}
          />
        </svg>
        {setting(pull.setting, input.kind.unit, 2)}
      </td>
      <PeakCells peak={detail?.peakPower ?? null} typed={pull.peakPowerW} unit={power} />
      <PeakCells peak={detail?.peakTorque ?? null} typed={pull.peakTorqueNm} unit={torque} />
      <td>{detail?.lambda == null ? UNKNOWN : plain(detail.lambda, 2)}</td>
      <td>{detail?.airFactor == null ? UNKNOWN : plain(detail.airFactor, 3)}</td>
      <td data-left="" data-marks="">
        <Seen
          pull={pull}
          units={units}
          marks={(detail?.marks ?? []).filter((mark) => !common.says(mark))}
        />
      </td>
      {onExclude !== undefined && (
        <td>
          <LeaveOut {...{ pull, name, onExclude }} />
        </td>
      )}
    </tr>
  );
}

function PeakCells({
  peak,
  typed,
  unit,
}: {
  peak: Peak | null;
  typed: number | null;
  unit: Outside;
}) {
  if (peak === null) {
    return (
      <>
        <td>{typed === null ? UNKNOWN : plain(unit.of(typed), threeFigures(unit.of(typed)))}</td>
        <td>{UNKNOWN}</td>
      </>
    );
  }
  const value = unit.of(peak.value);
  const half = unit.of((peak.high - peak.low) / 2);
  return (
    <>
      <td>
        {plain(value, threeFigures(value))} <small>± {plain(half, half < 0.95 ? 1 : 0)}</small>
      </td>
      <td>{plain(peak.speedRpm, 0)}</td>
    </>
  );
}

/** Reason it is left out, knock, what differs, and the marks of the recording, worst first. */
function seenIn(pull: LadderPull, units: UnitSystem, marks: readonly Mark[]) {
  const lines: { key: string; icon: 'stop' | 'look' | 'note'; text: string }[] = [];
  if (pull.excludedBecause !== null) {
    lines.push({ key: 'out', icon: 'note', text: `left out: ${pull.excludedBecause}` });
  }
  if (pull.knockHeard !== false) {
    const where = typeof pull.knockHeard === 'number' ? ` at ${rpm(pull.knockHeard)}` : '';
    lines.push({ key: 'knock', icon: 'stop', text: `knock heard${where}` });
  }
  if (pull.aborted) lines.push({ key: 'aborted', icon: 'look', text: 'aborted' });
  if (pull.configuration !== null) {
    lines.push({ key: 'config', icon: 'look', text: `differs: ${pull.configuration}` });
  }
  const order = { stop: 0, 'look again': 1, note: 2 } as const;
  const icons = { stop: 'stop', 'look again': 'look', note: 'note' } as const;
  for (const mark of [...marks].sort((a, b) => order[a.severity] - order[b.severity])) {
    const text = kept(inUnitsOf(mark.sentence, units));
    lines.push({ key: mark.sentence, icon: icons[mark.severity], text });
  }
  return lines;
}

function Seen({
  pull,
  units,
  marks,
}: {
  pull: LadderPull;
  units: UnitSystem;
  marks: readonly Mark[];
}) {
  const lines = seenIn(pull, units, marks);
  if (lines.length === 0) return null;
  const shown = lines.slice(0, 2);
  return (
    <ul className={below.seen}>
      {shown.map((line) => (
        <li key={line.key} data-icon={line.icon}>
          {line.icon === 'stop' ? <StopIcon /> : line.icon === 'look' ? <LookIcon /> : <NoteIcon />}
          <span>{line.text}</span>
        </li>
      ))}
      {lines.length > shown.length && (
        <li>
          <details>
            <summary>{`${lines.length - shown.length} more`}</summary>
            {lines.slice(2).map((line) => (
              <p key={line.key}>{line.text}</p>
            ))}
          </details>
        </li>
      )}
    </ul>
  );
}

function LeaveOut({
  pull,
  name,
  onExclude,
}: {
  pull: LadderPull;
  name: string;
  onExclude: NonNullable<LadderCallbacks['onExclude']>;
}) {
  const [open, setOpen] = useState(false);
  const [because, setBecause] = useState('');
  if (pull.excludedBecause !== null) {
    return (
      <button type="button" className={styles.link} onClick={() => onExclude(pull.id, null)}>
        take back in<span className={styles.hidden}>{`: ${name}`}</span>
      </button>
    );
  }
  return (
    <Popover opened={open} onChange={setOpen} position="bottom-end" trapFocus withArrow>
      <Popover.Target>
        <button
          type="button"
          className={styles.link}
          onClick={() => setOpen(!open)}
          aria-expanded={open}
        >
          leave out<span className={styles.hidden}>{`: ${name}`}</span>
        </button>
      </Popover.Target>
      <Popover.Dropdown>
        <form
          className={below.popForm}
          onSubmit={(event) => {
            event.preventDefault();
            if (because.trim() === '') return;
            setOpen(false);
            onExclude(pull.id, because.trim());
          }}
        >
          <TextInput
            label={`Why leave ${name} out?`}
            placeholder="belt slipped, wrong fuel …"
            value={because}
            onChange={(event) => setBecause(event.currentTarget.value)}
            data-autofocus
            required
          />
          <Button type="submit" size="xs" disabled={because.trim() === ''}>
            Leave it out
          </Button>
        </form>
      </Popover.Dropdown>
    </Popover>
  );
}
