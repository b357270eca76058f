import { SegmentedControl } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import { useMemo, useState } from 'react';
import { traceQuery } from '../../api/queries.ts';
import type { Trace } from '../../api/types.gen.ts';
import { outside } from '../../charts/numbers.ts';
import { useFigures } from '../../shell/figures.tsx';
import { Trouble, Waiting } from '../../shell/states.tsx';
import { KIND_OF_QUANTITY } from './channel-kinds.ts';
import styles from './pull.module.css';
import { TracePlot } from './trace-plot.tsx';

const POINTS = 1600;
const SHOWN_FIRST = ['speed', 'torque', 'lambda'];

/** The samples behind a pull, channel under channel, exactly as they were recorded. */
export function RawTraces({ pullId }: { pullId: string }) {
  const [whole, setWhole] = useState(false);
  const trace = useQuery(traceQuery(pullId, POINTS, whole));
  return (
    <section className="panel" aria-labelledby="samples">
      <header>
        <h2 id="samples">Samples as recorded</h2>
        <SegmentedControl
          size="xs"
          aria-label="How much of the recording"
          value={whole ? 'whole' : 'pull'}
          onChange={(value) => setWhole(value === 'whole')}
          data={[
            { value: 'pull', label: 'This pull' },
            { value: 'whole', label: 'Whole recording' },
          ]}
        />
      </header>
      {trace.isPending && <Waiting what="the samples" />}
      {trace.isError && <Trouble error={trace.error} retry={() => void trace.refetch()} />}
      {trace.data && <Channels key={pullId} trace={trace.data} />}
    </section>
  );
}

function Channels({ trace }: { trace: Trace }) {
  const channels = trace.channels.filter((channel) => channel.quantity !== 'time');
  const [shown, setShown] = useState<ReadonlySet<string>>(() => {
    const first = channels.filter((channel) => SHOWN_FIRST.includes(channel.quantity));
    return new Set((first.length > 0 ? first : channels.slice(0, 2)).map((one) => one.header));
  });
  const toggle = (header: string) => {
    const next = new Set(shown);
    if (!next.delete(header)) next.add(header);
    setShown(next);
  };
  const places = trace.timeS ?? trace.row;
  return (
    <>
      <fieldset className={styles.channels} aria-label="Channels shown">
        {channels.map((channel) => (
          <label key={channel.header}>
            <input
              type="checkbox"
              checked={shown.has(channel.header)}
              onChange={() => toggle(channel.header)}
            />
            {channel.header}
          </label>
        ))}
      </fieldset>
      {channels
        .filter((channel) => shown.has(channel.header))
        .map((channel) => (
          <ChannelTrace
            key={channel.header}
            channel={channel}
            places={places}
            timed={trace.timeS !== null}
          />
        ))}
      <p className="quiet">
        {trace.timeS === null ? 'By row of the file' : 'By time in seconds'}, {trace.rows} rows.
        Each place shows the lowest and the highest sample, so that no spike is lost. Drag to look
        closer, double-click for the whole.
      </p>
    </>
  );
}

interface ChannelTraceProps {
  readonly channel: Trace['channels'][number];
  readonly places: readonly (number | null)[];
  readonly timed: boolean;
}

function ChannelTrace({ channel, places, timed }: ChannelTraceProps) {
  const { units } = useFigures();
  const kind = KIND_OF_QUANTITY[channel.quantity];
  const unit = useMemo(() => (kind === undefined ? null : outside(kind, units)), [kind, units]);
  const [low, high] = useMemo(() => {
    const inUnit = (list: readonly (number | null)[]) =>
      unit === null ? list : list.map((value) => (value === null ? null : unit.of(value)));
    return [inUnit(channel.low), inUnit(channel.high)];
  }, [channel, unit]);
  return (
    <div className={styles.trace}>
      <h3>
        {channel.header}
        {unit !== null && `, shown in ${unit.symbol}`}
      </h3>
      <TracePlot name={channel.header} places={places} low={low} high={high} timed={timed} />
    </div>
  );
}
