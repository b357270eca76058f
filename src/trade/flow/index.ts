export * from './airDemand.ts';
export * from './bench.ts';
export { DRY_AIR, EXHAUST_GAS, type Gas, gasDensityKgPerM3, soundMPerS } from './gas.ts';
export * from './injector.ts';
export * from './mach.ts';
export * from './restriction.ts';
export * from './throttle.ts';
