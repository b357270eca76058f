/** Drawings as PNG without a browser, in the letters of the report. */
import { setFlagsFromString } from 'node:v8';
import { runInNewContext } from 'node:vm';
import { StoreError } from '../errors.ts';
import { fontFiles } from '../report/index.ts';

export interface PixelMaker {
  /** PNG of an SVG in its own size. */
  pixelsOf(svg: string): Promise<Uint8Array>;
  /**
   * Frees what pictures held before. Their pixels lie outside the heap, eight megabytes each that the collector does not
   * see, so it would let hundreds of them stand.
   */
  letGo(): Promise<void>;
}

/** Loaded when pictures are wanted, and not before. @throws StoreError where this machine cannot run it */
export async function pixelMaker(): Promise<PixelMaker> {
  const { renderAsync } = await drawer();
  const options = {
    font: { loadSystemFonts: false, fontFiles: fontFiles(), defaultFontFamily: 'Inter' },
  };
  setFlagsFromString('--expose-gc');
  const collect = runInNewContext('gc') as () => void;
  return {
    async pixelsOf(svg) {
      return (await renderAsync(svg, options)).asPng();
    },
    async letGo() {
      collect();
      await new Promise((go) => setImmediate(go));
    },
  };
}

async function drawer() {
  try {
    return await import('@resvg/resvg-js');
  } catch (error) {
    throw new StoreError(
      'The part that makes pixels of drawings does not load on this machine; the replay in the browser saves the same pictures.',
      {},
      error,
    );
  }
}
