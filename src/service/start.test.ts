import { mkdirSync, readdirSync } from 'node:fs';
import { request } from 'node:http';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { openRecord } from '../record/index.ts';
import { temporaryFolder } from '../record/testing.ts';
import { type RunningService, type StartOptions, startService } from './index.ts';

async function running(
  options: Partial<StartOptions>,
  work: (service: RunningService, folder: string) => Promise<void>,
): Promise<void> {
  const { folder, remove } = temporaryFolder();
  const service = await startService({
    folder,
    port: 0,
    demo: null,
    webRoot: null,
    say: () => {},
    ...options,
  });
  try {
    await work(service, folder);
  } finally {
    await service.close();
    remove();
  }
}

describe('the running service', () => {
  it('listens on this computer only, and answers under its own name only', () =>
    running({}, async ({ address, port }) => {
      expect(address).toBe(`http://localhost:${port}`);
      const health = await fetch(`${address}/api/v1/health`);
      expect(await health.json()).toMatchObject({ ok: true, product: 'pullbook' });
      const strange = await new Promise<number | undefined>((resolve, reject) => {
        const sent = request(
          { host: '127.0.0.1', port, path: '/api/v1/health', headers: { host: 'evil.example' } },
          (answer) => {
            answer.resume();
            resolve(answer.statusCode);
          },
        );
        sent.on('error', reject).end();
      });
      expect(strange).toBe(403);
    }));

  it('takes a file that streams in, larger than it keeps in memory, and leaves nothing behind', () =>
    running({}, async ({ address, record }, folder) => {
      const cell = await record.cells.create({ name: 'C' });
      const engine = await record.engines.create({ name: 'E' });
      const build = await record.builds.create({ engineId: engine.id, name: 'B' });
      const day = await record.days.create({ buildId: build.id, cellId: cell.id });
      const lines = ['Time (s),Engine Speed (rpm),Torque (Nm),Note'];
      const filler = 'x'.repeat(12_000);
      for (let step = 0; step < 1500; step += 1) {
        const rpm = 3000 + 2 * step;
        lines.push(
          `${(step * 0.01).toFixed(2)},${rpm},${400 - ((rpm - 4500) / 150) ** 2},${filler}`,
        );
      }
      const text = lines.join('\n');
      expect(text.length).toBeGreaterThan(16 * 1024 * 1024);
      const answer = await fetch(`${address}/api/v1/days/${day.id}/recordings?name=long.csv`, {
        method: 'POST',
        body: text,
      });
      expect(answer.status, await answer.clone().text()).toBe(201);
      const { recording } = (await answer.json()) as { recording: { sha256: string } };
      const back = await fetch(`${address}/api/v1/recordings/${recording.sha256}/bytes`);
      expect((await back.text()) === text).toBe(true);
      expect(readdirSync(folder).filter((name) => name.startsWith('incoming'))).toEqual([]);
    }));

  it('stores nothing of a file whose sending breaks off, and clears what it kept of it', () =>
    running({}, async ({ port, record }, folder) => {
      const cell = await record.cells.create({ name: 'C' });
      const engine = await record.engines.create({ name: 'E' });
      const build = await record.builds.create({ engineId: engine.id, name: 'B' });
      const day = await record.days.create({ buildId: build.id, cellId: cell.id });
      const events = await record.events.list();
      const incoming = () => readdirSync(folder).filter((name) => name.startsWith('incoming'));
      const sent = request({
        host: '127.0.0.1',
        port,
        method: 'POST',
        path: `/api/v1/days/${day.id}/recordings?name=broken.csv`,
        headers: { host: `localhost:${port}`, accept: 'application/x-ndjson' },
      });
      const ended = new Promise<void>((resolve) => sent.on('close', resolve));
      sent.on('error', () => {});
      const line = 'Time (s),Engine Speed (rpm),Torque (Nm)\n0,3000,400\n';
      sent.write(line.repeat(400_000));
      // The first line of progress after the file outgrew memory shows that the server holds part of it.
      await new Promise<void>((resolve) => {
        sent.on('response', (answer) => {
          answer.on('error', () => {});
          answer.on('data', () => {
            if (incoming().length > 0) resolve();
          });
        });
      });
      sent.destroy();
      await ended;
      while (incoming().length > 0) await new Promise((resolve) => setImmediate(resolve));
      expect(await record.events.list()).toEqual(events);
      expect(await record.pulls.list()).toEqual([]);
    }));

  it('clears away what a killed server left behind', async () => {
    const { folder, remove } = temporaryFolder();
    try {
      mkdirSync(join(folder, 'incoming-abc123'));
      mkdirSync(join(folder, 'my-own-notes'));
      await (await startService({ folder, port: 0, demo: null, webRoot: null })).close();
      expect(readdirSync(folder)).not.toContain('incoming-abc123');
      expect(readdirSync(folder)).toContain('my-own-notes');
    } finally {
      remove();
    }
  });

  it('loads the demo when there is no record yet, and never again', async () => {
    const { folder, remove } = temporaryFolder();
    try {
      let loads = 0;
      // What a first run leaves that was killed half way.
      await (await openRecord(join(folder, 'first-run'))).close();
      const demo: StartOptions['demo'] = async (record) => {
        loads += 1;
        await record.engines.create({ name: 'Demo engine' });
      };
      for (let start = 0; start < 2; start += 1) {
        const service = await startService({ folder, port: 0, demo, webRoot: null, say: () => {} });
        expect((await service.record.engines.list()).map((one) => one.name)).toEqual([
          'Demo engine',
        ]);
        await service.close();
      }
      expect(loads).toBe(1);
      expect(readdirSync(folder)).not.toContain('first-run');
    } finally {
      remove();
    }
  });

  it('leaves no half of a demo that broke off', async () => {
    const { folder, remove } = temporaryFolder();
    try {
      const demo: StartOptions['demo'] = async (record) => {
        await record.engines.create({ name: 'Demo engine' });
        throw new Error('broke off');
      };
      const said: string[] = [];
      const say = (line: string) => said.push(line);
      const service = await startService({ folder, port: 0, demo, webRoot: null, say });
      expect(said).toEqual([
        'the demo shop could not be loaded (broke off); starting with an empty shop',
      ]);
      expect(await service.record.engines.list()).toEqual([]);
      await service.close();
    } finally {
      remove();
    }
  });

  it('says which port is taken, and gives the folder back', () =>
    running({}, async ({ port }) => {
      const { folder, remove } = temporaryFolder();
      try {
        const other = startService({ folder, port, demo: null, webRoot: null });
        await expect(other).rejects.toThrow(`Port ${port} is taken by another program`);
        await (await startService({ folder, port: 0, demo: null, webRoot: null })).close();
      } finally {
        remove();
      }
    }));

  it('lets one server into a folder', () =>
    running({}, async (_, folder) => {
      const second = startService({ folder: join(folder), port: 0, demo: null });
      await expect(second).rejects.toThrow(/Another Pullbook/);
    }));
});
