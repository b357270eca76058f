import { Menu, UnstyledButton } from '@mantine/core';
import { Link } from '@tanstack/react-router';
import { type ReactNode, useState } from 'react';
import type { Ladder, Pull } from '../../api/types.gen.ts';
import frame from '../../shell/page.module.css';
import type { Crumb } from '../../shell/page.tsx';
import { type LadderSheet, LadderSheets } from './ladder-sheets.tsx';
import { choiceInWords, nameOfLadder } from './ladder-words.ts';

/** The crumbs with a menu on the last one. */
export function withMenu(crumbs: readonly Crumb[], menu: ReactNode): readonly Crumb[] {
  return crumbs.map((crumb, at) => (at === crumbs.length - 1 ? { ...crumb, menu } : crumb));
}

interface LadderMenuProps {
  readonly ladder: Ladder;
  readonly ladders: readonly Ladder[];
  /** Of the day. */
  readonly pulls: readonly Pull[];
}

/** From one ladder of the day to the others, to which pulls are its own, and to a new one. */
export function LadderMenu({ ladder, ladders, pulls }: LadderMenuProps) {
  const [sheet, setSheet] = useState<LadderSheet>(null);
  const name = nameOfLadder(ladder);
  return (
    <>
      <Menu position="bottom-start">
        <Menu.Target>
          <UnstyledButton className={frame.turn} aria-label={`Ladder: ${name}`}>
            {name} <span aria-hidden="true">▾</span>
          </UnstyledButton>
        </Menu.Target>
        <Menu.Dropdown>
          <Menu.Label>Ladders of the day</Menu.Label>
          {ladders.map((one) => (
            <Menu.Item
              key={one.id}
              component={Link}
              to={`/ladders/${one.id}`}
              {...(one.id === ladder.id ? { 'aria-current': 'true' as const, fw: 600 } : {})}
            >
              {`${nameOfLadder(one)}: ${choiceInWords(one, pulls)}`}
            </Menu.Item>
          ))}
          <Menu.Item component={Link} to={`/days/${ladder.dayId}/both`}>
            Lead and lambda at once
          </Menu.Item>
          <Menu.Divider />
          <Menu.Item onClick={() => setSheet({ kind: 'edit', ladder })}>
            Which pulls, and how it is judged …
          </Menu.Item>
          <Menu.Item onClick={() => setSheet({ kind: 'new', setting: 'lead' })}>
            New ladder of spark lead …
          </Menu.Item>
          <Menu.Item onClick={() => setSheet({ kind: 'new', setting: 'lambda' })}>
            New ladder of lambda …
          </Menu.Item>
        </Menu.Dropdown>
      </Menu>
      <LadderSheets sheet={sheet} dayId={ladder.dayId} close={() => setSheet(null)} />
    </>
  );
}
