/** What the shop keeps of what its engines are for: vehicles and uses as they were typed. */
import { orRefuse, readUse, readVehicle } from '../compare/index.ts';
import type { Id, IsoTime } from './types.ts';

/** A vehicle that an engine goes into, as somebody wrote it (format vehicle/1): texts keep the units they were typed in. */
export interface KeptVehicle {
  readonly id: Id;
  readonly engineId: Id;
  readonly name: string;
  readonly written: Readonly<Record<string, unknown>>;
  readonly who: string;
  readonly keptAt: IsoTime;
}

/** A use of one's own, typed or from a log (format use/1). */
export interface KeptUse {
  readonly id: Id;
  readonly engineId: Id;
  readonly name: string;
  readonly written: Readonly<Record<string, unknown>>;
  readonly who: string;
  readonly keptAt: IsoTime;
}

/** @throws FormatError naming the field: what is no vehicle is not kept */
export function checkVehicle(fields: Readonly<Record<string, unknown>>): void {
  if (fields.written !== undefined) orRefuse(readVehicle(fields.written));
}

/** @throws FormatError naming the field: what is no use is not kept */
export function checkUse(fields: Readonly<Record<string, unknown>>): void {
  if (fields.written !== undefined) orRefuse(readUse(fields.written));
}
