import { readFile } from 'node:fs/promises';
import { InputError } from '../errors.ts';
import { readSession, type Session } from './session.ts';

/**
 * Reads a session file from disk.
 * @param name  what messages call it
 * @throws InputError   there is no such file, or it cannot be read
 * @throws FormatError  as readSession
 */
export async function readSessionAt(path: string, name: string): Promise<Session> {
  return readSession(await textOf(path, name), name);
}

async function textOf(path: string, name: string): Promise<string> {
  try {
    return await readFile(path, 'utf8');
  } catch (error) {
    const missing = (error as NodeJS.ErrnoException).code === 'ENOENT';
    throw new InputError(
      missing ? 'there is no such file' : 'the file cannot be read',
      { file: name, expected: 'a session file (session/1)' },
      error,
    );
  }
}
