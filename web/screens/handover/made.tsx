import { Button, SegmentedControl } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import { useChange } from '../../api/changes.ts';
import { addressOf, ask } from '../../api/client.ts';
import { findingsQuery } from '../../api/queries.ts';
import type { EnginePage, HandOverKept } from '../../api/types.gen.ts';
import { Facts } from '../../shell/figures.tsx';
import { usePreferences } from '../../shell/preferences.tsx';
import { Trouble, Waiting } from '../../shell/states.tsx';
import { Findings } from './findings.tsx';
import styles from './handover.module.css';
import { madeAtInWords } from './made-list.tsx';
import { Shown } from './shown.tsx';
import { SignedWith } from './signed-with.tsx';

interface MadeProps {
  readonly kept: HandOverKept;
  /** Engine and build. */
  readonly title: string;
  readonly page: EnginePage;
}

export type Language = 'en' | 'de';

/** One hand-over: what it found, and its files. */
export function Made({ kept, title }: MadeProps) {
  const { units } = usePreferences();
  const [language, setLanguage] = useState<Language>('en');
  const [size, setSize] = useState<'letter' | 'a4'>(kept.choice.units === 'us' ? 'letter' : 'a4');
  const findings = useQuery(findingsQuery(kept.id, language, units));
  const params = { id: kept.id };
  const remove = useChange(() => ask('DELETE /handovers/{id}', { params }), {
    done: 'The hand-over is removed.',
  });
  return (
    <div className="two">
      <div lang={language}>
        {findings.isPending && <Waiting what="the findings" lines={8} />}
        {findings.isError && (
          <Trouble error={findings.error} retry={() => void findings.refetch()} />
        )}
        {findings.data && <Findings findings={findings.data} title={title} />}
      </div>
      <div className="stack">
        <section className="panel" aria-labelledby="take-away">
          <header>
            <h2 id="take-away">Take it away</h2>
          </header>
          <div className={styles.choices}>
            <SegmentedControl
              aria-label="Language"
              value={language}
              onChange={(value) => setLanguage(value === 'de' ? 'de' : 'en')}
              data={[
                { value: 'en', label: 'English' },
                { value: 'de', label: 'Deutsch' },
              ]}
            />
            <SegmentedControl
              aria-label="Paper"
              value={size}
              onChange={(value) => setSize(value === 'a4' ? 'a4' : 'letter')}
              data={[
                { value: 'letter', label: 'Letter' },
                { value: 'a4', label: 'A4' },
              ]}
            />
          </div>
          <ul className={styles.files}>
            <File
              href={addressOf('/handovers/{id}/report', params, { language, size })}
              title="Report (PDF)"
            >
              findings on one page, then the evidence; the bundle rides in it
            </File>
            <File
              href={addressOf('/handovers/{id}/page', params, { language })}
              title="Page for the owner (HTML)"
            >
              the same as one file for any browser; its pictures answer to the pointer
            </File>
            <File href={addressOf('/handovers/{id}/bundle', params)} title="Bundle (zip)">
              recordings as they came, every figure, tables, the signature
            </File>
          </ul>
        </section>
        <Shown id={kept.id} buildId={kept.buildId} madeAt={kept.madeAt} language={language} />
        <section className="panel" aria-labelledby="this-hand-over">
          <header>
            <h2 id="this-hand-over">This hand-over</h2>
            <Button
              variant="subtle"
              size="compact-sm"
              loading={remove.isPending}
              onClick={() => remove.mutate(undefined)}
            >
              Remove
            </Button>
          </header>
          <Facts
            rows={[
              ['Made', madeAtInWords(kept.madeAt)],
              ['By', kept.madeBy === '' ? null : kept.madeBy],
              ['Units of its files', kept.choice.units === 'us' ? 'US' : 'metric'],
              ['Made with', `Pullbook ${kept.pullbook}`],
            ]}
          />
          <SignedWith />
        </section>
      </div>
    </div>
  );
}

function File({
  href,
  title,
  children,
}: {
  readonly href: string;
  readonly title: string;
  readonly children: string;
}) {
  return (
    <li>
      <a href={href} target="_blank" rel="noreferrer">
        {title}
      </a>
      <p className="quiet">{children}</p>
    </li>
  );
}
