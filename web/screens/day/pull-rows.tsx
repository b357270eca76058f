import { ActionIcon, Menu } from '@mantine/core';
import { Link } from '@tanstack/react-router';
import type { Configuration, Pull } from '../../api/types.gen.ts';
import { FileName } from '../../shell/FileName.tsx';
import { useFigures } from '../../shell/figures.tsx';
import { useChartStyle } from '../../theme/chart-style.ts';
import { rungColour } from '../../theme/palette.ts';
import styles from './lead-table.module.css';
import type { PullRow } from './lead-table.tsx';
import type { PullWithCurve } from './series.ts';

/** What a person can do with one pull of the table. */
export interface RowActs {
  readonly configure: (pull: Pull) => void;
  readonly move: (pull: Pull, by: -1 | 1) => void;
  readonly remove: (pull: Pull) => void;
}

/** What differs in one pull from the day, in a few words. */
export function configurationInWords(configuration: Configuration): string {
  return Object.values(configuration)
    .filter((value) => value !== undefined && value !== '')
    .join(', ');
}

/** Rows of the table of pulls: number and colour in front, figures and acts behind. */
export function usePullRows(all: readonly PullWithCurve[], acts: RowActs): readonly PullRow[] {
  const { palette } = useChartStyle();
  const leads = all.flatMap(({ pull }) => (pull.leadDeg === null ? [] : [pull.leadDeg]));
  const domain = [Math.min(...leads), Math.max(...leads)] as const;
  return all.map((one) => ({
    pull: one.pull,
    head: (
      <Link to={`/pulls/${one.pull.id}`}>
        <span
          className="dot"
          aria-hidden="true"
          style={{
            background:
              one.pull.leadDeg === null
                ? palette.chanceLine
                : rungColour(one.pull.leadDeg, domain, palette),
          }}
        />
        {one.pull.order + 1}
        {one.pull.fileName !== null && (
          <span className="quiet">
            {' '}
            <FileName name={one.pull.fileName} />
          </span>
        )}
      </Link>
    ),
    tail: <Tail one={one} acts={acts} first={one === all[0]} last={one === all.at(-1)} />,
  }));
}

export function TailHead() {
  const { units } = useFigures();
  return (
    <>
      <th scope="col">
        Peak <span className="together">{units === 'us' ? 'hp' : 'kW'}</span>
      </th>
      <th scope="col">
        Peak <span className="together">{units === 'us' ? 'lb-ft' : 'N·m'}</span>
      </th>
      <th scope="col">Differs from the day</th>
      <th scope="col">
        <span className="unseen">More</span>
      </th>
    </>
  );
}

interface TailProps {
  readonly one: PullWithCurve;
  readonly acts: RowActs;
  readonly first: boolean;
  readonly last: boolean;
}

function Tail({ one, acts, first, last }: TailProps) {
  const { pull, curve, whyNone } = one;
  const { bare } = useFigures();
  const power = curve?.peakPower ?? null;
  const torque = curve?.peakTorque ?? null;
  const typed = curve === null && (pull.peakPowerW !== null || pull.peakTorqueNm !== null);
  const differs = configurationInWords(pull.configuration);
  return (
    <>
      {curve === null && !typed ? (
        <td colSpan={2} className="quiet">
          {whyNone ?? '…'}
        </td>
      ) : (
        <>
          <td>
            {power ? (
              <Peak
                value={bare(power.value, 'power', 0)}
                half={bare((power.high - power.low) / 2, 'power', 0)}
              />
            ) : (
              bare(pull.peakPowerW, 'power', 0)
            )}
          </td>
          <td>
            {torque ? (
              <Peak
                value={bare(torque.value, 'torque', 0)}
                half={bare((torque.high - torque.low) / 2, 'torque', 0)}
              />
            ) : (
              bare(pull.peakTorqueNm, 'torque', 0)
            )}
          </td>
        </>
      )}
      <td className={`quiet ${styles.differs}`}>{differs === '' ? '–' : differs}</td>
      <td>
        <Menu position="bottom-end">
          <Menu.Target>
            <ActionIcon variant="subtle" aria-label={`More for pull ${pull.order + 1}`}>
              <span aria-hidden="true">⋯</span>
            </ActionIcon>
          </Menu.Target>
          <Menu.Dropdown>
            <Menu.Item onClick={() => acts.configure(pull)}>Differs from the day …</Menu.Item>
            <Menu.Item disabled={first} onClick={() => acts.move(pull, -1)}>
              Was made earlier
            </Menu.Item>
            <Menu.Item disabled={last} onClick={() => acts.move(pull, 1)}>
              Was made later
            </Menu.Item>
            <Menu.Item onClick={() => acts.remove(pull)}>Remove from the day</Menu.Item>
          </Menu.Dropdown>
        </Menu>
      </td>
    </>
  );
}

function Peak({ value, half }: { value: string; half: string }) {
  return (
    <span className="together">
      {value} <small className="quiet">± {half}</small>
    </span>
  );
}
