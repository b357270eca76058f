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
#set text(font: ("Inter", "DejaVu Sans"), size: 9.2pt, lang: paper.language, fallback: true, overhang: false)
// A place where a long word may be broken: nothing of it stays in the text that is read or copied.
#show "\\u{200b}": box()
#set par(leading: 0.62em, spacing: 0.85em, justify: false)
#set heading(outlined: true)
#show heading.where(level: 1): it => block(above: 0.5em, below: 0.9em, text(size: if paper.isLong { 12.5pt } else { 17pt }, weight: "semibold", it.body))
#show heading.where(level: 2): it => block(above: 1.5em, below: 0.7em, sticky: true, text(size: 12.2pt, weight: "semibold", it.body))
#show heading.where(level: 3): it => block(above: 1.1em, below: 0.55em, sticky: true, text(size: 9.8pt, weight: "semibold", it.body))
#set list(indent: 0pt, body-indent: 0.55em, spacing: 0.6em)
#set table(stroke: none, inset: (x: 3.2pt, y: 3.4pt))
#let hair = 0.4pt + luma(190)

#let quiet(size, body) = text(size: size, fill: luma(75), body)

#let labelled(rows) = table(
  columns: (auto, 1fr),
  inset: (x: 0pt, y: 2.4pt),
  column-gutter: 12pt,
  ..rows.map(row => (text(fill: luma(80), row.at(0)), text(row.at(1)))).flatten(),
)
#let facts(it) = if it.beside {
  let half = calc.ceil(it.rows.len() / 2)
  block(breakable: false, grid(columns: (5fr, 8fr), column-gutter: 18pt, labelled(it.rows.slice(0, half)), labelled(it.rows.slice(half))))
} else { labelled(it.rows) }

#let headline(it) = grid(
  columns: it.figures.map(_ => 1fr),
  column-gutter: 10pt,
  ..it.figures.map(one => {
    set par(spacing: 0.55em)
    par(text(size: 8.4pt, fill: luma(80), one.label))
    par(text(size: 15pt, weight: "semibold", one.value))
    par(text(size: 8.4pt, one.interval))
    par(text(size: 8.4pt, fill: luma(80), one.where))
  }),
)

// Figures of one width stand under each other; words keep the hyphens and points they are set with.
#let cell-text(c, body) = if c.align == "right" { text(number-width: "tabular", body) } else { text(body) }
#let rows-of(it, rows) = table(
  columns: it.columns.map(c => if c.wide { 1fr } else { auto }),
  align: it.columns.map(c => if c.align == "right" { right + top } else { left + top }),
  table.header(
    ..it.columns.map(c => table.cell(
      align: (if c.align == "right" { right } else { left }) + bottom,
      stroke: (bottom: 0.7pt + luma(60)),
      text(weight: "semibold", c.title),
    )),
  ),
  ..rows.map(row => if row.len() == 1 and it.columns.len() > 1 {
    (table.cell(colspan: it.columns.len(), breakable: false, stroke: (bottom: hair), text(weight: "semibold", row.at(0))),)
  } else {
    row.enumerate().map(((i, cell)) => table.cell(
      breakable: false,
      stroke: (bottom: hair),
      cell-text(it.columns.at(i), cell),
    ))
  }).flatten(),
)
#let under(it) = {
  if it.note != none { block(above: 0.5em, quiet(7.5pt, it.note)) }
  if it.sources != none {
    block(above: 0.5em, quiet(
      7.5pt,
      it.sources.title + ": " + it.sources.items.enumerate().map(((i, one)) => "[" + str(i + 1) + "]\\u{a0}" + one).join("; ") + ".",
    ))
  }
}
// Rows that stay with their head, caption and note on one page.
#let together = 14
#let sheet(it) = {
  let dense = it.columns.len() > 6
  let halved = it.parts.at(0).len() > 1
  set table(inset: (x: 2.2pt, y: 3.4pt)) if halved
  set text(size: if dense { 7.3pt } else if halved { 7.6pt } else { 8.2pt })
  set par(leading: 0.5em)
  let caption = block(above: 1em, below: 0.5em, sticky: true, text(size: 9pt, weight: "semibold", it.caption))
  let parts = it.parts.map(part => if part.len() == 1 { rows-of(it, part.at(0)) } else {
    grid(columns: (1fr, 1fr), column-gutter: 18pt, ..part.map(rows => rows-of(it, rows)))
  })
  if it.parts.len() == 1 and it.parts.at(0).at(0).len() <= together {
    block(breakable: false, { caption; parts.at(0); under(it) })
  } else {
    caption
    for (i, part) in parts.enumerate() {
      // What stands under a table is not parted from its last rows.
      if it.parts.at(i).len() == 1 { part; if i == parts.len() - 1 { under(it) } }
      else { block(breakable: false, { part; if i == parts.len() - 1 { under(it) } }) }
    }
  }
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

#let signs = (done: "☑", open: "☐", struck: "☒")
#let ticks(it) = {
  set text(size: 8.4pt)
  set par(leading: 0.5em)
  table(
    columns: (auto, 1fr, if it.items.any(item => item.by.len() > 24) { 46mm } else { auto }),
    inset: (x: 0pt, y: 2.1pt),
    column-gutter: 7pt,
    align: (left + top, left + top, right + top),
    ..it.items.map(item => (
      text(font: "DejaVu Sans", signs.at(item.state)),
      table.cell(breakable: false, text(item.text)),
      quiet(7.5pt, item.by),
    )).flatten(),
  )
}

#let drawing(it, which) = figure(
  image(it.files.at(calc.min(which, it.files.len() - 1)), width: 100%, alt: it.alt),
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

#let contents = block(below: 1.2em, {
  set text(size: 8.4pt)
  set outline.entry(fill: repeat(text(fill: luma(150), ".")))
  context outline(title: none, indent: 0pt, target: heading.where(level: 2).after(here()))
})

#let set-blocks(blocks, which) = for it in blocks {
  if it.kind == "heading" {
    if it.over != none { block(below: 0.45em, text(size: 9.2pt, fill: luma(80), it.over)) }
    heading(level: it.level, text(it.text))
    // After the title of the evidence: where each of its parts begins.
    if it.contents { contents }
  }
  else if it.kind == "paragraph" {
    if it.quiet { block(sticky: true, quiet(8pt, it.text)) } else { par(text(it.text)) }
  }
  else if it.kind == "facts" { facts(it) }
  else if it.kind == "headline" { headline(it) }
  else if it.kind == "table" { sheet(it) }
  else if it.kind == "figure" { drawing(it, which) }
  else if it.kind == "list" { list(..it.items.map(item => text(item))) }
  else if it.kind == "ticks" { ticks(it) }
  else if it.kind == "care" { care(it) }
  else if it.kind == "newPage" { pagebreak(weak: true) }
}

// One page of findings: its picture as tall as there is room for, then smaller letters; beyond that it runs on.
#layout(space => {
  let set-first(which, size) = { set text(size: size); set-blocks(paper.first, which) }
  let fits(body) = measure(block(width: space.width, body)).height <= space.height
  let tries = range(paper.heights).map(which => (which, 9.2pt)) + ((paper.heights - 1, 8.4pt), (paper.heights - 1, 7.8pt))
  let found = tries.find(((which, size)) => fits(set-first(which, size)))
  if found == none { found = (paper.heights - 1, 8.4pt) }
  set-first(..found)
})

#set-blocks(paper.blocks, 0)

#if paper.attached != none {
  pdf.attach(
    "/" + paper.attached.name,
    relationship: "data",
    mime-type: "application/zip",
    description: paper.attached.description,
  )
}
`;
