import { Button, SegmentedControl } from '@mantine/core';
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
import { closer, moved, reachOf, type TraceWindow, windowBetween } from './trace-window.ts';

const POINTS = 1600;
const SHOWN_FIRST = ['speed', 'torque', 'lambda'];

/** The samples behind a pull, channel under channel, exactly as they were recorded. */
export function RawTraces({ pullId }: { pullId: string }) {
  const [whole, setWhole] = useState(false);
  const [near, setNear] = useState<TraceWindow | null>(null);
  const all = useQuery(traceQuery(pullId, POINTS, whole, null));
  const rows = near === null ? null : { fromRow: near.fromRow, toRow: near.toRow };
  const fine = useQuery({ ...traceQuery(pullId, POINTS, whole, rows), enabled: near !== null });
  const trace = (near === null ? null : fine.data) ?? all.data;
  const busy = near !== null && fine.isFetching && fine.data === undefined;
  const error = all.error ?? fine.error;
  return (
    <section className="panel" aria-labelledby="samples" aria-busy={busy}>
      <header>
        <h2 id="samples">Samples as recorded</h2>
        <SegmentedControl
          size="xs"
          aria-label="How much of the recording"
          value={whole ? 'whole' : 'pull'}
          onChange={(value) => {
            setNear(null);
            setWhole(value === 'whole');
          }}
          data={[
            { value: 'pull', label: 'This pull' },
            { value: 'whole', label: 'Whole recording' },
          ]}
        />
      </header>
      {all.isPending && <Waiting what="the samples" />}
      {error !== null && (
        <Trouble error={error} retry={() => void (all.isError ? all.refetch() : fine.refetch())} />
      )}
      {trace && all.data && (
        <Channels
          key={pullId}
          trace={trace}
          all={all.data}
          near={near}
          busy={busy}
          onNear={setNear}
        />
      )}
    </section>
  );
}

interface ChannelsProps {
  readonly trace: Trace;
  /** As far as there is something to show. */
  readonly all: Trace;
  /** What is looked at closer; null: all of it. */
  readonly near: TraceWindow | null;
  /** Its finer samples are on their way. */
  readonly busy: boolean;
  readonly onNear: (near: TraceWindow | null) => void;
}

function Channels({ trace, all, near, busy, onNear }: ChannelsProps) {
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
  const look = (one: number, other: number) => {
    const [low, high] = near?.places ?? [one, other];
    const within = Math.min(one, other) >= low && Math.max(one, other) <= high;
    const next = windowBetween(within ? trace : all, one, other);
    if (next !== null) onNear(next);
  };
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
      <NearBar {...{ all, near, busy, onNear, look }} />
      {channels
        .filter((channel) => shown.has(channel.header))
        .map((channel) => (
          <ChannelTrace
            key={channel.header}
            channel={channel}
            places={places}
            timed={trace.timeS !== null}
            range={near?.places ?? null}
            busy={busy}
            onRange={(range) => (range === null ? onNear(null) : look(...range))}
          />
        ))}
      <p className="quiet">
        {trace.timeS === null ? 'By row of the file' : 'By time in seconds'}, {trace.rows} rows.{' '}
        {trace.rows > trace.row.length
          ? 'Each place shows the lowest and the highest sample, so that no spike is lost.'
          : 'Every sample is drawn.'}{' '}
        Drag to look closer, double-click for the whole.
      </p>
    </>
  );
}

/** The same as dragging, for the keys and the thumb; and what is being fetched. */
function NearBar({
  all,
  near,
  busy,
  onNear,
  look,
}: Omit<ChannelsProps, 'trace'> & { readonly look: (one: number, other: number) => void }) {
  const reach = reachOf(all);
  if (reach === null) return null;
  const now = near?.places ?? reach;
  const act = (label: string, run: () => void, disabled: boolean) => (
    <Button variant="default" size="compact-xs" disabled={disabled} onClick={run}>
      {label}
    </Button>
  );
  return (
    <fieldset className={styles.near} aria-label="Look closer">
      {act('Closer', () => look(...closer(now)), false)}
      {act('Earlier', () => look(...moved(now, -1, reach)), near === null || now[0] <= reach[0])}
      {act('Later', () => look(...moved(now, 1, reach)), near === null || now[1] >= reach[1])}
      {act('All of it', () => onNear(null), near === null)}
      <span className="quiet" role="status">
        {busy ? 'Fetching the finer samples …' : ''}
      </span>
    </fieldset>
  );
}

interface ChannelTraceProps {
  readonly channel: Trace['channels'][number];
  readonly places: readonly (number | null)[];
  readonly timed: boolean;
  readonly range: readonly [number, number] | null;
  readonly busy: boolean;
  readonly onRange: (range: readonly [number, number] | null) => void;
}

function ChannelTrace({ channel, places, timed, range, busy, onRange }: ChannelTraceProps) {
  const { units } = useFigures();
  const kind = KIND_OF_QUANTITY[channel.quantity];
  const unit = useMemo(() => (kind === undefined ? null : outside(kind, units)), [kind, units]);
  const [low, high] = useMemo(() => {
    const inUnit = (list: readonly (number | null)[]) =>
      unit === null ? list : list.map((value) => (value === null ? null : unit.of(value)));
    return [inUnit(channel.low), inUnit(channel.high)];
  }, [channel, unit]);
  return (
    <div className={styles.trace} data-busy={busy || undefined}>
      <h3>
        {channel.header}
        {unit !== null && `, shown in ${unit.symbol}`}
      </h3>
      <TracePlot name={channel.header} {...{ places, low, high, timed, range, onRange }} />
    </div>
  );
}
