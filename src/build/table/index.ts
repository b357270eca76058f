export type { Cell, CellProblem } from './cells.ts';
export { buildFileInPart, type NotTaken, type ReadInPart, tableInPart } from './inPart.ts';
export { pasteEach } from './paste.ts';
export { sheetFromTable, type TableOptions } from './read.ts';
export { sheetTable } from './write.ts';
