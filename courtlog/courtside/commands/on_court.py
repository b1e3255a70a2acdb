"""How a player comes on court: the round before is reviewed, a caution is read, a drill chosen."""

from __future__ import annotations

from collections.abc import Callable

from courtlog.coaching.care.arm_care import BEFORE_COURT
from courtlog.coaching.game.drills import Drill, Ladder
from courtlog.coaching.game.people import Player
from courtlog.coaching.on_court.next_act import Act
from courtlog.coaching.plans.rotation import Presence
from courtlog.courtside import screens
from courtlog.courtside.commands.base import Command, Court
from courtlog.courtside.desk.next_round import round_of_next_up
from courtlog.courtside.dialogs.questions import PickList, YesNoQuestion, drill_choices
from courtlog.courtside.sound.sounds import Sound
from courtlog.logbook.file.head_book import assistants_court


def put_on(court: Court, player: Player | None, knowing: bool = False) -> None:
    """Put a player on court, after the review of the round that ends with it.

    Takes the drill the player had last; asks for one when there is none. Who is kept off the
    feed goes on only `knowing` why.
    """
    court.carry_out(lambda: _put_on(court, player, knowing))


def _put_on(court: Court, player: Player | None, knowing: bool) -> None:
    state = court.state
    if player and state.view.rotation.court.away.get(player.id) is Presence.LEFT:
        back = state.view.key(Act.SAY_WHO_IS_BACK)
        state.tell(f"{player.shown_name} has left for today: {back} says who is back.")
        return
    live = state.open_round
    on_court = live if live is not None and live.feeding.taken else None
    if on_court and player and player.id not in (on_court.player.id, _next_up_id(court)):
        state.choose_next(player)
    if on_court and not (end_round(court) and court.on_top):
        return
    if court.ask_for_new_day():
        return
    kept_off = state.view.rotation.court.off.get(player.id) if player else None
    if player is None:
        who, add = state.view.key(Act.WHO_IS_WHERE), state.view.key(Act.ADD_PLAYER)
        state.turn_down(f"Nobody is here to hit: {who} says who is, {add} adds one.")
    elif kept_off and not knowing:
        _ask_to_put_on(court, player, kept_off)
    elif court.desk.rounds.has_drill_for(player):
        court.desk.rounds.start(player=player)
    else:
        choose_drill(court, player)


def _next_up_id(court: Court) -> int | None:
    next_up = court.state.view.rotation.next_up
    return next_up.id if next_up else None


def _ask_to_put_on(court: Court, player: Player, reason: str) -> None:
    def go_on() -> None:
        court.desk.care.let_hit(player)
        put_on(court, player, knowing=True)

    _ask_about(court, player, reason, "puts them on all the same", go_on)


def ask_about_red(court: Court, name: str) -> bool:
    """Ask before the first ball since a red of the player on court; whether it was asked.

    The key of this name is carried out once the coach has decided to go on.
    """
    live, reason = court.state.open_round, court.desk.care.unread_red()
    if live is None or not reason:
        return False
    player = live.player

    def go_on() -> None:
        court.desk.care.let_hit(player)
        court.press(name)

    court.state.ring(Sound.REFUSED)
    court.look()
    _ask_about(court, player, reason, "takes the ball all the same", go_on)
    return True


def _ask_about(
    court: Court, player: Player, reason: str, yes: str, go_on: Callable[[], None]
) -> None:
    """Say why a player is kept off the feed, and go on if the coach wants that."""
    words = f"{player.shown_name} is kept off the feed: {reason}."
    if court.desk.care.held_back(player):
        words = f"{words} {BEFORE_COURT}"
    # Not Enter: pressed twice in a row it would pass over the caution unread.
    key = ("ctrl+y", "Ctrl+Y")
    court.open(YesNoQuestion(words, yes, "leaves it", key), lambda on: go_on() if on else None)


def choose_drill(court: Court, player: Player | None) -> None:
    """Choose a drill for this player, or for whoever is on court; the stroke in use comes first."""
    live = court.state.view.live
    here = (live.drill.stroke, live.drill.drill.key) if live else ("", "")
    ladders = sorted(
        court.state.library.ladders.values(),
        key=lambda ladder: (ladder.stroke != here[0], ladder.stroke),
    )
    choices = drill_choices(ladders)
    names = [(choice.value[0].stroke, choice.value[1].key) for choice in choices]

    def chosen(drill: tuple[Ladder, Drill]) -> None:
        court.desk.rounds.start(player=player, drill=drill)

    index = names.index(here) if here in names else 0
    court.ask(PickList("Drill", choices, index), chosen)


def end_round(court: Court) -> bool:
    """End the round on court, and review it if that is wished; whether the book took it."""
    if not court.carry_out(court.desk.rounds.end_round):
        return False
    live = court.state.view.live
    if court.state.settings.review and live is not None and live.feeding.taken:
        review(court)
    return True


def keys_over_court(court: Court) -> dict[Act, str]:
    """Where Escape closes a screen over the court: the one key of what stands behind it there."""
    behind = [c for c in _letters(court).values() if c.plain_shown() != c.shown]
    return {command.act: command.letter for command in behind if command.act}


def go_on(court: Court, key: str | None) -> None:
    """Carry out a key that closed a screen over the court: one of the same, or one of the court."""
    letters = _letters(court)
    if key is not None and key in letters:
        court.run(letters[key]())
    elif key is not None:
        court.press(key)


def _letters(court: Court) -> dict[str, type[Command]]:
    return {c.letter: c for c in court.commands if c.letter and not c.seldom}


def review(court: Court) -> None:
    """Show the review of the round on court; a key that goes on is carried out after it."""
    state = court.state
    live = state.view.live
    if live is None or not live.feeding.taken:
        court.carry_out(lambda: state.turn_down("There is no ball to review yet."))
        return

    def closed(key: str | None) -> None:
        if key == "up":
            court.carry_out(court.desk.rounds.take_rung_call)
        else:
            go_on(court, key)

    coming = round_of_next_up(state)
    keys = keys_over_court(court)
    court.desk.read_next_act()
    view = state.view
    act = view.next_act and view.next_act.with_keys(keys)
    cues = act.key if act and act.does(Act.PICK_CUES_AFTER) else keys[Act.PICK_CUES]
    if assistants_court(state.book.db) is not None:
        cues = ""
    page = screens.review.page_of(state.book, view, live, view.speak_rule, coming, cues)
    court.open(screens.review.ReviewScreen(page, act), closed)
