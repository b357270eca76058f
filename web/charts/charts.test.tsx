import { renderToStaticMarkup } from 'react-dom/server';
import { describe, expect, it } from 'vitest';
import { ANSWER, INPUT, KIND } from '../ladder/fixture.test-data.ts';
import { shownOf } from '../table/shown.test-data.ts';
import { ChartStyleContext, chartStyle } from '../theme/chart-style.ts';
import { DARK, LIGHT } from '../theme/palette.ts';
import { CurveChart, type CurveSeries } from './CurveChart.tsx';
import { curveTable } from './curve-words.ts';
import { GainChart } from './GainChart.tsx';
import { differenceOf, stretches } from './gain-segments.ts';
import { gainTable } from './gain-words.ts';
import { LossMap } from './LossMap.tsx';
import { crossingOf, lossTable } from './loss-grid.ts';
import { outside } from './numbers.ts';
import { ResponseChart } from './ResponseChart.tsx';
import { responseTable } from './response-words.ts';
import { textWidth } from './text.ts';

const power = outside('power', 'us');
const numbersIn = (text: string) => (text.match(/-?\d+(\.\d+)?/g) ?? []).map(Number);

/** Value of an attribute in the first element that carries `marker`. */
function attribute(markup: string, marker: string, name: string): string {
  const at = markup.indexOf(marker);
  expect(at, marker).toBeGreaterThan(-1);
  const found = new RegExp(` ${name}="([^"]*)"`).exec(markup.slice(at));
  expect(found, `${name} after ${marker}`).not.toBeNull();
  return found![1]!;
}

/** The rectangle a map draws in: what its clip path lets through. */
function plotOf(markup: string) {
  const clip = markup.slice(markup.indexOf('<clipPath'));
  const [left, top, width, height] = ['x', 'y', 'width', 'height'].map((name) =>
    Number(attribute(clip, '<rect', name)),
  ) as [number, number, number, number];
  return { left, top, width, height };
}

