"""Commands for looking things up, and for how the screen looks and sounds."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from functools import partial

from courtlog.coaching.on_court.next_act import Act
from courtlog.courtside import screens
from courtlog.courtside.commands.base import Command, Court
from courtlog.courtside.desk.keymap import (
    ALWAYS_THE_SAME,
    FEEDING,
    PADS,
    pad_of,
    shown_key,
    taught_pad,
)
from courtlog.courtside.dialogs.own_screen import MANUAL_KEY
from courtlog.courtside.dialogs.paged_list import Page, PagedList
from courtlog.courtside.dialogs.questions import Choice, PickList
from courtlog.settings import THEMES, Settings, changed

PAGES = {
    "while feeding, between rotations": False,
    "morning, evening, or once": True,
}
"""The pages of the list of all commands, and whether one has the seldom ones."""


class Trends(Command):
    """Everyone's trends by cue across days and clinics; Enter opens one player's skill curve."""

    keys, shown, label, in_foot = ("f5",), "F5", "trends", False
    letter, seldom = "5", True

    def run(self, court: Court) -> None:
        court.open(screens.trends.TrendsScreen(court.state.book, court.state.view))


class ChangePad(Command):
    """Choose the pad, or teach nine keys of your own; teach a clicker's two: clean, one fault."""

    keys, shown, label, in_foot = ("f6",), "F6", "pad", False
    act = Act.CHANGE_PAD
    letter = "6"

    def run(self, court: Court) -> None:
        settings = court.state.settings
        pads = [*PADS.values(), *([taught_pad(settings.taught)] if settings.taught else [])]
        choices: list[Choice[Callable[[], None]]] = [
            Choice(partial(_use_pad, court, {"pad": pad.key}), pad.words) for pad in pads
        ]
        choices += [
            Choice(partial(_teach_pad, court), "teach nine keys of any keyboard or clicker"),
            Choice(partial(_teach_clicker, court), "teach two keys: clean, and one fault"),
        ]
        if settings.clicker:
            choices.append(Choice(partial(_use_clicker, court, ()), "forget those two keys"))
        index = [pad.key for pad in pads].index(pad_of(settings).key)
        court.ask(PickList("Pad", choices, index), lambda act: act())


def _use_pad(court: Court, values: Mapping[str, object]) -> None:
    after = changed(court.state.settings, **values)
    pad = pad_of(after)
    words = f"Pad: {pad.title}."
    if after.clicker and not pad.clicker:
        words += f" The clicker rests: {_in_the_way(after)} means something on this pad already."
    court.keep(after, words)


def _in_the_way(settings: Settings) -> str:
    """The keys of the clicker that the pad in use has."""
    pad = pad_of(settings)
    taken = [shown_key(key) for key in settings.clicker if key in pad.all_keys | ALWAYS_THE_SAME]
    return " and ".join(taken)


def _teach_pad(court: Court) -> None:
    """Learn nine keys, and use them."""

    def learned(keys: tuple[str, ...]) -> None:
        _use_pad(court, {"pad": "taught", "taught": keys})

    taken = {key for command in court.commands for key in command.keys}
    taken |= {*FEEDING, *court.state.settings.clicker}
    court.ask(screens.teach.TeachScreen("a pad", screens.teach.NINE_KEYS, taken), learned)


def _teach_clicker(court: Court) -> None:
    """Learn two keys beside the pad, and use them."""
    # A command of one of these keys is found behind Esc; one with a modifier is hard to do without.
    kept = {key for command in court.commands for key in command.keys if "+" in key[:-1]}
    taken = court.state.view.pad.all_keys | ALWAYS_THE_SAME | kept
    screen = screens.teach.TeachScreen("a clicker", screens.teach.TWO_KEYS, taken)
    court.ask(screen, lambda keys: _use_clicker(court, keys))


def _use_clicker(court: Court, keys: tuple[str, ...]) -> None:
    words = "No clicker; the pad goes on."
    if keys:
        clean, fault = map(shown_key, keys)
        words = f"Clicker: {clean} is clean, {fault} one fault. {screens.teach.NOT_SEEN}"
    court.keep(changed(court.state.settings, clicker=keys), words)


