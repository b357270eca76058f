/** What a picture of a report is asked to show; the browser's side draws it, with the very charts of its screens. */
import type { ChartWords, Saying } from './chartWords.ts';
import type { Difference } from './compare/difference.ts';
import type { PairAnswer } from './compare/types.ts';
import type { LadderAnswer, StepAnswer } from './ladder/types.ts';
import type { Pace } from './pull/reached.ts';
import type { UnitSystem } from './units/types.ts';

interface Figure {
  readonly id: string;
  readonly title: string;
  /** Engine, build, day, air: which scenario the picture is of. */
  readonly scenario: string;
  readonly units: UnitSystem;
  /** Those inside the picture, in the language of its report. */
  readonly words: ChartWords;
}

/** Torque and power against speed. Lists share the places of `speedRpm`. */
export interface CurvesFigure extends Figure {
  readonly kind: 'curves';
  readonly series: readonly {
    readonly id: string;
    readonly label: string;
    readonly setting: number | null;
    readonly faint?: boolean;
    readonly speedRpm: readonly number[];
    readonly torqueNm: readonly number[];
    readonly lowNm: readonly number[];
    readonly highNm: readonly number[];
    readonly powerW: readonly number[];
  }[];
  readonly bandRpm: readonly [number, number] | null;
}

/** Mean power against the setting of a ladder. */
export interface ResponseFigure extends Figure {
  readonly kind: 'response';
  readonly answer: Pick<LadderAnswer, 'response' | 'dots' | 'best' | 'knee' | 'limit'>;
  readonly uses: readonly {
    readonly name: string;
    readonly value: number;
    readonly chosen: boolean;
  }[];
  readonly settingUnit: string;
  readonly axis: string;
  readonly safeDirection: 'lower' | 'higher';
}

/** What each step of a ladder gained, by speed. */
export interface GainFigure extends Figure {
  readonly kind: 'gain';
  readonly steps: readonly StepAnswer[];
  readonly settingUnit: string;
  readonly settings: readonly [number, number];
  readonly bandRpm: readonly [number, number];
  readonly fullRpm: readonly [number, number];
}

/** What a build has over the one before, by speed [%]. */
export interface DifferenceFigure extends Figure {
  readonly kind: 'difference';
  /** What the two are called in the picture. */
  readonly letter: string;
  readonly against: string;
  readonly difference: Difference;
  readonly crossings: PairAnswer['crossings'];
  readonly gain: PairAnswer['gain'];
  readonly word: PairAnswer['word'];
  readonly bandRpm: readonly [number, number];
}

export type FigureWanted = CurvesFigure | ResponseFigure | GainFigure | DifferenceFigure;

export interface DrawOptions {
  readonly width: number;
  readonly height: number;
  readonly scheme?: 'light' | 'dark';
  /** With title and scenario above it, on paper of its own. */
  readonly withCaption?: boolean;
  /** Letters by how much larger than on a screen, for a picture that is looked at small. */
  readonly larger?: number;
}

/** Draws a picture as the text of an SVG file. */
export type DrawFigure = (figure: FigureWanted, options: DrawOptions) => string;

/** A picture for showing a result: a headline, its figures large, one chart, the shop's mark. */
export interface ShownWanted {
  readonly title: string;
  readonly scenario: string;
  /** Figure and, smaller, what it is of. */
  readonly headlines: readonly (readonly [string, string])[];
  readonly figure: FigureWanted;
  readonly by: string;
  /** PNG or SVG as a data URL; only ever a picture in the picture. */
  readonly mark: string | null;
}

export type ReadmeSaying = Saying<
  'first' | 'last' | 'count' | 'perSecond' | 'size' | 'length' | 'sweep' | 'still'
>;

/** A pull drawn in its own time, to end as the picture that is shown. */
export interface ReplayWanted {
  readonly shown: ShownWanted & { readonly figure: CurvesFigure };
  /** The longest of the sweeps [s]. */
  readonly durationS: number;
  /** By series: its own time. Null: it is drawn at the speed that the first, which has its own, has reached. */
  readonly paces: Readonly<Record<string, Pace | null>>;
  /** In which time each line is drawn, a sentence a line. */
  readonly told: readonly string[];
  /** What the running figures are called. */
  readonly words: {
    readonly time: string;
    readonly speed: string;
    /** Beside numbered pictures of it. */
    readonly readme: ReadmeSaying;
  };
}

/** One picture of a replay; from `durationS` on it is the picture that is shown, to the byte. */
export type DrawReplay = (
  replay: ReplayWanted,
  size: { readonly width: number; readonly height: number },
  timeS: number,
) => string;

/** Draws it at exactly this size, its letters to be read on a thumbnail. */
export type DrawShown = (
  shown: ShownWanted,
  size: { readonly width: number; readonly height: number },
) => string;
