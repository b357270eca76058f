import {
  type CalibrationAnswer,
  type DeadWeightsAnswer,
  type Measured,
  type SensorAnswer,
  type SensorCheck,
  torqueUncertaintyNm,
} from '../../src/trade/calibration/index.ts';
import type { UnitSystem } from '../../src/units/types.ts';
import { ChartFrame, ResidualChart, residualTable } from '../charts/index.ts';
import { kept } from '../shell/words.ts';
import { numberColumn, tableFrom } from '../table/model.ts';
import styles from './calibration.module.css';
import { FigureTable } from './FigureTable.tsx';
import { decimalsFor, sensorInWords, weightsInWords } from './words.ts';

interface ResultProps {
  readonly measured: Measured;
  readonly answer: CalibrationAnswer;
  readonly units: UnitSystem;
  /** Cell and day, for the title of a saved picture. */
  readonly scenario: string;
}

/** What follows from the readings: in words, and as a picture or a table of what leaves the line. */
export function Result({ measured, answer, units, scenario }: ResultProps) {
  if (answer.kind === 'dead weights') return <WeightsResult {...{ answer, units, scenario }} />;
  return measured.kind === 'sensor' ? <SensorResult measured={measured} answer={answer} /> : null;
}

function Sentences({ lines }: { readonly lines: readonly string[] }) {
  const [first, ...others] = lines;
  return (
    <div className={styles.words}>
      <p className={styles.first}>{kept(first!)}</p>
      <ul>
        {others.map((line) => (
          <li key={line}>{kept(line)}</li>
        ))}
      </ul>
    </div>
  );
}

interface WeightsResultProps {
  readonly answer: DeadWeightsAnswer;
  readonly units: UnitSystem;
  readonly scenario: string;
}

function WeightsResult({ answer, units, scenario }: WeightsResultProps) {
  return (
    <>
      <Sentences lines={weightsInWords(answer, units)} />
      <ChartFrame
        title="Off the line"
        subtitle="each reading less the straight line through all of them"
        scenario={scenario}
        table={() => residualTable(answer.residuals, units)}
        className={styles.picture!}
      >
        {({ width, height }) => (
          <ResidualChart
            {...{ width, height, units }}
            residuals={answer.residuals}
            halfNm={(torqueNm) => torqueUncertaintyNm(answer.expanded, torqueNm)}
          />
        )}
      </ChartFrame>
    </>
  );
}

function SensorResult({
  measured,
  answer,
}: {
  readonly measured: SensorCheck;
  readonly answer: SensorAnswer;
}) {
  const { unit } = measured;
  const decimals = decimalsFor(answer);
  const reading = (title: string, of: (one: SensorAnswer['residuals'][number]) => number) =>
    numberColumn(title, unit, of, { decimals });
  return (
    <>
      <Sentences lines={sensorInWords(answer, measured)} />
      <FigureTable
        caption="Readings beside the reference"
        {...tableFrom(answer.residuals, [
          reading('Reading', (one) => one.reading),
          reading('Reference', (one) => one.reference),
          reading('Corrected', (one) => one.corrected),
          reading('Left over', (one) => one.residual),
        ])}
      />
    </>
  );
}
