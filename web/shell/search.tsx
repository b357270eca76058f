import { TextInput } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import { useNavigate } from '@tanstack/react-router';
import { useState } from 'react';
import { shopQuery } from '../api/queries.ts';
import { Sheet } from '../form/sheet.tsx';
import { openSheet, useSheet } from './keys.tsx';
import { findPlaces, placesOf } from './places.ts';
import styles from './search.module.css';

const SHOWN = 12;

/** The sheet that finds an engine, a build or a test day by any word of its name. */
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
  const found = findPlaces(shop.data ? placesOf(shop.data) : [], words).slice(0, SHOWN);
  const go = (to: string) => {
    close();
    void navigate({ to });
  };
  return (
    <>
      <TextInput
        data-autofocus
        aria-label="Words of an engine, a build or a test day"
        placeholder="Engine, build, owner, date …"
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
          else if (event.key === 'Enter' && found[chosen]) go(found[chosen].to);
          else return;
          event.preventDefault();
        }}
      />
      <div id="search-found" role="listbox" aria-label="Found" className={styles.found}>
        {found.map((place, index) => (
          // biome-ignore lint/a11y/useKeyWithClickEvents: keys are handled by the field that owns the list
          <div
            key={place.to}
            id={`search-${index}`}
            role="option"
            tabIndex={-1}
            aria-selected={index === chosen}
            className={styles.place}
            onClick={() => go(place.to)}
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
