"""The form as one HTML file to print, a page for each player: no script, nothing from outside.

No text is below 11 points, no box to tick below 7 mm. A known answer is cut where its room ends,
so that no text, however long, makes a second page.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from courtlog.reports.layout.html_elements import escaped, html_file, paragraph
from courtlog.reports.paper import form_words as words
from courtlog.reports.paper.form_facts import Form, Question

STYLE = """\
:root { color-scheme: light; }
* { box-sizing: border-box; }
body { margin: 0 auto; padding: 1rem; max-width: 50rem; background: #fff; color: #000;
  font: 11pt/1.2 system-ui, sans-serif; overflow-wrap: anywhere; }
h1, h2 { font-size: 14pt; margin: 0; min-width: 0; }
h3 { font-size: 12pt; margin: 0; }
p { margin: 0; }
.page { margin-bottom: 2rem; }
.head { display: flex; gap: 1em; justify-content: space-between; align-items: baseline;
  border-bottom: 2px solid #000; margin-bottom: 1mm; }
.one { white-space: nowrap; overflow: hidden; text-overflow: ellipsis; }
.code { white-space: nowrap; font: bold 13pt ui-monospace, monospace; }
.question { margin-top: 3mm; break-inside: avoid; }
.asks { display: flex; gap: 1.5em; align-items: center; min-height: 8mm; }
.choice { display: inline-flex; gap: .5em; align-items: center; white-space: nowrap; }
.box { display: inline-block; width: 7.5mm; height: 7.5mm; border: 1px solid #000;
  text-align: center; font: bold 16pt/7mm system-ui, sans-serif; }
.known { font-weight: bold; display: -webkit-box; -webkit-box-orient: vertical;
  -webkit-line-clamp: 2; line-clamp: 2; overflow: hidden; }
.line { border-bottom: 1px solid #000; height: 8mm; }
.sign { display: flex; gap: .5em; align-items: flex-end; height: 11mm; margin-bottom: 2mm;
  white-space: nowrap; }
.sign i { flex: 3; border-bottom: 1px solid #000; height: 1.2em; }
.sign i:last-child { flex: 1; }
@media screen and (max-width: 40rem) {
  body { padding: .5rem; }
  .asks, .head { flex-wrap: wrap; }
  .one { white-space: normal; }
}
@page { margin: 10mm; }
@media print {
  body { padding: 0; max-width: none; }
  h1 { display: none; }
  .page { margin: 0; break-after: page; }
  .page:last-child { break-after: auto; }
}
"""


def form_html(forms: Sequence[Form]) -> str:
    """The whole file."""
    title = f"Before {forms[0].clinic}" if forms else "Before the clinic"
    pages = "\n".join(_page(form) for form in forms)
    body = f"<main>\n<h1>{escaped(title)}</h1>\n{pages}\n</main>"
    return html_file(title, STYLE, body)


def _page(form: Form) -> str:
    return "\n".join(
        (
            '<section class="page">',
            f'<div class="head"><h2 class="one">{escaped(words.title(form))}</h2>'
            f'<span class="code">{escaped(str(form.code))}</span></div>',
            *map(paragraph, words.head_lines(form)),
            *(_question(place, one) for place, one in enumerate(form.questions, 1)),
            '<p class="sign">' + " ".join(f"{part} <i></i>" for part in words.SIGN) + "</p>",
            *map(paragraph, words.foot_lines(form)),
            "</section>",
        )
    )


def _question(number: int, question: Question) -> str:
    return f'<div class="question">{"".join(_parts(number, question))}</div>'


def _parts(number: int, question: Question) -> Iterator[str]:
    boxes = "".join(
        f'<span class="choice"><span class="box">{"x" if choice == question.known else ""}</span>'
        f"{escaped(choice)}</span>"
        for choice in question.choices
    )
    yield f'<div class="asks"><h3>{number}. {escaped(question.asks)}</h3>{boxes}</div>'
    yield paragraph(words.reason(question))
    if question.hint:
        yield paragraph(question.hint)
    if question.lines and question.known:
        yield f'<p class="known">{escaped(question.known)}</p>'
    yield '<p class="line"></p>' * question.blank_lines
