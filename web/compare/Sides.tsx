import { ActionIcon, Button, Tooltip } from '@mantine/core';
import { begun } from '../../src/compare/begun.ts';
import styles from './compare.module.css';
import type { CompareProps } from './props.ts';
import { SideMark } from './SideMark.tsx';
import { letterOf } from './words.ts';

/** Which sides stand here, and the ways to others. */
export function Sides({
  sides,
  onSwap,
  onRemove,
  onPick,
  acts,
}: Pick<CompareProps, 'sides' | 'onSwap' | 'onRemove' | 'onPick' | 'acts'>) {
  return (
    <section className={styles.sides} aria-label="Sides">
      <ol>
        {sides.map((side, at) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: a side is its place
          <li key={at}>
            <SideMark side={at} count={sides.length} />
            <span className={styles.sideWords}>
              {side.href === undefined ? (
                <strong>{begun(side.name)}</strong>
              ) : (
                <a href={side.href}>
                  <strong>{begun(side.name)}</strong>
                </a>
              )}
              <small>{side.aside}</small>
            </span>
            {onPick !== undefined && (
              <Button
                variant="subtle"
                size="compact-xs"
                aria-label={`Change ${letterOf(at)}, ${side.name}`}
                onClick={() => onPick(at)}
              >
                change
              </Button>
            )}
            {onRemove !== undefined && sides.length > 2 && (
              <Button
                variant="subtle"
                size="compact-xs"
                aria-label={`Leave out ${letterOf(at)}, ${side.name}`}
                onClick={() => onRemove(at)}
              >
                leave out
              </Button>
            )}
          </li>
        ))}
      </ol>
      <div className={`${styles.sideActs} offPaper`}>
        {onSwap !== undefined && sides.length > 1 && (
          <Tooltip label={sides.length === 2 ? 'Swap A and B' : 'Hold all against the next side'}>
            <ActionIcon
              variant="default"
              aria-label={sides.length === 2 ? 'Swap A and B' : 'Hold all against the next side'}
              onClick={onSwap}
            >
              <svg viewBox="0 0 20 20" width="18" height="18" aria-hidden="true" fill="none">
                <path
                  d="M4 7h11l-3-3M16 13H5l3 3"
                  stroke="currentColor"
                  strokeWidth="1.6"
                  strokeLinejoin="round"
                  strokeLinecap="round"
                />
              </svg>
            </ActionIcon>
          </Tooltip>
        )}
        {onPick !== undefined && (
          <Button variant="default" size="xs" onClick={() => onPick(null)}>
            Add a side
          </Button>
        )}
        {acts}
      </div>
    </section>
  );
}
