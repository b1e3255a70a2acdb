"""`courtlog film`: the films of a clinic; its subcommands take them in and make files of them."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from courtlog.cli import actions
from courtlog.cli.commands.command_line import CommandLine
from courtlog.cli.commands.options import (
    AsJson,
    BookPath,
    ClinicName,
    On,
    OnePlayer,
    PlayerName,
    keep_book,
)

film_app = CommandLine(
    help="List the films of a clinic, and whose balls they show.",
    invoke_without_command=True,
)


@film_app.callback()
def film(
    context: typer.Context,
    book: BookPath = None,
    clinic: ClinicName = None,
    as_json: AsJson = False,
) -> None:
    """List the films of a clinic, and whose balls they show."""
    keep_book(book)
    if context.invoked_subcommand is None:
        actions.film.films.print_films(book, clinic, as_json)


@film_app.command("add")
def film_add(
    files: Annotated[
        list[Path],
        typer.Argument(help="MP4 or MOV files, or folders of them.", readable=False),
    ],
    at: Annotated[
        str | None,
        typer.Option("--at", metavar="<time>", help="A place in the film, like 0:02 or 1:02:40.5."),
    ] = None,
    shows: Annotated[
        str | None,
        typer.Option(
            "--shows", metavar="<time>", help="The book's clock as seen there: 09:31:07.4."
        ),
    ] = None,
    mark: Annotated[
        str | None,
        typer.Option("--mark", metavar="<time>", help="Or the time of the clip mark seen there."),
    ] = None,
    time: Annotated[
        str | None,
        typer.Option(
            "--time", metavar="<start|end>", help="The file's own time is its start, or its end."
        ),
    ] = None,
    court: Annotated[
        str | None,
        typer.Option(
            "--court", metavar="<court>", help="The court that they show, if several played."
        ),
    ] = None,
    date: On = None,
    book: BookPath = None,
    clinic: ClinicName = None,
) -> None:
    """Take in videos: their times, never the pictures.

    The start is known exactly where the film shows the slate (Esc . on court).
    """

    actions.film.add.add_films(
        book,
        clinic,
        files,
        actions.film.add.sight(at=at, shows=shows, mark=mark, on=date, time=time, court=court),
    )


@film_app.command("blind")
def film_blind(
    player: PlayerName,
    films: Annotated[
        Path | None,
        typer.Option(
            "--films", metavar="<folder>", help="The folder of the films, if not this one."
        ),
    ] = None,
    to: Annotated[
        Path | None,
        typer.Option("--to", metavar="<folder>", help="A new folder for the page and its clips."),
    ] = None,
    stroke: Annotated[
        str | None,
        typer.Option(
            "--stroke", metavar="<stroke>", help="A stroke, if not the one with most balls."
        ),
    ] = None,
    book: BookPath = None,
    clinic: ClinicName = None,
) -> None:
    """Make a page to rate both yardsticks without knowing the day.

    It plays clips of the first and the last yardstick in shuffled order, under numbers.
    `courtlog agree rate --blind` takes the ratings by keys, `courtlog agree in FILE --blind` from
    paper.
    """

    actions.film.blind_page.make_blind_page(
        book, clinic, player, films or Path(), to=to, stroke=stroke
    )


@film_app.command("chapters")
def film_chapters(
    files: Annotated[
        list[Path],
        typer.Argument(help="Films, or folders of them.", readable=False),
    ],
    to: Annotated[
        Path | None,
        typer.Option("--to", metavar="<folder>", help="A folder, if not the film's own."),
    ] = None,
    player: OnePlayer = None,
    drill: Annotated[
        str | None, typer.Option("--drill", metavar="<drill>", help="One drill, by its name.")
    ] = None,
    court: Annotated[
        str | None, typer.Option("--court", metavar="<court>", help="One court, by its name.")
    ] = None,
    cue: Annotated[
        str | None, typer.Option("--cue", metavar="<cue>", help="Balls with this cue in view.")
    ] = None,
    grade: Annotated[
        str | None,
        typer.Option(
            "--grade", metavar="<grade>", help="That cue, or any: missed, near, made or not-seen."
        ),
    ] = None,
    marked: Annotated[bool, typer.Option("--marked", help="Balls with a clip mark only.")] = False,
    replace: Annotated[
        bool, typer.Option("--replace", help="Write over files that courtlog did not write.")
    ] = False,
    book: BookPath = None,
    clinic: ClinicName = None,
) -> None:
    """Write chapters, captions and playlists of each film's balls.

    They stand beside the film. Chapters (ffmetadata) are for mpv and ffmpeg, captions (WebVTT and
    SRT) for every player. Playlists of nothing but these balls are for VLC (XSPF) and mpv (EDL).
    """

    actions.film.chapters.write_chapters(
        book,
        clinic,
        files,
        to,
        actions.film.chapters.AskedBalls(
            player=player, drill=drill, court=court, cue=cue, grade=grade, marked=marked
        ),
        replace,
    )


@film_app.command("hit")
def film_hit(
    film: Annotated[str, typer.Argument(help="The film, by its name in the book.")],
    later: Annotated[
        str | None,
        typer.Option("--later", metavar="<seconds>", help="Seconds, like 0.3; 0 takes it back."),
    ] = None,
    earlier: Annotated[
        str | None, typer.Option("--earlier", metavar="<seconds>", help="Or so much earlier.")
    ] = None,
    player: OnePlayer = None,
    at: Annotated[
        str | None,
        typer.Option(
            "--at", metavar="<time>", help="With --player: when the ball was rated, 09:31:07."
        ),
    ] = None,
    book: BookPath = None,
    clinic: ClinicName = None,
) -> None:
    """Move the hit in a film's clips; the book remembers it.

    A ball is taken to be hit two seconds before it was rated. With --player and --at it is one
    ball alone, counted from the film's other hits.
    """

    actions.film.hit.move(book, clinic, film, later, earlier, player, at)


@film_app.command("pair")
def film_pair(
    player: Annotated[
        str | None, typer.Argument(help="A player's name or its beginning, else everybody.")
    ] = None,
    films: Annotated[
        list[Path] | None,
        typer.Option(
            "--films",
            metavar="<folder>",
            help="A folder with the videos, if not this one.",
            readable=False,
        ),
    ] = None,
    to: Annotated[
        Path | None, typer.Option("--to", metavar="<folder>", help="A folder, if not pairs.")
    ] = None,
    then: Annotated[
        list[str] | None,
        typer.Option(
            "--then", metavar="<cue>=<time>", help="Choose the first day's ball: spacing=09:31:07."
        ),
    ] = None,
    now: Annotated[
        list[str] | None,
        typer.Option("--now", metavar="<cue>=<time>", help="Choose the last day's ball."),
    ] = None,
    replace: Annotated[
        bool, typer.Option("--replace", help="Write over files that courtlog did not write.")
    ] = False,
    book: BookPath = None,
    clinic: ClinicName = None,
) -> None:
    """Write pages with the same ball then and now, side by side.

    Everybody gets one who agreed to be filmed and has two yardsticks on film. For each cue it has
    a ball of the first yardstick and one of the last. Each is the middle one of its day, unless you
    choose another by when it was rated. With ffmpeg the clips are cut small, and the folder plays
    from a stick in any browser.
    """

    actions.film.pair.write_pairs(
        book,
        clinic,
        player,
        films or [],
        to,
        actions.film.pair.by_hand(then or [], now or []),
        replace,
    )
