import { Button, Group, NativeSelect, Textarea, TextInput } from '@mantine/core';
import { type FormEvent, useState } from 'react';
import { usePreferences } from '../shell/preferences.tsx';
import styles from './edit-sheet.module.css';
import { type Field, readForm, textOf, unitOf, type Values } from './fields.ts';
import { Sheet } from './sheet.tsx';
import { TableInput } from './table-input.tsx';

export interface EditSheetProps {
  readonly title: string;
  readonly fields: readonly Field[];
  readonly values: Values;
  readonly saveLabel?: string;
  readonly busy?: boolean;
  /** For new things: what was offered and left as it is goes along. */
  readonly sendUntouched?: boolean;
  readonly onSave: (patch: Values) => void;
  readonly onClose: () => void;
}

/** A form over the page for one thing of the record. What is not touched is not sent. */
export function EditSheet(props: EditSheetProps) {
  const {
    title,
    fields,
    values,
    saveLabel = 'Save',
    busy = false,
    sendUntouched,
    onSave,
    onClose,
  } = props;
  const { units } = usePreferences();
  const [texts, setTexts] = useState<Readonly<Record<string, string>>>(() =>
    Object.fromEntries(fields.map((field) => [field.key, textOf(field, values[field.key], units)])),
  );
  const [troubles, setTroubles] = useState<Readonly<Record<string, string>>>({});

  const asked = fields.filter(({ only }) => only === undefined || texts[only.key] === only.is);

  const submit = (event: FormEvent) => {
    event.preventDefault();
    const read = readForm(asked, texts, values, units, sendUntouched);
    setTroubles(read.troubles);
    if (Object.keys(read.troubles).length > 0) return;
    if (Object.keys(read.patch).length === 0 && !sendUntouched) onClose();
    else onSave(read.patch);
  };

  return (
    <Sheet onClose={onClose} title={title} size="lg">
      <form onSubmit={submit} noValidate>
        <div className={styles.fields}>
          {asked.map((field, index) => (
            <FieldInput
              key={field.key}
              field={field}
              first={index === 0}
              text={texts[field.key] ?? ''}
              unit={unitOf(field, units)}
              trouble={troubles[field.key]}
              onChange={(text) => setTexts({ ...texts, [field.key]: text })}
            />
          ))}
        </div>
        <Group justify="flex-end" mt="lg" gap="sm">
          <Button variant="default" onClick={onClose}>
            Cancel
          </Button>
          <Button type="submit" loading={busy}>
            {saveLabel}
          </Button>
        </Group>
      </form>
    </Sheet>
  );
}

const HINT_BELOW: ('label' | 'input' | 'description' | 'error')[] = [
  'label',
  'input',
  'description',
  'error',
];

export interface FieldInputProps {
  readonly field: Field;
  readonly first: boolean;
  readonly text: string;
  readonly unit: string | undefined;
  readonly trouble: string | undefined;
  readonly onChange: (text: string) => void;
}

/** One field of a form, as its kind asks. */
export function FieldInput({ field, first, text, unit, trouble, onChange }: FieldInputProps) {
  const common = {
    label: unit === undefined ? field.label : `${field.label}, ${unit}`,
    value: text,
    required: field.required === true,
    withAsterisk: false,
    // Below, so that inputs side by side stand on one line whether or not they have a hint.
    inputWrapperOrder: HINT_BELOW,
    ...(field.hint === undefined ? {} : { description: field.hint }),
    ...(trouble === undefined ? {} : { error: trouble }),
    ...(first ? { 'data-autofocus': true } : {}),
  };
  if (field.kind === 'long')
    return (
      <Textarea
        {...common}
        className={styles.wide}
        rows={3}
        onChange={(event) => onChange(event.currentTarget.value)}
      />
    );
  if (field.kind === 'table')
    return <TableInput field={field} text={text} trouble={trouble} onChange={onChange} />;
  if (field.kind === 'choice' || field.kind === 'yesNo')
    return (
      <NativeSelect
        {...common}
        data={field.kind === 'yesNo' ? ['no', 'yes'] : [...(field.choices ?? [])]}
        onChange={(event) => onChange(event.currentTarget.value)}
      />
    );
  return (
    <TextInput
      {...common}
      type="text"
      autoComplete="off"
      onChange={(event) => onChange(event.currentTarget.value)}
    />
  );
}
