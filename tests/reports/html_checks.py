"""Checks of every HTML page: the validator, axe, the sizes of its texts.

COURTLOG_NODE_MODULES names a folder with `axe-core` and `html-validate` (npm); a test whose tools
are not there is skipped.
"""

from __future__ import annotations

import os
import shutil
import subprocess
from pathlib import Path
from typing import Any

import pytest

from tests.reports.browser import Browser, there_is_one

MODULES = Path(os.environ.get("COURTLOG_NODE_MODULES", "/nowhere"))
AXE = MODULES / "axe-core" / "axe.min.js"
VALIDATOR = MODULES / "html-validate" / "bin" / "html-validate.mjs"
PHONE = 320
"""Pixels of CSS across a small phone."""

needs_browser = pytest.mark.skipif(not there_is_one(), reason="no chromium and chromedriver")
needs_axe = pytest.mark.skipif(not AXE.exists(), reason="no axe-core")
needs_validator = pytest.mark.skipif(
    not VALIDATOR.exists() or shutil.which("node") is None, reason="no node and html-validate"
)

RUN_AXE = """
const done = arguments[arguments.length - 1];
axe.run({runOnly: ["wcag2a", "wcag2aa", "wcag2aaa", "wcag21a", "wcag21aa", "wcag22aa",
                   "best-practice"],
         rules: {"color-contrast-enhanced": {enabled: true}}})
  .then(found => done({passed: found.passes.map(rule => rule.id),
                       failed: found.violations.map(rule => rule.id)}));
"""

SMALLEST = """
const texts = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
const sizes = [];
while (texts.nextNode()) {
  const of = texts.currentNode.parentElement, box = of.getBoundingClientRect();
  const drawn = of.ownerSVGElement;
  const told = drawn && ["title", "desc"].includes(of.tagName);
  if (!texts.currentNode.data.trim() || told || !box.width) continue;
  const scale = drawn ? drawn.getBoundingClientRect().width / drawn.viewBox.baseVal.width : 1;
  sizes.push(scale * parseFloat(getComputedStyle(of).fontSize));
}
return Math.min(...sizes);
"""
"""The least size of a text that is shown, in pixels of CSS: 96 are an inch, or 72 points."""

MARGIN = 10 / 25.4
"""Of a page, in inches, to the left and to the right."""


def valid(*files: Path) -> subprocess.CompletedProcess[str]:
    """The validator's judgement by the HTML standard and its rules of accessibility."""
    command = ["node", str(VALIDATOR), "--preset", "standard,a11y", *map(str, files)]
    return subprocess.run(command, cwd=MODULES, capture_output=True, text=True, check=False)


def axe(window: Browser) -> Any:
    """The rules that the open page passes and fails."""
    window.run(AXE.read_text(encoding="utf-8"))
    return window.wait_for(RUN_AXE)


CUT_UNSEEN = """
return [...document.querySelectorAll('body *')].filter(part => {
  const style = getComputedStyle(part);
  if (style.display === 'inline' || part.tagName === 'STYLE') return false;
  const wide = part.scrollWidth > part.clientWidth + 1 && part.clientWidth;
  const high = part.scrollHeight > part.clientHeight + 2 && part.clientHeight;
  if (!wide && !high) return false;
  const ends = style.webkitLineClamp !== 'none' || style.textOverflow === 'ellipsis';
  const cut = style.overflowX === 'hidden' || style.overflowY === 'hidden';
  return !(cut && ends) && ![...part.querySelectorAll('*')].some(inner =>
    getComputedStyle(inner).overflowX === 'hidden');
}).map(part => part.tagName + '.' + part.className + ': ' + part.textContent.slice(0, 60));
"""
"""Elements whose text goes beyond them, and is neither whole nor ends in an ellipsis."""
