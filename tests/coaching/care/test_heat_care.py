"""Heat as typed and as told: numbers of the weather service, the coach's lines, who decides."""

from __future__ import annotations

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from courtlog.coaching.care.heat_care import (
    PROMPT,
    HeatLines,
    HeatReading,
    heat_words,
    in_short,
    reading_of,
    rest_due,
    typed_degrees,
    typed_humidity,
)
from courtlog.measures.court_day.heat_index import celsius, heat_band

NOBODYS = HeatLines()
ITF = HeatLines(30.1, 32.2, "ITF events")
"""Modify play at 30.1 C, suspend it at 32.2 C (itftennis.com); wheelchair tennis begins lower."""


def told(temp: str = "", humidity: str = "", wbgt: str = "", lines: HeatLines = NOBODYS) -> str:
    """Everything a reading says, in one line."""
    return " ".join(heat_words(reading_of(temp, humidity, wbgt, 0), lines))


@pytest.mark.parametrize(
    ("text", "degrees"),
    [("31", 31), ("31C", 31), (" 31.5 c ", 31.5), ("31,5", 31.5), ("31 °C", 31), ("86F", 30)],
)
def test_temperatures_as_typed(text: str, degrees: float) -> None:
    assert typed_degrees(text, "temperature") == pytest.approx(degrees)


@pytest.mark.parametrize(
    "text", ["88", "31K", "hot", "3l", "1e1", "nan", "-99", "999F", "३१", "31;"]
)
def test_nonsense_is_no_temperature(text: str) -> None:
    with pytest.raises(ValueError, match=r"no temperature.*\.$"):
        typed_degrees(text, "temperature")


def test_a_bare_number_too_hot_for_celsius_is_asked_about() -> None:
    with pytest.raises(ValueError, match="Write 88F if it is Fahrenheit"):
        typed_degrees("88", "temperature")


@pytest.mark.parametrize(("text", "humidity"), [("60", 60), ("60 %", 60), ("0", 0), ("100", 100)])
def test_humidity_as_typed(text: str, humidity: float) -> None:
    assert typed_humidity(text) == humidity


@pytest.mark.parametrize("text", ["101", "-1", "wet", "1e1", "100.01", "६०"])
def test_nonsense_is_no_humidity(text: str) -> None:
    with pytest.raises(ValueError, match=r"0 to 100 per cent, not .*\.$"):
        typed_humidity(text)


@given(st.text(max_size=8), st.text(max_size=8), st.text(max_size=8))
def test_any_text_is_a_reading_or_one_sentence(temp: str, humidity: str, wbgt: str) -> None:
    sentence = ""
    try:
        assert told(temp, humidity, wbgt)
    except ValueError as error:
        sentence = str(error)
    assert sentence == "" or sentence.endswith(".")


@pytest.mark.parametrize(
    ("temp", "humidity", "words"),
    [
        ("96F", "65", "heat index 49 C (121 F), danger."),  # the service's own example
        ("90F", "40", "heat index 33 C (91 F), extreme caution."),
        ("86F", "60", "heat index 33 C (91 F), extreme caution."),
        ("110F", "40", "heat index 58 C (136 F), extreme danger."),
        ("82F", "40", "heat index 27 C (81 F), caution."),
        ("75F", "68.5", "heat index 24 C (75 F), under the first band."),
        ("113F", "20", "hotter than the formula of the heat index goes, so it has no number."),
    ],
)
def test_the_index_its_band_and_its_limits(temp: str, humidity: str, words: str) -> None:
    text = told(temp, humidity)
    for part in (
        words,
        "shade and light wind",
        "up to 15 F (8 C)",
        "not for use in air above 112 F",
        "hard court in sun is worse",
        "measure WBGT on court and follow your governing body",
        "SR 90-23",
        "Follow your club's and national body's heat rule.",
        "Drink, shade, rest.",
    ):
        assert part in text
    assert ("emergency" in text) is ("danger" in words or "hotter" in words)


def test_the_band_is_that_of_the_number_beside_it() -> None:
    """The service's bands go by whole degrees: who reads 103 F finds danger in its table."""
    for temp in range(80, 113):
        for humidity in range(0, 101, 3):
            text = told(f"{temp}F", str(humidity))
            shown = re.search(r"\((\d+) F\), ([a-z ]+)\. The heat index is", text)
            assert shown is not None, text
            band = heat_band(int(shown[1]))
            assert shown[2] == (band or "under the first band"), text
            reading = reading_of(f"{temp}F", str(humidity), "", 0)
            assert in_short(reading, NOBODYS) == (f"heat: {band}" if band else "")


def test_one_of_two_numbers_or_none_is_refused() -> None:
    for typed in (("31", "", ""), ("", "60", ""), ("31", "", "30"), ("", "", "")):
        with pytest.raises(ValueError, match=r"both|Nothing to keep"):
            reading_of(*typed, 0)


@pytest.mark.parametrize(
    ("wbgt", "crossed"),
    [(30.0, ""), (30.1, "modify"), (32.1, "modify"), (32.2, "stop"), (35.0, "stop")],
)
def test_the_lines_of_a_published_rule(wbgt: float, crossed: str) -> None:
    """ITF events: 30.1 C and 32.2 C."""
    assert ITF.crossed(wbgt) == crossed
    text = told(wbgt=str(wbgt), lines=ITF)
    assert ("emergency" in text) is bool(crossed)
    if crossed:
        assert f"has reached your {crossed} line" in text
        assert in_short(HeatReading(None, None, wbgt, 0), ITF) == f"WBGT: {crossed} line"
    else:
        assert "your modify line is 30.1 C (ITF events). What you see comes first." in text


def test_one_line_alone_is_held_against() -> None:
    assert "your stop line is 32.2 C. What" in told(wbgt="30", lines=HeatLines(None, 32.2))
    assert "reached your stop line" in told(wbgt="33", lines=HeatLines(None, 32.2))
    assert "reached your modify line" in told(wbgt="33", lines=HeatLines(30.1, None))


def test_empty_lines_say_so_and_the_example_is_called_one() -> None:
    text = told(wbgt="35")
    assert "No lines filled in: take them from your local rule." in text
    assert (
        "An example, not your rule: ITF events modify play at 30.1 C and suspend it at 32.2 C"
        in text
    )
    assert in_short(HeatReading(None, None, 35, 0), NOBODYS) == ""


def test_in_short_the_line_goes_before_the_band() -> None:
    hot = celsius(96)
    assert in_short(HeatReading(hot, 65, None, 0), ITF) == "heat: danger"
    assert in_short(HeatReading(hot, 65, 31, 0), ITF) == "WBGT: modify line"
    assert in_short(HeatReading(20, 50, None, 0), ITF) == ""
    assert in_short(HeatReading(celsius(113), 20, None, 0), ITF) == "heat: over the bands"


MINUTE = 60_000


@pytest.mark.parametrize(
    ("last", "now", "minutes", "due"),
    [
        (None, 19, 20, False),
        (None, 20, 20, True),
        (None, 500, None, False),
        (20, 39, 20, False),
        (20, 40, 20, True),
        (-500, 19, 20, False),
        (None, -5, 20, False),
    ],
)
def test_the_timer_to_rest(last: int | None, now: int, minutes: int | None, due: bool) -> None:
    """Minutes after the start; a prompt of an earlier day does not count."""
    prompted = None if last is None else last * MINUTE
    assert rest_due(0, prompted, now * MINUTE, minutes) is due
    assert not any(character.isdigit() for character in PROMPT)
