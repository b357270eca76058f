import { MantineProvider } from '@mantine/core';
import { QueryClient, QueryClientProvider } from '@tanstack/react-query';
import type { ReactNode } from 'react';
import { renderToStaticMarkup } from 'react-dom/server';
import { describe, expect, it } from 'vitest';
import { demoSheets } from '../../demo/sheets.ts';
import {
  answerSheet,
  layoutOf,
  planFor,
  SHIPPED_WINDOWS,
  type Sheet,
  sheetChanges,
} from '../../src/build/index.ts';
import { PreferencesProvider } from '../shell/preferences.tsx';
import { ChangesView } from './ChangesView.tsx';
import { PlanView } from './PlanView.tsx';
import { SheetPaper } from './SheetPaper.tsx';
import { SheetView } from './SheetView.tsx';
import { useSheet } from './useSheet.ts';
import { WindowsView } from './WindowsView.tsx';
import { withOwn, withoutOwn } from './windows.ts';
import { SECTIONS, verdictCounts } from './words.ts';

const markup = (children: ReactNode) =>
  renderToStaticMarkup(
    <QueryClientProvider client={new QueryClient()}>
      <PreferencesProvider>
        <MantineProvider env="test" withCssVariables={false} withGlobalClasses={false}>
          {children}
        </MantineProvider>
      </PreferencesProvider>
    </QueryClientProvider>,
  );
