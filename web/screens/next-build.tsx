import { Button, Group, TextInput } from '@mantine/core';
import { useNavigate } from '@tanstack/react-router';
import { useState } from 'react';
import { useChange } from '../api/changes.ts';
import { ask } from '../api/client.ts';
import type { Build } from '../api/types.gen.ts';
import { ChangedSections } from '../build/ChangedSections.tsx';
import { Sheet } from '../form/sheet.tsx';

interface NextBuildProps {
  /** The build that it begins as a copy of. */
  readonly from: Pick<Build, 'id' | 'name'>;
  readonly name: string;
  readonly onClose: () => void;
}

/** Begins the next build of an engine as a copy of one, with what was changed left to be measured again. */
export function NextBuild({ from, name: offered, onClose }: NextBuildProps) {
  const navigate = useNavigate();
  const [name, setName] = useState(offered);
  const [changed, setChanged] = useState<readonly string[]>([]);
  const begin = useChange(
    () =>
      ask('POST /builds/{id}/next', {
        params: { id: from.id },
        body: { name: name.trim(), changed: [...changed] },
      }),
    {
      done: (made) => `${made.name} is begun as a copy of ${from.name}.`,
      after: ({ id }) => {
        onClose();
        void navigate({ to: '/builds/$id/sheet/{-$section}', params: { id } });
      },
    },
  );
  return (
    <Sheet onClose={onClose} title="Begin the next build" size="lg">
      <form
        onSubmit={(event) => {
          event.preventDefault();
          if (name.trim() !== '') begin.mutate(undefined);
        }}
      >
        <div className="stack">
          <p className="quiet">
            Its sheet begins as that of {from.name}, with its parts, photos and files; test days
            stay where they are.
          </p>
          <TextInput
            label="Name of the build"
            data-autofocus
            autoComplete="off"
            maxLength={200}
            value={name}
            onChange={(event) => setName(event.currentTarget.value)}
          />
          <ChangedSections changed={changed} onChange={setChanged} />
        </div>
        <Group justify="flex-end" mt="lg" gap="sm">
          <Button variant="default" onClick={onClose}>
            Cancel
          </Button>
          <Button type="submit" loading={begin.isPending} disabled={name.trim() === ''}>
            Begin it
          </Button>
        </Group>
      </form>
    </Sheet>
  );
}
