import { describe, expect, it } from 'vitest';
import { layoutOf, type Sheet } from '../../src/build/index.ts';
import { ServiceError } from '../api/client.ts';
import { type Keeping, Saver } from './saver.ts';

const sheetNamed = (name: string): Sheet => ({
  format: 'sheet/1',
  name,
  layout: layoutOf(4),
  sections: {},
});

/** A record that checks versions as the real one does. */
function recordAt(version: number) {
  const kept = { version, sheet: sheetNamed('first') };
  const told: Keeping[] = [];
  const saver = new Saver(
    kept.sheet,
    version,
    async (sheet, from) => {
      await Promise.resolve();
      if (from !== kept.version) throw new ServiceError('Somebody saved meanwhile.', 'stale');
      kept.sheet = sheet;
      kept.version += 1;
      return { version: kept.version };
    },
    (keeping) => told.push(keeping),
  );
  return { kept, told, saver, states: () => told.map(({ state }) => state) };
}

describe('a sheet that is kept while it is worked on', () => {
  it('sends the newest sheet only, one save at a time, each from the last version', async () => {
    const { kept, saver, states } = recordAt(4);
    saver.hold(sheetNamed('a'));
    const sending = saver.send();
    saver.hold(sheetNamed('b'));
    saver.hold(sheetNamed('c'));
    await saver.send();
    await sending;
    expect(kept).toMatchObject({ version: 6, sheet: { name: 'c' } });
    expect(saver.isKept).toBe(true);
    expect(states()).toEqual(['waiting', 'saving', 'waiting', 'saving', 'saved']);
  });

  it('stops where somebody else saved, and goes on when the person keeps their own', async () => {
    const { kept, saver, states } = recordAt(4);
    kept.version = 9;
    saver.hold(sheetNamed('mine'));
    await saver.send();
    expect(states().at(-1)).toBe('conflict');
    saver.hold(sheetNamed('mine still'));
    await saver.send();
    expect(kept.sheet.name).toBe('first');
    await saver.overwrite(9);
    expect(kept).toMatchObject({ version: 10, sheet: { name: 'mine still' } });
    expect(states().at(-1)).toBe('saved');
  });

  it('says why it was not kept and tries again when asked', async () => {
    let works = false;
    const told: Keeping[] = [];
    const saver = new Saver(
      sheetNamed('first'),
      1,
      async () => {
        if (!works) throw new ServiceError('The disk is full.', 'unknown');
        return { version: 2 };
      },
      (keeping) => told.push(keeping),
    );
    saver.hold(sheetNamed('next'));
    await saver.send();
    expect(told.at(-1)).toEqual({ state: 'trouble', sentence: 'The disk is full.' });
    works = true;
    await saver.send();
    expect(told.at(-1)).toEqual({ state: 'saved' });
  });
});
