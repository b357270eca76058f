import {
  memo,
  type DragEvent as ReactDragEvent,
  type ReactNode,
  useEffect,
  useId,
  useState,
} from 'react';
import { SECTIONS } from '../../src/build/index.ts';
import { addressOf } from '../api/client.ts';
import type { BuildFile } from '../api/types.gen.ts';
import { FileName, plainName } from '../shell/FileName.tsx';
import { Trouble } from '../shell/states.tsx';
import { asSentence, timeInWords } from '../shell/words.ts';
import { StopIcon } from '../theme/icons.tsx';
import styles from './files.module.css';
import { useFiles } from './use-files.ts';

interface FilesPanelProps {
  readonly buildId: string;
  /** Section of the sheet whose files these are; null: all of the build, and new ones go to the build as a whole. */
  readonly section: string | null;
}

/** Photos and files of a build, or of one section of its sheet. */
export const FilesPanel = memo(function FilesPanel({ buildId, section }: FilesPanelProps) {
  const { all, error, sending, add, forget, change, remove } = useFiles(buildId);
  const [over, setOver] = useState(false);
  useEffect(() => keepPage(), []);
  const title = useId();
  const shown = (all ?? []).filter((file) => section === null || file.section === section);
  const take = (files: FileList | null) => {
    if (files !== null) add([...files], section);
  };
  const dragged = (event: ReactDragEvent) => {
    if (!event.dataTransfer.types.includes('Files')) return;
    // Without this the browser would leave the page and show the file.
    event.preventDefault();
    setOver(event.type === 'dragenter' || event.type === 'dragover');
    if (event.type === 'drop') take(event.dataTransfer.files);
  };
  return (
    <section
      className={styles.panel}
      aria-labelledby={title}
      data-over={over || undefined}
      onDragEnter={dragged}
      onDragOver={dragged}
      onDragLeave={dragged}
      onDrop={dragged}
    >
      <header>
        <h3 id={title}>Photos and files</h3>
        <div className="acts">
          <Pick camera take={take}>
            Take a photo
          </Pick>
          <Pick take={take}>Choose files</Pick>
        </div>
      </header>
      {error !== null && <Trouble error={error} />}
      {shown.length === 0 && all !== undefined && (
        <p className="quiet">
          None yet. Drop photos, a flow sheet or a cam card here; each at most 40 MB.
        </p>
      )}
      <ul className={styles.files}>
        {shown.map((file) => (
          <FileCard
            key={file.id}
            file={file}
            where={section === null}
            say={(caption) => change(file.id, { caption })}
            move={(to) => change(file.id, { section: to })}
            remove={() => remove(file.id)}
          />
        ))}
      </ul>
      {sending.map(({ key, name, trouble }) => (
        <p key={key} role={trouble === null ? 'status' : 'alert'} className={styles.sending}>
          {trouble === null ? (
            <>
              Sending <FileName name={name} /> …
            </>
          ) : (
            <>
              <StopIcon /> {asSentence(plainName(trouble))}{' '}
              <button type="button" className={styles.plain} onClick={() => forget(key)}>
                Clear
              </button>
            </>
          )}
        </p>
      ))}
    </section>
  );
});

/** A file dropped beside the panel would make the browser leave the page for it. */
function keepPage(): () => void {
  const stay = (event: DragEvent) => {
    if (event.dataTransfer?.types.includes('Files')) event.preventDefault();
  };
  window.addEventListener('dragover', stay);
  window.addEventListener('drop', stay);
  return () => {
    window.removeEventListener('dragover', stay);
    window.removeEventListener('drop', stay);
  };
}

interface PickProps {
  /** On a tablet: straight from its camera. */
  readonly camera?: boolean;
  readonly take: (files: FileList | null) => void;
  readonly children: ReactNode;
}

function Pick({ camera = false, take, children }: PickProps) {
  return (
    <label className={styles.pick} data-camera={camera || undefined}>
      {children}
      <input
        type="file"
        multiple={!camera}
        className="unseen"
        {...(camera ? { accept: 'image/*', capture: 'environment' as const } : {})}
        onChange={(event) => {
          take(event.currentTarget.files);
          // So that the same file can be chosen again after it was taken off.
          event.currentTarget.value = '';
        }}
      />
    </label>
  );
}

interface FileCardProps {
  readonly file: BuildFile;
  /** Whether to say which section it belongs to. */
  readonly where: boolean;
  readonly say: (caption: string) => void;
  readonly move: (section: string | null) => void;
  readonly remove: () => void;
}

function FileCard({ file, where, say, move, remove }: FileCardProps) {
  const { id, fileName, caption, section, who, putAt } = file;
  const name = plainName(fileName);
  return (
    <li className={styles.file}>
      <a
        href={addressOf('/files/{id}/bytes', { id })}
        target="_blank"
        rel="noopener noreferrer"
        className={styles.look}
      >
        <span className="unseen">Open {name} </span>
        <Thumbnail file={file} />
      </a>
      <small>
        <FileName name={fileName} />
      </small>
      <small className="quiet">
        {who === '' ? 'Put here' : `By ${who}`}, {timeInWords(putAt)}
      </small>
      {where && (
        <select
          className={styles.caption}
          aria-label={`Section of ${name}`}
          value={section ?? ''}
          onChange={({ currentTarget: { value } }) => move(value === '' ? null : value)}
        >
          <option value="">The whole build</option>
          {SECTIONS.map(({ id: one, title }) => (
            <option key={one} value={one}>
              {title}
            </option>
          ))}
        </select>
      )}
      <input
        key={caption}
        className={styles.caption}
        aria-label={`Caption of ${name}`}
        placeholder="Caption"
        autoComplete="off"
        maxLength={2000}
        defaultValue={caption}
        onBlur={(event) => {
          const text = event.currentTarget.value.trim();
          if (text !== caption) say(text);
        }}
        onKeyDown={(event) => event.key === 'Enter' && event.currentTarget.blur()}
      />
      <button type="button" className={styles.plain} onClick={remove}>
        Take off<span className="unseen"> {name}</span>
      </button>
    </li>
  );
}

const KINDS: Readonly<Record<string, string>> = {
  'application/pdf': 'PDF',
  'text/csv': 'Table',
  'text/plain': 'Text',
  'image/heic': 'HEIC photo',
  'image/heif': 'HEIF photo',
};

/** A picture where the browser can draw it, else what kind of file it is, in a word. */
function Thumbnail({ file: { id, mediaType, sizeBytes } }: { readonly file: BuildFile }) {
  const [isDrawn, setDrawn] = useState(mediaType.startsWith('image/'));
  if (isDrawn)
    return (
      <img
        src={addressOf('/files/{id}/bytes', { id })}
        alt=""
        loading="lazy"
        decoding="async"
        onError={() => setDrawn(false)}
      />
    );
  const size =
    sizeBytes < 1e6 ? `${Math.ceil(sizeBytes / 1e3)} kB` : `${Math.round(sizeBytes / 1e6)} MB`;
  return (
    <span className={styles.kind}>
      <strong>{KINDS[mediaType] ?? 'File'}</strong>
      <small>{size}</small>
    </span>
  );
}
