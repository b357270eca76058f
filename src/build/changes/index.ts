export * from './partHistory.ts';
export * from './sheetChanges.ts';
