export * from './spline.ts';
