"""How the take-home sheet looks: black on white, system fonts, a front and a back, any phone.

On paper no text is smaller than 11 points (14.67 pixels of CSS).
"""

from __future__ import annotations

from courtlog.reports.layout.html_style import BASE_STYLE

STYLE = (
    BASE_STYLE
    + """\
dt { font-weight: bold; }
dt::after { content: ": "; }
dd { margin: 0 0 .2em; }
.dots { margin-left: 1em; }
.row { display: inline-block; margin-right: 1.5em; }
.day { display: inline-block; min-width: 5.5em; }
.shapes { letter-spacing: .08em; font-family: ui-monospace, monospace; }
.back { border-top: 4px double #000; margin-top: 2em; }
caption { text-align: left; }
svg { display: block; width: 100%; max-width: 26rem; height: auto;
  font: 18px system-ui, sans-serif; }
table { border-collapse: collapse; margin: .3em 0; }
th, td { border: 1px solid #444; padding: .1em .4em; text-align: left; font-weight: normal; }
thead th { font-weight: bold; }
.short { white-space: nowrap; }
.curves svg { font-size: 24px; }
table.pen td { min-width: 1.25rem; height: 1.6em; }
table.pen th, table.pen td { padding: .1em .15em; }
pre { margin: .2em 0; white-space: pre-wrap; font: 1em/1.3 ui-monospace, monospace; }
.curves, .boxes, .alone, .again { display: grid; gap: .2em 1.2em;
  grid-template-columns: repeat(auto-fit, minmax(min(100%, 22rem), 1fr)); }
.curves { grid-template-columns: repeat(auto-fit, minmax(min(100%, 14rem), 1fr)); }
h2, .wide { grid-column: 1 / -1; }
@media screen and (max-width: 40rem) {
  body { padding: .5rem; }
  .curves, .boxes, .alone, .again { display: block; }
  th, td { padding: .1em .2em; font-size: .8em; }
  pre { font-size: .72em; }
  table.pen { width: 100%; }
  table.pen th { padding: 0 .1em; font-size: .72em; }
  table.pen td { min-width: 0; }
}
@media screen { .paper { display: none; } }
@page { margin: 8mm 10mm; }
@media print {
  body { padding: 0; max-width: none; font-size: 11pt; line-height: 1.2; }
  h1 { font-size: 1.4em; }
  h2 { margin: .5em 0 .1em; border-bottom-width: 1px; }
  p, ul, dl, figure { margin: .12em 0; }
  .back { break-before: page; border-top: 0; margin: 0; }
  .care ul { padding-left: 1em; }
  .roomy .read, .roomy .act, .roomy header { font-size: 12pt; line-height: 1.25; }
  .tight .act { display: grid; grid-template-columns: 1fr 1fr; column-gap: 1.5em; }
  .tight .do, .tight .wait { grid-column: 1 / -1; }
  .weeks, .again { break-inside: avoid; }
  .screen { display: none; }
  .days { display: grid; grid-template-columns: minmax(280px, 1fr) auto; column-gap: 1em; }
  .unbroken td { white-space: nowrap; }
  .alone, .again { grid-template-columns: 1fr 1fr; }
  .curves { grid-template-columns: 1fr 1fr 1fr; }
  .boxes { grid-template-columns: 1fr 1fr; }
  .boxes table, .days table { width: 100%; }
  table.pen caption { display: none; }
  dt, dd { display: inline; }
  dd::after { content: "\\A"; white-space: pre; }
  th, td { padding: 0 .25em; }
  table, svg { margin: .1em 0; }
  pre { line-height: 1.15; }
}
"""
)
