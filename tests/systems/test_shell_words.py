"""A word in a command is the same word to the shell of each system."""

from __future__ import annotations

import shlex
import subprocess

import pytest
from hypothesis import given
from hypothesis import strategies as st

from courtlog.systems import shell_words
from courtlog.systems.shell_words import quoted

WORDS = st.text(st.sampled_from("aB é'\"\\&$|-/"), max_size=8)


@given(WORDS)
def test_a_posix_shell_reads_the_word(word: str) -> None:
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(shell_words.sys, "platform", "linux")  # type: ignore[attr-defined]
        assert shlex.split(quoted(word)) == [word]


@given(WORDS)
def test_on_windows_it_is_what_python_hands_to_a_program(word: str) -> None:
    """`list2cmdline` leaves `&` and `|` bare, which a shell would take: those are quoted here."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(shell_words.sys, "platform", "win32")  # type: ignore[attr-defined]
        ours = quoted(word)
    if ours.startswith('"'):  # a blank makes it quote too, and is left out again
        assert ours[1:-1] == subprocess.list2cmdline([f" {word}"])[2:-1]
    else:
        assert ours == word == subprocess.list2cmdline([word])


def test_a_path_of_windows_is_typed_as_it_is(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(shell_words.sys, "platform", "win32")  # type: ignore[attr-defined]
    assert quoted(r"C:\Users\Ines\book.db") == r"C:\Users\Ines\book.db"
    assert quoted(r"C:\Users\Ines Roe\book.db") == r'"C:\Users\Ines Roe\book.db"'
