"""Arms and heat by keys: what the coach reads, and what the book holds afterwards."""

from __future__ import annotations

from pathlib import Path

from courtlog.coaching.game.clinic_record import CheckIn, CheckInMoment, Sign
from courtlog.coaching.plans.clinic_plan import ClinicPlan
from courtlog.courtside.desk.desk import Desk
from courtlog.logbook.reads import care_lookups, clinic_lookups, day_lookups
from courtlog.logbook.writes import clinic_writer
from tests.court import START, again, close_look, desk_in, player
from tests.courtside.screen import flat, line_with, on_court

NAMES = ("Ruben", "Tove", "Maren")
NIGHT = 24 * 3600


def said(desk: Desk, who: str = "Ruben") -> list[CheckIn]:
    """The player's check-ins of the day, from the book alone."""
    view = again(desk).view
    found = day_lookups.check_ins_on(desk.book, view.clinic.id, view.day.date)
    return found.get(player(desk, who).id, [])


def pains(desk: Desk) -> str:
    """`arrival 0, break 2` of Ruben."""
    return ", ".join(f"{c.moment} {c.pain}" for c in said(desk))


def in_court(desk: Desk) -> str:
    """The name on court, from the book alone."""
    live = again(desk).view.live
    return live.player.name if live else ""


def balls(desk: Desk) -> int:
    """Balls taken in the round on court, from the book alone."""
    live = again(desk).view.live
    return len(live.feeding.taken) if live else 0


def test_no_pain_on_arrival_is_four_keys(tmp_path: Path) -> None:
    desk = desk_in(tmp_path, NAMES)
    text = on_court(desk, ["f8", "enter", "0", "enter"])
    assert "Kept of Ruben: arrival: pain 0." in text
    assert "RED" not in text
    assert said(desk) == [
        CheckIn(player="Ruben", moment=CheckInMoment.ARRIVAL, pain=0, at_ms=START)
    ]


def test_rubens_elbow_from_one_to_six_and_red_to_the_end(tmp_path: Path) -> None:
    """1, 2, 4: amber; 6: red; red after a lower value, a restart, a word, and the next day."""
    desk = desk_in(tmp_path, NAMES)
    ask = ["f8", "enter"]
    text = on_court(
        desk, [*ask, "1", "down", "right", "enter", *ask, "2", "down", "right", "enter"]
    )
    assert "AMBER" not in text
    text = on_court(again(desk), [*ask, "4", "down", "right", "enter"])
    for words in (
        "▲ AMBER: Ruben",
        "pain elbow 4, more than 2",
        "1 at arrival: a rise",
        "lower limits",
    ):
        assert words in " ".join(text.replace("│", " ").split())
    assert "▲ AMBER" in line_with(on_court(again(desk)), "Ruben")
    text = on_court(again(desk), [*ask, "6", "down", "right", "enter"])
    for words in ("■ RED: Ruben", "pain elbow 6, more than 5", "Stop this drill today"):
        assert words in text
    assert pains(desk) == "arrival 1, break 2, end 4, end 6"
    text = on_court(again(desk), [*ask, "1", "enter"])
    assert "■ RED" in line_with(text, " Ruben  ")
    on_court(again(desk), ["f8", *"clin", "enter", "enter", *"Dr Jorun", "down", *"rest", "enter"])
    reopened = again(desk)
    assert "■ RED" in line_with(on_court(reopened), " Ruben  ")
    reopened.clock.pass_seconds(NIGHT)  # type: ignore[attr-defined]
    reopened.clinic.begin_day(reopened.state.today())
    assert "■ RED" in line_with(on_court(reopened, ["tab"]), " Ruben  ")
    (red,) = care_lookups.reds(desk.book, desk.view.clinic.id, reopened.state.today())
    assert (red.words[0].who, red.words[0].text) == ("Dr Jorun", "rest")


def test_a_caution_is_closed_on_purpose(tmp_path: Path) -> None:
    desk = desk_in(tmp_path, NAMES)
    red = ["f8", "enter", "6", "enter"]
    assert "Stop this drill today" in on_court(desk, [*red, "o", "k", "tab"])
    live = again(desk).view.live
    assert live is not None
    assert live.empty
    assert "Stop this drill today" not in on_court(again(desk), [*red, "enter"])