describe('the response', () => {
  const draw = (more: object = {}) =>
    renderToStaticMarkup(
      <ResponseChart
        width={500}
        height={400}
        answer={ANSWER}
        uses={[
          { name: 'bursts', value: 26, chosen: true },
          { name: 'sustained', value: 24, chosen: false },
        ]}
        unit="deg"
        axis="lead"
        safeDirection="lower"
        power={power}
        cursor={null}
        {...more}
      />,
    );

  it('puts each dot on one straight scale of power and of setting', () => {
    const markup = draw();
    const dots = ANSWER.dots.map((dot) => {
      const group = markup.slice(markup.indexOf(`data-pull="${dot.id}"`));
      const circle = group.slice(group.indexOf('<circle'));
      return {
        setting: dot.setting,
        hp: power.of(dot.meanPowerW.value),
        x: Number(attribute(circle, '<circle', 'cx')),
        y: Number(attribute(circle, '<circle', 'cy')),
      };
    });
    const [first, second, ...rest] = dots;
    const perDegree = (second!.x - first!.x) / (second!.setting - first!.setting);
    const perHp = (second!.y - first!.y) / (second!.hp - first!.hp);
    expect(perDegree).toBeGreaterThan(0);
    expect(perHp).toBeLessThan(0);
    for (const dot of rest) {
      expect(dot.x).toBeCloseTo(first!.x + (dot.setting - first!.setting) * perDegree, 1);
      expect(dot.y).toBeCloseTo(first!.y + (dot.hp - first!.hp) * perHp, 1);
    }
  });

  it.each([
    ['whole figures', 286_000, 6000],
    ['tenths', 64_000, 800],
    ['hundredths', 9_000, 60],
  ])('leaves room for the figures of its axis: %s', (_, top, fall) => {
    const watts = ANSWER.response.setting.map((at) => top - fall * ((at - 28) / 8) ** 2);
    const markup = draw({
      answer: {
        ...ANSWER,
        dots: [],
        response: { ...ANSWER.response, meanPowerW: watts, lowW: watts, highW: watts },
      },
    });
    const ends = [...markup.matchAll(/<text x="([\d.]+)"[^>]*text-anchor="end"[^>]*>([^<]*)</g)];
    expect(ends.length).toBeGreaterThan(4);
    for (const [, x, words] of ends) {
      expect(Number(x) - textWidth(words!, 11.5), words).toBeGreaterThanOrEqual(0);
    }
  });

  it('draws the whisker from the low to the high end of its pull', () => {
    const markup = draw();
    const line = markup.slice(markup.indexOf('data-pull="p3"'));
    const low = Number(attribute(line, '<line', 'y1'));
    const high = Number(attribute(line, '<line', 'y2'));
    expect(high).toBeLessThan(low);
  });

  it('hatches beyond the limit only where there is one', () => {
    expect(draw()).not.toContain('data-limit');
    const limited = draw({ answer: { ...ANSWER, limit: { value: 30, low: 29, high: 31 } } });
    const zone = limited.slice(limited.indexOf('data-limit'));
    const dot30 = limited.slice(limited.indexOf('data-pull="p5"'));
    expect(Number(attribute(zone, '<rect', 'x'))).toBeCloseTo(
      Number(attribute(dot30.slice(dot30.indexOf('<circle')), '<circle', 'cx')),
      1,
    );
  });

  it('keeps the names of knee and limit clear of the limit line and of every pull', () => {
    const [from, to] = [ANSWER.dots[0]!.setting, ANSWER.dots.at(-1)!.setting];
    for (let value = from + 0.5; value < to; value += 0.25) {
      const knee = { value: value - 0.1, low: value - 1, high: value + 1 };
      const markup = draw({
        answer: { ...ANSWER, knee, limit: { value, low: value - 1, high: value + 1 } },
      });
      const zone = markup.slice(markup.indexOf('data-limit'));
      const lineX = Number(attribute(zone, '<line', 'x1'));
      const kneeAt = markup.indexOf('data-knee');
      if (kneeAt !== -1) {
        const name = markup.slice(kneeAt);
        const px = Number(attribute(name, '<text', 'font-size'));
        const half = textWidth(`knee ${knee.value.toFixed(1)}°`, px) / 2;
        const middle = Number(attribute(name, '<text', 'x'));
        expect(Math.abs(middle - lineX), `knee ${knee.value}`).toBeGreaterThan(half);
      }
      const px = Number(attribute(zone, '<text', 'font-size'));
      const [left, middle] = [
        Number(attribute(zone, '<text', 'x')),
        Number(attribute(zone, '<text', 'y')) - px * 0.36,
      ];
      const right = left + textWidth(`limit ${value.toFixed(1)}°`, px, true);
      expect(lineX < left || lineX > right, `limit ${value}`).toBe(true);
      for (const { id } of ANSWER.dots) {
        const dot = markup.slice(markup.indexOf(`data-pull="${id}"`));
        const circle = dot.slice(dot.indexOf('<circle'));
        const [x, y] = ['cx', 'cy'].map((key) => Number(attribute(circle, '<circle', key)));
        const touches = x! > left && x! < right && Math.abs(y! - middle) < px * 0.7;
        expect(touches, `limit ${value} and pull ${id}`).toBe(false);
      }
    }
  });

  it('hatches the low side of a setting whose safe side is high', () => {
    const limited = draw({
      safeDirection: 'higher',
      answer: { ...ANSWER, limit: { value: 30, low: 29, high: 31 } },
    });
    const rect = limited.slice(limited.indexOf('data-limit'));
    const line = Number(attribute(rect, '<line', 'x1'));
    expect(
      Number(attribute(rect, '<rect', 'x')) + Number(attribute(rect, '<rect', 'width')),
    ).toBeCloseTo(line, 1);
  });

  it('says an open best as open, and names the knee only when both its ends are closed', () => {
    const open = draw({
      answer: {
        ...ANSWER,
        best: { value: null, low: 29.5, high: null },
        knee: { value: 29, low: 28, high: null },
      },
    });
    expect(open).toContain('best: 29.5 or more');
    expect(open).not.toContain('data-knee');
    expect(draw()).toContain('data-knee');
  });

  it('gives the same numbers as a table', () => {
    const { rows } = shownOf(responseTable({ answer: ANSWER, unit: 'deg', power }));
    expect(rows[0]).toEqual(['pull p1', '22°', expect.any(String), expect.any(String)]);
    expect(Number(rows[0]![2])).toBeCloseTo(power.of(ANSWER.dots[0]!.meanPowerW.value), 1);
  });
});

