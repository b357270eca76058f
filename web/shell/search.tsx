import { TextInput } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import { useNavigate } from '@tanstack/react-router';
import { useState } from 'react';
import { partsQuery, shopQuery } from '../api/queries.ts';
import { Sheet } from '../form/sheet.tsx';
import { openSheet, useSheet } from './keys.tsx';
import { findPlaces, type Place, placesOf } from './places.ts';
import styles from './search.module.css';

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
  const [words, setWords] = useState('');
  const [chosen, setChosen] = useState(0);
  const shop = useQuery(shopQuery);
  const navigate = useNavigate();
  const parts = useQuery(partsQuery);
  const places = shop.data ? [...placesOf(shop.data, parts.data), SIDE_BY_SIDE] : [];
  const found = findPlaces(places, words).slice(0, SHOWN);
  const go = ({ to, serial }: Place) => {
    close();
    void navigate({ to, ...(serial === undefined ? {} : { search: { serial } }) });
  };
  return (
    <>
      <TextInput
        data-autofocus
        aria-label="Words of an engine, a build, a test day or a part"
        placeholder="Engine, build, owner, date, serial …"
        role="combobox"
        aria-expanded={found.length > 0}
        aria-controls="search-found"
        aria-activedescendant={found[chosen] ? `search-${chosen}` : undefined}
        value={words}
        onChange={(event) => {
          setWords(event.currentTarget.value);
          setChosen(0);
        }}
        onKeyDown={(event) => {
          if (event.key === 'ArrowDown') setChosen(Math.min(found.length - 1, chosen + 1));
          else if (event.key === 'ArrowUp') setChosen(Math.max(0, chosen - 1));
          else if (event.key === 'Enter' && found[chosen]) go(found[chosen]);
          else return;
          event.preventDefault();
        }}
      />
      <div id="search-found" role="listbox" aria-label="Found" className={styles.found}>
        {found.map((place, index) => (
          // biome-ignore lint/a11y/useKeyWithClickEvents: keys are handled by the field that owns the list
          <div
            key={`${place.to} ${place.serial ?? ''}`}
            id={`search-${index}`}
            role="option"
            tabIndex={-1}
            aria-selected={index === chosen}
            className={styles.place}
            onClick={() => go(place)}
          >
            <span>{place.label}</span>
            <span className={styles.kind}>{place.beside}</span>
          </div>
        ))}
      </div>
      {found.length === 0 && (
        <p className={styles.none}>
          {shop.isPending ? 'Fetching the shop …' : 'Nothing has these words in its name.'}
        </p>
      )}
    </>
  );
}
