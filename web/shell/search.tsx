import { useQuery } from '@tanstack/react-query';
import { useNavigate } from '@tanstack/react-router';
import { partsQuery, shopQuery } from '../api/queries.ts';
import { Sheet } from '../form/sheet.tsx';
import { FindList } from './find-list.tsx';
import { openSheet, useSheet } from './keys.tsx';
import { findPlaces, type Place, placesOf } from './places.ts';

const SHOWN = 12;
const SIDE_BY_SIDE: Place = {
  label: 'Side by side',
  beside: 'page',
  to: '/compare',
  words: 'side by side compare builds settings',
};

/** The sheet that finds an engine, a build, a test day or a part by any word of its name. */
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
  const shop = useQuery(shopQuery);
  const navigate = useNavigate();
  const parts = useQuery(partsQuery);
  const places = shop.data ? [...placesOf(shop.data, parts.data), SIDE_BY_SIDE] : [];
  const go = ({ to, serial }: Place) => {
    close();
    void navigate({ to, ...(serial === undefined ? {} : { search: { serial } }) });
  };
  return (
    <FindList
      id="search-found"
      label="Words of an engine, a build, a test day or a part"
      placeholder="Engine, build, owner, date, serial …"
      find={(words) => findPlaces(places, words).slice(0, SHOWN)}
      keyOf={({ to, serial }) => `${to} ${serial ?? ''}`}
      textOf={(place) => place}
      onPick={go}
      none={() => (shop.isPending ? 'Fetching the shop …' : 'Nothing has these words in its name.')}
    />
  );
}
