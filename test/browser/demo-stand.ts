import { loadDemo } from '../../demo/load.ts';
import { openStand, type Stand } from './stand.ts';

/** A stand with the demo shop in it, each run file sent the way a logger's script sends it. */
export async function openDemoStand(): Promise<Stand> {
  const stand = await openStand();
  await loadDemo(stand.record, async (dayId, fileName, bytes) => {
    const answer = await fetch(
      `${stand.url}/api/v1/days/${dayId}/recordings?name=${encodeURIComponent(fileName)}`,
      {
        method: 'POST',
        headers: { 'content-type': 'application/octet-stream' },
        body: bytes as Uint8Array<ArrayBuffer>,
      },
    );
    if (!answer.ok) throw new Error(`${fileName}: ${await answer.text()}`);
    return answer.json() as never;
  });
  return stand;
}
