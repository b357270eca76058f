import { siteOf } from '../../src/build/compute/windows.ts';

interface SourceTextProps {
  readonly source: string;
  readonly addresses?: readonly string[] | undefined;
}

/** Where a window comes from, short enough to read; each site that it names leads to the page. */
export function SourceText({ source, addresses = [] }: SourceTextProps) {
  const bySite = new Map(addresses.map((address) => [siteOf(address), address]));
  if (bySite.size === 0) return source;
  const sites = [...bySite.keys()].map((site) => site.replaceAll('.', '\\.'));
  // Split by a group keeps what it split at, every second piece.
  return source.split(new RegExp(`(${sites.join('|')})`)).map((piece, i) => {
    const address = bySite.get(piece);
    return address === undefined ? (
      piece
    ) : (
      // biome-ignore lint/suspicious/noArrayIndexKey: a source is a text that does not change
      <a key={i} href={address} rel="noreferrer" target="_blank">
        {piece}
      </a>
    );
  });
}
