export * from './materials.ts';
export * from './measure.ts';
export * from './shippedWindows.ts';
export * from './thermal.ts';
export * from './windows.ts';
