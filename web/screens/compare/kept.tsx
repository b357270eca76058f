import { Button } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import { Link } from '@tanstack/react-router';
import { inUnitsOf } from '../../../src/units/sentences.ts';
import type { UnitSystem } from '../../../src/units/types.ts';
import { useChange } from '../../api/changes.ts';
import { ask } from '../../api/client.ts';
import { comparisonsQuery } from '../../api/queries.ts';
import type { Comparison } from '../../api/types.gen.ts';
import { interval, signedPercent } from '../../charts/numbers.ts';
import { usePreferences } from '../../shell/preferences.tsx';
import { dateInWords, kept } from '../../shell/words.ts';
import { Heads } from '../../table/Heads.tsx';
import {
  numberColumn,
  rangeColumn,
  type TableModel,
  tableFrom,
  wordsColumn,
} from '../../table/model.ts';
import { TakeTable } from '../../table/TakeTable.tsx';
import { bandToText, sidesToText } from './side-address.ts';

/** The band that was chosen, else the one that was taken; none where only peaks were compared. */
function bandOf({ bandRpm, said }: Comparison): { readonly band?: string } {
  const band = bandRpm ?? said.bandRpm;
  return band === null ? {} : { band: bandToText(band) };
}

/** Comparisons that were kept for an engine, each with what it said then; nothing where there are none. */
export function KeptComparisons({ engineId }: { readonly engineId: string }) {
  const { units } = usePreferences();
  const comparisons = useQuery(comparisonsQuery(engineId));
  const remove = useChange(
    (one: Comparison) => ask('DELETE /comparisons/{id}', { params: { id: one.id } }),
    { done: 'The comparison is removed.' },
  );
  if (!comparisons.data || comparisons.data.length === 0) return null;
  return (
    <section className="panel" aria-labelledby="kept-comparisons">
      <header>
        <h2 id="kept-comparisons">Kept comparisons</h2>
        <span className="quiet">as they stood when they were kept</span>
        <TakeTable title="Kept comparisons" table={() => keptTable(comparisons.data, units)} />
      </header>
      <table className="sheet">
        <Heads of={['Comparison', 'Mean power', 'Finding', 'Kept']} acts="Remove" />
        <tbody>
          {comparisons.data.map((one) => (
            <tr key={one.id}>
              <th scope="row">
                <Link
                  to="/compare"
                  search={{
                    sides: sidesToText(one.sides),
                    ...bandOf(one),
                  }}
                >
                  {one.name}
                </Link>
                {one.note !== '' && <p className="quiet">{one.note}</p>}
              </th>
              <td>
                {one.said.gains.map((gain, at) => (
                  <p key={one.said.sides[at + 1]?.name} className="together">
                    {`${signedPercent(gain.value)} (${interval(gain.low, gain.high)})`}
                  </p>
                ))}
              </td>
              <td>
                <details>
                  <summary>
                    {one.said.gains.map(({ word }) => word).join(', ') || 'by their peaks'}
                  </summary>
                  <p className="quiet">{kept(inUnitsOf(one.said.finding, units))}</p>
                </details>
              </td>
              <td>
                {dateInWords(one.keptAt.slice(0, 10))}
                {one.who !== '' && <span className="quiet">{`, ${one.who}`}</span>}
              </td>
              <td>
                <Button
                  variant="default"
                  size="compact-xs"
                  aria-label={`Remove ${one.name}`}
                  onClick={() => remove.mutate(one)}
                >
                  Remove
                </Button>
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}

/** A line for each side held against the first. */
function keptTable(comparisons: readonly Comparison[], units: UnitSystem): TableModel {
  const lines = comparisons.flatMap((one) =>
    (one.said.gains.length === 0 ? [null] : one.said.gains).map((gain, at) => ({
      one,
      gain,
      side: gain === null ? null : (one.said.sides[at + 1]?.name ?? null),
    })),
  );
  return tableFrom(lines, [
    wordsColumn('Comparison', ({ one }) => one.name),
    wordsColumn('Held against the first', ({ side }) => side),
    numberColumn('Mean power', '%', ({ gain }) => gain?.value, { decimals: 1 }),
    rangeColumn('Mean power, 95 %', '%', ({ gain }) => gain, { decimals: 1 }),
    wordsColumn('In a word', ({ gain }) => gain?.word),
    wordsColumn('Finding', ({ one }) => inUnitsOf(one.said.finding, units)),
    wordsColumn('Note', ({ one }) => one.note),
    wordsColumn('Kept', ({ one }) => one.keptAt),
    wordsColumn('By', ({ one }) => one.who),
  ]);
}
