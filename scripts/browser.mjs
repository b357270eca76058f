/** Finds a browser of the Chromium family for the browser tests, and installs Debian's where that is possible. */
import { spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import { delimiter, join } from 'node:path';

const NAMES = [
  'chromium',
  'chromium-browser',
  'google-chrome-stable',
  'google-chrome',
  'microsoft-edge-stable',
  'microsoft-edge',
];

function candidates() {
  const inPath = (process.env.PATH ?? '')
    .split(delimiter)
    .flatMap((folder) => NAMES.map((name) => join(folder, name)));
  const mac = ['Google Chrome', 'Chromium', 'Microsoft Edge'].map(
    (name) => `/Applications/${name}.app/Contents/MacOS/${name}`,
  );
  const windows = [
    process.env.PROGRAMFILES,
    process.env['PROGRAMFILES(X86)'],
    process.env.LOCALAPPDATA,
  ]
    .filter(Boolean)
    .flatMap((base) => [
      join(base, 'Google', 'Chrome', 'Application', 'chrome.exe'),
      join(base, 'Microsoft', 'Edge', 'Application', 'msedge.exe'),
    ]);
  return [process.env.PULLBOOK_BROWSER, ...inPath, ...mac, ...windows].filter(Boolean);
}

/** Path of a browser, or null. PULLBOOK_BROWSER names one and comes first. */
export function findBrowser() {
  return candidates().find((path) => existsSync(path)) ?? null;
}

/** Whether a PDF can be read as a stranger would read it (poppler), which the tests of the report do. */
export function findPdfReader() {
  return spawnSync('pdftotext', ['-v'], { stdio: 'ignore' }).status === 0;
}

/** How to get a browser here: `apt` where we are root on Debian, otherwise null. */
export function installCommand() {
  const root = process.getuid?.() === 0;
  const apt = root && spawnSync('apt-get', ['--version'], { stdio: 'ignore' }).status === 0;
  return apt
    ? [
        'sh',
        [
          '-c',
          'apt-get update -qq && DEBIAN_FRONTEND=noninteractive apt-get install -y -qq --no-install-recommends chromium fonts-dejavu-core poppler-utils',
        ],
      ]
    : null;
}

export const NO_PDF_READER =
  'No pdftotext for the tests of the report. Install poppler (Debian: poppler-utils).';

export const NO_BROWSER =
  'No browser for the browser tests. Install Chromium, Chrome or Edge, or name one in PULLBOOK_BROWSER.';
