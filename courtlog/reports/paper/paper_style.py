"""How sheets of paper look: black on white, one layout that fits A4 and Letter.

No text is smaller than 11 points, no box lower or narrower than 7 mm. What stands in one line is
cut rather than broken, so that no name, however long, pushes the boxes off the page.
"""

from __future__ import annotations

from courtlog.reports.layout.line_budget import lines_style

_STYLE = """\
:root { color-scheme: light; }
* { box-sizing: border-box; }
body { margin: 0 auto; padding: 1rem; max-width: 50rem; background: #fff; color: #000;
  font: 12pt/1.2 system-ui, sans-serif; overflow-wrap: anywhere; }
h1 { font-size: 14pt; margin: 0; }
h2 { font-size: 14pt; margin: 0; }
.rule { border-bottom: 2px solid #000; margin-bottom: 1mm; }
h3 { font-size: 12pt; margin: 0; }
p { margin: 0; }
.page, .card { margin-bottom: 2rem; }
.head { display: flex; gap: 1em; justify-content: space-between; align-items: baseline; }
.head > :first-child { min-width: 0; }
.head > h2 { flex: none; max-width: 72%; }
.head > .where { font-size: 11pt; text-align: right; min-width: 0; }
.code { white-space: nowrap; font: bold 13pt ui-monospace, monospace; }
.one { white-space: nowrap; overflow: hidden; text-overflow: ellipsis; }
.two { display: -webkit-box; -webkit-box-orient: vertical; -webkit-line-clamp: 2;
  line-clamp: 2; overflow: hidden; }
/* Heads of one height, so that the rows of both halves stand level. */
.spots { min-height: 2.4em; }
.note { font-weight: bold; }
.small { font-size: 11pt; }
.halves { margin-top: 1.5mm; display: grid; gap: 0 6mm;
  grid-template-columns: minmax(0, 1fr) minmax(0, 1fr); }
.write { display: flex; gap: .5em; align-items: flex-end; height: 7.5mm; white-space: nowrap; }
.write i { flex: 1; border-bottom: 1px solid #000; height: 1.2em; }
.write i.few { flex: 0 0 12mm; }
/* A printer cuts what stands on the very edge: the last line of a table keeps off it. */
table { border-collapse: collapse; table-layout: fixed; width: calc(100% - 1px); margin: 1mm 0; }
th, td { border: 1px solid #000; padding: 0 .5mm; height: 7.4mm; text-align: center;
  font-weight: normal; font-size: 11pt; }
/* Two lines fit, and what hangs below a line, as a g does, is not cut off. */
thead th { height: 10mm; line-height: 1.2; }
.number { width: 10mm; }
.tough { width: 14mm; }
.number, .tough { overflow-wrap: normal; }
tr.last > * { border-bottom-width: 4px; }
.cue { margin-top: 1.5mm; }
.card p, .overleaf p { font-size: 13pt; }
.card h3, .overleaf h3 { font-size: 13pt; }
.full p, .full h3 { font-size: 12pt; line-height: 1.15; }
.fed { margin-bottom: .8mm; }
@media screen and (max-width: 40rem) {
  body { padding: .5rem; }
  .halves { display: block; }
  .head, .write { flex-wrap: wrap; height: auto; }
  .head > h2 { max-width: 100%; }
  .one, .write { white-space: normal; }
}
@page { margin: 8mm 10mm; }
@media print {
  body { padding: 0; max-width: none; }
  h1 { display: none; }
  .page { margin: 0; break-after: page; }
  .page:last-child { break-after: auto; }
  .card { margin: 0; height: 130mm; break-inside: avoid; }
  .card:nth-of-type(even) { break-after: page; }
  .card:last-child { break-after: auto; }
}
"""

STYLE = _STYLE + lines_style()