def test_whom_a_red_holds_back_goes_on_court_when_the_coach_has_read_why(tmp_path: Path) -> None:
    desk = desk_in(tmp_path, NAMES)
    on_court(desk, ["tab", "f8", "enter", "up", "up", "left", "down", "down", "6", "enter"])
    assert [c.pain for c in said(desk)] == [6]
    ruben = ["y", *"rub", "enter"]
    words = " ".join(on_court(again(desk), ruben).replace("│", " ").split())
    for said_there in (
        "Ruben is kept off the feed: red today: pain 6, more than 5.",
        "Stop and ask a licensed clinician",
        "courtlog records; you decide",
    ):
        assert said_there in words
    on_court(again(desk), [*ruben, "escape"])
    assert in_court(desk) == "Tove"
    on_court(again(desk), [*ruben, "ctrl+y"])
    assert in_court(desk) == "Ruben"


def test_no_ball_of_a_red_player_is_taken_before_the_coach_has_read_why(tmp_path: Path) -> None:
    """Nobody clears a red here; the coach reads it once and decides."""
    desk = desk_in(tmp_path, NAMES)
    red = ["f8", *"red by", "enter", *"holds it", "enter"]
    asked = flat(on_court(desk, ["space", *red, "space"]))
    assert "Ruben is kept off the feed: red today: holds it. Stop this drill today" in asked
    assert balls(desk) == 1
    on_court(again(desk), ["space", "escape"])
    assert balls(desk) == 1
    on_court(again(desk), ["space", "ctrl+y", "space"])
    assert balls(desk) == 3


def test_the_list_of_players_says_whose_arm_has_a_caution(tmp_path: Path) -> None:
    desk = desk_in(tmp_path, NAMES)
    text = on_court(desk, ["f8", *"red by", "enter", *"holds it", "enter", "y"])
    assert "Ruben   ■ RED" in text
    assert "■" not in line_with(text, "1 Tove")


def test_everything_on_the_form_comes_into_the_book_as_text(tmp_path: Path) -> None:
    desk = desk_in(tmp_path, NAMES)
    keys = ["f8", "enter", "up", "right", "up", "t", "down", "down", "0"]
    keys += ["down", *"=[b]x", "down", "7", "down", *"90", "down", "down", "space"]
    keys += ["down"] * 5 + [*"[/b]"]
    text = on_court(desk, [*keys, "enter", "enter"])
    assert "Kept of Tove: break: pain =[b]x 0 · numbness · effort 7 · 90 min · “[/b]”." in text
    assert said(desk, "Tove") == [
        CheckIn(
            player="Tove",
            moment=CheckInMoment.BREAK,
            pain=0,
            place="=[b]x",
            effort=7,
            minutes=90,
            note="[/b]",
            at_ms=START,
            signs=(Sign.NUMBNESS,),
        )
    ]


def test_what_cannot_be_is_asked_again_and_nothing_is_written(tmp_path: Path) -> None:
    desk = desk_in(tmp_path, NAMES)
    for keys, words in (
        (["enter"], "Nothing to keep yet"),
        (["1", "1", "enter"], "Pain is a whole number from 0 to 10"),
        (["x", "enter"], "Pain is a whole number"),
        (["down", "right", "enter"], "How much does it hurt there"),
        (["down", "down", "down", *"9999", "enter"], "Minutes is a whole number"),
    ):
        assert words in on_court(again(desk), ["f8", "enter", *keys])
        on_court(again(desk), ["f8", "enter", *keys, "escape"])
    assert said(desk) == []


def test_effort_is_asked_in_plain_words_half_an_hour_later(tmp_path: Path) -> None:
    text = on_court(desk_in(tmp_path, NAMES), ["f8", "enter", "down", "down"])
    words = " ".join(text.replace("│", " ").split())
    assert "Ask about 30 minutes after" in words
    assert (
        "0 rest · 1 very very easy · 2 easy · 3 moderate · 4 somewhat hard · 5 hard"
        " · 7 very hard · 10 maximal"
    ) in words


def test_the_next_day_begins_with_the_morning(tmp_path: Path) -> None:
    desk = desk_in(tmp_path, NAMES)
    on_court(desk, ["f8", "enter", "1", "enter"])
    desk.clock.pass_seconds(NIGHT)  # type: ignore[attr-defined]
    desk.clinic.begin_day(desk.state.today())
    text = on_court(desk, ["f8", "enter", "2", "enter"])
    assert "pain 2 in the morning, 1 the morning before" in text
    assert pains(desk) == "morning 2"


def test_a_red_by_hand_needs_its_reason(tmp_path: Path) -> None:
    desk = desk_in(tmp_path, NAMES)
    assert "A red needs a reason" in on_court(desk, ["f8", *"red by", "enter", "enter"])
    text = on_court(again(desk), ["f8", *"red by", "enter", *"holds it", "enter"])
    assert "■ RED" in line_with(text, " Ruben  ")
    letters = close_look(marks="letters")
    desk.state.use(letters, "")
    assert "X RED" in line_with(on_court(again(desk)), " Ruben  ")


