/** A replay as a file: a video that the browser encodes, or numbered pictures in a zip. One picture is held at a time. */
import { Zip, ZipPassThrough } from 'fflate/browser';
import type { ReplayWanted } from '../../../src/figures.ts';
import { frameName, framesOf, README, readmeOf } from '../../../src/replay.ts';
import { imageOf, lettersAsDataUrl, pngOfCanvas, withLetters } from '../../charts/save.ts';
import { drawReplay } from '../../print/figures.tsx';

export interface SaveWish {
  readonly replay: ReplayWanted;
  readonly size: { readonly width: number; readonly height: number };
  readonly perSecond: number;
  readonly signal: AbortSignal;
  readonly onFrame: (done: number, count: number) => void;
}

/** A video, and the ending of its name. @throws Error where this browser has no coder for this size */
export async function videoOf(
  wish: SaveWish,
): Promise<{ readonly blob: Blob; readonly ending: string }> {
  const {
    BufferTarget,
    CanvasSource,
    getFirstEncodableVideoCodec,
    Mp4OutputFormat,
    Output,
    QUALITY_HIGH,
    WebMOutputFormat,
  } = await import('mediabunny');
  const codec = await getFirstEncodableVideoCodec(['avc', 'vp9', 'vp8', 'av1'], wish.size);
  if (codec === null)
    throw new Error('This browser cannot make a video of this size; save the pictures instead.');
  const isMp4 = codec === 'avc';
  const target = new BufferTarget();
  const output = new Output({
    format: isMp4 ? new Mp4OutputFormat() : new WebMOutputFormat(),
    target,
  });
  const canvas = canvasOf(wish.size);
  const source = new CanvasSource(canvas, { codec, bitrate: QUALITY_HIGH });
  output.addVideoTrack(source, { frameRate: wish.perSecond });
  try {
    await output.start();
    await eachFrame(wish, canvas, (frame) =>
      source.add(frame / wish.perSecond, 1 / wish.perSecond),
    );
    await output.finalize();
  } catch (error) {
    await output.cancel().catch(() => {});
    throw error;
  }
  return {
    blob: new Blob([target.buffer!], { type: isMp4 ? 'video/mp4' : 'video/webm' }),
    ending: isMp4 ? 'mp4' : 'webm',
  };
}

/** Numbered pictures and what they are, in one zip. */
export async function framesZip(wish: SaveWish): Promise<Blob> {
  // Given to the browser one by one, which keeps them outside the memory of the page.
  const parts: Blob[] = [];
  const zip = new Zip((error, piece) => {
    if (error !== null) throw error;
    parts.push(new Blob([piece as Uint8Array<ArrayBuffer>]));
  });
  const put = (name: string, bytes: Uint8Array) => {
    const file = new ZipPassThrough(name);
    zip.add(file);
    file.push(bytes, true);
  };
  const { replay, size, perSecond } = wish;
  const { count } = framesOf(replay, perSecond);
  put(README, new TextEncoder().encode(readmeOf(replay, size, perSecond)));
  const canvas = canvasOf(size);
  let png = new Uint8Array();
  await eachFrame(wish, canvas, async (frame, isNew) => {
    if (isNew) png = new Uint8Array(await (await pngOfCanvas(canvas)).arrayBuffer());
    put(frameName(frame, count), png);
  });
  zip.end();
  return new Blob(parts, { type: 'application/zip' });
}

async function eachFrame(
  { replay, size, perSecond, signal, onFrame }: SaveWish,
  canvas: HTMLCanvasElement,
  take: (frame: number, isNew: boolean) => Promise<void>,
): Promise<void> {
  const letters = await lettersAsDataUrl();
  const pen = canvas.getContext('2d')!;
  const frames = framesOf(replay, perSecond);
  for (let frame = 0; frame < frames.count; frame += 1) {
    signal.throwIfAborted();
    // The finished picture stands for a while: it is drawn once.
    const isNew = frame <= frames.firstStill;
    if (isNew) {
      const drawn = drawReplay(replay, size, frames.timeS(frame));
      pen.drawImage(await imageOf(withLetters(drawn, letters)), 0, 0);
    }
    await take(frame, isNew);
    onFrame(frame + 1, frames.count);
  }
}

function canvasOf({ width, height }: SaveWish['size']): HTMLCanvasElement {
  const canvas = document.createElement('canvas');
  canvas.width = width;
  canvas.height = height;
  return canvas;
}
