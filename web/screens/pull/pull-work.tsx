import { Button } from '@mantine/core';
import { Link } from '@tanstack/react-router';
import { useState } from 'react';
import { addressOf } from '../../api/client.ts';
import type { Curve, DayPage, Pull, PullCurve } from '../../api/types.gen.ts';
import { ChartFrame, CurveChart, curveTable, useZoom } from '../../charts/index.ts';
import { setting } from '../../charts/numbers.ts';
import { FileName } from '../../shell/FileName.tsx';
import { Facts, useFigures } from '../../shell/figures.tsx';
import { dayLabel } from '../../shell/places.ts';
import { Nothing, Trouble, Waiting } from '../../shell/states.tsx';
import { dateInWords } from '../../shell/words.ts';
import { airInWords } from '../day/air-words.ts';
import { WATCHED_WORDS } from '../day/cells.ts';
import overlay from '../day/overlay.module.css';
import { speed } from '../day/overlay.tsx';
import { configurationInWords } from '../day/pull-rows.tsx';
import { MarkLine } from '../day/remarks.tsx';
import { labelOf, seriesOf } from '../day/series.ts';
import { DerivedCurves } from './derived-curves.tsx';
import { RawTraces } from './raw-traces.tsx';

interface PullWorkProps {
  readonly pull: Pull;
  readonly page: DayPage;
  readonly answer: PullCurve | null;
  readonly error: Error | null;
  readonly retry: () => void;
}

export function PullWork({ pull, page, answer, error, retry }: PullWorkProps) {
  const { engine, build, day, pulls } = page;
  const ordered = [...pulls].sort((a, b) => a.order - b.order);
  const at = ordered.findIndex((one) => one.id === pull.id);
  const [before, after] = [ordered[at - 1], ordered[at + 1]];
  const scenario = `${engine.name}, ${build.name}, ${dayLabel(day)}, pull ${pull.order + 1}`;
  const curve = answer?.curve ?? null;
  return (
    <div className="stack">
      <div className="opening">
        <div>
          <h1>
            Pull {pull.order + 1}
            {pull.leadDeg !== null && <> at {pull.leadDeg}°</>}
          </h1>
          <p className="lede">
            {pull.excludedBecause !== null && <>Left out of the ladder: {pull.excludedBecause}. </>}
            {pull.note}
          </p>
        </div>
        <nav className="acts" aria-label="Pulls of the day">
          {pull.recordingSha256 !== null && (
            <Button component={Link} to={`/pulls/${pull.id}/replay`} variant="default">
              Replay
            </Button>
          )}
          <Neighbour pull={before} word="Pull before" />
          <Neighbour pull={after} word="Next pull" />
        </nav>
      </div>
      {error !== null && <Trouble error={error} retry={retry} />}
      {error === null && answer === null && <Waiting what="the curve" lines={6} />}
      {answer !== null && curve === null && (
        <Nothing title="This pull has no curve">{answer.whyNone}</Nothing>
      )}
      {curve !== null && (
        <>
          <div className="two">
            <OneCurve pull={pull} curve={curve} scenario={scenario} label={labelOf(pull, pulls)} />
            <div className="stack">
              <Peaks curve={curve} />
              <Marks curve={curve} />
            </div>
          </div>
          <DerivedCurves curve={curve} scenario={scenario} />
        </>
      )}
      <section className="panel" aria-labelledby="said">
        <header>
          <h2 id="said">What was set, seen and heard</h2>
        </header>
        <PullFacts pull={pull} curve={curve} />
      </section>
      {pull.recordingSha256 !== null && (
        <>
          <RawTraces pullId={pull.id} />
          <p className="quiet">
            Recording: <FileName name={pull.fileName ?? 'without a name'} />,{' '}
            <a
              href={addressOf('/recordings/{sha256}/bytes', { sha256: pull.recordingSha256 })}
              download={pull.fileName ?? 'recording'}
            >
              save the file as it came
            </a>
            .
          </p>
        </>
      )}
    </div>
  );
}

function Neighbour({ pull, word }: { pull: Pull | undefined; word: string }) {
  if (pull === undefined) return null;
  return (
    <Button component={Link} to={`/pulls/${pull.id}`} variant="default">
      {word}
    </Button>
  );
}

interface OneCurveProps {
  readonly pull: Pull;
  readonly curve: Curve;
  readonly scenario: string;
  readonly label: string;
}

function OneCurve({ pull, curve, scenario, label }: OneCurveProps) {
  const { units } = useFigures();
  const [cursorRpm, setCursorRpm] = useState<number | null>(null);
  const series = [
    seriesOf({ pull: { ...pull, excludedBecause: null }, curve, whyNone: null }, label)!,
  ];
  const zoom = useZoom([curve.speedRpm[0]!, curve.speedRpm.at(-1)!]);
  return (
    <div className="panel">
      <ChartFrame
        title="The curve"
        subtitle={`${airInWords([curve], curve.standard)}${
          curve.correctionFactor === 1 ? '' : ` Factor ${curve.correctionFactor.toFixed(4)}.`
        }`}
        scenario={scenario}
        table={() => curveTable(series, units)}
        zoom={zoom}
        className={overlay.chart ?? ''}
      >
        {(size) => (
          <CurveChart
            {...size}
            series={series}
            units={units}
            cursorRpm={cursorRpm}
            onCursor={setCursorRpm}
            zoom={zoom}
          />
        )}
      </ChartFrame>
    </div>
  );
}

