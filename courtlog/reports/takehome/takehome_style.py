"""How the take-home sheet looks: black on white, system fonts, one printed page, any phone."""

from __future__ import annotations

SIZES = (
    (4_700, "roomy"),
    (5_800, "usual"),
    (7_050, "full"),
    (7_600, "fuller"),
    (8_300, "small"),
)
"""Characters of text up to which a printed page takes this size of type."""


def size_class(characters: int) -> str:
    """The size of type for a page with this many characters."""
    return next((name for most, name in SIZES if characters <= most), "crowded")


STYLE = """\
:root { color-scheme: light; }
* { box-sizing: border-box; }
body { margin: 0 auto; padding: 1rem; max-width: 64rem; background: #fff; color: #000;
  font: 1rem/1.4 system-ui, sans-serif; overflow-wrap: anywhere; }
h1 { font-size: 1.5em; margin: 0; }
h2 { font-size: 1.1em; margin: 1em 0 .3em; border-bottom: 2px solid #000; }
h3 { font-size: 1em; margin: .3em 0 0; }
p, ul, dl, figure { margin: .2em 0; }
ul { padding-left: 1.2em; }
dt { font-weight: bold; }
dt::after { content: ": "; }
dd { margin: 0 0 .2em; }
.well p { font-size: 1.1em; }
.small, figcaption, caption { font-size: .875em; }
caption { text-align: left; }
svg { display: block; width: 100%; max-width: 26rem; height: auto;
  font: 11px system-ui, sans-serif; }
table { border-collapse: collapse; margin: .3em 0; }
th, td { border: 1px solid #444; padding: .1em .4em; text-align: left; font-weight: normal; }
thead th { font-weight: bold; }
.short { white-space: nowrap; }
.curves svg { font-size: 15px; }
table.pen td { min-width: 1.25rem; height: 1.6em; }
table.pen th, table.pen td { padding: .1em .15em; }
pre { margin: .2em 0; white-space: pre-wrap; font: .875em/1.35 ui-monospace, monospace; }
.curves, .boxes, .alone, .changed, .again { display: grid; gap: .2em 1.2em;
  grid-template-columns: repeat(auto-fit, minmax(min(100%, 24rem), 1fr)); }
.curves { grid-template-columns: repeat(auto-fit, minmax(min(100%, 14rem), 1fr)); }
h2, .wide { grid-column: 1 / -1; }
@media (max-width: 40rem) {
  body { padding: .5rem; }
  .curves, .boxes, .alone, .changed, .again { display: block; }
  th, td { padding: .1em .2em; font-size: .8em; }
  pre { font-size: .72em; }
  table.pen { width: 100%; }
  table.pen th { padding: 0 .1em; font-size: .72em; }
  table.pen td { min-width: 0; }
}
@page { margin: 7mm 9mm; }
@media print {
  body { padding: 0; max-width: none; line-height: 1.22; }
  body.roomy { font-size: 8.4pt; }
  body.usual { font-size: 7.5pt; }
  body.full { font-size: 6.9pt; }
  body.fuller { font-size: 6.75pt; }
  body.small { font-size: 6.3pt; }
  body.crowded { font-size: 5.8pt; }
  h1 { font-size: 1.3em; }
  h2 { margin: .35em 0 .1em; border-bottom-width: 1px; }
  header { display: flex; flex-wrap: wrap; gap: 0 1em; align-items: baseline; }
  header p { margin: 0; }
  table.pen caption { display: none; }
  .well p { font-size: 1.05em; }
  main { display: grid; grid-template-columns: 1fr 1fr; column-gap: 1.5em; }
  section, main > p { grid-column: 1 / -1; }
  section.weeks, section.say { grid-column: auto; }
  .changed, .alone, .boxes { grid-template-columns: 1fr 1fr; }
  .again { grid-template-columns: 1fr 1fr; }
  .days svg { max-width: 48mm; }
  .curves { grid-template-columns: repeat(auto-fit, minmax(40mm, 1fr)); }
  .curves svg { max-width: 48mm; }
  .boxes table, .days table { width: 100%; }
  .care ul { columns: 2; padding: 0; list-style-position: inside; }
  .care li { break-inside: avoid; }
  dt, dd { display: inline; }
  dd::after { content: "\\A"; white-space: pre; }
  p, ul, dl, figure { margin: .1em 0; }
  th, td { padding: 0 .3em; }
  table, svg { margin: .1em 0; }
  pre { font-size: .78em; line-height: 1.25; }
}
"""
