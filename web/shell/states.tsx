import { Button, Skeleton, Stack, Text, Title } from '@mantine/core';
import type { ReactNode } from 'react';
import { ServiceError } from '../api/client.ts';
import { StopIcon } from '../theme/icons.tsx';
import styles from './states.module.css';
import { asSentence } from './words.ts';

/** What stands on the page while it is on its way. */
export function Waiting({ what, lines = 4 }: { what: string; lines?: number }) {
  return (
    <Stack gap="sm" role="status" aria-label={`Fetching ${what}`}>
      {Array.from({ length: lines }, (_, index) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: grey bars without identity
        <Skeleton key={index} height={index === 0 ? 32 : 18} width={index === 0 ? '40%' : '100%'} />
      ))}
    </Stack>
  );
}

/** Where it happened, what stood there and what was expected, as far as these are known. */
export function Place({ error }: { error: ServiceError }) {
  const { file, line, column, found, expected } = error.place;
  const rows = [
    ['File', file],
    ['Line', line],
    ['Column', column],
    ['Found', found],
    ['Expected', expected],
  ].filter((row): row is [string, string | number] => row[1] !== undefined && row[1] !== null);
  if (rows.length === 0) return null;
  return (
    <dl className={styles.place}>
      {rows.map(([name, value]) => (
        <div key={name}>
          <dt>{name}</dt>
          <dd>{value}</dd>
        </div>
      ))}
    </dl>
  );
}

/** Something did not work: what, where, and a way to try again. */
export function Trouble({ error, retry }: { error: unknown; retry?: () => void }) {
  const sentence = asSentence(error instanceof Error ? error.message : String(error));
  return (
    <div role="alert" className={styles.trouble}>
      <p>
        <StopIcon /> {sentence}
      </p>
      {error instanceof ServiceError && <Place error={error} />}
      {retry && (
        <Button variant="default" size="xs" mt="xs" onClick={retry}>
          Try again
        </Button>
      )}
    </div>
  );
}

/** Nothing here yet, and what to do about it. */
export function Nothing({
  title,
  children,
  action,
}: {
  title: string;
  children?: ReactNode;
  action?: ReactNode;
}) {
  return (
    <div className={styles.nothing}>
      <Title order={2} size="h4">
        {title}
      </Title>
      {children && (
        <Text c="dimmed" mt={4} maw="38rem">
          {children}
        </Text>
      )}
      {action && <div className={styles.action}>{action}</div>}
    </div>
  );
}
