import { Button } from '@mantine/core';
import { type ReactNode, useCallback, useEffect, useRef, useState } from 'react';
import type { Sheet, WindowRule } from '../../src/build/index.ts';
import { useOnLeaving } from '../shell/leaving.ts';
import { LookIcon } from '../theme/icons.tsx';
import type { PartWay } from './context.ts';
import { forKeeping } from './edit.ts';
import { KeepingMark } from './KeepingMark.tsx';
import { SheetView } from './SheetView.tsx';
import { type Keeping, type Save, Saver } from './saver.ts';
import styles from './sheet.module.css';
import { type SheetInHand, useSheet } from './useSheet.ts';

/** After this pause in typing a sheet is sent. */
const PAUSE_MS = 700;

interface SheetWorkProps {
  readonly first: { readonly sheet: Sheet; readonly version: number };
  readonly save: Save;
  /** The sheet as it stands in the record now. */
  readonly load: () => Promise<{ readonly sheet: Sheet | null; readonly version: number }>;
  /** Takes what stands in the record in place of what is here. */
  readonly takeTheirs: () => void;
  readonly section: string | null;
  readonly href: (section: string | null) => string;
  readonly go: (section: string | null) => void;
  readonly own: readonly WindowRule[];
  readonly uses: readonly string[];
  readonly head?: ReactNode;
  /** What works on the sheet in hand, beside undo. */
  readonly tools?: (inHand: SheetInHand) => ReactNode;
  readonly parts?: PartWay;
  readonly files?: (section: string | null) => ReactNode;
}

/** A sheet that is worked on and kept as it goes. */
export function SheetWork(props: SheetWorkProps) {
  const { first, save, load, takeTheirs, section, href, go, own, uses, head, tools, parts, files } =
    props;
  const inHand = useSheet(first.sheet, own);
  const { sheet } = inHand;
  const [keeping, setKeeping] = useState<Keeping>({ state: 'saved' });
  const latestSave = useRef(save);
  latestSave.current = save;
  const [saver] = useState(
    () =>
      new Saver(
        first.sheet,
        first.version,
        (now, from, leaving) => latestSave.current(forKeeping(now), from, leaving),
        setKeeping,
      ),
  );
  useEffect(() => {
    saver.hold(sheet);
    const timer = setTimeout(() => void saver.send(), PAUSE_MS);
    return () => clearTimeout(timer);
  }, [saver, sheet]);
  useOnLeaving(() => void saver.send(true));
  // Another page of the book: what is not kept yet goes out as the screen is taken down.
  useEffect(() => () => void saver.send(), [saver]);
  const keepMine = useCallback(async () => {
    const { version } = await load();
    await saver.overwrite(version);
  }, [load, saver]);
  return (
    <>
      {keeping.state === 'conflict' && (
        <div role="alert" className={styles.conflict}>
          <span>
            <LookIcon /> Somebody else changed this sheet meanwhile. Nothing of yours is saved until
            you choose.
          </span>
          <Button variant="default" size="compact-md" onClick={takeTheirs}>
            Take theirs, drop mine
          </Button>
          <Button size="compact-md" onClick={() => void keepMine()}>
            Keep mine over theirs
          </Button>
        </div>
      )}
      <SheetView
        inHand={inHand}
        section={section}
        href={href}
        go={go}
        uses={uses}
        {...(files === undefined ? {} : { files })}
        {...(parts === undefined ? {} : { parts })}
        head={
          <>
            {head}
            {tools?.(inHand)}
            <KeepingMark keeping={keeping} retry={() => void saver.send()} />
          </>
        }
      />
    </>
  );
}
