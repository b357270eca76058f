import { useMemo, useState } from 'react';
import type { LadderAnswer, LadderInput } from '../../src/ladder/types.ts';
import type { UnitSystem } from '../../src/units/types.ts';
import { ChartFrame } from '../charts/ChartFrame.tsx';
import { CurveChart } from '../charts/CurveChart.tsx';
import { curveTable } from '../charts/curve-words.ts';
import { GainChart } from '../charts/GainChart.tsx';
import { gainTable } from '../charts/gain-words.ts';
import { LossMap } from '../charts/LossMap.tsx';
import { lossTable } from '../charts/loss-grid.ts';
import { interval, outside, setting, signedPercent } from '../charts/numbers.ts';
import { ResponseChart } from '../charts/ResponseChart.tsx';
import { responseTable, settingSpan, type UseFlag } from '../charts/response-words.ts';
import { extentOf, type Span } from '../charts/scale.ts';
import { useZoom } from '../charts/zoom.ts';
import styles from './ladder.module.css';
import pictures from './pictures.module.css';
import type { LadderTitle } from './props.ts';
import { seriesOf } from './series.ts';
import { counted, onlyPeaks, rungsOf, speedsRun } from './state.ts';
import { axisName, bandInWords } from './words.ts';

interface PicturesProps {
  readonly input: LadderInput;
  readonly answer: LadderAnswer;
  readonly title: LadderTitle;
  readonly units: UnitSystem;
  readonly use: string | null;
  /** What a pull is called. */
  readonly nameOf: (id: string) => string;
  readonly onBand?: (band: Span) => void;
}

