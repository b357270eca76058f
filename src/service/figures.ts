/** The browser's charts for the report: built beside the command, or their source where nothing is built. */
import { existsSync } from 'node:fs';
import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { StoreError } from '../errors.ts';
import type { DrawFigure, DrawReplay, DrawShown } from '../figures.ts';

const here = import.meta.dirname;

interface Drawing {
  readonly drawFigure: DrawFigure;
  readonly drawShown: DrawShown;
  readonly drawReplay: DrawReplay;
}

export const shippedFigures = async (): Promise<DrawFigure> => (await shipped()).drawFigure;
export const shippedShown = async (): Promise<DrawShown> => (await shipped()).drawShown;
export const shippedReplay = async (): Promise<DrawReplay> => (await shipped()).drawReplay;

/** @throws StoreError where this installation lacks them */
async function shipped(): Promise<Drawing> {
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
  return (await import(pathToFileURL(place).href)) as Drawing;
}

/** What gives the pictures of a page their cursor; null where nothing is built, and they stand still. */
export async function shippedPageScript(): Promise<string | null> {
  const places = [join(here, 'page.js'), join(here, '..', '..', 'dist', 'page.js')];
  const place = places.find((file) => existsSync(file));
  return place === undefined ? null : readFile(place, 'utf8');
}
