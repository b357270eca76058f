import { useQuery } from '@tanstack/react-query';
import { useNavigate } from '@tanstack/react-router';
import { useState } from 'react';
import { quantityText, type UnitSystem } from '../../src/units/index.ts';
import { searchQuery } from '../api/queries.ts';
import type { Finding, Found } from '../api/types.gen.ts';
import { Sheet } from '../form/sheet.tsx';
import { quantityColumn, type TableModel, tableFrom, wordsColumn } from '../table/model.ts';
import { TakeRow } from '../table/TakeTable.tsx';
import { plainName } from './FileName.tsx';
import { FindList } from './find-list.tsx';
import { openSheet, useSheet } from './keys.tsx';
import { usePreferences } from './preferences.tsx';
import { count, dateInWords } from './words.ts';

/** A find, or a page of the workbook that holds no one thing of the shop. */
type Place = Pick<Found, 'label' | 'page' | 'trail'> & { readonly beside: string };

const PAGES: readonly (Place & { readonly words: string })[] = [
  { label: 'Side by side', page: '/compare', words: 'side by side compare builds settings' },
  { label: 'Parts', page: '/parts', words: 'parts serials' },
  {
    label: 'Check a hand-over',
    page: '/verify',
    words: 'check verify a hand-over handover bundle report',
  },
  { label: 'Settings', page: '/settings', words: 'settings uses windows cells export' },
  { label: 'Changes', page: '/changes', words: 'changes undo' },
].map((page) => ({ ...page, trail: '', beside: 'page' }));

/** The sheet that finds anything in the shop: by words, by peaks, by days. */
export function SearchSheet() {
  const opened = useSheet() === 'search';
  const close = () => openSheet(null);
  if (!opened) return null;
  return (
    <Sheet onClose={close} title="Search" size="lg">
      <Search close={close} />
    </Sheet>
  );
}

function Search({ close }: { close: () => void }) {
  const { units } = usePreferences();
  const [words, setWords] = useState('');
  const navigate = useNavigate();
  const asked = words.trim();
  const finding = useQuery({ ...searchQuery(asked, units), enabled: asked !== '' });
  const found = asked === '' ? [] : (finding.data?.found ?? []).map((one) => placeOf(one, units));
  return (
    <>
      <FindList
        id="search-found"
        label="Words of an engine, a build, a part, a day, a note; peaks; dates"
        placeholder="Engine, serial, note, date, power 700-800 …"
        onWords={setWords}
        find={() => [...found, ...pagesWith(asked)]}
        keyOf={({ beside, page, label }) => `${beside} ${page} ${label}`}
        textOf={(place) => place}
        onPick={({ page }) => {
          close();
          void navigate({ href: page });
        }}
        first={
          <p className="quiet">
            Any words of what you look for. Peaks: <em>power 700-800</em>, <em>300 to 320 kW</em>,{' '}
            <em>torque over 500</em>. Dates: <em>14 May</em>, <em>2026-05</em>,{' '}
            <em>May to July 2026</em>, <em>since 2026-05</em>.
          </p>
        }
        none={() => {
          if (asked === '' || finding.isError) return finding.error?.message ?? '';
          return finding.isPending
            ? 'Looking …'
            : `Nothing in the shop fits this${rangeOf(finding.data, units)}.`;
        }}
        foot={asked === '' ? '' : footOf(found.length, finding.data)}
      />
      {(finding.data?.found ?? []).length > 0 && asked !== '' && (
        <TakeRow
          title="Found in the shop"
          scenario={`Search: ${asked}`}
          table={() => foundTable(finding.data!.found, units)}
        />
      )}
    </>
  );
}

const foundTable = (found: readonly Found[], units: UnitSystem): TableModel =>
  tableFrom(found, [
    wordsColumn('Found', ({ label }) => label),
    wordsColumn('Kind', ({ kind }) => kind),
    wordsColumn('Where', ({ trail }) => trail),
    wordsColumn('Date', ({ date }) => date),
    quantityColumn('Peak power', 'power', units, ({ peakPowerW }) => peakPowerW),
  ]);

function pagesWith(words: string): Place[] {
  const wanted = words.toLowerCase().split(/\s+/).filter(Boolean);
  return wanted.length === 0
    ? []
    : PAGES.filter((page) => wanted.every((word) => page.words.includes(word)));
}

function placeOf({ kind, label, trail, page, date, peakPowerW }: Found, units: UnitSystem): Place {
  // The day that a thing stands under is told already; what was decided or kept has its own.
  const own = date !== null && (kind === 'decision' || kind === 'comparison');
  return {
    label: plainName(label),
    page,
    trail: plainName(own ? `${trail}, ${dateInWords(date)}` : trail),
    beside:
      kind === 'pull' && peakPowerW !== null
        ? `${kind}, ${quantityText(peakPowerW, 'power', units)}`
        : kind,
  };
}

/** The peaks that were asked for, so that nobody takes hp for kW. */
function rangeOf({ peaks }: Finding, units: UnitSystem): string {
  if (peaks === null) return '';
  const text = (value: number) => quantityText(value, peaks.of, units, { decimals: 0 });
  const { low, high } = peaks;
  if (low === null) return `: peak ${peaks.of} under ${text(high ?? 0)}`;
  if (high === null) return `: peak ${peaks.of} over ${text(low)}`;
  return `: peak ${peaks.of} from ${text(low)} to ${text(high)}`;
}

function footOf(shown: number, finding: Finding | undefined): string {
  if (finding === undefined) return '';
  const { total, peaksNotKnown } = finding;
  return [
    total > shown && shown > 0 ? `${shown} of ${total} are shown; another word narrows it.` : '',
    (peaksNotKnown ?? 0) > 0
      ? `The peaks of ${count(peaksNotKnown!, 'pull')} are being computed.`
      : '',
  ]
    .filter(Boolean)
    .join(' ');
}
