export * from './partHistory.ts';
export * from './partOverTime.ts';
export * from './sheetChanges.ts';
