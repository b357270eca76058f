/**
 * Folds the parts of the evidence, so that the findings are what is seen first: each opens by its heading, by a link to
 * it, all of them by one button, and all for the printer. Without this script they stand open.
 */
export function foldParts(): void {
  const parts = [...document.querySelectorAll<HTMLDetailsElement>('details.part')];
  const place = document.querySelector<HTMLElement>('.all');
  if (place === null || parts.length === 0) return;
  const { open = '', fold = '' } = place.dataset;

  const button = document.createElement('button');
  button.type = 'button';
  place.append(button);
  const isFolded = () => parts.some((part) => !part.open);
  const name = () => {
    button.textContent = isFolded() ? open : fold;
  };
  const all = (isOpen: boolean) => {
    for (const part of parts) part.open = isOpen;
  };
  button.addEventListener('click', () => all(isFolded()));
  for (const part of parts) part.addEventListener('toggle', name);

  const openAsked = () => {
    const asked = parts.find((part) => `#${part.id}` === location.hash);
    if (asked !== undefined) asked.open = true;
  };
  window.addEventListener('hashchange', openAsked);
  // A link to the part that the address names already changes nothing of it.
  document.addEventListener('click', ({ target }) => {
    const link = target instanceof Element ? target.closest('a') : null;
    const asked = parts.find((part) => link?.getAttribute('href') === `#${part.id}`);
    if (asked !== undefined) asked.open = true;
  });

  let before: readonly boolean[] = [];
  window.addEventListener('beforeprint', () => {
    before = parts.map((part) => part.open);
    all(true);
  });
  window.addEventListener('afterprint', () => {
    for (const [at, part] of parts.entries()) part.open = before[at] ?? false;
  });

  all(false);
  openAsked();
  name();
}
