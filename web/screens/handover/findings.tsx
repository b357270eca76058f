import { useState } from 'react';
import type { FigureWanted } from '../../../src/figures.ts';
import type { Findings as FindingsAnswer } from '../../api/types.gen.ts';
import { gainTable } from '../../charts/gain-words.ts';
import { ChartFrame, curveTable, differenceTable, differenceUnit } from '../../charts/index.ts';
import { outside } from '../../charts/numbers.ts';
import { responseTable } from '../../charts/response-words.ts';
import { FigurePicture } from '../../print/picture.tsx';
import { Facts } from '../../shell/figures.tsx';
import type { TableModel } from '../../table/model.ts';
import { CareIcon } from '../../theme/icons.tsx';
import styles from './handover.module.css';

type Block = FindingsAnswer['blocks'][number];

/** The first page of a report on the screen: the same words, its picture answering to the pointer. */
export function Findings({ findings, title }: { findings: FindingsAnswer; title: string }) {
  return (
    <article className={styles.findings} aria-label={`Findings, ${title}`}>
      {findings.blocks
        // The page has its own headline.
        .filter((block) => block.kind !== 'heading' || block.level > 1)
        .map((block, at) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: blocks never move
          <BlockOf key={at} block={block} />
        ))}
    </article>
  );
}

function BlockOf({ block }: { block: Block }) {
  switch (block.kind) {
    case 'heading':
      return block.level === 3 ? <h3>{block.text}</h3> : <h2>{block.text}</h2>;
    case 'paragraph':
      return <p className={block.quiet === true ? 'quiet' : undefined}>{block.text}</p>;
    case 'facts':
      return <Facts rows={block.rows} />;
    case 'headline':
      return <Headline figures={block.figures} />;
    case 'figure':
      return <Figure figure={block.figure} caption={block.caption} />;
    case 'list':
      return <Items items={block.items} />;
    case 'care':
      return (
        <section className={styles.care}>
          <h3>
            <CareIcon /> {block.word}
          </h3>
          <Items items={block.items} />
        </section>
      );
  }
}

/** The few figures that are looked for first. */
function Headline({ figures }: { figures: Extract<Block, { kind: 'headline' }>['figures'] }) {
  return (
    <dl className={styles.headline}>
      {figures.map(({ label, value, interval, where }) => (
        <div key={label}>
          <dt>{label}</dt>
          <dd>
            <b>{value}</b>
            <span>{interval}</span>
            <span className="quiet">{where}</span>
          </dd>
        </div>
      ))}
    </dl>
  );
}

function Items({ items }: { items: readonly string[] }) {
  return (
    <ul>
      {items.map((item, at) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: items never move
        <li key={at}>{item}</li>
      ))}
    </ul>
  );
}

function Figure({ figure, caption }: { figure: FigureWanted; caption: string }) {
  const [cursor, setCursor] = useState<number | null>(null);
  return (
    <ChartFrame
      title={figure.title}
      subtitle={caption}
      scenario={figure.scenario}
      table={() => tableOf(figure)}
      className={styles.chart ?? ''}
    >
      {(size) => <FigurePicture {...size} figure={figure} cursor={cursor} onCursor={setCursor} />}
    </ChartFrame>
  );
}

/** What a picture shows, as figures. */
function tableOf(figure: FigureWanted): TableModel {
  switch (figure.kind) {
    case 'curves':
      return curveTable(figure.series, figure.units);
    case 'response':
      return responseTable({
        answer: figure.answer,
        unit: figure.settingUnit,
        power: outside('power', figure.units),
        // The dots of a report carry no number of a pull; their setting tells them apart.
        nameOf: () => 'pull',
      });
    case 'gain':
      return gainTable(figure.steps, figure.settingUnit);
    case 'difference':
      return differenceTable([figure], differenceUnit('percent', figure.units));
  }
}
