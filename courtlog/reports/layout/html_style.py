"""What every HTML page looks like: black on white, system fonts, headings with a rule below."""

from __future__ import annotations

BASE_STYLE = """\
:root { color-scheme: light; }
* { box-sizing: border-box; }
body { margin: 0 auto; padding: 1rem; max-width: 60rem; background: #fff; color: #000;
  font: 1rem/1.4 system-ui, sans-serif; overflow-wrap: anywhere; }
h1 { font-size: 1.5em; margin: 0; }
h2 { font-size: 1.15em; margin: 1em 0 .3em; border-bottom: 2px solid #000; }
h3 { font-size: 1em; margin: .3em 0 0; }
p, ul, dl, figure { margin: .2em 0; }
ul { padding-left: 1.2em; }
"""