const plain = (html: string) =>
  html
    .replace(/<[^>]*>/g, ' ')
    .replace(/&#x27;/g, "'")
    .replace(/&quot;/g, '"')
    .replace(/&amp;/g, '&')
    .replace(/\s+/g, ' ');

function Whole({ sheet, section }: { sheet: Sheet; section: string | null }) {
  return <SheetView inHand={useSheet(sheet)} section={section} href={String} go={() => {}} />;
}

const sheets = demoSheets();
const EMPTY: Sheet = { format: 'sheet/1', layout: layoutOf(4), sections: {} };

describe('the screen of a sheet', () => {
  it.each(sheets.map(({ engine, build, sheet }) => [`${engine}, ${build}`, sheet] as const))(
    '%s: every section has an input for all of its fields and says every check with its verdict',
    (_, sheet) => {
      const { checks } = answerSheet(sheet);
      for (const section of SECTIONS) {
        const html = markup(<Whole sheet={sheet} section={section.id} />);
        for (const field of section.fields)
          expect(html, field.id).toContain(`data-path="${section.id}.${field.id}"`);
        const said = plain(html);
        for (const check of checks.filter((one) => one.section === section.id)) {
          expect(said).toContain(check.label);
          if (check.verdict !== 'not known')
            expect(said).toContain(`${check.verdict} ${check.label}`);
          if (check.remedy !== null && check.verdict !== 'fine') expect(html).toContain('<svg');
        }
      }
    },
  );

  it('counts the verdicts and leads to what to measure next', () => {
    for (const { sheet } of sheets) {
      const answer = answerSheet(sheet);
      const said = plain(markup(<Whole sheet={sheet} section={null} />));
      const counts = verdictCounts(answer.checks);
      for (const [verdict, count] of Object.entries(counts))
        expect(said).toContain(`${count} ${verdict}`);
      for (const { label } of answer.measureNext.slice(0, 10)) expect(said).toContain(label);
    }
  });

  it('stands with nothing measured at all', () => {
    for (const section of [null, ...SECTIONS.map(({ id }) => id)])
      expect(plain(markup(<Whole sheet={EMPTY} section={section} />))).not.toMatch(
        /NaN|undefined|null/,
      );
  });
});

describe('the sheet on paper', () => {
  it('has everything that was typed, every verdict and its window on one page', () => {
    const { sheet } = sheets[1]!;
    const answer = answerSheet(sheet);
    const said = plain(markup(<SheetPaper title="Build sheet" sheet={sheet} />));
    for (const section of SECTIONS) {
      const data = sheet.sections[section.id];
      for (const field of section.fields)
        if (data?.values?.[field.id] !== undefined) expect(said).toContain(field.label);
      for (const part of data?.parts ?? []) expect(said).toContain(part.name);
      for (const table of section.tables ?? [])
        if (data?.tables?.[table.id] !== undefined) expect(said).toContain(table.label);
    }
    for (const check of answer.checks)
      if (check.verdict !== 'not known') expect(said).toContain(check.label);
    expect(said).not.toMatch(/NaN|undefined|null/);
    expect(plain(markup(<SheetPaper title="Build sheet" sheet={EMPTY} />))).not.toMatch(
      /NaN|undefined|null/,
    );
  });
});

describe('two builds, the plan, the windows', () => {
  it('says every change', () => {
    const [before, after] = [sheets[0]!, sheets[1]!];
    const found = sheetChanges(
      before.sheet,
      after.sheet,
      answerSheet(before.sheet),
      answerSheet(after.sheet),
    );
    const html = markup(
      <ChangesView
        before={{ name: before.build, sheet: before.sheet }}
        after={{ name: after.build, sheet: after.sheet }}
      />,
    );
    const said = plain(html);
    expect(found.verdicts.length + found.computed.length + found.measured.length).toBeGreaterThan(
      0,
    );
    for (const one of [...found.verdicts, ...found.computed, ...found.measured, ...found.tables])
      expect(said).toContain(one.label);
    const none = { name: 'One', sheet: before.sheet };
    expect(plain(markup(<ChangesView before={none} after={none} />))).toContain('Nothing differs');
  });

  it('puts the cautions first and counts what is open before the first start', () => {
    const { sheet } = sheets[2]!;
    const plan = planFor(sheet, answerSheet(sheet));
    const items = plan.sections.flatMap((section) => section.items);
    const must = items.filter((item) => item.weight === 'must' && item.beforeFirstStart);
    const at = '2026-05-17T10:00:00Z';
    const page = (ticked: readonly string[]) =>
      plain(
        markup(
          <PlanView
            title="Test plan"
            plan={plan}
            ticks={ticked.map((itemId) => ({ itemId, by: 'Tamsin', at }))}
            onTick={() => {}}
          />,
        ),
      );
    expect(page([])).toContain(`${must.length} things are still open before the first start`);
    expect(page([]).indexOf('What keeps people safe')).toBeLessThan(
      page([]).indexOf('Before the first start'),
    );
    const all = page(must.map(({ id }) => id));
    expect(all).toContain('Everything that must be done before the first start is ticked.');
    expect(all).toContain('ticked by Tamsin');
  });

  it('puts a line of the shop in the place of the shipped one, and takes it away again', () => {
    const shipped = SHIPPED_WINDOWS.find(({ name }) => name === 'leakDown')!;
    const mine = { ...shipped, high: 0.07, source: 'the shop’s own' };
    const own = withOwn(withOwn([], { ...mine, high: 0.05 }), mine);
    expect(own).toEqual([mine]);
    const said = plain(markup(<WindowsView own={own} onChange={() => {}} />));
    expect(said).toContain('7.0 % or less');
    expect(said).not.toContain('Leak-down all 10.0 %');
    expect(withoutOwn(own, shipped)).toEqual([]);
  });

  it('shows every shipped window with where it is from', () => {
    const html = markup(<WindowsView own={[]} onChange={() => {}} />);
    const said = plain(html);
    // A site within a source is a way of its own, so that blanks stand where its tags were.
    const packed = said.replace(/\s+/g, '');
    for (const { source, addresses = [] } of SHIPPED_WINDOWS) {
      expect(packed).toContain(source.replace(/\s+/g, ''));
      for (const address of addresses) expect(html).toContain(`href="${address}"`);
    }
    expect(said).not.toMatch(/NaN|undefined/);
    // Every window is called by words and not by its name in the list.
    for (const { name } of SHIPPED_WINDOWS)
      if (/[A-Z-]/.test(name)) expect(said).not.toContain(`Edit ${name} `);
  });
});
