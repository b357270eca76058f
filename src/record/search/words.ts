/** What each kind of thing is found by, how it is called in a list of finds, and where its page is. */
import type { Fields } from '../draft.ts';
import type { EntityName, Id } from '../types.ts';

/** Moves with every change of what is said here; the index is then made anew. */
export const WORDS_VERSION = 2;

/** Kinds of finds, in the order in which they are told. */
export const FOUND_KINDS = [
  'engine',
  'build',
  'part',
  'test day',
  'ladder',
  'decision',
  'hand-over',
  'service',
  'plan',
  'part test',
  'comparison',
  'use',
  'vehicle',
  'cell',
  'calibration',
  'sheet',
  'file',
  'pull',
] as const;
export type FoundKind = (typeof FOUND_KINDS)[number];

/** One thing that can be found. */
export interface Findable {
  readonly kind: FoundKind;
  readonly label: string;
  /** Address in the workbook. */
  readonly page: string;
  /** Words of its own; those of what it stands under come in from there. */
  readonly own: string;
  readonly onDate?: string | null;
}

type Told = (fields: Fields, parentId: Id) => readonly Findable[];

/** Those that can be found, parents before what stands under them, with the field that names the parent. */
export const FINDABLE: Readonly<
  Partial<Record<EntityName, { readonly parent: string | null; readonly tell: Told }>>
