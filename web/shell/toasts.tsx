import { Button, CloseButton, Group, Paper, Text } from '@mantine/core';
import { useEffect, useSyncExternalStore } from 'react';
import { plainName } from './FileName.tsx';
import styles from './toasts.module.css';

/** One passing message; with `act` there is one thing to do about it. */
export interface Toast {
  readonly id: number;
  readonly sentence: string;
  readonly kind: 'done' | 'trouble';
  readonly act?: { readonly label: string; readonly run: () => void };
}

const STAYS_MS = 8000;
let toasts: readonly Toast[] = [];
let nextId = 1;
const listeners = new Set<() => void>();

function publish(next: readonly Toast[]): void {
  toasts = next;
  for (const listener of listeners) listener();
}

/** Says in passing that something was done, with a way back where there is one. */
export function say(sentence: string, undo?: () => void): void {
  const act = undo === undefined ? {} : { act: { label: 'Undo', run: undo } };
  publish([...troubles(), { id: nextId++, sentence, kind: 'done', ...act }]);
}

/** Says in passing what could be done next. */
export function offer(sentence: string, label: string, run: () => void): void {
  publish([...troubles(), { id: nextId++, sentence, kind: 'done', act: { label, run } }]);
}

/** Says that something did not work; stays until it is read. */
export function sayTrouble(sentence: string): void {
  publish([...toasts.slice(-2), { id: nextId++, sentence, kind: 'trouble' }]);
}

/** News replaces older news; what went wrong stays until it is read. */
const troubles = () => toasts.filter((toast) => toast.kind === 'trouble').slice(-2);

function dismiss(id: number): void {
  publish(toasts.filter((toast) => toast.id !== id));
}

function subscribe(listener: () => void): () => void {
  listeners.add(listener);
  return () => listeners.delete(listener);
}

function Slip({ toast }: { toast: Toast }) {
  useEffect(() => {
    if (toast.kind === 'trouble') return;
    const timer = setTimeout(() => dismiss(toast.id), STAYS_MS);
    return () => clearTimeout(timer);
  }, [toast]);
  return (
    <Paper withBorder shadow="md" px="md" py="xs" className={styles.slip} data-kind={toast.kind}>
      <Group gap="sm" wrap="nowrap" justify="space-between">
        <Text size="sm">
          {toast.kind === 'trouble' && <strong>Not done: </strong>}
          {plainName(toast.sentence)}
        </Text>
        <Group gap="xs" wrap="nowrap">
          {toast.act && (
            <Button
              variant="default"
              size="compact-sm"
              onClick={() => {
                toast.act?.run();
                dismiss(toast.id);
              }}
            >
              {toast.act.label}
            </Button>
          )}
          <CloseButton size="sm" aria-label="Dismiss" onClick={() => dismiss(toast.id)} />
        </Group>
      </Group>
    </Paper>
  );
}

/** The corner where passing messages appear; read out by screen readers as they come. */
export function Toasts() {
  const shown = useSyncExternalStore(subscribe, () => toasts);
  return (
    <div className={styles.corner} role="status" aria-live="polite">
      {shown.map((toast) => (
        <Slip key={toast.id} toast={toast} />
      ))}
    </div>
  );
}