/** The evidence in three pictures that share their cursor of speed: response, gain of each step, map of loss. */
export function Pictures({ input, answer, title, units, use, nameOf, onBand }: PicturesProps) {
  const { kind, bandRpm } = input;
  const [cursorRpm, setCursorRpm] = useState<number | null>(null);
  const [cursorSetting, setCursorSetting] = useState<number | null>(null);
  const [mapSetting, setMapSetting] = useState<number | null>(null);
  const rungs = useMemo(() => rungsOf(input), [input]);
  const full = speedsRun(input) ?? bandRpm;
  const zoom = useZoom(full);
  const flags: readonly UseFlag[] = input.uses.flatMap(({ name }) => {
    const value = answer.uses[name]?.value;
    return value === null || value === undefined ? [] : [{ name, value, chosen: name === use }];
  });
  const closer = useZoom(settingSpan(answer, flags));
  const power = outside('power', units);
  const axis = axisName(kind);
  const peaks = onlyPeaks(input);
  const scenario = `${title.scenario}, ${title.standard}${peaks ? '' : `, judged ${bandInWords(bandRpm)}`}`;
  const chosen = flags.find((flag) => flag.chosen) ?? null;
  const rule = input.uses.find((one) => one.name === use);
  const left = chosen === null ? null : { ...chosen, speedsRpm: rule?.speedsRpm ?? bandRpm };
  const drawable = answer.steps.filter((step) => step.bySpeed.speedRpm.length > 1);
  const curves = useMemo(
    () => (drawable.length > 0 ? [] : seriesOf(counted(input), (pull) => nameOf(pull.id))),
    [drawable.length, input, nameOf],
  );
  const count = 1 + (drawable.length > 0 ? 1 : 0) + (answer.map === null ? 0 : 1);

  return (
    <div className={pictures.pictures} data-count={count}>
      <div className={pictures.picture}>
        <ChartFrame
          title={peaks ? 'Peak power against the setting' : `Mean power ${bandInWords(bandRpm)}`}
          subtitle={`Dots: pulls. Grey: what they leave possible.`}
          scenario={scenario}
          table={() => responseTable({ answer, unit: kind.unit, power, nameOf })}
          zoom={closer}
          className={pictures.canvas!}
        >
          {(box) => (
            <ResponseChart
              {...box}
              answer={answer}
              uses={flags}
              unit={kind.unit}
              axis={axis}
              safeDirection={kind.safeDirection}
              power={power}
              cursor={cursorSetting}
              onCursor={setCursorSetting}
              zoom={closer}
            />
          )}
        </ChartFrame>
      </div>
      {drawable.length > 0 && (
        <div className={pictures.picture} data-wide="">
          <ChartFrame
            title="What each step gained, by engine speed"
            subtitle="Percent of torque. Inside the grey, chance could do it."
            scenario={scenario}
            table={() => gainTable(answer.steps, kind.unit)}
            zoom={zoom}
            className={pictures.canvas!}
          >
            {(box) => (
              <GainChart
                {...box}
                steps={drawable}
                unit={kind.unit}
                settings={extentOf(rungs) ?? [0, 1]}
                band={bandRpm}
                full={full}
                zoom={zoom}
                cursorRpm={cursorRpm}
                onCursor={setCursorRpm}
                {...(onBand === undefined ? {} : { onBand })}
              />
            )}
          </ChartFrame>
        </div>
      )}
      {answer.map !== null && (
        <div className={pictures.picture}>
          <ChartFrame
            title={`Loss by speed and ${kind.word}`}
            subtitle={
              left === null
                ? 'Percent of torque lost. Dashed: the best.'
                : `Dashed: the best. Solid: ${setting(left.value, kind.unit)} for ${left.name}.${answer.limitBySpeed === null ? '' : ' Dotted: where the limit may lie lowest.'}`
            }
            scenario={scenario}
            table={() => lossTable(answer.map!, rungs, kind.unit)}
            zoom={zoom}
            className={pictures.canvas!}
          >
            {(box) => (
              <LossMap
                {...box}
                map={answer.map!}
                limit={answer.limit?.value ?? null}
                limitBySpeed={answer.limitBySpeed}
                rungs={rungs}
                unit={kind.unit}
                axis={axis}
                safeDirection={kind.safeDirection}
                left={left}
                band={bandRpm}
                zoom={zoom}
                cursor={cursorRpm === null ? null : { x: cursorRpm, y: mapSetting }}
                onCursor={(point) => {
                  setCursorRpm(point?.x ?? null);
                  setMapSetting(point?.y ?? null);
                }}
              />
            )}
          </ChartFrame>
        </div>
      )}
      {peaks && <PeaksOnly input={input} answer={answer} />}
      {!peaks && drawable.length === 0 && (
        <div className={pictures.picture}>
          <ChartFrame
            title="Torque and power so far"
            subtitle="One rung has nothing to be held against; the next pull brings the gain by speed."
            scenario={scenario}
            table={() => curveTable(curves, units)}
            zoom={zoom}
            className={pictures.canvas!}
          >
            {(box) => (
              <CurveChart
                {...box}
                series={curves}
                units={units}
                band={bandRpm}
                zoom={zoom}
                cursorRpm={cursorRpm}
                onCursor={setCursorRpm}
              />
            )}
          </ChartFrame>
        </div>
      )}
    </div>
  );
}

/** Beside the one picture of typed peaks: the steps as words, since nothing is known by speed. */
function PeaksOnly({ input, answer }: Pick<PicturesProps, 'input' | 'answer'>) {
  const { unit } = input.kind;
  return (
    <section className={pictures.beside} aria-label="What each step gained">
      <h2 className={styles.sectionTitle}>What each step gained</h2>
      <p className={styles.quiet}>
        From typed peaks alone: nothing is known by engine speed. With the recordings dropped in,
        this becomes the gain at each speed and a map of the best.
      </p>
      <ul className={pictures.stepList}>
        {answer.steps.map((step) => (
          <li key={`${step.from}-${step.to}`} data-word={step.word}>
            <b>{`${setting(step.from, unit)} to ${setting(step.to, unit)}`}</b>
            <span>{`${signedPercent(step.gainPercent)} (${interval(step.lowPercent, step.highPercent)})`}</span>
            <em>{step.word}</em>
          </li>
        ))}
      </ul>
    </section>
  );
}
