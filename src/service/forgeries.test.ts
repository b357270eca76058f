import { afterAll, describe, expect, it } from 'vitest';
import { attachedIn, type HandOver } from '../report/index.ts';
import { type Entries, forged, inJson, inText, once } from './testingHandOvers.ts';
import { type Verified, verifyBundle, verifyFile } from './work/verify.ts';

const PROGRAM = '0+source';

type Told = {
  -readonly [K in keyof HandOver]: HandOver[K];
};
interface Pulls {
  portion: { rows: { pull: Record<string, unknown>[] } };
}

const told = (change: (document: Told & Record<string, unknown>) => void) =>
  inJson<Told & Record<string, unknown>>('handover.json', change);
const pulls = (change: (rows: Record<string, unknown>[]) => void) =>
  inJson<Pulls>('record.json', ({ portion }) => change(portion.rows.pull));
const both =
  (...changes: ((entries: Entries) => void)[]) =>
  (entries: Entries) => {
    for (const change of changes) change(entries);
  };
const versions = (say: Partial<HandOver['versions']>) =>
  told((document) => {
    document.versions = { ...document.versions, ...say };
  });
/** By a tenth of a percent. */
const morePower = told(({ final }) => {
  Object.assign(final!.peakPowerW, { value: final!.peakPowerW.value * 1.001 });
});
const swap = (field: string) => (rows: Record<string, unknown>[]) => {
  const [a, b] = [rows[0]![field], rows[1]![field]];
  Object.assign(rows[0]!, { [field]: b });
  Object.assign(rows[1]!, { [field]: a });
};
const recordingsIn = (entries: Entries) =>
  [...entries.keys()].filter((path) => path.startsWith('recordings/'));
const CURVE = /(\r\n\d+(?:\.\d+)?),\d/;

interface Forgery {
  readonly change?: (entries: Entries) => void;
  /** Done after it was signed. */
  readonly last?: (entries: Entries) => void;
  readonly verdict: Verified['verdict'];
  /** Found in what is said of it. */
  readonly says?: RegExp;
}

