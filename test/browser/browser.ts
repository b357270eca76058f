import { type Browser, chromium } from 'playwright-core';

interface Finder {
  findBrowser(): string | null;
  readonly NO_BROWSER: string;
}

/** The same search that `npm test` makes: PULLBOOK_BROWSER, then Chromium, Chrome or Edge of this computer. */
const script: string = '../../scripts/browser.mjs';
const { findBrowser, NO_BROWSER } = (await import(script)) as Finder;

/** A headless browser of this computer. @throws where there is none, saying what to install. */
export function launchBrowser(): Promise<Browser> {
  const executablePath = findBrowser();
  if (executablePath === null) throw new Error(NO_BROWSER);
  // Chromium's own sandbox refuses to run as root, as in a container; everywhere else it stays on.
  const asRoot = process.getuid?.() === 0;
  return chromium.launch({
    executablePath,
    args: [
      ...(asRoot ? ['--no-sandbox'] : []),
      '--disable-gpu',
      '--disable-background-networking',
      '--disable-dev-shm-usage',
    ],
  });
}
