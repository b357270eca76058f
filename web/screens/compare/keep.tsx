import { Button } from '@mantine/core';
import { useState } from 'react';
import { ask } from '../../api/client.ts';
import type { AirStandard, BandRpm, NewComparison, SideWanted } from '../../api/types.gen.ts';
import { ChangeSheet } from '../../form/change-sheet.tsx';
import type { Field } from '../../form/fields.ts';

const FIELDS: readonly Field[] = [
  { key: 'name', label: 'Name', kind: 'text', hint: 'Empty: the names of its sides.' },
  { key: 'note', label: 'Note', kind: 'text' },
];

/** Keeps a comparison with what it says now; it then stands on the page of its first engine. */
export function KeepComparison({
  sides,
  band,
  standard,
}: {
  readonly sides: readonly SideWanted[];
  readonly band: BandRpm | null;
  readonly standard: AirStandard | null;
}) {
  const [open, setOpen] = useState(false);
  return (
    <>
      <Button variant="default" size="xs" onClick={() => setOpen(true)}>
        Keep …
      </Button>
      {open && (
        <ChangeSheet
          title="Keep this comparison"
          fields={FIELDS}
          values={{}}
          saveLabel="Keep it"
          sendUntouched
          save={({ name, note }: Partial<NewComparison>) =>
            ask('POST /comparisons', {
              body: {
                sides,
                bandRpm: band,
                standard,
                ...(name ? { name } : {}),
                ...(note ? { note } : {}),
              },
            })
          }
          done={(kept) => `${kept.name} is kept as it stands now, on the page of its engine.`}
          onClose={() => setOpen(false)}
        />
      )}
    </>
  );
}
