export * from './draws.ts';
export * from './leastSquares.ts';
export * from './penalised.ts';
export type { PenaltyOrder } from './penalty.ts';
export * from './quantile.ts';
export * from './robust.ts';
export * from './spline.ts';
export * from './studentT.ts';
export type { Noise, Series } from './wander.ts';