class ChangeTheme(Command):
    """The next theme: sun, shade, night."""

    keys, shown, label, in_foot = ("f7",), "F7", "theme", False
    letter, seldom = "7", True

    def run(self, court: Court) -> None:
        settings = court.state.settings
        after = THEMES[(THEMES.index(settings.theme) + 1) % len(THEMES)]
        court.keep(changed(settings, theme=after), f"Theme: {after}.")


class ChangeLook(Command):
    """The look to read from two metres, from 80x24 up, and back to the close look."""

    keys, shown, label = ("'",), "'", "far"

    def run(self, court: Court) -> None:
        settings = court.state.settings
        after = "close" if settings.look == "far" else "far"
        words = "Far look: ' brings the close one back." if after == "far" else "Close look."
        court.keep(changed(settings, look=after), words)


class Bell(Command):
    """Sounds on or off: key refused, taken back, tough ball next, round or basket over."""

    keys, shown, label, in_foot = ("ctrl+g",), "Ctrl+G", "sounds", False
    letter, seldom = "4", True

    def run(self, court: Court) -> None:
        settings = court.state.settings
        court.keep(
            changed(settings, bell=not settings.bell), f"Sounds {'off' if settings.bell else 'on'}."
        )


class Help(Command):
    """Show the pad as it is now, and every command; the same key once more opens the manual."""

    keys, shown, label = ("?",), "?", "help"
    letter = "1"

    def run(self, court: Court) -> None:
        commands = [(", ".join(command.all_shown()), command.help()) for command in court.commands]

        def closed(manual_wanted: bool | None) -> None:
            if manual_wanted:
                court.run(Manual())

        court.open(screens.help_screen.HelpScreen(court.state.view, commands), closed)


class Manual(Command):
    """The manual, by topic: a word is searched for on all its pages."""

    keys, shown, label, in_foot = (MANUAL_KEY,), "F1", "manual", False
    letter, seldom = "1", True

    def run(self, court: Court) -> None:
        court.open(screens.manual.topic_list.TopicList())


class AllCommands(Command):
    """List every command, a plain key each; Enter turns to the seldom ones, Space searches."""

    keys, shown, label, in_foot = ("escape",), "Esc", "all commands", False

    def run(self, court: Court) -> None:
        listed = [command for command in court.commands if command is not AllCommands]
        # What the foot shows with a key of its own comes last: it need not be found here.
        listed.sort(key=lambda command: (not command.after_escape, command.in_foot))
        pages = [
            Page(
                title,
                [
                    Choice(command, f"{command.label}: {command.help()}", command.list_key())
                    for command in listed
                    if command.seldom == seldom
                ],
            )
            for title, seldom in PAGES.items()
        ]
        question = PagedList("Commands", pages)
        question.add_class("all-commands")
        court.ask(question, lambda command: court.run(command()))


class Blank(Command):
    """Blank the screen while somebody walks by; the same key or Escape brings it back."""

    keys, shown, label, in_foot = (screens.blank.KEY,), "Ctrl+L", "blank the screen", False
    letter = "8"

    def run(self, court: Court) -> None:
        screens.blank.blank(court.app)


class Slate(Command):
    """The running time of day, as large as the screen: filmed for a second, it dates the film."""

    keys, label, in_foot = (), "slate", False
    letter = "."

    def run(self, court: Court) -> None:
        place = court.state.view.clinic.place
        court.open(screens.film.slate.SlateScreen(court.state.clock, place))


class Suspend(Command):
    """Back to the shell for a moment, where it can be done; fg comes back."""

    keys, shown, label, in_foot = ("ctrl+z",), "Ctrl+Z", "to the shell", False
    letter, seldom = "-", True

    def run(self, court: Court) -> None:
        court.app.action_suspend_process()


class Quit(Command):
    """Leave courtlog; everything is in the book already."""

    keys, shown, label = ("ctrl+q",), "Ctrl+Q", "quit"
    act = Act.LEAVE
    letter = "0"

    def run(self, court: Court) -> None:
        court.app.exit()
