export * from './answer.ts';
export * from './deadWeights.ts';
export * from './due.ts';
export * from './line.ts';
export * from './measured.ts';
export * from './readings.ts';
export * from './sensor.ts';
export * from './torqueArm.ts';
