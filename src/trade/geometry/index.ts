export * from './compression.ts';
export * from './displacement.ts';
export * from './dynamic.ts';
export * from './inertia.ts';
export * from './kinematics.ts';
export * from './quench.ts';
