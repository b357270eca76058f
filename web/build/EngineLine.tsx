import { Button, NativeSelect, TextInput } from '@mantine/core';
import { useState } from 'react';
import { type Layout, layoutOf } from '../../src/build/index.ts';
import { readLayout } from '../../src/build/sheet/readLayout.ts';
import { Sheet } from '../form/sheet.tsx';
import { useSheetActs, useSheetWork } from './context.ts';
import { setLayout } from './edit.ts';
import styles from './inputs.module.css';

/** `V 8, 90°, cross-plane crank, 1 intake and 1 exhaust valve a cylinder`. */
export function layoutInWords(layout: Layout): string {
  const { cylinders, arrangement, bankAngleDeg, crank, cycle, aspiration } = layout;
  return [
    arrangement === 'single'
      ? 'Single cylinder'
      : `${arrangement === 'V' ? 'V' : `${arrangement[0]!.toUpperCase()}${arrangement.slice(1)}`} ${cylinders}`,
    ...(bankAngleDeg === null ? [] : [`${bankAngleDeg}° between the banks`]),
    ...(cylinders === 1 ? [] : [`${crank} crank`]),
    `${layout.intakeValvesPerCylinder} intake and ${layout.exhaustValvesPerCylinder} exhaust ${layout.exhaustValvesPerCylinder === 1 ? 'valve' : 'valves'} a cylinder`,
    `${cycle}-stroke`,
    aspiration,
  ].join(', ');
}

/** How the engine is laid out, by which the sheet knows what there is to measure. */
export function EngineLine({ uses }: { readonly uses: readonly string[] }) {
  const { sheet } = useSheetWork();
  const { change } = useSheetActs();
  const [open, setOpen] = useState(false);
  const known = sheet.use === undefined || uses.includes(sheet.use) ? uses : [...uses, sheet.use];
  return (
    <section className={styles.engine} aria-label="The engine">
      <p>{layoutInWords(sheet.layout)}</p>
      <label>
        <span className="quiet">Use </span>
        <select
          className={styles.unit}
          value={sheet.use ?? ''}
          onChange={(event) => {
            const use = event.currentTarget.value;
            change(({ use: _, ...others }) => (use === '' ? others : { ...others, use }));
          }}
        >
          <option value="">not said</option>
          {known.map((use) => (
            <option key={use}>{use}</option>
          ))}
        </select>
      </label>
      <Button variant="default" size="compact-md" onClick={() => setOpen(true)}>
        Change the layout
      </Button>
      {open && (
        <LayoutSheet
          layout={sheet.layout}
          onClose={() => setOpen(false)}
          onSave={(layout) => {
            change((now) => setLayout(now, layout));
            setOpen(false);
          }}
        />
      )}
    </section>
  );
}

const NUMBERS = [
  ['cylinders', 'Cylinders'],
  ['bankAngleDeg', 'Angle between the banks, degrees'],
  ['intakeValvesPerCylinder', 'Intake valves a cylinder'],
  ['exhaustValvesPerCylinder', 'Exhaust valves a cylinder'],
  ['mainJournals', 'Main journals; empty: as usual'],
  ['rodJournals', 'Rod journals; empty: as usual'],
] as const;
const CHOICES = [
  ['arrangement', 'Arrangement', ['single', 'inline', 'V', 'flat']],
  ['crank', 'Crank', ['single-plane', 'cross-plane', 'other']],
  ['cycle', 'Strokes of a cycle', ['4', '2']],
  ['aspiration', 'Aspiration', ['natural', 'boosted', 'nitrous']],
] as const;

interface LayoutSheetProps {
  readonly layout: Layout;
  readonly onSave: (layout: Layout) => void;
  readonly onClose: () => void;
}

function LayoutSheet({ layout, onSave, onClose }: LayoutSheetProps) {
  const [texts, setTexts] = useState<Readonly<Record<string, string>>>(() =>
    Object.fromEntries(
      Object.entries(layout).map(([key, value]) => [key, value === null ? '' : String(value)]),
    ),
  );
  const [wrong, setWrong] = useState<Readonly<Record<string, string>>>({});
  const put = (key: string, text: string) => setTexts({ ...texts, [key]: text });
  const save = () => {
    const found: Record<string, string> = {};
    const given = Object.fromEntries(
      Object.entries(texts).map(([key, text]) => {
        const isNumber = key === 'cycle' || NUMBERS.some(([name]) => name === key);
        const value = text.trim() === '' ? null : isNumber ? Number(text) : text;
        return [key, Number.isNaN(value) ? text : value];
      }),
    );
    const read = readLayout(given, {
      add: (path, what, expected) => {
        found[path.replace('layout.', '')] = `Found ${JSON.stringify(what)}; expected ${expected}.`;
      },
    });
    setWrong(found);
    if (read !== null) onSave(read);
  };
  return (
    <Sheet onClose={onClose} title="How the engine is laid out" size="lg">
      <form
        className={styles.about}
        onSubmit={(event) => {
          event.preventDefault();
          save();
        }}
      >
        {NUMBERS.slice(0, 1).map(([key, label]) => (
          <TextInput
            key={key}
            label={label}
            inputMode="numeric"
            value={texts[key] ?? ''}
            error={wrong[key]}
            onChange={(event) => {
              const text = event.currentTarget.value;
              const usual =
                /^\d{1,2}$/.test(text) && Number(text) > 0 ? layoutOf(Number(text)) : null;
              setTexts({
                ...texts,
                ...(usual === null
                  ? {}
                  : {
                      arrangement: usual.arrangement,
                      crank: usual.crank,
                      bankAngleDeg: String(usual.bankAngleDeg ?? ''),
                    }),
                [key]: text,
              });
            }}
          />
        ))}
        {CHOICES.map(([key, label, choices]) => (
          <NativeSelect
            key={key}
            label={label}
            data={[...choices]}
            value={texts[key] ?? ''}
            error={wrong[key]}
            onChange={(event) => put(key, event.currentTarget.value)}
          />
        ))}
        {NUMBERS.slice(1).map(([key, label]) => (
          <TextInput
            key={key}
            label={label}
            inputMode="decimal"
            value={texts[key] ?? ''}
            error={wrong[key]}
            onChange={(event) => put(key, event.currentTarget.value)}
          />
        ))}
        <p className="quiet">
          Measurements at places that the new layout has not are taken off the sheet.
        </p>
        <div className="acts">
          <Button type="submit">Keep</Button>
        </div>
      </form>
    </Sheet>
  );
}
