/** What the address of "what it is for" holds, so that it can be bookmarked and sent on. */
export interface UseSearch {
  readonly sides?: string;
  readonly use?: string;
  readonly vehicle?: string;
  /** The time by which builds are judged: `0-60mph`. */
  readonly over?: string;
}

/** Only texts are kept of whatever an address says. */
export function searchOfUse(raw: Readonly<Record<string, unknown>>): UseSearch {
  return {
    ...(typeof raw.sides === 'string' ? { sides: raw.sides } : {}),
    ...(typeof raw.use === 'string' ? { use: raw.use } : {}),
    ...(typeof raw.vehicle === 'string' ? { vehicle: raw.vehicle } : {}),
    ...(typeof raw.over === 'string' ? { over: raw.over } : {}),
  };
}