> = {
  engine: {
    parent: null,
    tell: (of) => [
      {
        kind: 'engine',
        label: text(of.name),
        page: `/engines/${of.id}`,
        own: words('engine', of.name, of.serial, of.owner, of.notes, of.fuel),
      },
    ],
  },
  cell: {
    parent: null,
    tell: (of) => [
      {
        kind: 'cell',
        label: text(of.name),
        page: `/cells/${of.id}/calibrations`,
        own: words('cell', of.name, of.notes),
      },
    ],
  },
  build: {
    parent: 'engineId',
    tell: (of) => [
      {
        kind: 'build',
        label: text(of.name),
        page: `/builds/${of.id}`,
        own: words('build', of.name, of.notes),
      },
    ],
  },
  day: {
    parent: 'buildId',
    tell: (of) => [
      {
        kind: 'test day',
        label: [of.name, dateInWords(of.date)].filter(Boolean).join(', ') || 'Test day',
        page: `/days/${of.id}`,
        own: words(
          'test day',
          of.name,
          ...datesOf(of.date),
          of.notes,
          of.use,
          of.fuel,
          of.fuelBatch,
          ...textsIn(of.configuration),
        ),
        onDate: of.date as string | null,
      },
    ],
  },
  ladder: {
    parent: 'dayId',
    tell: (of) => [
      {
        kind: 'ladder',
        label: text(of.name),
        page: `/ladders/${of.id}`,
        own: words('ladder', of.name, of.setting, of.use, of.group),
      },
    ],
  },
  pull: {
    parent: 'dayId',
    tell: (of) => [
      {
        kind: 'pull',
        label: pullLabel(of),
        page: `/pulls/${of.id}`,
        own: words(
          'pull',
          of.fileName,
          of.note,
          of.excludedBecause,
          of.group,
          of.aborted === true ? 'aborted' : null,
          of.knockHeard !== false ? 'knock' : null,
          of.specksOnPlug === true ? 'specks' : null,
          of.leadDeg === null ? null : `lead ${of.leadDeg}`,
          of.lambdaTarget === null ? null : `lambda ${of.lambdaTarget}`,
          of.lambdaMeasured === null ? null : `lambda ${of.lambdaMeasured}`,
          of.jets === null ? null : `jets ${of.jets}`,
          of.loadPercent === null ? null : `load ${of.loadPercent}`,
          ...datesOf(of.madeAt),
          ...textsIn(of.configuration),
        ),
        onDate: of.madeAt as string | null,
      },
    ],
  },
  decision: {
    parent: 'ladderId',
    tell: (of, ladderId) => [
      {
        kind: 'decision',
        label: `${text(of.use)}: ${of.setting ?? 'no setting'}`,
        page: `/ladders/${ladderId}`,
        own: words('decision', of.use, of.who, of.why, of.setting, ...datesOf(of.decidedAt)),
        onDate: of.decidedAt as string,
      },
    ],
  },
  // The parent of a section is found through its sheet: the build.
  sheetSection: { parent: 'sheetId', tell: sectionTold },
  buildFile: {
    parent: 'buildId',
    tell: (of, buildId) => [
      {
        kind: 'file',
        label: text(of.fileName),
        page: `/builds/${buildId}`,
        own: words('file photo', of.fileName, of.caption, of.section, of.who, ...datesOf(of.putAt)),
        onDate: of.putAt as string,
      },
    ],
  },
  partTest: {
    parent: 'dayId',
    tell: (of) => [
      {
        kind: 'part test',
        label: text(of.name),
        page: `/part-tests/${of.id}`,
        own: words('part test', of.name, of.groupA, of.groupB, of.who, ...datesOf(of.madeAt)),
        onDate: of.madeAt as string,
      },
    ],
  },
  comparison: {
    parent: 'engineId',
    tell: (of, engineId) => [
      {
        kind: 'comparison',
        label: text(of.name),
        page: `/engines/${engineId}`,
        own: words(
          'comparison',
          of.name,
          of.note,
          of.who,
          ...datesOf(of.keptAt),
          (of.said as { readonly finding?: string } | null)?.finding,
        ),
        onDate: of.keptAt as string,
      },
    ],
  },
  engineUse: {
    parent: 'engineId',
    tell: (of, engineId) => [
      {
        kind: 'use',
        label: text(of.name),
        page: `/use?sides=engine:${engineId}&use=kept:${of.id}`,
        own: words('use', of.name, of.who, ...datesOf(of.keptAt), ...textsIn(of.written)),
        onDate: of.keptAt as string,
      },
    ],
  },
  vehicle: {
    parent: 'engineId',
    tell: (of, engineId) => [
      {
        kind: 'vehicle',
        label: text(of.name),
        page: `/use?sides=engine:${engineId}&vehicle=${of.id}`,
        own: words('vehicle', of.name, of.who, ...datesOf(of.keptAt), ...textsIn(of.written)),
        onDate: of.keptAt as string,
      },
    ],
  },
  handOver: {
    parent: 'buildId',
    tell: (of, buildId) => {
      const { notes, by, standard } = (of.choice ?? {}) as Record<string, unknown>;
      return [
        {
          kind: 'hand-over',
          label: `Hand-over, ${dateInWords(text(of.madeAt).slice(0, 10))}`,
          page: `/builds/${buildId}/handover?made=${of.id}`,
          own: words('hand-over report', ...datesOf(of.madeAt), of.madeBy, by, standard, notes),
          onDate: of.madeAt as string,
        },
      ];
    },
  },
  serviceEvent: {
    parent: 'engineId',
    tell: (of, engineId) => [
      {
        kind: 'service',
        label: `${of.kind === 'refresh' ? 'Refresh' : 'Work'}, ${dateInWords(of.doneOn)}`,
        page: `/engines/${engineId}/service`,
        own: words('service', of.kind, ...datesOf(of.doneOn), of.what, of.parts, of.who),
        onDate: of.doneOn as string,
      },
    ],
  },
  serviceReading: {
    parent: 'engineId',
    tell: (of, engineId) => [
      {
        kind: 'service',
        label: `Reading, ${dateInWords(of.readOn)}`,
        page: `/engines/${engineId}/service`,
        own: words(
          'service reading',
          of.leakDown === null ? null : 'leak-down',
          of.crankingGaugePa === null ? null : 'cranking compression',
          of.hoursS === null ? null : 'hours',
          ...datesOf(of.readOn),
          of.note,
          of.who,
        ),
        onDate: of.readOn as string,
      },
    ],
  },
  plan: {
    parent: 'dayId',
    // `ticks` are put to it by whoever keeps the index: a plan is found by who did what of it.
    tell: (of, dayId) => [
      {
        kind: 'plan',
        label: 'Test plan',
        page: `/days/${dayId}/plan`,
        own: words(
          'test plan',
          of.who,
          ...ticksTold(of.ticks),
          ...saidIn((of.plan as { readonly edits?: unknown } | null)?.edits),
          ...saidIn((of.plan as { readonly sections?: unknown } | null)?.sections),
        ),
      },
    ],
  },
  // The shop's own uses, which days, ladders and decisions name.
  shop: {
    parent: null,
    tell: (of) =>
      (of.uses as readonly Fields[]).map((use) => ({
        kind: 'use',
        label: text(use.name),
        page: '/settings',
        own: words('use', use.name, use.meaning),
      })),
  },
  calibration: {
    parent: 'cellId',
    tell: (of) => [
      {
        kind: 'calibration',
        label: `Calibration, ${dateInWords(of.doneOn)}`,
        page: `/calibrations/${of.id}`,
        own: words('calibration', ...datesOf(of.doneOn), of.who, of.notes, ...textsIn(of.measured)),
        onDate: of.doneOn as string,
      },
    ],
  },
};

