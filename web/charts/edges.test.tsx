import { renderToStaticMarkup } from 'react-dom/server';
import { describe, expect, it } from 'vitest';
import { ANSWER } from '../ladder/fixture.test-data.ts';
import { BandPicker } from './BandPicker.tsx';
import { CurveChart, type CurveSeries } from './CurveChart.tsx';
import { GainChart } from './GainChart.tsx';
import { LossMap } from './LossMap.tsx';
import { outside } from './numbers.ts';
import { ResponseChart } from './ResponseChart.tsx';

const power = outside('power', 'metric');
const none = { value: null, low: null, high: null };

/** A picture that holds no figure that is not one. */
function clean(markup: string): string {
  expect(markup).not.toMatch(/NaN|Infinity|undefined|null/);
  return markup;
}

const curve = (more: Partial<CurveSeries>): CurveSeries => ({
  id: 'a',
  label: 'a',
  setting: null,
  speedRpm: [],
  torqueNm: [],
  lowNm: [],
  highNm: [],
  powerW: [],
  ...more,
});

describe('pictures of next to nothing', () => {
  it.each([
    ['no series', []],
    ['a series without points', [curve({})]],
    [
      'one point',
      [curve({ speedRpm: [3000], torqueNm: [100], lowNm: [99], highNm: [101], powerW: [31_416] })],
    ],
    [
      'a flat line with a gap',
      [
        curve({
          speedRpm: [3000, 4000, 5000],
          torqueNm: [100, Number.NaN, 100],
          lowNm: [100, Number.NaN, 100],
          highNm: [100, Number.NaN, 100],
          powerW: [31_416, Number.NaN, 52_360],
        }),
      ],
    ],
  ] as const)('curves: %s', (_, series) => {
    clean(
      renderToStaticMarkup(
        <CurveChart
          width={300}
          height={200}
          series={series}
          units="us"
          cursorRpm={4000}
          onCursor={() => {}}
        />,
      ),
    );
  });

  it('response: one pull, and none at all', () => {
    const one = ANSWER.dots.slice(0, 1);
    for (const dots of [one, []]) {
      const markup = clean(
        renderToStaticMarkup(
          <ResponseChart
            width={300}
            height={250}
            answer={{
              dots,
              best: none,
              knee: none,
              limit: null,
              response: { setting: [], meanPowerW: [], lowW: [], highW: [] },
            }}
            uses={[]}
            unit="deg"
            axis="lead"
            safeDirection="lower"
            power={power}
            cursor={22}
            onCursor={() => {}}
          />,
        ),
      );
      expect(markup).toContain('the best is not known yet');
    }
  });

  it('gains: a band that lies off the speeds run, and a cursor off the zoom', () => {
    clean(
      renderToStaticMarkup(
        <GainChart
          width={300}
          height={200}
          steps={ANSWER.steps}
          unit="deg"
          settings={[22, 22]}
          band={[8000, 9000]}
          full={[3100, 7300]}
          cursorRpm={9999}
          zoom={{ domain: [4000, 5000], zoomed: true, set: () => {} }}
          onCursor={() => {}}
          onBand={() => {}}
        />,
      ),
    );
  });

  it('map: ends of the best that are open, a limit everywhere', () => {
    const map = ANSWER.map!;
    clean(
      renderToStaticMarkup(
        <LossMap
          width={300}
          height={200}
          map={{
            ...map,
            bestLow: map.bestLow.map(() => null),
            bestHigh: map.bestHigh.map(() => null),
            bestSetting: map.bestSetting.map(() => 99),
          }}
          limit={10}
          limitBySpeed={null}
          rungs={[24]}
          unit="deg"
          axis="lead"
          safeDirection="higher"
          left={null}
          band={[5000, 7200]}
          cursor={{ x: 5000, y: 25 }}
          onCursor={() => {}}
        />,
      ),
    );
  });

  it('band: narrower than its grips', () => {
    clean(
      renderToStaticMarkup(
        <BandPicker width={60} full={[3000, 3100]} band={[3000, 3100]} onBand={() => {}} />,
      ),
    );
  });
});
