import { loadDemo } from '../../demo/load.ts';
import { makePlan } from '../../src/service/work/plans.ts';
import { openStand, type Stand } from './stand.ts';

/** A stand with the demo shop in it, each run file sent the way a logger's script sends it. */
export async function openDemoStand(): Promise<Stand> {
  const stand = await openStand();
  const post = async (path: string, type: string, body: BodyInit) => {
    const answer = await fetch(`${stand.url}/api/v1${path}`, {
      method: 'POST',
      headers: { 'content-type': type },
      body,
    });
    if (!answer.ok) throw new Error(`${path}: ${await answer.text()}`);
    return answer.json() as never;
  };
  await loadDemo(stand.record, {
    importRunFile: (dayId, fileName, bytes) =>
      post(
        `/days/${dayId}/recordings?name=${encodeURIComponent(fileName)}`,
        'application/octet-stream',
        bytes as Uint8Array<ArrayBuffer>,
      ),
    decide: (ladderId, { use, setting, who, why }) =>
      post(
        `/ladders/${ladderId}/decisions`,
        'application/json',
        JSON.stringify({ use, setting, who, why }),
      ),
    makePlan: (dayId, change, madeAt) => makePlan(stand.record, dayId, change, madeAt),
  });
  return stand;
}
