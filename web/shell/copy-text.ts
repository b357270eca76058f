/**
 * Puts a text where it can be pasted from.
 * @throws Error  where the browser lets no page do it
 */
export async function copyText(text: string): Promise<void> {
  if (navigator.clipboard !== undefined) return navigator.clipboard.writeText(text);
  // Over plain HTTP from another computer there is no clipboard; the old way still works there.
  const field = document.createElement('textarea');
  field.value = text;
  field.style.position = 'fixed';
  document.body.append(field);
  field.select();
  const done = document.execCommand('copy');
  field.remove();
  if (!done) throw new Error('The browser does not let this page copy.');
}
