/** What the command does with the shop's record in the same way as the server. */
export { bringTogether, type FileSideAt } from './compared.ts';
export { Curves } from './curves.ts';
export { planOn, readPart, repeatabilityOfCell, repeatabilityOfDay } from './partTests.ts';
export { Readings } from './readings.ts';
