"""Keys fill a form in, and the form fills the card in: what is left empty changes nothing."""

from __future__ import annotations

from dataclasses import replace

from hypothesis import given
from hypothesis import strategies as st

from courtlog.coaching.game.cards import FIELDS, PlayerCard, card_of, one_line
from courtlog.coaching.paper.filled_form import (
    FILMING,
    FILMING_BY,
    FILMING_ON,
    KEYS,
    FilledForm,
    choices_of,
    form_draft_text,
    form_of_draft,
    press,
)
from courtlog.reports.paper.form_facts import questions

CODE = "K7D-3MX-2P4"
TEXT_KEYS = [key for key in KEYS if not choices_of(key)]
NAMED = [
    *("enter", "down", "up", "tab", "left", "right", "home", "end"),
    *("backspace", "delete", "pageup", "pagedown", "f5", "ctrl+q"),
]
letters = st.characters(codec="utf-8", exclude_categories=["Cc", "Cs", "Cf", "Zl", "Zp"])
words = st.text(letters.filter(str.isprintable), max_size=20).map(one_line)
dates = st.dates().filter(lambda day: 2000 <= day.year <= 2099).map(lambda day: day.isoformat())
answers = st.fixed_dictionaries(
    {
        key: st.sampled_from(["", *choices_of(key).values()])
        if choices_of(key)
        else st.just("") | dates
        if key == FILMING_ON
        else words
        for key in KEYS
    }
)
FULL = PlayerCard(
    name="Maren",
    short="Mar",
    hand="left",
    goal="serve",
    complaints="elbow",
    age="minor",
    contact="Ada 0123",
    filming="yes",
    filming_on="2026-05-01",
    filming_by="Ada",
)


def known(card: PlayerCard) -> dict[str, str]:
    """What stands on the printed form."""
    return {question.key: question.known for question in questions(card)}


def typed(form: FilledForm, keys: list[str]) -> FilledForm:
    """The form after these keys; those without a meaning change nothing."""
    for key in keys:
        form = press(form, key) or form
    return form


def keys_of(wanted: dict[str, str], printed: dict[str, str]) -> list[str]:
    """What is typed for these answers, line by line over what stands there."""
    keys: list[str] = []
    for key in KEYS:
        if choices_of(key):
            keys += [wanted[key][0] if wanted[key] else " "]
        else:
            keys += ["backspace"] * len(printed.get(key, "")) + list(wanted[key])
        keys.append("enter")
    return keys


def test_the_lines_are_the_questions_of_the_paper() -> None:
    asked = [question.key for question in questions(FULL)]
    assert [*asked, FILMING_BY, FILMING_ON] == list(KEYS)
    for question in questions(FULL):
        assert set(question.choices) <= set(choices_of(question.key).values())


@given(wanted=answers, before=st.sampled_from([FULL, PlayerCard(name="Tove"), None]))
def test_what_is_typed_is_on_the_card(wanted: dict[str, str], before: PlayerCard | None) -> None:
    wanted = wanted | {"name": wanted["name"] or "Tove"}
    if before is None and not any(map(str.isalnum, wanted["name"])):
        wanted |= {"name": "Tove"}
    printed = known(before) if before else {}
    form = typed(FilledForm.fresh(CODE, "", printed), keys_of(wanted, printed))
    assert form.is_behind_all
    assert dict(zip(KEYS, form.answers, strict=True)) == wanted
    if not any(map(str.isalnum, wanted["name"])):
        return  # such a name may leave no mark, and is refused by the card
    card = card_of(form.card_values(), before).words()
    kept = (before or PlayerCard(name="")).words()
    for key in KEYS:
        if key not in (FILMING_BY, FILMING_ON):
            assert card[key] == (wanted[key] or kept[key]), key
    if wanted[FILMING] and (wanted[FILMING_BY] or wanted[FILMING_ON]):
        assert card[FILMING_ON] == wanted[FILMING_ON]
    if wanted[FILMING] and wanted[FILMING_BY]:
        assert card[FILMING_BY] == wanted[FILMING_BY]
    if not wanted[FILMING]:
        assert all(card[key] == kept[key] for key in (FILMING_BY, FILMING_ON))
    for field in FIELDS:
        if field.key not in KEYS:
            assert card[field.key] == kept[field.key]


@given(keys=st.lists(st.sampled_from(NAMED) | letters | st.sampled_from("\x00\x1b\u202e\u200dé")))
def test_any_keys_leave_a_form_that_can_be_gone_on_with(keys: list[str]) -> None:
    form = typed(FilledForm.fresh(CODE, "Maren", known(FULL)), keys)
    for key, answer in zip(KEYS, form.answers, strict=True):
        most = next(field.most for field in FIELDS if field.key == key)
        assert len(answer) <= most
        assert not choices_of(key) or answer in ("", *choices_of(key).values())
        assert not set("\x00\x1b\u202e") & set(answer)
    assert 0 <= form.line <= len(KEYS)
    again = form_of_draft(form_draft_text(form))
    assert replace(again, line=form.line, cursor=form.cursor) == form


def test_nothing_typed_changes_nothing_and_a_hidden_contact_stays() -> None:
    form = typed(FilledForm.fresh(CODE, "Maren", known(FULL)), ["enter"] * 9)
    assert form.card_values() == {}
    emptied = typed(form, ["pageup", "down", "down", "down", *["backspace"] * 9, "enter"])
    assert card_of(emptied.card_values(), FULL) == FULL


def test_a_letter_is_mended_in_place() -> None:
    form = typed(FilledForm.fresh(CODE, "", {}), [*"Tve", "left", "left", "o"])
    assert form.answers[0] == "Tove"
    assert typed(form, ["down", "up", "home", "delete", "T"]).answers[0] == "Tove"
