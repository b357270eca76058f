export * from './certainty.ts';
export * from './header.ts';
export * from './helmholtz.ts';
export * from './runner.ts';
