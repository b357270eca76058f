import { Button } from '@mantine/core';
import { useQueries } from '@tanstack/react-query';
import { useState } from 'react';
import { useChange } from '../../api/changes.ts';
import { ask } from '../../api/client.ts';
import { understoodQuery } from '../../api/queries.ts';
import type { Pull, RememberedOptions, StoredRecording, Understood } from '../../api/types.gen.ts';
import { mergeAnswers } from './answers.ts';
import { MappingSheet } from './mapping-sheet.tsx';
import styles from './questions.module.css';

/** One recording of each shape of file: what is answered for it counts for all of its shape. */
export function oneOfEachShape(recordings: readonly StoredRecording[]): StoredRecording[] {
  return [...new Map(recordings.map((recording) => [recording.shape, recording])).values()];
}

interface Known {
  readonly sha256: string;
  readonly of: Understood;
}

interface QuestionsProps {
  readonly cell: { readonly id: string; readonly name: string };
  readonly recordings: readonly StoredRecording[];
  readonly pulls: readonly Pull[];
}

/** What the files do not say, asked once for this cell and their shape; and what was read of each header. */
export function Questions({ cell, recordings, pulls }: QuestionsProps) {
  const shapes = oneOfEachShape(recordings);
  const answers = useQueries({
    queries: shapes.map((recording) => understoodQuery(recording.sha256, cell.id)),
  });
  const [fixing, setFixing] = useState<Known | null>(null);
  const remember = useChange(
    ({ shape, answers: body }: { shape: string; answers: RememberedOptions }) =>
      ask('PUT /cells/{id}/mappings/{shape}', {
        params: { id: cell.id, shape },
        body: { answers: body },
      }),
    {
      done: `Remembered for ${cell.name} and every file of this shape.`,
      after: () => setFixing(null),
    },
  );
  const known = answers.flatMap((answer, at) =>
    answer.data === undefined ? [] : [{ sha256: shapes[at]!.sha256, of: answer.data }],
  );
  const fixable = pulls.find((pull) => pull.recordingSha256 === fixing?.sha256);
  if (known.length === 0) return null;
  const open = known.filter(({ of }) => of.questions.length > 0);
  return (
    <section className="panel" aria-label="What was read of the files">
      {open.map(({ of }) =>
        of.questions.map((question) => (
          <fieldset key={`${of.shape}${question.key}`} className={styles.question}>
            <legend>{question.sentence}</legend>
            <p className="quiet">{question.meanwhile}</p>
            <div className="acts">
              {question.choices.map((choice) => (
                <Button
                  key={choice.label}
                  variant="default"
                  loading={remember.isPending}
                  onClick={() =>
                    remember.mutate({
                      shape: of.shape,
                      answers: mergeAnswers(of.answers, choice.answer),
                    })
                  }
                >
                  {choice.label}
                </Button>
              ))}
            </div>
          </fieldset>
        )),
      )}
      <div className={styles.shapes}>
        {known.map(({ sha256, of }) => (
          <p key={of.shape}>
            {of.channels.length} channels read from{' '}
            {shapes.length === 1 ? 'these files' : of.fileName}
            {leftOver(of)}.{' '}
            <button type="button" className={styles.link} onClick={() => setFixing({ sha256, of })}>
              Check or mend the headers
            </button>
          </p>
        ))}
      </div>
      {fixing && fixable && (
        <MappingSheet
          cellName={cell.name}
          pullId={fixable.id}
          understood={fixing.of}
          busy={remember.isPending}
          onClose={() => setFixing(null)}
          onSave={(changed) =>
            remember.mutate({
              shape: fixing.of.shape,
              answers: mergeAnswers(fixing.of.answers, changed),
            })
          }
        />
      )}
    </section>
  );
}

function leftOver(understood: Understood): string {
  const others = understood.channels.filter((channel) => channel.quantity === 'other');
  if (others.length === 0) return '';
  const names = others.slice(0, 3).map((channel) => `“${channel.header}”`);
  const more = others.length > 3 ? ` and ${others.length - 3} more` : '';
  return `; ${names.join(', ')}${more} kept under ${others.length === 1 ? 'its' : 'their'} own name`;
}
