import { Button, Menu } from '@mantine/core';
import { useState } from 'react';
import { addressOf } from '../../api/client.ts';
import { putFile } from '../../api/put-file.ts';
import { ReadFile } from '../../build/ReadFile.tsx';
import type { SheetInHand } from '../../build/useSheet.ts';
import { say } from '../../shell/toasts.tsx';

/** Asks what a file would do to the sheet of a build; nothing is kept by it. */
export const readOnto = (buildId: string, file: File, cylinders?: number) =>
  putFile('POST /builds/{id}/sheet/read', { id: buildId }, file, {
    name: file.name,
    ...(cylinders === undefined ? {} : { cylinders }),
  });

interface SheetFileProps {
  readonly buildId: string;
  readonly inHand: Pick<SheetInHand, 'sheet' | 'change' | 'undo'>;
}

/** A sheet out of a file and into one. */
export function SheetFile({ buildId, inHand: { sheet, change, undo } }: SheetFileProps) {
  const [isOpen, setOpen] = useState(false);
  const file = (as: 'csv' | 'xlsx' | 'json') =>
    addressOf('/builds/{id}/sheet/file', { id: buildId }, { as });
  return (
    <>
      <Menu position="bottom-end">
        <Menu.Target>
          <Button variant="default" size="compact-md">
            File
          </Button>
        </Menu.Target>
        <Menu.Dropdown>
          <Menu.Item onClick={() => setOpen(true)}>Read a table or build file …</Menu.Item>
          <Menu.Divider />
          <Menu.Item component="a" href={file('csv')} download>
            Take away as a table (.csv)
          </Menu.Item>
          <Menu.Item component="a" href={file('xlsx')} download>
            Take away as a spreadsheet (.xlsx)
          </Menu.Item>
          <Menu.Item component="a" href={file('json')} download>
            Take away as a build file (.json)
          </Menu.Item>
        </Menu.Dropdown>
      </Menu>
      {isOpen && (
        <ReadFile
          standing={sheet}
          read={(given) => readOnto(buildId, given)}
          onKeep={(next) => {
            change(() => next);
            say('What was read is put onto the sheet.', undo);
          }}
          onClose={() => setOpen(false)}
        />
      )}
    </>
  );
}
