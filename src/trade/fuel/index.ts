export * from './blend.ts';
export * from './cautions.ts';
export * from './composition.ts';
export * from './demand.ts';
export * from './mixture.ts';
export * from './table.ts';
export * from './types.ts';
