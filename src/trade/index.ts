export * from './air/atmosphere.ts';
export * from './air/density.ts';
export * from './air/saturation.ts';
export * from './air/vapour.ts';
export * from './correction/index.ts';
