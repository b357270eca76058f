import { Button } from '@mantine/core';
import { type ReactNode, useEffect, useMemo, useRef } from 'react';
import { sectionOf } from '../../src/build/index.ts';
import { usePreferences } from '../shell/preferences.tsx';
import { Contents } from './Contents.tsx';
import {
  type PartWay,
  type SheetActs,
  SheetActsContext,
  SheetContext,
  type SheetWork,
  useSheetWork,
} from './context.ts';
import { partsOf } from './edit.ts';
import { Follows } from './Follows.tsx';
import { FreeTables } from './FreeTables.tsx';
import { Ledger } from './Ledger.tsx';
import { focusField } from './moving.ts';
import { Overview } from './Overview.tsx';
import { PartsNotes } from './PartsNotes.tsx';
import { PlaceTables } from './PlaceTables.tsx';
import styles from './sheet.module.css';
import type { SheetInHand } from './useSheet.ts';
import { VerdictMark } from './Verdict.tsx';
import { checksOf, inNeedOrder, valueText } from './words.ts';

interface SheetViewProps {
  readonly inHand: SheetInHand;
  /** Null: the overview. */
  readonly section: string | null;
  readonly href: (section: string | null) => string;
  readonly go: (section: string | null) => void;
  /** Uses of the shop, by name. */
  readonly uses?: readonly string[];
  /** What stands at the head beside undo: how far it is saved, and other ways. */
  readonly head?: ReactNode;
  readonly parts?: PartWay;
  /** Photos and files of a section, or of the whole build. */
  readonly files?: (section: string | null) => ReactNode;
}

/** The screen of a sheet: its sections at the side, one of them or the overview beside. */
export function SheetView({
  inHand,
  section,
  href,
  go,
  head,
  files,
  parts,
  uses = [],
}: SheetViewProps) {
  const { sheet, answer, change, undo, redo, canUndo, canRedo } = inHand;
  const wanted = useRef<string | null>(null);
  const spec = section === null ? undefined : sectionOf(section);
  const work = useMemo<SheetWork>(() => ({ sheet, answer }), [sheet, answer]);
  const { layout } = sheet;
  const acts = useMemo<SheetActs>(
    () => ({
      layout,
      change,
      href,
      go,
      parts: parts ?? null,
      goTo(path) {
        const [to] = partsOf(path);
        if (to === section && focusField(path)) return;
        wanted.current = path;
        go(sectionOf(to) === undefined ? null : to);
      },
    }),
    [layout, change, href, go, parts, section],
  );
  useEffect(() => {
    if (section === null || wanted.current === null) return;
    focusField(wanted.current);
    wanted.current = null;
  }, [section]);
  return (
    <SheetActsContext value={acts}>
      <SheetContext value={work}>
        <div className={styles.page}>
          <Contents section={section} />
          <div className={styles.body}>
            <div className={styles.head}>
              <h1>{spec?.title ?? 'Overview'}</h1>
              <div className={styles.state}>
                {head}
                <Button variant="default" size="compact-md" disabled={!canUndo} onClick={undo}>
                  Undo
                </Button>
                <Button variant="default" size="compact-md" disabled={!canRedo} onClick={redo}>
                  Redo
                </Button>
              </div>
            </div>
            {spec === undefined ? (
              <Overview uses={uses} files={files?.(null)} />
            ) : (
              <div className={styles.beside} key={spec.id}>
                <div className={styles.inputs}>
                  <Ledger section={spec} />
                  <PlaceTables section={spec} />
                  <FreeTables section={spec} />
                  <PartsNotes section={spec} />
                  {files?.(spec.id)}
                </div>
                <Follows section={spec} />
              </div>
            )}
          </div>
        </div>
        {spec !== undefined && <Strip section={spec.id} />}
      </SheetContext>
    </SheetActsContext>
  );
}

/** On a tablet what follows stands below; the worst of it stays in sight at the foot of the page. */
function Strip({ section }: { readonly section: string }) {
  const { answer } = useSheetWork();
  const { units } = usePreferences();
  const worst = inNeedOrder(checksOf(answer, section)).find(
    (check) => check.verdict !== 'not known',
  );
  if (worst === undefined) return null;
  return (
    <a className={styles.strip} href="#follows">
      <VerdictMark verdict={worst.verdict} /> {worst.label}
      {worst.value !== null &&
        worst.problem === null &&
        `, ${valueText(worst, worst.value, units)}`}
      <span className="quiet">see all that follows</span>
    </a>
  );
}
