import { type MouseEvent, memo, useCallback, useEffect, useRef } from 'react';
import type { SectionSpec, Verdict } from '../../src/build/index.ts';
import { useSheetActs, useSheetWork } from './context.ts';
import styles from './sheet.module.css';
import { VerdictMark } from './Verdict.tsx';
import { checksOf, measured, SECTIONS, worstOf } from './words.ts';

/** The sections as a list at the side, on a tablet as a strip: how much is measured, and the worst verdict. */
export function Contents({ section }: { readonly section: string | null }) {
  const { sheet, answer } = useSheetWork();
  const { href, go } = useSheetActs();
  const strip = useRef<HTMLElement>(null);
  // biome-ignore lint/correctness/useExhaustiveDependencies: another section is another mark in the strip
  useEffect(() => {
    // On a tablet the strip is longer than the screen: the section that is open stays in sight.
    const open = strip.current?.querySelector<HTMLElement>('[aria-current]');
    if (open != null) strip.current!.scrollLeft = open.offsetLeft - strip.current!.clientWidth / 3;
  }, [section]);
  const turn = useCallback(
    (to: string | null) => (event: MouseEvent) => {
      if (event.metaKey || event.ctrlKey || event.shiftKey) return;
      event.preventDefault();
      go(to);
    },
    [go],
  );
  return (
    <nav ref={strip} className={styles.contents} aria-label="Sections of the sheet">
      <a
        href={href(null)}
        onClick={turn(null)}
        aria-current={section === null ? 'page' : undefined}
      >
        <span>Overview</span>
      </a>
      {SECTIONS.map((spec) => {
        const { known, all } = measured(sheet, spec);
        return (
          <SectionLink
            key={spec.id}
            spec={spec}
            known={known}
            all={all}
            worst={worstOf(checksOf(answer, spec.id))}
            isHere={spec.id === section}
            href={href}
            turn={turn}
          />
        );
      })}
    </nav>
  );
}

interface SectionLinkProps {
  readonly spec: SectionSpec;
  readonly known: number;
  readonly all: number;
  readonly worst: Verdict | null;
  readonly isHere: boolean;
  readonly href: (section: string | null) => string;
  readonly turn: (to: string | null) => (event: MouseEvent) => void;
}

const SectionLink = memo(function SectionLink(props: SectionLinkProps) {
  const { spec, known, all, worst, isHere, href, turn } = props;
  return (
    <a href={href(spec.id)} onClick={turn(spec.id)} aria-current={isHere ? 'page' : undefined}>
      <span>{spec.title}</span>
      <small>
        <span className="quiet">
          {known} of {all}
        </span>
        {worst !== null && worst !== 'not known' && <VerdictMark verdict={worst} />}
      </small>
    </a>
  );
});
