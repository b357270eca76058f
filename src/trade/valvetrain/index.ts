export * from './float.ts';
export * from './lash.ts';
export * from './mass.ts';
export * from './rocker.ts';
export * from './spring.ts';
