/** What the address of "what it is for" holds, so that it can be bookmarked and sent on. */
export interface UseSearch {
  readonly sides?: string;
  readonly use?: string;
  readonly vehicle?: string;
}

/** Only texts are kept of whatever an address says. */
export function searchOfUse(raw: Readonly<Record<string, unknown>>): UseSearch {
  return {
    ...(typeof raw.sides === 'string' ? { sides: raw.sides } : {}),
    ...(typeof raw.use === 'string' ? { use: raw.use } : {}),
    ...(typeof raw.vehicle === 'string' ? { vehicle: raw.vehicle } : {}),
  };
}
