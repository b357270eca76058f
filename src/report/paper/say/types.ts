/** Every word of the report. A language is one object of this form; nothing of the report is said elsewhere. */
import type { Verdict } from '../../../build/index.ts';
import type { ChartWords } from '../../../chartWords.ts';
import type { ReadmeSaying } from '../../../figures.ts';
import type { FigureWords } from './figuresIn.ts';
import type { Phrase } from './phrases.ts';

export interface Catalogue {
  readonly words: Words;
  /** What the computing rooms say; null: they speak this language. */
  readonly spoken: {
    readonly figures: FigureWords;
    readonly phrases: readonly Phrase[];
  } | null;
}

export interface Words {
  /** BCP 47. */
  readonly language: string;
  /** How the language calls itself. */
  readonly name: string;
  readonly decimalComma: boolean;
  /** `2026-05-17` as people write it. */
  date(iso: string): string;
  readonly title: string;
  readonly page: readonly [string, string];
  /** On the page for the owner: opens and folds all its parts. */
  readonly parts: { readonly open: string; readonly fold: string };
  foot(shop: string, engine: string): string;
  readonly notKnown: string;
  readonly yes: string;
  readonly no: string;
  /** `412 hp (405 to 419)`. */
  interval(value: string, low: string, high: string, unit: string): string;
  at(speed: string): string;
  range(from: string, to: string, unit: string): string;
  list(items: readonly string[]): string;
  /** Those inside the pictures. */
  readonly charts: ChartWords;

  /** Of a pull drawn in its own time. */
  readonly replay: {
    time: string;
    speed: string;
    /** In whose time a line is drawn. `line`: empty where it is the only one; `pull`: empty where the line says it. */
    inTime(parts: { line: string; pull: string; day: string }): string;
    /** Of a line whose own time is not known. */
    atSameSpeed(line: string): string;
    readme: ReadmeSaying;
  };

  readonly head: {
    engine: string;
    serial: string;
    build: string;
    owner: string;
    madeOn: string;
    madeBy: string;
    displacement: string;
    cylinders: string;
    compressionRatio: string;
    fuel: string;
    tested: string;
  };
  /** The demo of the program: nobody and nothing in it is real. */
  readonly invented: string;

  readonly findings: {
    title: string;
    /** What the engine gave. */
    peakPower: string;
    peakTorque: string;
    meanPower: string;
    meanTorque: string;
    /** What the figures above it rest on. */
    basis(said: { air: string; pulls: number }): string;
    air(standard: string): string;
    noCurve: string;
    /** Above peaks that somebody typed, of a build without a curve. */
    typedPeaks: string;
    lambda: string;
    /** What air typed peaks were said to stand in. */
    typedAir(air: string): string;
    moreTyped(count: number): string;
    curve: string;
    curveCaption(pulls: string): string;
    before: string;
    now: string;
    settings: string;
    noDecision: string;
    left(parts: { setting: string; use: string; who: string; date: string; why: string }): string;
    advised(value: string | null): string;
    gainTitle(before: string): string;
    gain(parts: {
      before: string;
      percent: string;
      low: string;
      high: string;
      band: string;
      word: 'real' | 'small' | 'cannot be told from chance' | 'loss';
    }): string;
    region(parts: { gain: boolean; from: string; to: string; most: string; at: string }): string;
    noRegion: string;
    crossing(speed: string, low: string, high: string): string;
    noComparison: string;
    cautions: string;
    noCautions: string;
    /** Shown where a sentence of the computing is not in the catalogue and so stands in English. */
    inEnglish: string;
    limits: string;
  };

  readonly settings: {
    title: string;
    lead: string;
    lambda: string;
    best: string;
    knee: string;
    limit: string;
    notWatched: string;
    forUse(use: string): string;
    what: string;
    setting: string;
    interval: string;
    /** An interval that is known on one side alone. */
    above(setting: string): string;
    below(setting: string): string;
    givesUp: string;
    why: string;
    step: string;
    gain: string;
    word: string;
    words: Readonly<Record<'real' | 'small' | 'cannot be told from chance' | 'loss', string>>;
  };

  readonly evidence: {
    title: string;
    how: string;
    day(name: string): string;
    date: string;
    cell: string;
    inertia: string;
    inertiaUnknown: string;
    calibrated: string;
    calibratedOn(date: string, due: string | null): string;
    neverCalibrated: string;
    air: string;
    fuel: string;
    octane: string;
    batch: string;
    configuration: string;
    /** Labels of what the day says of how the engine stood, by the name it has in the record. */
    configured: Readonly<Record<string, string>>;
    notes: string;
    pulls: string;
    pullsNote: string;
    pull: string;
    pullsNamed(numbers: readonly string[]): string;
    unnamedDay: string;
    file: string;
    lead: string;
    lambda: string;
    airPressure: string;
    airTemperature: string;
    humidity: string;
    factor: string;
    sweep: string;
    peakTorque: string;
    peakPower: string;
    counted: string;
    inCurve: string;
    usedToo: string;
    leftOut(why: string): string;
    aborted: string;
    noPull: string;
    marks: string;
    curves(day: string): string;
    curvesCaption: string;
    response(ladder: string): string;
    responseCaption(unit: string): string;
    gains(ladder: string): string;
    gainsCaption: string;
    steps: string;
    bySpeed: string;
    bySpeedNote(standard: string): string;
    speed: string;
    torque: string;
    power: string;
    low: string;
    high: string;
  };

  readonly sheet: {
    title: string;
    none: string;
    summary(counts: Readonly<Record<Verdict, number>>): string;
    verdicts: Readonly<Record<Verdict, string>>;
    checks: string;
    check: string;
    verdict: string;
    value: string;
    window: string;
    source: string;
    figures: string;
    figure: string;
    toMeasure: string;
    remedy: string;
    below(value: string): string;
    above(value: string): string;
  };

  readonly changes: {
    title(before: string): string;
    none: string;
    noSheets: string;
    parts: string;
    added(name: string, where: string): string;
    gone(name: string, where: string): string;
    moved(name: string, from: string, to: string): string;
    verdicts: string;
    verdictWent(before: string, after: string): string;
    computed: string;
    measured: string;
    /** What a person wrote or chose, in words. */
    stated: string;
    onlyOne(count: number): string;
    tables(labels: string): string;
    what: string;
    before: string;
    after: string;
    difference: string;
    percent: string;
    gainBySpeed(name: string): string;
    gainBySpeedCaption: string;
  };

  readonly plan: {
    title(day: string): string;
    none: string;
    made(date: string): string;
    ticked(by: string, at: string): string;
    open: string;
    struck(by: string, reason: string): string;
    /** Of an item that says something else than when it was ticked. */
    changed: string;
  };

  readonly notes: string;
  readonly check: {
    title: string;
    how: string;
    key: string;
    keyName: string;
    versions: string;
    standard: string;
    recordings: string;
    recording: string;
    digest: string;
    bands: string;
  };
}
