import {
  Button,
  NativeSelect,
  NumberInput,
  SegmentedControl,
  Textarea,
  TextInput,
} from '@mantine/core';
import { useState } from 'react';
import { displayUnit, toInside } from '../../../src/units/index.ts';
import type { SideWanted, TorqueBasis } from '../../api/types.gen.ts';
import { BASIS_FIELDS } from '../../form/specs.ts';
import { usePreferences } from '../../shell/preferences.tsx';
import { paperTable } from './paper-table.ts';
import styles from './picker.module.css';

type PeakKey = 'torqueNm' | 'torqueSpeedRpm' | 'powerW' | 'powerSpeedRpm';
type PeakValues = Readonly<Partial<Record<PeakKey, number>>>;

const [AIR, INERTIA] = BASIS_FIELDS.map((field) => ({
  label: field.label,
  data: 'choices' in field ? [...(field.choices ?? [])] : [],
}));

/** A curve known from a sheet of paper only: a table of torque, or its peaks. */
export function PaperSide({
  back,
  pick,
}: {
  readonly back: () => void;
  readonly pick: (side: SideWanted, label: string) => void;
}) {
  const { units } = usePreferences();
  const torque = displayUnit('torque', units);
  const power = displayUnit('power', units);
  const [name, setName] = useState('');
  const [how, setHow] = useState<'table' | 'peaks'>('table');
  const [text, setText] = useState('');
  const [peaks, setPeaks] = useState<PeakValues>({});
  const [sdPercent, setSd] = useState<number | null>(null);
  const [basis, setBasis] = useState<TorqueBasis>({ air: 'unknown', inertia: 'unknown' });
  const [tried, setTried] = useState(false);
  const table = paperTable(text);
  const known = peaks.torqueNm !== undefined || peaks.powerW !== undefined;
  const problem =
    how === 'table'
      ? table.problem
      : known
        ? null
        : 'Say peak torque or peak power; where it stands is left empty if the paper does not say.';
  const send = () => {
    setTried(true);
    if (problem !== null) return;
    const label = name.trim() || 'the curve from paper';
    pick(
      {
        kind: 'paper',
        name: label,
        basis,
        sdPercent,
        table:
          how === 'table'
            ? table.rows!.map((row) => ({
                speedRpm: row.speedRpm,
                torqueNm: toInside(row.torque, torque),
              }))
            : null,
        peaks:
          how === 'peaks'
            ? {
                torqueNm: peaks.torqueNm === undefined ? null : toInside(peaks.torqueNm, torque),
                torqueSpeedRpm: peaks.torqueSpeedRpm ?? null,
                powerW: peaks.powerW === undefined ? null : toInside(peaks.powerW, power),
                powerSpeedRpm: peaks.powerSpeedRpm ?? null,
              }
            : null,
      },
      label,
    );
  };
  const peak = (key: PeakKey, label: string) => (
    <NumberInput
      label={label}
      min={1}
      value={peaks[key] ?? ''}
      onChange={(value) => {
        const { [key]: _, ...others } = peaks;
        setPeaks(typeof value === 'number' ? { ...others, [key]: value } : others);
      }}
    />
  );
  return (
    <>
      <Button variant="subtle" size="compact-sm" onClick={back}>
        ← A build or day of the shop
      </Button>
      <form
        className={styles.paper}
        onSubmit={(event) => {
          event.preventDefault();
          send();
        }}
      >
        <TextInput
          className={styles.wide!}
          label="What it is called"
          placeholder="the maker’s sheet, another cell’s print …"
          value={name}
          onChange={(event) => setName(event.currentTarget.value)}
          data-autofocus
        />
        <SegmentedControl
          className={styles.wide!}
          aria-label="What the paper says"
          data={[
            { value: 'table', label: 'A table of torque' },
            { value: 'peaks', label: 'Only its peaks' },
          ]}
          value={how}
          onChange={(value) => setHow(value as typeof how)}
        />
        {how === 'table' ? (
          <Textarea
            className={styles.wide!}
            label={`Engine speed in rpm and torque in ${torque.symbol}, one pair a line`}
            placeholder={'3000 250\n3500 262'}
            autosize
            minRows={6}
            maxRows={14}
            value={text}
            onChange={(event) => setText(event.currentTarget.value)}
          />
        ) : (
          <>
            {peak('torqueNm', `Peak torque, ${torque.symbol}`)}
            {peak('torqueSpeedRpm', 'at, rpm')}
            {peak('powerW', `Peak power, ${power.symbol}`)}
            {peak('powerSpeedRpm', 'at, rpm')}
          </>
        )}
        <NativeSelect
          label={AIR!.label}
          data={AIR!.data}
          value={basis.air}
          onChange={(event) =>
            setBasis({ ...basis, air: event.currentTarget.value as TorqueBasis['air'] })
          }
        />
        <NativeSelect
          label={INERTIA!.label}
          data={INERTIA!.data}
          value={basis.inertia}
          onChange={(event) =>
            setBasis({ ...basis, inertia: event.currentTarget.value as TorqueBasis['inertia'] })
          }
        />
        <NumberInput
          label="How sure it is, 1 sd in %"
          description="Empty: what is usual between two cells."
          min={0}
          max={20}
          value={sdPercent ?? ''}
          onChange={(value) => setSd(typeof value === 'number' ? value : null)}
        />
        {tried && problem !== null && (
          <p className={`${styles.wide} stop`} role="alert">
            {problem}
          </p>
        )}
        <Button type="submit" className={styles.wide!}>
          Take this curve
        </Button>
      </form>
    </>
  );
}
