/** The browser's charts for the report: built beside the command, or their source where nothing is built. */
import { existsSync } from 'node:fs';
import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { StoreError } from '../errors.ts';
import type { DrawFigure } from '../figures.ts';

const here = import.meta.dirname;

/** @throws StoreError where this installation lacks them */
export async function shippedFigures(): Promise<DrawFigure> {
  const places = [
    join(here, 'figures.js'),
    join(here, '..', '..', 'dist', 'figures.js'),
    join(here, '..', '..', 'web', 'print', 'figures.tsx'),
  ];
  const place = places.find((file) => existsSync(file));
  if (place === undefined)
    throw new StoreError(
      'This installation lacks the part that draws the report; install it again.',
      {
        file: places[0]!,
      },
    );
  const { drawFigure } = (await import(pathToFileURL(place).href)) as { drawFigure: DrawFigure };
  return drawFigure;
}

/** What gives the pictures of a page their cursor; null where nothing is built, and they stand still. */
export async function shippedPageScript(): Promise<string | null> {
  const places = [join(here, 'page.js'), join(here, '..', '..', 'dist', 'page.js')];
  const place = places.find((file) => existsSync(file));
  return place === undefined ? null : readFile(place, 'utf8');
}
