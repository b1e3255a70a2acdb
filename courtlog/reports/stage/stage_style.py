"""How stages look: videos side by side, below each other on a phone, two stills on paper."""

from __future__ import annotations

from courtlog.reports.layout.html_style import BASE_STYLE

STAGE_STYLE = (
    BASE_STYLE
    + """\
body { max-width: 75rem; }
[hidden] { display: none !important; }
.clips { display: grid; gap: .5em 1em; align-items: start; margin: .5em 0;
  grid-template-columns: repeat(auto-fit, minmax(min(100%, 20rem), 1fr)); }
figure { min-width: 0; }
video { display: block; width: 100%; max-height: 62vh; background: #000; }
.mirrored video, .mirrored .still { transform: scaleX(-1); }
.picture { overflow: hidden; }
.still { display: none; width: 100%; max-height: 62vh; object-fit: contain; }
.fails .still { display: block; }
.unplayable, .why { border: 2px solid #000; padding: .75em; }
button { font: inherit; color: #000; background: #fff; border: 2px solid #000;
  border-radius: .3em; padding: .3em .7em; min-height: 2.75rem; min-width: 2.75rem; }
button[aria-pressed=true] { color: #fff; background: #000; }
button:focus-visible, input:focus-visible, summary:focus-visible, [tabindex]:focus-visible {
  outline: 3px solid #00429d; outline-offset: 3px; }
.controls, .speeds, .panel { display: flex; flex-wrap: wrap; gap: .4em; align-items: center; }
.controls { margin: .3em 0; }
.panels { display: grid; gap: .5em 1em; align-items: start;
  grid-template-columns: repeat(auto-fit, minmax(min(100%, 20rem), 1fr)); }
.panel > p { margin: 0; }
.hits > details { flex: 1 1 100%; min-width: 0; }
.hit > p, .hit > label { flex: 1 0 100%; }
[data-act=play] { min-width: 5em; font-weight: bold; }
[data-act=place] { flex: 1 0 100%; min-width: 0; height: 2.75rem; margin: 0; accent-color: #000; }
.where { font-variant-numeric: tabular-nums; }
.waiting { visibility: hidden; }
[data-state=waiting] .waiting { visibility: visible; }
label { display: inline-flex; align-items: center; gap: .4em; min-height: 2.75rem; }
input[type=checkbox] { width: 1.4rem; height: 1.4rem; accent-color: #000; }
code { display: block; padding: .3em; border: 1px solid #000; white-space: pre-wrap;
  font: 1em/1.4 ui-monospace, monospace; user-select: all; }
summary { min-height: 2.75rem; padding: .5em 0; cursor: pointer; }
@media screen and (max-width: 40rem) {
  body { padding: .5rem; }
  video, .still { max-height: 34vh; }
}
@page { margin: 10mm; }
@media print {
  body { padding: 0; max-width: none; font-size: 11pt; line-height: 1.25; }
  .controls, .keys { display: none; }
  .clips { grid-template-columns: 1fr 1fr; gap: .3em 5mm; margin: .2em 0; }
  .has-still video { display: none; }
  .has-still .still { display: block; }
  video, .still { width: auto; max-width: 100%; height: 42mm; max-height: none;
    object-fit: contain; }
  section { break-inside: avoid; }
}
"""
)
