/** What a person does at the screen, as the browser sees it. */
import type { Locator, Page } from 'playwright-core';

interface DroppedFile {
  readonly name: string;
  readonly bytes: Uint8Array;
}

/** Drops files onto an element as from a file manager. */
export async function dropFiles(target: Locator, files: readonly DroppedFile[]): Promise<void> {
  const data = await target.page().evaluateHandle(
    (all) => {
      const transfer = new DataTransfer();
      for (const { name, base64 } of all) {
        const bytes = Uint8Array.from(atob(base64), (char) => char.charCodeAt(0));
        transfer.items.add(new File([bytes], name));
      }
      return transfer;
    },
    files.map(({ name, bytes }) => ({ name, base64: Buffer.from(bytes).toString('base64') })),
  );
  for (const kind of ['dragenter', 'dragover', 'drop'])
    await target.dispatchEvent(kind, { dataTransfer: data });
}

/** Pastes a text into a cell as from a spreadsheet. */
export async function paste(cell: Locator, text: string): Promise<void> {
  await cell.focus();
  await cell.evaluate((element, pasted) => {
    const clipboardData = new DataTransfer();
    clipboardData.setData('text/plain', pasted);
    element.dispatchEvent(
      new ClipboardEvent('paste', { clipboardData, bubbles: true, cancelable: true }),
    );
  }, text);
}

/** Drags from the middle of an element by so many pixels. */
export async function drag(page: Page, grip: Locator, by: number): Promise<void> {
  const box = await grip.boundingBox();
  if (box === null) throw new Error('The grip is not on screen.');
  const [x, y] = [box.x + box.width / 2, box.y + box.height - 24];
  await page.mouse.move(x, y);
  await page.mouse.down();
  await page.mouse.move(x + by / 2, y, { steps: 4 });
  await page.mouse.move(x + by, y, { steps: 4 });
  await page.mouse.up();
}