describe('the gain of each step', () => {
  const step = ANSWER.steps[2]!;

  it('turns grey exactly where the data say it cannot be told from chance', () => {
    const found = stretches(differenceOf(step.bySpeed));
    const kinds = new Set(found.map((stretch) => stretch.telling));
    expect(kinds).toEqual(new Set(['gain', 'chance', 'loss']));
    step.bySpeed.speedRpm.forEach((speed, at) => {
      const expected = !step.bySpeed.toldFromChance[at]
        ? 'chance'
        : step.bySpeed.gainPercent[at]! >= 0
          ? 'gain'
          : 'loss';
      const holding = found.filter((stretch) => stretch.x.includes(speed));
      expect(holding.map((stretch) => stretch.telling)).toEqual([expected]);
    });
    for (let at = 1; at < found.length; at += 1) {
      expect(found[at]!.x[0]).toBe(found[at - 1]!.x.at(-1));
      expect(found[at]!.telling).not.toBe(found[at - 1]!.telling);
    }
  });

  it('draws those stretches in the colours of gain, loss and chance, and no others', () => {
    const markup = renderToStaticMarkup(
      <GainChart
        width={500}
        height={400}
        steps={ANSWER.steps}
        unit="deg"
        settings={[22, 32]}
        band={[5000, 7200]}
        full={[3100, 7300]}
        cursorRpm={null}
      />,
    );
    const colours = { gain: LIGHT.gain, loss: LIGHT.loss, chance: LIGHT.chanceLine };
    const groups = markup.match(/<g data-telling="\w+">.*?<\/g>/g)!;
    const expected = ANSWER.steps.flatMap((one) =>
      stretches(differenceOf(one.bySpeed)).map((stretch) => stretch.telling),
    );
    expect(groups.map((group) => /data-telling="(\w+)"/.exec(group)![1])).toEqual(expected);
    groups.forEach((group, at) => {
      expect(group).toContain(`stroke="${colours[expected[at]!]}"`);
    });
  });

  it('follows the palette it is given', () => {
    const markup = renderToStaticMarkup(
      <ChartStyleContext value={chartStyle('dark', 'wall')}>
        <GainChart
          width={500}
          height={400}
          steps={ANSWER.steps}
          unit="deg"
          settings={[22, 32]}
          band={[5000, 7200]}
          full={[3100, 7300]}
          cursorRpm={5000}
        />
      </ChartStyleContext>,
    );
    expect(markup).toContain(DARK.gain);
    expect(markup).not.toContain(LIGHT.ink);
  });

  it('tabulates each step by speed with its word over the band', () => {
    const { columns, rows } = shownOf(gainTable(ANSWER.steps, 'deg', 500));
    expect(columns).toHaveLength(2 + 3 * ANSWER.steps.length);
    expect(rows[0]![4]).toBe('real');
    const at6000 = rows.find((row) => row[1] === '6000')!;
    expect(at6000[2]).toBe(`+${step0At(6000).toFixed(1)}`);
  });

  function step0At(speed: number): number {
    const { speedRpm, gainPercent } = ANSWER.steps[0]!.bySpeed;
    return gainPercent[speedRpm.indexOf(speed)]!;
  }
});

describe('the map of loss', () => {
  const map = ANSWER.map!;

  it('finds where a parabola reaches a level, on both sides', () => {
    // loss = 0.14·d² reaches 2 % at d = sqrt(2 / 0.14) = 3.78
    const best = 24 + ((5000 - 3100) / 4200) * 6.5;
    expect(crossingOf(map, 5000, 2, 1)).toBeCloseTo(best + Math.sqrt(2 / 0.14), 1);
    expect(crossingOf(map, 5000, 2, -1)).toBeCloseTo(best - Math.sqrt(2 / 0.14), 1);
    expect(crossingOf(map, 5000, 99, 1)).toBeNull();
  });

  it('draws the recommended line at its setting over the speeds of its use', () => {
    const markup = renderToStaticMarkup(
      <LossMap
        width={500}
        height={400}
        map={map}
        limit={null}
        limitBySpeed={null}
        rungs={[22, 24, 26, 28, 30, 32]}
        unit="deg"
        axis="lead"
        safeDirection="lower"
        left={{ name: 'bursts', value: 26, speedsRpm: [5000, 7200] }}
        band={[5000, 7200]}
        cursor={null}
      />,
    );
    const line = markup.slice(markup.indexOf('data-left="bursts"'));
    const [x1, x2] = ['x1', 'x2'].map((name) => Number(attribute(line, 'data-left', name)));
    // The plot is 4200 rev/min wide; 2200 of them are the band.
    const plotWidth = plotOf(markup).width;
    expect(x2! - x1!).toBeCloseTo((plotWidth * 2200) / 4200, 1);
    expect(attribute(line, 'data-left', 'y1')).toBe(attribute(line, 'data-left', 'y2'));
  });

  it('shades a level exactly where the loss reaches it', () => {
    const markup = renderToStaticMarkup(
      <LossMap
        width={500}
        height={400}
        map={map}
        limit={null}
        limitBySpeed={null}
        rungs={[22]}
        unit="deg"
        axis="lead"
        safeDirection="lower"
        left={null}
        band={[5000, 7200]}
        cursor={null}
      />,
    );
    const path = attribute(markup, 'data-level="2"', 'd');
    const plot = plotOf(markup);
    let seen = 0;
    for (const part of path.split(/[MLZ]/)) {
      const [px, py] = numbersIn(part);
      if (px === undefined || py === undefined) continue;
      const speed = 3100 + ((px - plot.left) / plot.width) * 4200;
      const lead = 35 - ((py - plot.top) / plot.height) * 15;
      const edge = speed < 3101 || speed > 7299 || lead < 20.01 || lead > 34.99;
      if (edge) continue;
      seen += 1;
      const best = 24 + ((speed - 3100) / 4200) * 6.5;
      expect(0.14 * (lead - best) ** 2).toBeCloseTo(2, 1);
    }
    expect(seen).toBeGreaterThan(20);
  });

  it('tabulates the best and what each rung loses', () => {
    const { columns, rows } = shownOf(lossTable(map, [22, 28, 22], 'deg', 1000));
    expect(columns.slice(3)).toEqual(['lost at 22°, %', 'lost at 28°, %']);
    expect(rows.map((row) => row[0])).toEqual(['4000', '5000', '6000', '7000']);
  });
});

