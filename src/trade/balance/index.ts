export * from './bobweight.ts';
export * from './layouts.ts';
export * from './matching.ts';
export * from './reciprocating.ts';
export * from './residual.ts';