def test_a_long_name_leaves_room_for_the_word(tmp_path: Path) -> None:
    desk = desk_in(tmp_path, ("山田" * 40, "Tove"))
    text = on_court(desk, ["f8", "enter", "9", "enter", "enter"])
    assert "■ RED" in text.splitlines()[1]


def test_no_red_no_word(tmp_path: Path) -> None:
    assert "There is no red in this clinic." in on_court(
        desk_in(tmp_path, NAMES), ["f8", *"clin", "enter"]
    )


def test_heat_is_kept_told_and_stands_at_the_top(tmp_path: Path) -> None:
    desk = desk_in(tmp_path, NAMES)
    typed = ["f8", *"heat t", "enter", *"88F", "down", *"60"]
    text = on_court(desk, [*typed, "enter"])
    words = " ".join(text.replace("│", " ").split())
    assert "31 C (88 F), humidity 60 %: heat index 35 C (95 F), extreme caution." in words
    assert "measure WBGT on court and follow your governing body" in words
    assert line_with(on_court(again(desk)), "Harbour Week").endswith("heat: extreme caution")
    (kept,) = care_lookups.heat_on(desk.book, desk.view.clinic.id, desk.view.day.date)
    assert round(kept.celsius or 0, 2) == 31.11


def test_nonsense_heat_is_asked_again(tmp_path: Path) -> None:
    desk = desk_in(tmp_path, NAMES)
    typed = ["f8", *"heat t", "enter", *"31", "down", *"101", "enter"]
    assert "Humidity lies in 0 to 100 per cent, not '101'." in on_court(desk, typed)
    assert care_lookups.heat_on(desk.book, desk.view.clinic.id, desk.view.day.date) == []


def test_the_coachs_own_lines(tmp_path: Path) -> None:
    desk = desk_in(tmp_path, NAMES)
    wbgt = ["f8", *"heat t", "enter", "down", "down", *"30.5", "enter"]
    assert "No lines filled in" in on_court(desk, wbgt)
    lines = ["f8", *"lines", "enter"]
    wrong = on_court(again(desk), [*lines, *"32", "down", *"30", "enter"])
    assert "The stop line lies above the modify line." in wrong
    on_court(again(desk), [*lines, *"30", "down", *"32", "down", *"club", "down", *"20", "enter"])
    text = on_court(again(desk), wbgt)
    assert "WBGT 30.5 C has reached your modify line, 30.0 C (club)." in text
    assert line_with(on_court(again(desk)), "Harbour Week").endswith("WBGT: modify line")
    assert clinic_lookups.plan(desk.book, desk.view.clinic.id).rest_minutes == 20
    assert "club" in on_court(again(desk), lines)


def test_heat_lines_are_read_as_the_shell_reads_them(tmp_path: Path) -> None:
    """88 F is 31.11 C, 5/9 of what it is above 32."""
    desk = desk_in(tmp_path, NAMES)
    lines = ["f8", *"lines", "enter"]
    for typed, words in (
        ([*"31"], "A WBGT line needs the name of the rule it is taken from."),
        ([*"88"], "Write 88F if it is Fahrenheit."),
        (["down", "minus", "3"], "The WBGT to stop play at lies above 0 C, not at -3."),
        (["down", "down", "down", *"241"], "The rest in minutes is a whole number from 1 to 240"),
    ):
        assert words in flat(on_court(again(desk), [*lines, *typed, "enter"]))
    assert clinic_lookups.plan(desk.book, desk.view.clinic.id) == ClinicPlan()
    on_court(again(desk), [*lines, *"88F", "down", "down", *"club", "enter"])
    on_court(again(desk), [*lines, "down", *"32", "enter"])
    plan = clinic_lookups.plan(desk.book, desk.view.clinic.id)
    assert plan == ClinicPlan(wbgt_modify=31.11, wbgt_stop=32, wbgt_rule="club")


def test_what_was_said_before_a_rule_was_asked_for_hinders_nothing_else(tmp_path: Path) -> None:
    desk = desk_in(tmp_path, NAMES)
    clinic = desk.view.clinic.id
    clinic_writer.set_plan(desk.book, clinic, ClinicPlan(wbgt_stop=31))
    on_court(again(desk), ["f12", "o", "escape"])
    after = clinic_lookups.plan(desk.book, clinic)
    assert (after.order, after.wbgt_stop) == ("williams", 31)
