"""Every command with its options. What it does is in `cli/actions`, and loads when it is called."""

from __future__ import annotations

from typing import Annotated

import typer

from courtlog.cli import actions
from courtlog.cli.commands.academy import academy_app
from courtlog.cli.commands.agree import agree_app
from courtlog.cli.commands.books import books_app
from courtlog.cli.commands.command_line import COMMAND_OR_NONE, CommandLine
from courtlog.cli.commands.courts import courts_app
from courtlog.cli.commands.film import film_app
from courtlog.cli.commands.options import (
    BookPath,
    keep_book,
)
from courtlog.cli.commands.pages import pages_app
from courtlog.cli.commands.paper import paper_app
from courtlog.cli.commands.people import clinic_app, roster_app
from courtlog.cli.commands.plan import plan_app
from courtlog.cli.commands.texts import drills_app, history_app, sheet_app

app = CommandLine(
    name="courtlog",
    help="""A court log for tennis coaches: every ball, every cue, every day.

    Without a command it opens the court screen where the book was left.""",
    no_args_is_help=False,
    add_completion=False,
    pretty_exceptions_enable=False,
    rich_markup_mode=None,
)


laptop_app = CommandLine()
app.add_typer(pages_app)
app.add_typer(books_app)
app.add_typer(courts_app)
app.add_typer(laptop_app)
app.add_typer(clinic_app, name="clinic")
app.add_typer(roster_app, name="roster")
app.add_typer(drills_app, name="drills")
app.add_typer(history_app, name="history")
app.add_typer(sheet_app, name="sheet")
app.add_typer(plan_app, name="plan")
app.add_typer(paper_app, name="paper")
app.add_typer(agree_app, name="agree")
app.add_typer(film_app, name="film")
app.add_typer(academy_app, name="academy")


@app.callback(invoke_without_command=True, subcommand_metavar=COMMAND_OR_NONE)
def court(
    context: typer.Context,
    book: BookPath = None,
    install: Annotated[
        bool, typer.Option("--install-completion", help="Have this shell complete by TAB.")
    ] = False,
    show: Annotated[
        bool, typer.Option("--show-completion", help="Print what would be installed.")
    ] = False,
) -> None:
    """Open the court screen where the book was left."""
    keep_book(book)
    if install or show:
        what = actions.completion.installing
        what.install() if install else what.show()
        raise typer.Exit
    if context.invoked_subcommand is None:
        from courtlog.cli.opening import open_court  # no other command needs it

        open_court(book)


@app.command()
def demo() -> None:
    """Open an invented clinic in a scratch book, mid-round."""

    actions.demo.run_demo()


@laptop_app.command()
def settings(
    setting: Annotated[str | None, typer.Argument(help="A setting to change.")] = None,
    value: Annotated[str | None, typer.Argument(help="Its new value.")] = None,
    hear: Annotated[
        bool, typer.Option("--hear", help="Play each sound of the court, and say a feed.")
    ] = False,
) -> None:
    """Show the settings of this laptop, or change one."""

    if hear:
        actions.settings.play_sounds()
    else:
        actions.settings.show_or_change(setting, value)


@laptop_app.command()
def manual(
    topic: Annotated[
        str | None, typer.Argument(help="A topic, or a word to look for; else all topics.")
    ] = None,
) -> None:
    """Read the manual: the topics, or one of them."""

    if topic is None:
        actions.manual.topics.print_topics()
    else:
        actions.manual.topics.print_topic(topic)


@laptop_app.command()
def version() -> None:
    """Print the version, and where your files lie.

    They are the book, the settings and your own drills.
    """
    actions.settings.print_version()
