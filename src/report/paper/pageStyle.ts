/** The look of the page for the owner: the calm paper of the workbook, on a screen of any size and printed. */
export const PAGE_CSS = `
:root { color-scheme: light dark; --paper: #fdfcf9; --ink: #22262b; --quiet: #5d6166; --line: #d9d6cd; --care: #8a4b00; }
@media (prefers-color-scheme: dark) {
  :root { --paper: #17191c; --ink: #e7e5df; --quiet: #a5a6a4; --line: #3a3d41; --care: #e0a458; }
  .drawing { background: #fdfcf9; border-radius: 4px; padding: 8px; }
}
* { box-sizing: border-box; }
body { margin: 0; background: var(--paper); color: var(--ink); font: 16px/1.5 Inter, system-ui, "Segoe UI", Roboto, sans-serif; }
main { max-width: 60rem; margin: 0 auto; padding: 2rem 1.25rem 3rem; overflow-wrap: anywhere; }
img.mark { float: right; max-width: 40%; max-height: 4rem; margin: 0 0 1rem 1.5rem; background: #fdfcf9; border-radius: 4px; }
h1 { font-size: 1.7rem; line-height: 1.2; margin: 1.5rem 0 0.6rem; }
h2 { font-size: 1.25rem; margin: 2rem 0 0.5rem; }
h3 { font-size: 1rem; margin: 1.4rem 0 0.4rem; }
p { margin: 0.5rem 0; max-width: 46rem; }
ul { margin: 0.4rem 0; padding-left: 1.2rem; max-width: 46rem; }
li { margin: 0.25rem 0; }
hr { border: 0; border-top: 1px solid var(--line); margin: 2.5rem 0; }
.quiet, figcaption, footer, dt, caption { color: var(--quiet); }
.quiet, figcaption, footer { font-size: 0.85rem; }
dl { margin: 0.6rem 0; }
dl.beside { columns: 2 18rem; column-gap: 2rem; }
dl div { display: grid; grid-template-columns: 11rem 1fr; gap: 0.75rem; padding: 0.12rem 0; break-inside: avoid; }
dd { margin: 0; }
.wide { overflow-x: auto; margin: 1rem 0 0.4rem; }
.wide:focus-visible { outline: 2px solid var(--ink); outline-offset: 2px; }
table { border-collapse: collapse; width: 100%; min-width: 40rem; font-size: 0.86rem; overflow-wrap: normal; }
caption { text-align: left; font-weight: 600; color: var(--ink); padding: 0.3rem 0; }
th { text-align: left; border-bottom: 1.5px solid var(--ink); vertical-align: bottom; }
th, td { padding: 0.3rem 0.6rem 0.3rem 0; }
td { border-bottom: 1px solid var(--line); vertical-align: top; min-width: 3rem; max-width: 26rem; overflow-wrap: anywhere; }
.number { text-align: right; font-variant-numeric: tabular-nums; white-space: nowrap; }
figure { margin: 1.2rem 0; }
.drawing svg { display: block; width: 100%; height: auto; }
.care { border-left: 3px solid var(--care); padding: 0.1rem 0 0.1rem 0.9rem; margin: 1rem 0; }
.care h3 { color: var(--care); margin: 0.2rem 0; }
footer { border-top: 1px solid var(--line); padding: 1rem 1.25rem; text-align: center; }
@media print {
  body { font-size: 10pt; background: #fff; color: #000; }
  main { padding: 0; max-width: none; }
  h2, h3, caption { break-after: avoid; }
  figure, tr, .care { break-inside: avoid; }
  hr { break-after: page; border: 0; }
}
`;
