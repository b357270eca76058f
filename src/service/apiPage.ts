/** A page for people of the published interface, made from the document, with nothing loaded from elsewhere. */
import type { ApiDocument } from './apiTypes.ts';

const escaped = (text: string) =>
  text.replace(
    /[&<>"']/g,
    (letter) => ({ '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;', "'": '&#39;' })[letter]!,
  );

export const API_PAGE_CSS = `
body { font: 1rem/1.5 system-ui, sans-serif; max-width: 60rem; margin: 2rem auto; padding: 0 1rem; color-scheme: light dark; }
table { border-collapse: collapse; width: 100%; }
td, th { text-align: left; vertical-align: top; padding: 0.25rem 0.75rem 0.25rem 0; border-bottom: 1px solid #8886; }
pre { overflow-x: auto; padding: 0.75rem; border: 1px solid #8886; }
`;

export function apiPage(document: ApiDocument & { info: { description?: string } }): string {
  const rows = Object.entries(document.paths).flatMap(([path, operations]) =>
    Object.entries(operations).map(
      ([method, { summary = '' }]) =>
        `<tr><td><code>${method.toUpperCase()}</code></td><td><code>${escaped(path)}</code></td><td>${escaped(summary)}</td></tr>`,
    ),
  );
  const schemas = Object.entries(document.components.schemas)
    .sort(([a], [b]) => (a < b ? -1 : 1))
    .map(
      ([name, schema]) =>
        `<h3 id="${escaped(name)}">${escaped(name)}</h3><pre>${escaped(JSON.stringify(schema, null, 2))}</pre>`,
    );
  return `<!doctype html>
<html lang="en"><head><meta charset="utf-8"><meta name="viewport" content="width=device-width, initial-scale=1">
<title>Pullbook: the interface</title><link rel="stylesheet" href="/api/v1/page.css"></head>
<body><h1>Pullbook: the interface</h1><p>${escaped(document.info.description ?? '')}</p>
<p>For programs: <a href="/api/v1/openapi.json">openapi.json</a>. All routes stand under <code>/api/v1</code>.</p>
<h2>Posting a run file from a logger's script</h2>
<pre>curl --data-binary @pull-01.csv -H 'content-type: application/octet-stream' 'http://localhost:PORT/api/v1/days/latest/recordings?name=pull-01.csv'</pre>
<h2>Routes</h2><table><thead><tr><th>Method</th><th>Path</th><th>What it does</th></tr></thead><tbody>
${rows.join('\n')}
</tbody></table><h2>What crosses</h2>
${schemas.join('\n')}
</body></html>`;
}
