import { interpolateViridis } from 'd3-scale-chromatic';

export type Scheme = 'light' | 'dark';
/** `wall` is the size that is read from across the room. */
export type Size = 'normal' | 'wall';

/** Every colour a chart may use, as a value, so that an exported picture needs no style sheet. */
export interface Palette {
  readonly scheme: Scheme;
  readonly paper: string;
  /** Behind menus, inputs and anything that lies on top of the paper. */
  readonly raised: string;
  readonly ink: string;
  readonly muted: string;
  readonly line: string;
  readonly grid: string;
  /** The region that chance alone can fill, and lines that cannot be told from it. */
  readonly chance: string;
  readonly chanceLine: string;
  readonly gain: string;
  readonly loss: string;
  /** Needs a second look; never without its word. */
  readonly look: string;
  readonly stop: string;
  /** The stretch of speeds the setting is judged over. */
  readonly band: string;
}

export const LIGHT: Palette = {
  scheme: 'light',
  paper: '#faf8f2',
  raised: '#fffefb',
  ink: '#1d2126',
  muted: '#5b5f64',
  line: '#d8d3c6',
  grid: '#ece8dd',
  chance: '#e3ded1',
  chanceLine: '#86817a',
  gain: '#1a69ac',
  loss: '#b04c08',
  look: '#7d5200',
  stop: '#a3262a',
  band: '#f0ecdf',
};

export const DARK: Palette = {
  scheme: 'dark',
  paper: '#171614',
  raised: '#211f1c',
  ink: '#eeeae0',
  muted: '#aca69a',
  line: '#3d3a34',
  grid: '#2b2925',
  chance: '#36332d',
  chanceLine: '#918b80',
  gain: '#72b6ef',
  loss: '#f09a56',
  look: '#e5b547',
  stop: '#ff938a',
  band: '#23211d',
};

export const PALETTES: Readonly<Record<Scheme, Palette>> = { light: LIGHT, dark: DARK };

/** The part of the ramp that stands out from each background by 3:1; the rest would drown in ink or in paper. */
const RAMP: Readonly<Record<Scheme, readonly [number, number]>> = {
  light: [0, 0.57],
  dark: [0.34, 0.97],
};

/**
 * Colour of a rung by the size of its setting, along one perceptual ramp.
 * A ladder of one rung takes the middle of the ramp.
 */
export function rungColour(
  setting: number,
  domain: readonly [number, number],
  palette: Palette,
): string {
  const [low, high] = domain;
  const share = high > low ? Math.min(1, Math.max(0, (setting - low) / (high - low))) : 0.5;
  const [from, to] = RAMP[palette.scheme];
  return hexOf(interpolateViridis(from + (to - from) * share));
}

/** Mixes two `#rrggbb` colours; share 0 is the first. */
export function mix(first: string, second: string, share: number): string {
  const channel = (colour: string, at: number) => Number.parseInt(colour.slice(at, at + 2), 16);
  return `#${[1, 3, 5]
    .map((at) => Math.round(channel(first, at) * (1 - share) + channel(second, at) * share))
    .map((value) => value.toString(16).padStart(2, '0'))
    .join('')}`;
}

/** Fill for a loss of the given share (0 none, 1 the most the map shows): paper, deepening to the colour of loss. */
export function lossFill(share: number, palette: Palette): string {
  const strongest = palette.scheme === 'light' ? 0.62 : 0.52;
  return mix(palette.paper, palette.loss, strongest * Math.min(1, Math.max(0, share)) ** 0.8);
}

/**
 * Colour of a difference of the given share (−1 the first side's most, +1 the other's): along a two-sided ramp, blue
 * against orange, which is told apart without red or green. `ahead` chooses the side where the share is nought.
 */
export function differenceColour(share: number, ahead: boolean, palette: Palette): string {
  const size = Math.min(1, Math.abs(share));
  return mix(palette.chanceLine, ahead ? palette.gain : palette.loss, 0.5 + 0.5 * size);
}

/** Contrast of two `#rrggbb` colours after WCAG 2 (relative luminance), 1 to 21. */
export function contrast(first: string, second: string): number {
  const [high, low] = [luminance(first), luminance(second)].sort((a, b) => b - a);
  return (high! + 0.05) / (low! + 0.05);
}

function luminance(colour: string): number {
  const [r, g, b] = [1, 3, 5].map((at) => {
    const share = Number.parseInt(colour.slice(at, at + 2), 16) / 255;
    return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
  });
  return 0.2126 * r! + 0.7152 * g! + 0.0722 * b!;
}

function hexOf(colour: string): string {
  if (colour.startsWith('#')) return colour;
  const channels = colour.match(/\d+/g)!.slice(0, 3).map(Number);
  return `#${channels.map((value) => value.toString(16).padStart(2, '0')).join('')}`;
}
