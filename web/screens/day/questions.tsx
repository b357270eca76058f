import { Button, NativeSelect } from '@mantine/core';
import { useQueries } from '@tanstack/react-query';
import { useState } from 'react';
import { useChange } from '../../api/changes.ts';
import { ask } from '../../api/client.ts';
import { understoodQuery } from '../../api/queries.ts';
import type {
  Pull,
  Question,
  RememberedOptions,
  StoredRecording,
  Understood,
} from '../../api/types.gen.ts';
import { Trouble } from '../../shell/states.tsx';
import { asSentence } from '../../shell/words.ts';
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
  const failed = answers.find((answer) => answer.isError);
  if (failed !== undefined)
    return <Trouble error={failed.error} retry={() => void failed.refetch()} />;
  if (known.length === 0) return null;
  const open = known.filter(({ of }) => of.questions.length > 0);
  return (
    <section className="panel" aria-label="What was read of the files">
      {open.map(({ of }) =>
        of.questions.map((question) => (
          <fieldset key={`${of.shape}${question.key}`} className={styles.question}>
            <legend>{question.sentence}</legend>
            <p className="quiet">Until it is answered it counts as {question.meanwhile}.</p>
            <Choices
              choices={question.choices}
              busy={remember.isPending}
              choose={(answer) =>
                remember.mutate({ shape: of.shape, answers: mergeAnswers(of.answers, answer) })
              }
            />
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

interface ChoicesProps {
  readonly choices: Question['choices'];
  readonly busy: boolean;
  readonly choose: (answer: RememberedOptions) => void;
}

/** So many choices stand as buttons; the rarer ones wait in a list beside them. */
const AS_BUTTONS = 2;

function Choices({ choices, busy, choose }: ChoicesProps) {
  const rare = choices.slice(AS_BUTTONS);
  return (
    <div className={styles.choices}>
      {choices.slice(0, AS_BUTTONS).map((choice) => (
        <Button
          key={choice.label}
          variant="default"
          disabled={busy}
          onClick={() => choose(choice.answer)}
        >
          {asSentence(choice.label).slice(0, -1)}
        </Button>
      ))}
      {rare.length > 0 && (
        <NativeSelect
          aria-label="Another answer"
          disabled={busy}
          value=""
          onChange={(event) => {
            const choice = rare[Number(event.currentTarget.value)];
            if (choice !== undefined) choose(choice.answer);
          }}
          data={[
            { value: '', label: 'Something else …' },
            ...rare.map((choice, at) => ({ value: String(at), label: choice.label })),
          ]}
        />
      )}
    </div>
  );
}

function leftOver(understood: Understood): string {
  const others = understood.channels.filter((channel) => channel.quantity === 'other');
  if (others.length === 0) return '';
  const names = others.slice(0, 3).map((channel) => `“${channel.header}”`);
  const more = others.length > 3 ? ` and ${others.length - 3} more` : '';
  return `; ${names.join(', ')}${more} kept under ${others.length === 1 ? 'its' : 'their'} own name`;
}
