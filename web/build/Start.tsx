import { Button, NumberInput, Textarea } from '@mantine/core';
import { useState } from 'react';
import { layoutOf, newSheetFrom, type Sheet } from '../../src/build/index.ts';
import type { SheetReading } from '../api/types.gen.ts';
import { ChangedSections } from './ChangedSections.tsx';
import { sheetFromText } from './fromText.ts';
import fields from './inputs.module.css';
import { ReadFile } from './ReadFile.tsx';
import styles from './start.module.css';

/** A sheet of an earlier build of this engine that a new one can start from. */
export interface Earlier {
  readonly name: string;
  readonly sheet: Sheet;
}

interface StartProps {
  /** Of the engine, where it is known. */
  readonly cylinders: number | null;
  readonly earlier: Earlier | null;
  readonly read: (file: File, cylinders: number) => Promise<SheetReading>;
  readonly onStart: (sheet: Sheet) => void;
}

/** A build without a sheet: three ways to begin one. */
export function Start({ cylinders, earlier, read: readFile, onStart }: StartProps) {
  const [count, setCount] = useState(cylinders ?? 4);
  const [isOpen, setOpen] = useState(false);
  const [text, setText] = useState('');
  const [wrong, setWrong] = useState<readonly string[]>([]);
  const [changed, setChanged] = useState<readonly string[]>([]);
  const read = (given: string) => {
    const found = sheetFromText(given, layoutOf(count));
    if ('wrong' in found) setWrong(found.wrong);
    else onStart(found.sheet);
  };
  return (
    <div className="stack">
      <p className="lede">
        The sheet holds what was measured on this build. Any of it may stay unknown; what follows
        from the rest is computed at once, and what to measure next is told in the order of what it
        decides.
      </p>
      <div className={styles.ways}>
        <section className="panel" aria-labelledby="by-hand">
          <header>
            <h2 id="by-hand">By hand</h2>
          </header>
          <p className="quiet">
            Section by section, at the bench or with a tablet beside the engine.
          </p>
          <NumberInput
            label="Cylinders"
            min={1}
            max={64}
            allowDecimal={false}
            value={count}
            onChange={(value) =>
              typeof value === 'number' && value >= 1 && value <= 64 && setCount(value)
            }
            maw={160}
          />
          <Button
            onClick={() => onStart({ format: 'sheet/1', layout: layoutOf(count), sections: {} })}
          >
            Begin an empty sheet
          </Button>
        </section>
        <section className="panel" aria-labelledby="from-table">
          <header>
            <h2 id="from-table">From a spreadsheet or a build file</h2>
          </header>
          <Textarea
            label="Rows copied from a spreadsheet"
            description="Rows need the columns section, field and value, or a column for each cylinder."
            rows={5}
            value={text}
            onChange={(event) => setText(event.currentTarget.value)}
          />
          <div className="acts">
            <Button disabled={text.trim() === ''} onClick={() => read(text)}>
              Read it
            </Button>
            <Button variant="default" onClick={() => setOpen(true)}>
              From a file …
            </Button>
          </div>
          {wrong.length > 0 && (
            <ul role="alert" className={fields.wrong}>
              {wrong.map((sentence) => (
                <li key={sentence}>{sentence}</li>
              ))}
            </ul>
          )}
        </section>
        {earlier !== null && (
          <section className="panel" aria-labelledby="as-copy">
            <header>
              <h2 id="as-copy">As a copy of {earlier.name}</h2>
            </header>
            <ChangedSections changed={changed} onChange={setChanged} />
            <Button onClick={() => onStart(newSheetFrom(earlier.sheet, changed))}>
              Begin with the copy
            </Button>
          </section>
        )}
      </div>
      {isOpen && (
        <ReadFile
          standing={null}
          read={(file) => readFile(file, count)}
          onKeep={onStart}
          onClose={() => setOpen(false)}
        />
      )}
    </div>
  );
}
