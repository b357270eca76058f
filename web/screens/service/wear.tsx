import { quantityText } from '../../../src/units/index.ts';
import type { ServiceRecord, WearTold } from '../../api/types.gen.ts';
import { ChartFrame } from '../../charts/index.ts';
import { WEAR_KINDS, WearChart, wearTable } from '../../charts/WearChart.tsx';
import { Facts } from '../../shell/figures.tsx';
import { usePreferences } from '../../shell/preferences.tsx';
import { dateInWords } from '../../shell/words.ts';
import styles from './service.module.css';
import { withDates } from './words.ts';

const TITLES = {
  leakDown: 'Leak-down over time',
  crankingPressure: 'Cranking compression over time',
} as const;

/** Leak-down and compression over time: what moved, and what chance could have done. */
export function WearOverTime({ of }: { readonly of: ServiceRecord }) {
  const told = of.wear.filter(({ readings }) => readings.length > 0);
  return told.map((one, at) => (
    <Measure key={one.measure} of={one} record={of} isLast={at === told.length - 1} />
  ));
}

interface MeasureProps {
  readonly of: WearTold;
  readonly record: ServiceRecord;
  /** What is said of both stands once, below the last. */
  readonly isLast: boolean;
}

function Measure({ of, record, isLast }: MeasureProps) {
  const { units } = usePreferences();
  const { kind, decimals } = WEAR_KINDS[of.measure];
  const title = TITLES[of.measure];
  const text = (value: number) => quantityText(value, kind, units, { decimals: decimals[units] });
  // What lies between two percentages is points.
  const spread = (value: number) => text(value).replace(/ %$/, ' points');
  const builds = new Map(record.builds.map(({ buildId, name }) => [buildId, name]));
  const nameOf = ({ from, id }: WearTold['readings'][number]) =>
    from === 'sheet' ? `sheet of ${builds.get(id) ?? 'a build'}` : 'reading';
  const { newest } = of.answer;
  const sentences = of.sentences.map(withDates);
  return (
    <section className="panel" aria-label={title}>
      <ChartFrame
        title={title}
        subtitle={sentences.join(' ')}
        scenario={`${record.engine.name}, service record`}
        table={() => wearTable(of, units, nameOf)}
        className={styles.chart!}
      >
        {({ width, height }) => (
          <WearChart {...{ width, height, units, of }} says={`${title}. ${sentences.join(' ')}`} />
        )}
      </ChartFrame>
      {newest !== null && (
        <Facts
          rows={[
            ['Newest reading', dateInWords(newest.date)],
            ['Worst cylinder', `${newest.worstCylinder}: ${text(newest.worst)}`],
            ['Mean', text(newest.mean)],
            ['Highest less lowest', newest.spread === null ? null : spread(newest.spread)],
          ]}
        />
      )}
      {isLast && (
        <p className={`quiet ${styles.note}`}>
          A cylinder is called moved only where chance and rounding together would do it in fewer
          than 1 of 20 engines; what a gauge is off by on one date falls out between cylinders, not
          out of their mean. Steady changes are found sooner than a step. Readings made before the
          last refresh are drawn open and do not count.
        </p>
      )}
    </section>
  );
}
