/**
 * Every word of a picture, as data: a picture is drawn on a page where no catalogue is at hand, so its words travel in
 * it. What stands in braces is put in by the chart.
 */

/** A text that holds each of the places named, in whatever order its language wants them. */
export type Saying<Place extends string> = (
  Place extends string
    ? (text: `${string}{${Place}}${string}`) => void
    : never
) extends (text: infer Text) => void
  ? Text
  : never;

export interface ChartWords {
  readonly decimalComma: boolean;
  /** Unit of engine speed. */
  readonly rpm: string;
  readonly torque: string;
  readonly power: string;
  /** Title of the axis, with its unit. */
  readonly speedAxis: string;
  /** What a cursor runs along. */
  readonly speed: string;
  readonly setting: string;
  readonly keys: Saying<'what'>;

  readonly range: Saying<'low' | 'high'>;
  readonly orMore: Saying<'value'>;
  readonly orLess: Saying<'value'>;
  readonly notKnownYet: string;
  /** What a gain is called, over the band. */
  readonly gains: Readonly<
    Record<'real' | 'small' | 'cannot be told from chance' | 'loss', string>
  >;
  readonly chance: string;
  readonly chanceCould: string;

  readonly curves: {
    readonly summary: Saying<'all'>;
    readonly most: Saying<'name' | 'torque' | 'power'>;
    readonly notHere: Saying<'name'>;
  };
  readonly response: {
    readonly summary: Saying<'best' | 'left' | 'limit' | 'pulls'>;
    readonly left: Saying<'settings'>;
    readonly leftFor: Saying<'value' | 'use'>;
    readonly nothingLeft: string;
    readonly limitSentence: Saying<'value'>;
    readonly bestUnknown: string;
    readonly bestOpen: Saying<'range'>;
    readonly best: Saying<'value' | 'range'>;
    readonly knee: Saying<'value'>;
    readonly limit: Saying<'value'>;
    readonly unknownAt: Saying<'at'>;
    readonly reading: Saying<'at' | 'power' | 'range' | 'lost'>;
  };
  readonly gain: {
    readonly summary: Saying<'all'>;
    /** Between the two settings of a step. */
    readonly to: string;
    readonly step: Saying<'from' | 'to'>;
    readonly notRun: Saying<'step'>;
    readonly alsoChanged: Saying<'what'>;
    readonly also: Saying<'what'>;
  };
  readonly difference: {
    readonly summary: Saying<'all'>;
    readonly less: Saying<'one' | 'other'>;
    readonly overBand: Saying<'percent'>;
    readonly crossingAt: Saying<'speed'>;
    readonly cross: Saying<'speed'>;
    readonly ahead: Saying<'name'>;
    readonly ofMeanPower: Saying<'word'>;
    readonly notRun: Saying<'name'>;
  };
}

/** The words of the screens. */
export const CHARTS_IN_ENGLISH: ChartWords = {
  decimalComma: false,
  rpm: 'rpm',
  torque: 'torque',
  power: 'power',
  speedAxis: 'engine speed, rpm',
  speed: 'Engine speed',
  setting: 'Setting',
  keys: '{what}: arrow keys read the picture',
  range: '{low} to {high}',
  orMore: '{value} or more',
  orLess: '{value} or less',
  notKnownYet: 'not known yet',
  gains: {
    real: 'real',
    small: 'small',
    'cannot be told from chance': 'cannot be told from chance',
    loss: 'loss',
  },
  chance: 'chance',
  chanceCould: 'chance could do it',
  curves: {
    summary: 'Torque and power against engine speed. {all}.',
    most: '{name}: most torque {torque}, most power {power}',
    notHere: '{name}: not run here',
  },
  response: {
    summary: 'Power against setting. Best {best}. {left}.{limit} Pulls: {pulls}.',
    left: 'Left: {settings}',
    leftFor: '{value} for {use}',
    nothingLeft: 'No setting to leave yet',
    limitSentence: ' Limit {value}.',
    bestUnknown: 'the best is not known yet',
    bestOpen: 'best: {range}',
    best: 'best {value}, {range}',
    knee: 'knee {value}',
    limit: 'limit {value}',
    unknownAt: '{at}: nothing known here',
    reading: '{at}: {power} ({range}), {lost} below the top',
  },
  gain: {
    summary: 'What each step gained. {all}.',
    to: 'to',
    step: '{from} to {to}',
    notRun: '{step}: not run at this speed',
    alsoChanged: ', also changed: {what}',
    also: 'also: {what}',
  },
  difference: {
    summary: 'Difference by engine speed. {all}.',
    less: '{one} less {other}',
    overBand: '{percent} of mean power over the band',
    crossingAt: ', crossing at {speed}',
    cross: 'cross at {speed}',
    ahead: '{name} ahead',
    ofMeanPower: 'of mean power: {word}',
    notRun: '{name}: not run by both at this speed',
  },
};

/** A saying with its places filled; what is put in is never read for places of its own. */
export const said = (text: string, parts: Readonly<Record<string, string>>): string =>
  text.replace(/\{(\w+)\}/g, (place, name: string) => parts[name] ?? place);
