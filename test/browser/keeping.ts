import { readFile } from 'node:fs/promises';
import { parquetReadObjects } from 'hyparquet';
import type { Page } from 'playwright-core';
import readWorkbook from 'read-excel-file/node';
import { beforeAll, describe, expect, it } from 'vitest';
import type { Stand } from './stand.ts';

/** What is kept is found again, looked over, and taken along. */
export const keeping = (standOf: () => Stand) =>
  describe('the record that is kept', () => {
    let page: Page;
    beforeAll(async () => {
      page = await standOf().open('/');
    });

    it('is searched by keyboard, and shows what an engine has run and what is due', async () => {
      await page.getByRole('heading', { level: 1 }).waitFor();
      await page.keyboard.press('/');
      await page.getByRole('combobox').fill('rally');
      await page.getByRole('option', { name: /^Rally six.*engine/ }).waitFor();
      await page.keyboard.press('Enter');
      await page.getByRole('heading', { name: 'Rally six', level: 1 }).waitFor();
      await page.getByRole('link', { name: 'Service record' }).click();
      await page.getByText(/pulls in the record, .* at full throttle/).waitFor();
      await page.getByRole('heading', { name: 'What is due' }).waitFor();
    });

    it('leaves as a table with its units in the heads', async () => {
      await page.getByRole('button', { name: /^Power over time.*: save the picture/ }).click();
      const [file] = await Promise.all([
        page.waitForEvent('download'),
        page.getByRole('menuitem', { name: 'CSV' }).click(),
      ]);
      const text = await readFile(await file.path(), 'utf8');
      expect(text).toMatch(
        /^\ufeffTest day,Build,Pulls,"Mean power, (hp|kW)","Mean power, 95 % \(low\), (hp|kW)"/,
      );
      expect(text.trim().split('\r\n').length).toBeGreaterThan(2);
    });

    it('gives a table without a picture each way, with its units and what it is of', async () => {
      const name = 'What it has run: take the table';
      const taken = async (as: string) => {
        await page.getByRole('button', { name }).click();
        const [file] = await Promise.all([
          page.waitForEvent('download'),
          page.getByRole('menu', { name }).getByRole('menuitem', { name: as }).click(),
        ]);
        await page.getByRole('menu', { name }).waitFor({ state: 'detached' });
        return readFile(await file.path());
      };
      const [head, first] = (await taken('CSV')).toString('utf8').split('\r\n');
      expect(head).toMatch(/^\ufeffBuild,Assembled,Pulls,.*"At full throttle, s"/);
      const [run, about] = await readWorkbook(await taken('Spreadsheet (.xlsx)'));
      expect(run!.data[0]).toContain('At full throttle, s');
      expect(first).toContain(String(run!.data[1]![run!.data[0]!.indexOf('At full throttle, s')]));
      expect(about!.data).toContainEqual(expect.arrayContaining(['Engine', 'Rally six']));
      const bytes = await taken('Parquet');
      const file = bytes.buffer.slice(bytes.byteOffset, bytes.byteOffset + bytes.byteLength);
      const rows = await parquetReadObjects({ file: file as ArrayBuffer });
      expect(rows.map(({ build }) => build)).toEqual(run!.data.slice(1).map(([build]) => build));
    });
  });
