/**
 * The Typst template: it reads the document as data, so that no name in it is ever markup. Muted colours only where
 * they carry meaning; what is to be careful about has a sign, a word and a rule beside it.
 */
export const TEMPLATE = `
#let paper = json("/paper.json")
#let made = paper.madeAt
#set document(
  title: paper.title,
  author: paper.author,
  date: datetime(year: int(made.slice(0, 4)), month: int(made.slice(5, 7)), day: int(made.slice(8, 10))),
)
#set page(
  paper: paper.size,
  margin: (x: 17mm, top: 16mm, bottom: 19mm),
  footer: context [
    #set text(size: 7.5pt, fill: luma(90))
    #grid(
      columns: (1fr, auto),
      text(paper.foot),
      text(paper.page.at(0) + str(counter(page).get().first()) + paper.page.at(1) + str(counter(page).final().first())),
    )
  ],
)
#set text(font: ("Inter", "DejaVu Sans"), size: 9.2pt, lang: paper.language, fallback: true)
#set par(leading: 0.62em, spacing: 0.85em, justify: false)
#set heading(outlined: true)
#show heading.where(level: 1): it => block(below: 0.9em, text(size: 17pt, weight: "semibold", it.body))
#show heading.where(level: 2): it => block(above: 1.5em, below: 0.7em, sticky: true, text(size: 12.2pt, weight: "semibold", it.body))
#show heading.where(level: 3): it => block(above: 1.1em, below: 0.55em, sticky: true, text(size: 9.8pt, weight: "semibold", it.body))
#set list(indent: 0pt, body-indent: 0.55em, spacing: 0.6em)
#set table(stroke: none, inset: (x: 3.2pt, y: 3.4pt))
#let hair = 0.4pt + luma(190)

#let labelled(rows) = table(
  columns: (auto, 1fr),
  inset: (x: 0pt, y: 2.4pt),
  column-gutter: 12pt,
  ..rows.map(row => (text(fill: luma(80), row.at(0)), text(row.at(1)))).flatten(),
)
#let facts(it) = if it.beside {
  let half = calc.ceil(it.rows.len() / 2)
  grid(columns: (1fr, 1fr), column-gutter: 18pt, labelled(it.rows.slice(0, half)), labelled(it.rows.slice(half)))
} else { labelled(it.rows) }

#let sheet(it) = {
  let dense = it.columns.len() > 6
  set text(size: if dense { 7.3pt } else { 8.2pt }, number-width: "tabular")
  set par(leading: 0.5em)
  block(above: 1em, below: 0.5em, sticky: true, text(size: 9pt, weight: "semibold", it.caption))
  table(
    columns: it.columns.map(c => if c.wide { 1fr } else { auto }),
    align: it.columns.map(c => if c.align == "right" { right + top } else { left + top }),
    table.header(
      ..it.columns.map(c => table.cell(stroke: (bottom: 0.7pt + luma(60)), text(weight: "semibold", c.title))),
    ),
    ..it.rows.map(row => row.map(cell => table.cell(stroke: (bottom: hair), text(cell)))).flatten(),
  )
  if it.note != none { block(above: 0.5em, text(size: 7.5pt, fill: luma(80), it.note)) }
}

#let care(it) = block(
  width: 100%,
  stroke: (left: 2.2pt + rgb("#8a4b00")),
  inset: (left: 8pt, y: 3pt),
  {
    text(weight: "semibold", fill: rgb("#8a4b00"), "▲ " + it.word)
    list(..it.items.map(item => text(item)))
  },
)

#let drawing(it) = figure(
  image(it.file, width: 100%, alt: it.alt),
  caption: text(size: 7.8pt, fill: luma(70), it.caption),
  supplement: none,
  numbering: none,
  kind: image,
)
#set figure(gap: 0.5em)
#show figure: set block(breakable: false)
#show figure.caption: it => align(left, it.body)

#if paper.markFile != none {
  place(top + right, dy: -3mm, image(paper.markFile, height: 12mm, alt: paper.author))
}

#for it in paper.blocks {
  if it.kind == "heading" { heading(level: it.level, text(it.text)) }
  else if it.kind == "paragraph" {
    if it.quiet { par(text(size: 8pt, fill: luma(75), it.text)) } else { par(text(it.text)) }
  }
  else if it.kind == "facts" { facts(it) }
  else if it.kind == "table" { sheet(it) }
  else if it.kind == "figure" { drawing(it) }
  else if it.kind == "list" { list(..it.items.map(item => text(item))) }
  else if it.kind == "care" { care(it) }
  else if it.kind == "newPage" { pagebreak(weak: true) }
}

#if paper.attached != none {
  pdf.attach(
    "/" + paper.attached.name,
    relationship: "data",
    mime-type: "application/zip",
    description: paper.attached.description,
  )
}
`;
