import type { ReactNode } from 'react';
import { type DisplayKind, formatQuantity, quantityText } from '../../src/units/index.ts';
import { usePreferences } from './preferences.tsx';

/** An inside value with its unit, as this person reads it. */
export function useFigures() {
  const { units } = usePreferences();
  return {
    units,
    figure: (value: number | null | undefined, kind: DisplayKind, decimals?: number) =>
      quantityText(value ?? null, kind, units, decimals === undefined ? {} : { decimals }),
    bare: (value: number | null | undefined, kind: DisplayKind, decimals?: number) =>
      formatQuantity(value ?? null, kind, units, decimals === undefined ? {} : { decimals }).text,
  };
}

/** A list of facts; what is not known is left out. */
export function Facts({ rows }: { readonly rows: readonly (readonly [string, ReactNode])[] }) {
  const known = rows.filter(([, value]) => value !== null && value !== undefined && value !== '');
  if (known.length === 0) return <p className="quiet">Nothing is written down yet.</p>;
  return (
    <dl className="facts">
      {known.map(([name, value]) => (
        <div key={name}>
          <dt>{name}</dt>
          <dd>{value}</dd>
        </div>
      ))}
    </dl>
  );
}
