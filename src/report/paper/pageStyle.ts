/** The look of the page for the owner: the calm paper of the workbook, on a screen of any size and printed. */
export const PAGE_CSS = `
:root { color-scheme: light dark; --paper: #fdfcf9; --ink: #22262b; --quiet: #5d6166; --line: #d9d6cd; --care: #8a4b00; --link: #1a5a94; }
@media (prefers-color-scheme: dark) {
  :root { --paper: #17191c; --ink: #e7e5df; --quiet: #a5a6a4; --line: #3a3d41; --care: #e0a458; --link: #8fc0ec; }
  .drawing:not([data-live]) { background: #fdfcf9; border-radius: 4px; padding: 8px; }
}
* { box-sizing: border-box; }
html { scroll-padding-top: 1rem; }
body { margin: 0; background: var(--paper); color: var(--ink); font: 16px/1.5 Inter, system-ui, "Segoe UI", Roboto, sans-serif; }
main { max-width: 60rem; margin: 0 auto; padding: 2rem 1.25rem 3rem; overflow-wrap: anywhere; }
img.mark { float: right; max-width: 40%; max-height: 4rem; margin: 0 0 1rem 1.5rem; background: #fdfcf9; border-radius: 4px; }
h1 { font-size: 1.7rem; line-height: 1.2; margin: 1.5rem 0 0.6rem; }
.over { color: var(--quiet); margin: 0; }
.over + h1 { margin-top: 0.1rem; }
h2 { font-size: 1.25rem; line-height: 1.3; margin: 2rem 0 0.5rem; }
h3 { font-size: 1rem; margin: 1.4rem 0 0.4rem; }
p { margin: 0.5rem 0; max-width: 46rem; }
ul { margin: 0.4rem 0; padding-left: 1.2rem; max-width: 46rem; }
li { margin: 0.25rem 0; }
hr { border: 0; border-top: 1px solid var(--line); margin: 2.5rem 0; }
a { color: var(--link); }
.quiet, figcaption, footer, dt { color: var(--quiet); }
.quiet, figcaption, footer { font-size: 0.85rem; }
.findings { border-bottom: 1px solid var(--line); padding-bottom: 1.5rem; }
.contents ul { display: flex; flex-wrap: wrap; gap: 0 1.2rem; list-style: none; margin: 0.8rem 0 0; padding: 0; max-width: none; font-size: 0.85rem; }
.contents li { margin: 0; }
.contents a { display: inline-block; padding: 0.25rem 0; }
.all button { font: inherit; color: inherit; background: none; border: 1px solid var(--quiet); border-radius: 6px; padding: 0.4rem 0.9rem; margin: 0 0 1rem; cursor: pointer; }
.part { border-top: 1px solid var(--line); }
.part > summary { cursor: pointer; padding: 0.9rem 0; list-style-position: outside; margin-left: 1.2rem; }
.part > summary h2 { display: inline; margin: 0; }
.part > summary::marker { color: var(--quiet); }
.part[open] { padding-bottom: 1.5rem; }
a:focus-visible, button:focus-visible, summary:focus-visible, .wide:focus-visible { outline: 2px solid var(--link); outline-offset: 3px; }
dl { margin: 0.6rem 0; }
dl.beside { columns: 2 18rem; column-gap: 2rem; }
dl:not(.headline) div { display: grid; grid-template-columns: 11rem 1fr; gap: 0.75rem; padding: 0.12rem 0; break-inside: avoid; }
dd { margin: 0; }
.headline { display: grid; grid-template-columns: repeat(auto-fit, minmax(9.5rem, 1fr)); gap: 1rem 1.25rem; margin: 0.8rem 0; }
.headline dt { font-size: 0.85rem; }
.headline dd { display: flex; flex-direction: column; font-size: 0.9rem; }
.headline b { font-size: 1.6rem; font-weight: 600; line-height: 1.25; }
.ticks { list-style: none; padding: 0; max-width: 52rem; }
.ticks li { display: grid; grid-template-columns: 1.2rem 1fr minmax(0, auto); gap: 0 0.6rem; align-items: baseline; }
.ticks .quiet { text-align: right; max-width: 16rem; }
.wide { overflow-x: auto; margin: 1rem 0 0.4rem; }
.wide table { min-width: 44rem; }
.narrow { margin: 1rem 0 0.4rem; max-width: 46rem; }
table { border-collapse: collapse; width: 100%; font-size: 0.86rem; overflow-wrap: normal; }
caption { text-align: left; font-weight: 600; padding: 0.3rem 0; }
thead th { border-bottom: 1.5px solid var(--ink); vertical-align: bottom; }
th { text-align: left; font-weight: 600; }
tbody th { border-bottom: 1px solid var(--line); padding-top: 0.7rem; }
th, td { padding: 0.3rem 0.6rem 0.3rem 0; }
td { border-bottom: 1px solid var(--line); vertical-align: top; min-width: 3rem; max-width: 26rem; overflow-wrap: anywhere; }
td:first-child { white-space: pre-wrap; }
.narrow td:first-child { min-width: 7rem; }
.number { text-align: right; font-variant-numeric: tabular-nums; }
td.number { white-space: nowrap; }
.narrow td.number { white-space: normal; }
figure { margin: 1.2rem 0; }
.drawing { overflow-x: auto; }
.drawing svg { display: block; width: 100%; height: auto; }
/* A picture that stands still is moved inside its frame before its letters grow too small. */
.drawing:not([data-live]) svg { min-width: 36rem; }
.care { border-left: 3px solid var(--care); padding: 0.1rem 0 0.1rem 0.9rem; margin: 1rem 0; }
.care h3 { color: var(--care); margin: 0.2rem 0; }
footer { border-top: 1px solid var(--line); padding: 1rem 1.25rem; text-align: center; }
@media (max-width: 36rem) {
  main { padding: 1.25rem 1rem 2rem; }
  dl:not(.headline) div { grid-template-columns: 8.5rem 1fr; }
  .ticks li { grid-template-columns: 1.2rem 1fr; }
  .ticks .quiet { grid-column: 2; text-align: left; }
}
@media print {
  :root { --paper: #fff; --ink: #000; --quiet: #444; --line: #bbb; --care: #8a4b00; --link: #000; }
  html { font-size: 9.2pt; }
  p, ul, .narrow { max-width: none; }
  body { font-size: 1rem; line-height: 1.4; }
  main { padding: 0; max-width: none; }
  .contents, .all { display: none; }
  .findings { border: 0; break-after: page; }
  .findings figure .drawing svg { max-height: 70mm; }
  .part > summary { list-style: none; margin: 0; }
  .part > summary::marker { content: ''; }
  details::details-content { content-visibility: visible; block-size: auto; opacity: 1; }
  h2, h3, caption, summary { break-after: avoid; }
  figure, tr, li, .care { break-inside: avoid; }
  .wide { overflow: visible; }
  .wide table { min-width: 0; font-size: 7.5pt; }
  .drawing > div { height: auto !important; }
  .drawing { overflow: visible; background: none; padding: 0; }
  .drawing svg { min-width: 0 !important; max-width: 100%; }
}
`;