/** A section by its words, and each part that stands in it. */
function sectionTold(of: Fields, buildId: Id): Findable[] {
  const data = (of.data ?? {}) as { readonly parts?: readonly Record<string, unknown>[] };
  const page = `/builds/${buildId}/sheet/${of.section}`;
  const { parts, ...rest } = data;
  return [
    {
      kind: 'sheet',
      label: `Build sheet, ${text(of.section)}`,
      page,
      own: words('sheet', of.section, ...textsIn(rest)),
    },
    ...(Array.isArray(parts) ? parts : []).map(({ name, serial, note }): Findable => {
      const mark = text(serial).trim();
      return {
        kind: 'part',
        label: mark === '' ? text(name) : `${mark}, ${text(name)}`,
        page: mark === '' ? page : `/parts?serial=${encodeURIComponent(mark)}`,
        own: words('part', name, serial, note, of.section),
      };
    }),
  ];
}

function pullLabel(of: Fields): string {
  const name = of.fileName === null ? 'Typed peaks' : text(of.fileName);
  return of.leadDeg === null ? name : `${name}, ${of.leadDeg}°`;
}

const text = (value: unknown): string =>
  typeof value === 'string' || typeof value === 'number' ? String(value) : '';

/** At most what a person would write of one thing; what is longer is found by its beginning. */
const MOST_LETTERS = 20_000;
const words = (...of: readonly unknown[]): string =>
  of.map(text).filter(Boolean).join(' ').slice(0, MOST_LETTERS);

/** All texts within plain data; numbers are looked for in a table, not by their digits. */
function textsIn(value: unknown): string[] {
  if (typeof value === 'string') return [value];
  if (typeof value !== 'object' || value === null) return [];
  return Object.values(value).flatMap(textsIn);
}

/** What people read of a plan; ids, units and sources are not looked for. */
function saidIn(value: unknown): string[] {
  if (typeof value !== 'object' || value === null) return [];
  return Object.entries(value).flatMap(([key, one]) =>
    typeof one === 'string'
      ? /^(text|title|sentence|reason|why|by)$/.test(key)
        ? [one]
        : []
      : saidIn(one),
  );
}

function ticksTold(ticks: unknown): string[] {
  const all = (ticks ?? []) as readonly { readonly who: string; readonly tickedAt: string }[];
  return [...new Set(all.flatMap(({ who, tickedAt }) => ['ticked', who, ...datesOf(tickedAt)]))];
}

const MONTHS =
  'January February March April May June July August September October November December'.split(
    ' ',
  );

/** A date as it is typed and as it is said. */
function datesOf(iso: unknown): string[] {
  const day = text(iso).slice(0, 10);
  return [day, dateInWords(day)].filter(Boolean);
}

function dateInWords(iso: unknown): string {
  const [, year, month, day] = /^(\d{4})-(\d\d)-(\d\d)$/.exec(text(iso)) ?? [];
  return year === undefined ? '' : `${Number(day)} ${MONTHS[Number(month) - 1] ?? ''} ${year}`;
}
