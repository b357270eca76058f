import { parquetMetadata, parquetReadObjects } from 'hyparquet';
import { expect, it } from 'vitest';
import { dayCurvesTable, dayPullsTable } from '../report/index.ts';
import { withApp } from './testing.ts';
import { aDay, post, sweep } from './testingDays.ts';

it('gives the pulls and curves of a day as CSV and Parquet, each column with its unit, no formula', () =>
  withApp(async (asked) => {
    const { day } = await aDay(asked);
    await post(asked, day.id, '=1+1.csv', sweep());
    await asked.record.pulls.create({
      dayId: day.id,
      peakPowerW: 200_000,
      ...{ lambdaMeasured: 0.853, lambdaErrorSd: 0.01, jets: 'primary 68', loadPercent: 60 },
      note: '=HYPERLINK("http://x")',
      peaksAre: { air: 'observed', inertia: 'out' },
    });
    const get = async (path: string) => {
      const answer = await asked.ask('GET', `/api/v1/days/${day.id}/tables/${path}`);
      expect(answer.status).toBe(200);
      return new Uint8Array(await answer.arrayBuffer());
    };
    const csv = new TextDecoder().decode(await get('pulls'));
    const [head, first, second] = csv.split('\r\n');
    expect(head).toMatch(/leadDeg,.*airPressureAbsPa,.*peakTorqueNm,.*peakPowerW/);
    expect(first).toContain(",'=1+1.csv,");
    expect(second).toContain(`"'=HYPERLINK(""http://x"")"`);
    expect(second).toContain(',200000,');
    expect(second).toContain(',0.853,0.01,primary 68,60,');
    const bytes = await get('curves?as=parquet');
    const { buffer } = bytes;
    const { key_value_metadata: about } = parquetMetadata(buffer);
    const columns = JSON.parse(about!.find(({ key }) => key === 'columns')!.value!);
    expect(columns.find(({ name }: { name: string }) => name === 'torqueNm').unit).toBe('N.m');
    const rows = await parquetReadObjects({ file: buffer });
    const [{ curve }] = await asked.json<[{ curve: { speedRpm: number[]; torqueNm: number[] } }]>(
      'GET',
      `/days/${day.id}/curves`,
    );
    expect(rows.map(({ torqueNm }) => torqueNm)).toEqual(curve.torqueNm);
    const of = { engine: 'E', build: 'B', day, pulls: [], curves: [] };
    for (const table of [dayPullsTable(of), dayCurvesTable(of)])
      for (const { type, unit } of table.columns)
        if (type === 'number' || type === 'integer') expect(unit).not.toBeNull();
    expect((await asked.ask('GET', `/api/v1/days/${day.id}/tables/secrets`)).status).toBe(400);
  }));