function Peaks({ curve }: { curve: Curve }) {
  const { figure, bare } = useFigures();
  const rows = [
    ['Peak power', curve.peakPower, 'power'],
    ['Peak torque', curve.peakTorque, 'torque'],
  ] as const;
  return (
    <section className="panel" aria-label="Peaks">
      <dl className="facts">
        {rows.map(([name, peak, kind]) => (
          <div key={name}>
            <dt>{name}</dt>
            <dd className="large">{figure(peak.value, kind, 0)}</dd>
            <dd className="quiet">
              {bare(peak.low, kind)} to {bare(peak.high, kind)} at {speed(peak.speedRpm)} rpm
            </dd>
          </div>
        ))}
      </dl>
    </section>
  );
}

function Marks({ curve }: { curve: Curve }) {
  return (
    <section className="panel" aria-labelledby="marks">
      <header>
        <h2 id="marks">What the pull says of itself</h2>
      </header>
      {curve.marks.length === 0 ? (
        <p className="quiet">Nothing stands out: every check passed.</p>
      ) : (
        <ul className="marks">
          {curve.marks.map((mark) => (
            <MarkLine key={`${mark.kind}${mark.sentence}`} mark={mark} />
          ))}
        </ul>
      )}
    </section>
  );
}

function PullFacts({ pull, curve }: { pull: Pull; curve: Curve | null }) {
  const { figure } = useFigures();
  const conditions = curve?.conditions;
  const maybe = (
    value: number | null | undefined,
    kind: 'temperature' | 'barometer' | 'power' | 'torque',
  ) => (value === null || value === undefined ? null : figure(value, kind));
  const heard =
    pull.knockHeard === true
      ? 'heard'
      : pull.knockHeard === false
        ? 'not heard'
        : `heard at ${speed(pull.knockHeard)} rpm`;
  return (
    <Facts
      rows={[
        ['Lead', pull.leadDeg === null ? 'not set yet' : `${pull.leadDeg}°`],
        ['Lambda target', lambdaInWords(pull.lambdaTarget)],
        ['Lambda read', lambdaInWords(pull.lambdaMeasured, pull.lambdaErrorSd)],
        ['Jets', pull.jets],
        ['Load held', pull.loadPercent === null ? null : `${pull.loadPercent} %`],
        ['Part test', pull.group],
        ['Watched', WATCHED_WORDS.find(([name]) => name === pull.watched)?.[1] ?? 'not said'],
        ['Knock', heard],
        ['Plugs', pull.specksOnPlug ? 'specks seen' : null],
        ['Aborted', pull.aborted ? 'yes' : null],
        ['Peak power, typed', maybe(pull.peakPowerW, 'power')],
        ['Peak torque, typed', maybe(pull.peakTorqueNm, 'torque')],
        ['Calibration of the cell', calibrationInWords(curve, figure)],
        ['Differs from the day', configurationInWords(pull.configuration)],
        ['Air temperature', maybe(conditions?.airTemperatureK, 'temperature')],
        ['Barometer', maybe(conditions?.pressureAbsPa, 'barometer')],
        [
          'Humidity',
          conditions?.humidity == null ? null : `${Math.round(conditions.humidity * 100)} %`,
        ],
        ['Oil at the start', maybe(conditions?.oilTemperatureK, 'temperature')],
        ['Water at the start', maybe(conditions?.waterTemperatureK, 'temperature')],
        [
          'Sweep',
          conditions?.sweepRateRpmPerS == null
            ? null
            : `${Math.round(conditions.sweepRateRpmPerS)} rpm a second`,
        ],
        [
          'Run from',
          pull.span === null
            ? null
            : `${speed(pull.span.fromRpm)} to ${speed(pull.span.toRpm)} rpm, ${pull.span.direction}`,
        ],
      ]}
    />
  );
}

/** What the cell's calibration did to the curve, and what it leaves open in it at its peak. */
function calibrationInWords(
  curve: Curve | null,
  figure: ReturnType<typeof useFigures>['figure'],
): string | null {
  if (curve === null) return null;
  const { doneOn, applied, relSd, constantSdNm } = curve.calibration;
  const half = 1.96 * Math.hypot(relSd * curve.peakTorque.value, constantSdNm);
  const within = `±\u202f${figure(half, 'torque')} at the peak`;
  if (doneOn === null) return `as stated, ${within}`;
  return `${dateInWords(doneOn)}, ${applied ? 'corrected' : 'not corrected'}, ${within}`;
}

/** `0.853, sd 0.01`; null where it is not known. */
function lambdaInWords(lambda: number | null, errorSd: number | null = null): string | null {
  if (lambda === null) return null;
  return errorSd === null ? setting(lambda, '') : `${setting(lambda, '')}, sd ${errorSd}`;
}
