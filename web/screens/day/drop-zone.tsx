import { Button, FileButton, Progress } from '@mantine/core';
import { Link } from '@tanstack/react-router';
import { type ReactNode, useEffect, useState } from 'react';
import { FileName } from '../../shell/FileName.tsx';
import { Place } from '../../shell/states.tsx';
import { asSentence, count } from '../../shell/words.ts';
import { CheckIcon, NoteIcon, StopIcon } from '../../theme/icons.tsx';
import styles from './drop-zone.module.css';
import { UnknownColumns } from './unknown-columns.tsx';
import { type FileJob, unnamedColumnsOf } from './use-imports.ts';

interface DropZoneProps {
  readonly onFiles: (files: readonly File[]) => void;
  /** While the day has no pulls: types in a peak where only figures are known. */
  readonly onTyped: (() => void) | null;
  /** What stands above the line. */
  readonly head: ReactNode;
  readonly children: ReactNode;
}

/** The whole page takes dropped files; the line at its head says so and opens the file picker. */
export function DropZone({ onFiles, onTyped, head, children }: DropZoneProps) {
  const empty = onTyped !== null;
  const over = useFileDrop(onFiles);
  return (
    <div className={styles.zone} data-over={over || undefined}>
      {head}
      <div className={styles.line} data-empty={empty || undefined}>
        <div>
          <strong>{empty ? 'Drop the day’s run files here' : 'More run files?'}</strong>{' '}
          <span className="quiet">
            {empty
              ? 'Text, spreadsheet or Parquet, as the logger wrote them; many at once.'
              : 'Drop them anywhere on this page.'}
          </span>
          {onTyped !== null && (
            <p className="quiet">
              Then set each pull’s lead; the ladder needs it. Where only figures are known,{' '}
              <button type="button" className={styles.link} onClick={onTyped}>
                type in a peak
              </button>
              .
            </p>
          )}
        </div>
        <FileButton multiple onChange={onFiles}>
          {(props) => (
            <Button variant={empty ? 'filled' : 'default'} {...props}>
              Choose files
            </Button>
          )}
        </FileButton>
      </div>
      {children}
      {over && <div className={styles.veil}>Drop to add to this day</div>}
    </div>
  );
}

/** Takes files dropped anywhere on the page; true while some are held over it. */
function useFileDrop(onFiles: (files: readonly File[]) => void): boolean {
  // Entering a child fires before leaving its parent, so depth is counted instead of a flag.
  const [depth, setDepth] = useState(0);
  useEffect(() => {
    const withFiles = (act: (transfer: DataTransfer) => void) => (event: DragEvent) => {
      if (event.dataTransfer === null || !event.dataTransfer.types.includes('Files')) return;
      // Without this the browser would leave the page and show the file.
      event.preventDefault();
      act(event.dataTransfer);
    };
    const handlers = {
      dragenter: withFiles(() => setDepth((now) => now + 1)),
      dragleave: withFiles(() => setDepth((now) => Math.max(0, now - 1))),
      dragover: withFiles(() => {}),
      drop: withFiles((transfer) => {
        setDepth(0);
        onFiles([...transfer.files]);
      }),
    };
    for (const [kind, handler] of Object.entries(handlers))
      window.addEventListener(kind, handler as EventListener);
    return () => {
      for (const [kind, handler] of Object.entries(handlers))
        window.removeEventListener(kind, handler as EventListener);
    };
  }, [onFiles]);
  return depth > 0;
}

interface FileListProps {
  /** Where the files come from: what is said of their columns is remembered for it. */
  readonly cell: { readonly id: string; readonly name: string };
  readonly jobs: readonly FileJob[];
  readonly cancel: (key: number) => void;
  readonly clear: () => void;
  readonly tryAgain: (shape: string) => void;
}

/** What became of each dropped file. */
export function FileList({ cell, jobs, cancel, clear, tryAgain }: FileListProps) {
  const [naming, setNaming] = useState<FileJob | null>(null);
  const unnamed = naming === null ? null : unnamedColumnsOf(naming);
  if (jobs.length === 0) return null;
  const busy = jobs.some((job) => job.state === 'waiting' || job.state === 'running');
  return (
    <section className="panel" aria-label="Files" aria-live="polite">
      <header>
        <h2>Files</h2>
        {!busy && (
          <Button variant="subtle" size="compact-sm" onClick={clear}>
            Clear the list
          </Button>
        )}
      </header>
      <ul className={styles.files}>
        {jobs.map((job) => (
          <li key={job.key}>
            <FileLine
              job={job}
              cancel={() => cancel(job.key)}
              nameColumns={unnamedColumnsOf(job) === null ? null : () => setNaming(job)}
            />
          </li>
        ))}
      </ul>
      {naming !== null && unnamed !== null && (
        <UnknownColumns
          cell={cell}
          file={naming.file}
          understood={unnamed}
          onNamed={(shape) => {
            setNaming(null);
            tryAgain(shape);
          }}
          onClose={() => setNaming(null)}
        />
      )}
    </section>
  );
}

interface FileLineProps {
  readonly job: FileJob;
  readonly cancel: () => void;
  /** Null: its columns are not what it was refused for. */
  readonly nameColumns: (() => void) | null;
}

function FileLine({ job, cancel, nameColumns }: FileLineProps) {
  const share = job.stage?.share ?? null;
  return (
    <>
      <div className={styles.file}>
        <span className={styles.name}>
          <FileName name={job.name} />
        </span>
        {job.state === 'waiting' && <span className="quiet">waiting</span>}
        {job.state === 'running' && (
          <>
            <span className="quiet">{job.stage?.words ?? 'sending'}</span>
            <Progress
              className={styles.progress}
              value={(share ?? 1) * 100}
              animated={share === null}
              aria-label={`Progress of ${job.name}`}
            />
          </>
        )}
        {job.state === 'done' && <Outcome job={job} />}
        {job.state === 'cancelled' && (
          <span className="quiet">Cancelled; nothing of it was stored.</span>
        )}
        {job.state === 'refused' && (
          <span className="stop">
            <StopIcon /> {asSentence(job.error?.message ?? 'not taken')}
          </span>
        )}
        {nameColumns !== null && (
          <Button variant="default" size="compact-sm" onClick={nameColumns}>
            Say what its columns are
          </Button>
        )}
        {(job.state === 'waiting' || job.state === 'running') && (
          <Button variant="default" size="compact-xs" onClick={cancel}>
            Cancel<span className={styles.unseen}> {job.name}</span>
          </Button>
        )}
      </div>
      {job.state === 'refused' && job.error !== null && <Place error={job.error} />}
    </>
  );
}

function Outcome({ job }: { job: FileJob }) {
  const imported = job.imported!;
  const [first] = imported.pulls;
  if (imported.duplicate)
    return (
      <span>
        <NoteIcon /> These very bytes are in the book already:{' '}
        {first === undefined ? (
          'nothing was added.'
        ) : (
          <Link to={`/pulls/${first.id}`}>pull {first.order + 1}</Link>
        )}
      </span>
    );
  const warnings = imported.understood?.warnings ?? [];
  return (
    <span>
      <CheckIcon /> {count(imported.pulls.length, 'pull')}, {count(imported.recording.rows, 'row')}
      {warnings.length > 0 && (
        <details className={styles.warnings}>
          <summary>{count(warnings.length, 'remark')}</summary>
          <ul>
            {warnings.map((warning) => (
              <li key={warning}>{warning}</li>
            ))}
          </ul>
        </details>
      )}
    </span>
  );
}
