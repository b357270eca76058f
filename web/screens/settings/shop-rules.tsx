import { Button } from '@mantine/core';
import { useState } from 'react';
import { AIR_STANDARDS } from '../../../src/pull/recording.ts';
import { ask } from '../../api/client.ts';
import type { Shop, ShopPatch } from '../../api/types.gen.ts';
import { ChangeSheet } from '../../form/change-sheet.tsx';
import type { Field } from '../../form/fields.ts';
import { Facts } from '../../shell/figures.tsx';
import { nameOfStandard } from '../../shell/words.ts';
import { Mark } from './mark.tsx';

const REAL = 'engines of our own';
const INVENTED = 'a demo: nothing in it is real';

const FIELDS: readonly Field[] = [
  { key: 'name', label: 'Name of the shop', kind: 'text', required: true },
  { key: 'address', label: 'Address', kind: 'text', hint: 'In one line; it stands on hand-overs.' },
  {
    key: 'invented',
    label: 'What is in the book',
    kind: 'choice',
    required: true,
    choices: [
      { value: 'false', label: REAL },
      { value: 'true', label: INVENTED },
    ],
  },
  {
    key: 'standard',
    label: 'Air standard',
    kind: 'choice',
    required: true,
    choices: AIR_STANDARDS.map((name) => ({ value: name, label: nameOfStandard(name) })),
  },
  {
    key: 'worthPercent',
    label: 'Least gain worth a rung, %',
    kind: 'number',
    required: true,
    hint: 'Of mean power in the band.',
    low: 0,
    high: 100,
  },
  {
    key: 'stepDeg',
    label: 'Step of the leads given out, degrees',
    kind: 'number',
    required: true,
    low: 0.1,
    high: 10,
  },
  {
    key: 'repeatabilityPercent',
    label: 'How well pulls repeat, %',
    kind: 'number',
    hint: 'One standard deviation of mean power. Empty: learned from the pulls.',
    low: 0,
    high: 100,
  },
  {
    key: 'holdbackDegPer10K',
    label: 'Holdback for 10 °C (18 °F) hotter inlet, degrees',
    kind: 'number',
    required: true,
    low: 0,
    high: 20,
  },
  {
    key: 'holdbackDegPerOctane',
    label: 'Holdback for one octane number less, degrees',
    kind: 'number',
    required: true,
    low: 0,
    high: 20,
  },
];

/** What the shop wants everywhere unless a day says otherwise. */
export function ShopRules({ shop }: { shop: Shop }) {
  const [editing, setEditing] = useState(false);
  return (
    <section className="panel" aria-labelledby="shop-rules">
      <header>
        <h2 id="shop-rules">The shop</h2>
        <Button variant="subtle" size="compact-sm" onClick={() => setEditing(true)}>
          Edit the shop
        </Button>
      </header>
      <Facts
        rows={[
          ['Name', shop.name],
          ['Address', shop.address],
          ['What is in the book', shop.invented ? INVENTED : REAL],
          ['Air standard', nameOfStandard(shop.standard)],
          ['Least gain worth a rung', `${shop.worthPercent} % of mean power`],
          ['Step of the leads given out', `${shop.stepDeg}°`],
          [
            'How well pulls repeat',
            shop.repeatabilityPercent === null
              ? 'learned from the pulls'
              : `${shop.repeatabilityPercent} %`,
          ],
          ['For 10 °C (18 °F) hotter inlet', `${shop.holdbackDegPer10K}° more holdback`],
          ['For one octane number less', `${shop.holdbackDegPerOctane}° more holdback`],
        ]}
      />
      <Mark mark={shop.mark} />
      {editing && (
        <ChangeSheet
          title="The shop"
          fields={FIELDS}
          values={{ ...shop, invented: String(shop.invented) }}
          save={({ invented, ...patch }) =>
            ask('PATCH /shop', {
              body: {
                ...(patch as ShopPatch),
                ...(invented === undefined ? {} : { invented: invented === 'true' }),
              },
            })
          }
          done="The rules of the shop are changed."
          onClose={() => setEditing(false)}
        />
      )}
    </section>
  );
}