/** Each with every digest made anew, and signed by another key. */
const FORGERIES: Readonly<Record<string, Forgery>> = {
  'nothing but the key': { verdict: 'follows' },
  'the figures of two pulls exchanged': {
    change: told(({ days }) => swap('curve')(days[0]!.pulls as never)),
    verdict: 'does not follow',
    says: /^\d+ of its \d+ figures and words do not follow/,
  },
  'the recordings of two pulls exchanged': {
    change: pulls(swap('recordingSha256')),
    verdict: 'does not follow',
  },
  'the bytes of two recordings exchanged': {
    change: (entries) => {
      const [a, b] = recordingsIn(entries) as [string, string];
      const bytes = entries.get(a)!;
      entries.set(a, entries.get(b)!);
      entries.set(b, bytes);
    },
    verdict: 'changed',
    says: /a\.csv holds other bytes than those of its name\./,
  },
  'a recording left out': {
    change: (entries) => entries.delete(recordingsIn(entries)[0]!),
    verdict: 'cannot be computed',
    says: /a\.csv is not listed in manifest\.json\./,
  },
  'a pull left out of the record': {
    change: pulls((rows) => rows.pop()),
    verdict: 'does not follow',
    says: /day 1, pull 3/,
  },
  'a pull left out of the hand-over': {
    change: told(({ days }) => (days[0]!.pulls as unknown[]).pop()),
    verdict: 'does not follow',
    says: /day 1, pull 3/,
  },
  'another reason why a pull does not count': {
    change: told(({ days }) => Object.assign(days[0]!.pulls[2]!, { excludedBecause: 'tired' })),
    verdict: 'does not follow',
    says: /day 1, pull 3, excluded because/,
  },
  'another standard': {
    change: told(({ choice }) => Object.assign(choice, { standard: 'DIN 70020' })),
    verdict: 'does not follow',
  },
  'a step without end': {
    change: told(({ choice }) => Object.assign(choice, { stepRpm: 0 })),
    verdict: 'cannot be computed',
    says: /the choice in handover\.json is none that can be made/,
  },
  'a number past the largest': {
    change: inText('handover.json', /("peakPowerW": \{\s*"value"): [\d.]+/, '$1: 1e999'),
    verdict: 'changed',
    says: /handover\.json is not written as Pullbook writes it/,
  },
  'a figure said twice': {
    change: inText('handover.json', /"peakPowerW": \{/, '"peakPowerW": { "value": 999999,'),
    verdict: 'changed',
    says: /something may stand in it twice/,
  },
  'a table': {
    change: inText('tables/curve.csv', CURVE, '$1,9'),
    verdict: 'changed',
    says: /tables\/curve\.csv does not say what handover\.json says: it has \d+/,
  },
  'a table for another': {
    change: (entries) =>
      entries.set('tables/curve.parquet', entries.get('tables/by-speed.parquet')!),
    verdict: 'changed',
    says: /tables\/curve\.parquet does not say/,
  },
  'a picture': {
    change: inText('figures/01-curves.svg', /d="M\d/, 'd="M9'),
    verdict: 'changed',
    says: /figures\/01-curves\.svg does not say/,
  },
  'a certificate added': {
    change: (entries) => entries.set('certificate.txt', new TextEncoder().encode('999 hp')),
    verdict: 'changed',
    says: /certificate\.txt does not belong in a hand-over/,
  },
  'another engine on the cover': {
    change: inJson('manifest.json', (manifest: object) =>
      Object.assign(manifest, { engine: 'Twelve' }),
    ),
    verdict: 'changed',
    says: /manifest\.json names another engine than handover\.json/,
  },
  'a file added when it was signed': {
    last: (entries) => entries.set('more.txt', new Uint8Array(1)),
    verdict: 'changed',
    says: /more\.txt was added after it was made/,
  },
  'no signature': {
    last: (entries) => entries.delete('signature.json'),
    verdict: 'changed',
    says: /nobody vouches for it/,
  },
  'a key whose signature holds for anything': {
    last: inJson('signature.json', (said: object) =>
      // The neutral point of the curve, and a signature of nothing by it.
      Object.assign(said, { publicKey: neutral(32), signature: neutral(64) }),
    ),
    verdict: 'changed',
    says: /nobody vouches for it/,
  },
  'an older curve, and figures that it may explain': {
    change: both(versions({ pullbook: '0.0.9', curve: 7 }), morePower),
    verdict: 'other version',
    says: /^1 of its \d+ figures and words comes out otherwise here, by 0\.1 %\. It was made with another version of the curve of a pull \(7 there, \d+ here\)/,
  },
  'an older sheet, and figures that it cannot explain': {
    change: both(versions({ sheet: 1 }), morePower),
    verdict: 'does not follow',
  },
  'an older program, and nothing else': {
    change: versions({ pullbook: '0.0.9', handover: 1 }),
    verdict: 'follows',
  },
  'an older program that wrote its tables with more quotes': {
    change: both(
      versions({ pullbook: '0.0.9' }),
      inText('tables/pulls.csv', 'oil was cold', '"oil was cold"'),
    ),
    verdict: 'follows',
  },
  'an older program, and a table': {
    change: both(versions({ pullbook: '0.0.9' }), inText('tables/curve.csv', CURVE, '$1,9')),
    verdict: 'other version',
    says: /All \d+ figures and words follow .* One file could not be held .*curve\.csv was made by another version, and it has \d+/,
  },
  'a newer program, whose record cannot be read': {
    change: both(
      versions({ pullbook: '9.0.0', handover: 99 }),
      pulls((rows) => Object.assign(rows[0]!, { dayId: 'elsewhere' })),
    ),
    verdict: 'other version',
    says: /made with a newer version of Pullbook \(9\.0\.0\)/,
  },
};

function neutral(length: number): string {
  const bytes = Buffer.alloc(length);
  bytes[0] = 1;
  return bytes.toString('base64');
}

describe('a hand-over that was changed and signed anew', () => {
  const shop = once();
  afterAll(shop.close);
  let report: Promise<Uint8Array> | null = null;
  const reportOnce = async () => {
    const { ask, id } = await shop.ready;
    report ??= ask('GET', `/api/v1/handovers/${id}/report`).then(
      async (answer) => new Uint8Array(await answer.arrayBuffer()),
    );
    return report;
  };
  /** As it rides in a report: without pages, which take the longest to set. */
  const bare = async () => attachedIn(await reportOnce())!.bytes;

  for (const [name, { change = () => {}, last, verdict, says = /./ }] of Object.entries(FORGERIES))
    it(`is told apart: ${name}`, async () => {
      const verified = await verifyBundle(await forged(await bare(), change, last), 'x', PROGRAM);
      const { sentence, problems, unheld, differences } = verified;
      const said = [
        sentence,
        ...[...problems, ...unheld].map((one) => one.sentence),
        ...differences.map(({ place }) => place),
      ].join(' ');
      expect(said).toMatch(says);
      expect(verified.verdict).toBe(verdict);
    });

  it('is refused in a sentence where a newer version wrote it otherwise', async () => {
    const newer = await forged(
      await bare(),
      told((document) => {
        document.format = 'handover/2' as never;
      }),
    );
    await expect(verifyBundle(newer, 'x', PROGRAM)).rejects.toThrow(/newer than this Pullbook/);
  });

  it('is a report in which two files ride, or a page without its bundle', async () => {
    const second =
      '\n99 0 obj\n<< /Type /EmbeddedFile /Length 3 >>\nstream\nabc\nendstream\nendobj\n';
    const pdf = Buffer.concat([await reportOnce(), Buffer.from(second)]);
    const verified = await verifyFile(new Uint8Array(pdf), 'x.pdf', PROGRAM);
    expect(verified).toMatchObject({ verdict: 'changed', problems: [{ where: 'x.pdf' }] });
    expect(verified.problems[0]!.sentence).toMatch(/More than one file rides/);
    const page = new TextEncoder().encode('<!doctype html>\n<p>140 kW</p>');
    await expect(verifyFile(page, 'page.html', PROGRAM)).rejects.toThrow(/no recordings in it/);
  });
});
