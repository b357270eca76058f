export { type AppOptions, createApp } from './app.ts';
export type { DemoLoader } from './firstRun.ts';
export { importRunFile } from './importRunFile.ts';
export { type RunningService, type StartOptions, startService, USUAL_PORT } from './start.ts';
export { type ImportedFile, importFile } from './work/imports.ts';
export { Readings } from './work/readings.ts';