describe('torque and power', () => {
  const speedRpm = [3000, 4000, 5000, 6000];
  const series: CurveSeries[] = [
    {
      id: 'a',
      label: '26°',
      setting: 26,
      speedRpm,
      torqueNm: [400, 420, 430, 410],
      lowNm: [395, 415, 425, 405],
      highNm: [405, 425, 435, 415],
      powerW: speedRpm.map((rpm, at) => ([400, 420, 430, 410][at]! * rpm * Math.PI) / 30),
    },
  ];

  it('draws torque and power on one axis of speed, the line through the middle of its band', () => {
    const markup = renderToStaticMarkup(
      <CurveChart width={600} height={500} series={series} units="metric" cursorRpm={null} />,
    );
    const panels = ['torque', 'power'].map((kind) =>
      markup.slice(markup.indexOf(`data-panel="${kind}"`)),
    );
    const xs = panels.map((panel) =>
      numbersIn(attribute(panel, 'data-pull="a"', 'd')).filter((_, at) => at % 2 === 0),
    );
    expect(xs[0]).toEqual(xs[1]);
    for (const panel of panels) {
      const line = numbersIn(attribute(panel, 'data-pull="a"', 'd')).filter(
        (_, at) => at % 2 === 1,
      );
      const band = numbersIn(/<path d="([^"]*)" fill="#/.exec(panel)![1]!).filter(
        (_, at) => at % 2 === 1,
      );
      const half = band.length / 2;
      line.forEach((y, at) => {
        expect((band[at]! + band[2 * half - 1 - at]!) / 2).toBeCloseTo(y, 1);
      });
    }
  });

  it('tabulates in the units asked for', () => {
    const metric = shownOf(curveTable(series, 'metric', 1000)).rows;
    expect(metric[0]).toEqual(['3000', '400.0', '395.0 to 405.0', '125.7']);
    // 400 N·m = 295.02 lb-ft (1 lbf = 4.4482216152605 N, 1 ft = 0.3048 m); 125.66 kW = 168.52 hp
    const us = shownOf(curveTable(series, 'us', 1000)).rows;
    expect(us[0]![1]).toBe('295.0');
    expect(us[0]![3]).toBe('168.5');
  });
});

describe('what is said aloud', () => {
  it('names every pull and the settings left', () => {
    const markup = renderToStaticMarkup(
      <ResponseChart
        width={500}
        height={400}
        answer={ANSWER}
        uses={[{ name: 'bursts', value: 26, chosen: true }]}
        unit={KIND.unit}
        axis="lead"
        safeDirection="lower"
        power={power}
        cursor={28}
        onCursor={() => {}}
      />,
    );
    const label = attribute(markup, '<svg', 'aria-label');
    expect(label).toContain('26° for bursts');
    for (const pull of INPUT.pulls) expect(label).toContain(`${pull.setting}°`);
    expect(attribute(markup, 'role="slider"', 'aria-valuetext')).toMatch(/^28\.0°: \d+/);
  });
});
