export * from './grade.ts';
export * from './joint.ts';
export * from './stretch.ts';
export * from './thread.ts';
export * from './torque.ts';
export * from './utilisation.ts';
