import { Button } from '@mantine/core';
import { useState } from 'react';
import { copyText } from './copy-text.ts';

/** Puts a text where it can be pasted from, and says whether it did. */
export function CopyButton({ text, label }: { readonly text: string; readonly label: string }) {
  const [said, setSaid] = useState<string | null>(null);
  const copy = () =>
    copyText(text).then(
      () => setSaid('Copied'),
      () => setSaid('Mark the text and copy it by hand'),
    );
  return (
    <Button
      variant="default"
      size="compact-sm"
      onClick={() => void copy()}
      onBlur={() => setSaid(null)}
    >
      <span aria-live="polite">{said ?? label}</span>
    </Button>
  );
}
