import type { BandRpm, SideWanted } from '../../api/types.gen.ts';

/** What the address of a comparison holds, so that it can be bookmarked and sent on. */
export interface CompareSearch {
  readonly sides?: string;
  /** `4500-7000`. */
  readonly band?: string;
}

/*
 * `build:build_01…,rung:ladder_02…:28`: sides between commas, the parts of one between colons. What may hold either
 * sign is written as addresses write it.
 */

const write = encodeURIComponent;
const read = decodeURIComponent;

function sideToText(side: SideWanted): string {
  const parts = (): readonly (string | number)[] => {
    switch (side.kind) {
      case 'pulls':
        return side.pullIds;
      case 'rung':
        return [side.ladderId, side.setting];
      case 'ladder':
        return [side.ladderId];
      case 'group':
        return [side.dayId, side.group];
      case 'day':
        return [side.dayId];
      case 'build':
        return [side.buildId];
      case 'left':
        return side.use === undefined ? [side.buildId] : [side.buildId, side.use];
      case 'engine':
        return [side.engineId];
      case 'paper': {
        const { kind: _, ...rest } = side;
        return [JSON.stringify(rest)];
      }
    }
  };
  return [side.kind, ...parts()].map(write).join(':');
}

/** Null for what is no side; what its ids mean is the service's to say. */
function sideFromText(text: string): SideWanted | null {
  let parts: string[];
  try {
    parts = text.split(':').map(read);
  } catch {
    return null;
  }
  const [kind, first, second] = parts;
  if (first === undefined || first === '') return null;
  switch (kind) {
    case 'pulls':
      return { kind, pullIds: parts.slice(1).filter((id) => id !== '') };
    case 'rung': {
      const setting = Number(second);
      return second === undefined || second.trim() === '' || !Number.isFinite(setting)
        ? null
        : { kind, ladderId: first, setting };
    }
    case 'ladder':
      return { kind, ladderId: first };
    case 'group':
      return second === undefined || second === '' ? null : { kind, dayId: first, group: second };
    case 'day':
      return { kind, dayId: first };
    case 'build':
      return { kind, buildId: first };
    case 'left':
      return second === undefined || second === ''
        ? { kind, buildId: first }
        : { kind, buildId: first, use: second };
    case 'engine':
      return { kind, engineId: first };
    case 'paper':
      try {
        // The service looks at every field, and refuses in a sentence what is not there.
        return { ...(JSON.parse(first) as Omit<SideWanted & { kind: 'paper' }, 'kind'>), kind };
      } catch {
        return null;
      }
    default:
      return null;
  }
}

export const sidesToText = (sides: readonly SideWanted[]): string =>
  sides.map(sideToText).join(',');

/** The sides of an address; parts that are no side are passed over. */
export const sidesFromText = (text: string | undefined): readonly SideWanted[] =>
  text === undefined || text === ''
    ? []
    : text.split(',').flatMap((one) => sideFromText(one) ?? []);

export const bandToText = ([from, to]: BandRpm): string => `${Math.round(from)}-${Math.round(to)}`;

/** The band of an address; null where it holds none. */
export function bandFromText(text: string | undefined): BandRpm | null {
  const found = /^(\d{2,5})-(\d{2,5})$/.exec(text ?? '');
  const [from, to] = [Number(found?.[1]), Number(found?.[2])];
  return to > from ? [from, to] : null;
}

/** Only texts are kept of whatever an address says. */
export function searchOf(raw: Readonly<Record<string, unknown>>): CompareSearch {
  return {
    ...(typeof raw.sides === 'string' ? { sides: raw.sides } : {}),
    ...(typeof raw.band === 'string' ? { band: raw.band } : {}),
  };
}
