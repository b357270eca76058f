import { type MouseEvent, useEffect, useRef } from 'react';
import styles from './build.module.css';
import { useSheetWork } from './context.ts';
import { VerdictMark } from './Verdict.tsx';
import { checksOf, measured, SECTIONS, worstOf } from './words.ts';

/** The sections as a list at the side, on a tablet as a strip: how much is measured, and the worst verdict. */
export function Contents({ section }: { readonly section: string | null }) {
  const { sheet, answer, href, go } = useSheetWork();
  const strip = useRef<HTMLElement>(null);
  // biome-ignore lint/correctness/useExhaustiveDependencies: another section is another mark in the strip
  useEffect(() => {
    // On a tablet the strip is longer than the screen: the section that is open stays in sight.
    const open = strip.current?.querySelector<HTMLElement>('[aria-current]');
    if (open != null) strip.current!.scrollLeft = open.offsetLeft - strip.current!.clientWidth / 3;
  }, [section]);
  const turn = (to: string | null) => (event: MouseEvent) => {
    if (event.metaKey || event.ctrlKey || event.shiftKey) return;
    event.preventDefault();
    go(to);
  };
  const here = (to: string | null) => (to === section ? { 'aria-current': 'page' as const } : {});
  return (
    <nav ref={strip} className={styles.contents} aria-label="Sections of the sheet">
      <a href={href(null)} onClick={turn(null)} {...here(null)}>
        <span>Overview</span>
      </a>
      {SECTIONS.map((spec) => {
        const { known, all } = measured(sheet, spec);
        const worst = worstOf(checksOf(answer, spec.id));
        return (
          <a key={spec.id} href={href(spec.id)} onClick={turn(spec.id)} {...here(spec.id)}>
            <span>{spec.title}</span>
            <small>
              <span className="quiet">
                {known} of {all}
              </span>
              {worst !== null && worst !== 'not known' && <VerdictMark verdict={worst} />}
            </small>
          </a>
        );
      })}
    </nav>
  );
}
