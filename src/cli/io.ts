/** Where the command reads and writes; handed in, so that tests run it in the same process. */
export interface CommandIo {
  readonly out: (text: string) => void;
  readonly err: (text: string) => void;
  /** Standard output is a terminal that a person looks at. */
  readonly terminal: boolean;
  /** Standard error is a terminal: progress may be rewritten in place. */
  readonly progressTerminal: boolean;
  readonly columns: number;
  readonly cwd: string;
  readonly env: Readonly<Record<string, string | undefined>>;
  /** Aborted by Ctrl-C. */
  readonly signal: AbortSignal;
}

/** Exit codes: everything done; an input was refused; the command was used wrongly. */
export const EXIT = { done: 0, refused: 1, usage: 2 } as const;

/** One object as one line of JSON that no terminal acts upon: control characters beyond JSON's own are escaped too. */
export function jsonLine(object: unknown): string {
  const text = JSON.stringify(object, (_key, value: unknown) =>
    typeof value === 'number' && !Number.isFinite(value) ? null : value,
  );
  return `${text.replace(
    /[\u007f-\u009f\u2028\u2029]/g,
    (letter) => `\\u${letter.charCodeAt(0).toString(16).padStart(4, '0')}`,
  )}\n`;
}

/** Text from a file, fit for a terminal: nothing in it moves the cursor, rings or colours. */
export function plain(text: string): string {
  // biome-ignore lint/suspicious/noControlCharactersInRegex: they are what is taken out
  return text.replace(/[\u0000-\u001f\u007f-\u009f\u200e\u200f\u202a-\u202e\u2066-\u2069]/g, '·');
}
