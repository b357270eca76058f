import { type CommandIo, plain } from './io.ts';

/** Progress on standard error: rewritten in place on a terminal, else one line for each file named on the command. */
export class Progress {
  private readonly io: CommandIo;
  private shown = '';

  constructor(io: CommandIo) {
    this.io = io;
  }

  file(name: string, index: number, count: number): void {
    const text = `${plain(name)} (${index + 1} of ${count})`;
    if (this.io.progressTerminal) this.rewrite(text);
    else if (count > 1) this.io.err(`reading ${text}\n`);
  }

  /** One file among those that a named file stands for: shown on a terminal only. */
  part(name: string, index: number, count: number): void {
    if (this.io.progressTerminal) this.rewrite(`${plain(name)} (${index + 1} of ${count})`);
  }

  share(name: string, done: number, total: number | null): void {
    if (!this.io.progressTerminal || total === null || total < 4_000_000) return;
    this.rewrite(`${plain(name)} ${Math.floor((100 * done) / total)} %`);
  }

  /** Leaves the line clean for what is printed next. */
  clear(): void {
    if (this.shown !== '') this.io.err(`\r${' '.repeat(this.shown.length)}\r`);
    this.shown = '';
  }

  private rewrite(text: string): void {
    if (text === this.shown) return;
    this.io.err(`\r${text.padEnd(this.shown.length)}`);
    this.shown = text;
  }
}
