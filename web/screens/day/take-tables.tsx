import { addressOf } from '../../api/client.ts';

const TABLES = [
  ['pulls', 'Pulls'],
  ['curves', 'Curves'],
] as const;

/** The tables of the day as files, in SI with the unit in every name, in the air that is shown. */
export function TakeTables(props: { readonly dayId: string; readonly standard: string | null }) {
  const address = (table: string, as: string) =>
    addressOf(
      '/days/{id}/tables/{table}',
      { id: props.dayId, table },
      { as, standard: props.standard },
    );
  return (
    <p className="quiet">
      {TABLES.map(([table, title]) => (
        <span key={table}>
          {title} as{' '}
          <a href={address(table, 'csv')} download aria-label={`${title} as CSV`}>
            CSV
          </a>
          {', '}
          <a href={address(table, 'xlsx')} download aria-label={`${title} as a spreadsheet`}>
            spreadsheet
          </a>
          {' or '}
          <a href={address(table, 'parquet')} download aria-label={`${title} as Parquet`}>
            Parquet
          </a>
          {table === 'pulls' ? '; ' : ', in SI units.'}
        </span>
      ))}
    </p>
  );
}
