"""Every command of the program with arguments that work on the sample books, and those books."""

from __future__ import annotations

import shutil
import sqlite3
from contextlib import closing
from dataclasses import dataclass
from functools import cache
from pathlib import Path

from courtlog.logbook.schema.database import Database
from courtlog.logbook.schema.migrations import migrations
from courtlog.logbook.schema.schema_check import APPLICATION_ID
from tests.cli.program import Home
from tests.court import desk_in, feed
from tests.faults.library import new_folder
from tests.film.built import mvhd, track, video


@dataclass(frozen=True, slots=True)
class Command:
    """A command that goes well on the sample books.

    `code` is what it ends with; `takes_away` says that ratings go when it is carried out.
    """

    words: tuple[str, ...]
    code: int = 0
    takes_away: bool = False

    @property
    def name(self) -> str:
        """The words as typed."""
        return " ".join(self.words)


def _command(text: str, code: int = 0, takes_away: bool = False) -> Command:
    return Command(tuple(word.replace("_", " ") for word in text.split()), code, takes_away)


COMMANDS: tuple[Command, ...] = (
    _command("", code=1),
    _command("--help"),
    _command("demo"),
    _command("day"),
    _command("day --json"),
    _command("evening folder"),
    _command("evening folder --date 2026-05-12 --clinic Bay"),
    _command("trend Maren"),
    _command("player Maren"),
    _command("player Maren --everything"),
    _command("player Maren --everything --full"),
    _command("player Maren --everything --html page.html"),
    _command("takehome Maren"),
    _command("takehome Maren --html page.html"),
    _command("takehome Maren --message"),
    _command("heat --date 2026-05-12"),
    _command("heat --temperature 31 --humidity 40 --date 2026-05-12"),
    _command("export folder"),
    _command("export folder --anonymous --clinic Bay"),
    _command("import exported --book new.db"),
    _command("gather other.db"),
    _command("gather --show"),
    _command("views"),
    _command("backup"),
    _command("backup copy.db"),
    _command("restore"),
    _command("restore BACKUP --yes", takes_away=True),
    _command("doctor"),
    _command("doctor --mend --book uneven.db"),
    _command("doctor --mend --book damaged.db", code=1),
    _command("erase Bo --yes", takes_away=True),
    _command("erase Bo --yes --keep-counts --in-notes", takes_away=True),
    _command("settings"),
    _command("settings basket 80"),
    _command("settings --hear"),
    _command("version"),
    _command("manual"),
    _command("manual keys"),
    _command("manual clicker"),
    _command("manual kyes", code=1),
    _command("clinic new Autumn --days 3"),
    _command("clinic show"),
    _command("clinic edit --days 4"),
    _command("roster add Wilma --minor"),
    _command("roster edit Maren --level quick"),
    _command("roster list"),
    _command("roster import roster.csv"),
    _command("drills list"),
    _command("drills show forehand/hand-feed"),
    _command("drills check"),
    _command("history"),
    _command("history back 7"),
    _command("history forward 7", code=1),
    _command("sheet in sheet.txt"),
    _command("sheet in sheet.txt --book new.db"),
    _command("sheet out"),
    _command("sheet out --clinic Bay --to out.txt"),
    _command("plan"),
    _command("plan keep"),
    _command("plan set 1 --balls 12"),
    _command("plan move 1 2"),
    _command("plan drop 1"),
    _command("plan add Tove"),
    _command("plan forget --date 2026-05-20"),
    _command("paper"),
    _command("paper --date 2026-05-20 --spare 2 --html court.html"),
    _command("paper court --player Maren"),
    _command("paper cues"),
    _command("paper home --clinic Bay"),
    _command("paper form --blank 2"),
    _command("paper form --player Maren --html form.html"),
    _command("paper in K7D-3MX-2P4", code=1),
    _command("film"),
    _command("film add 20260512-083000.mp4"),
    _command("film chapters filmed.mp4"),
    _command("film chapters filmed.mp4 --to balls --cue turn --grade made"),
    _command("film hit filmed.mp4 --later 0.3"),
    _command("film pair", code=1),
    _command("film pair Maren", code=1),
    _command("film blind Maren", code=1),
    _command("courts 2 --deal name --court 2=Maren"),
    _command("courts 3 --show"),
    _command("courts", code=1),
    _command("courts --free", code=1),
    _command("agree"),
    _command("agree rate", code=1),
    _command("agree in again.txt --clinic Bay --coach Bo"),
    _command("academy add other.db --in academy"),
    _command("academy season --in lakes"),
    _command("academy season --in lakes --json"),
    _command("academy ask load --in lakes"),
    _command("academy questions"),
    _command("academy add old.db --in academies --with-names --with-minors"),
    _command("roster list --book old.db"),
    _command("day --book left.db"),
)
"""`BACKUP` stands for the backup of the sample book."""

_BALLS = " ".join(f"{grades}@09:{at:02}:07" for at, grades in enumerate(["212", "022", "111"] * 4))

_BAY = f"""clinic Bay  zone Europe/Lisbon
roster Bo  hand left
roster Ines
day 2026-05-12  court 1  coach Ines
checkin Bo  pain 0  when arrival  time 08:31:30
player Bo  drill forehand/live  cues turn spacing finish
{_BALLS}
note "quicker than Ines"
player Ines  drill forehand/live  cues turn spacing finish
222 212 2-0! 022 . 221
note "Bo was late"
"""

_MORE = """clinic Lake  zone UTC
roster Ada
day 2026-05-13  court 1  coach Ines
player Ada  drill forehand/hand-feed  purpose practice  cues turn spacing
22 21 12 01
"""

_ROSTER = "name,hand,age\nGreta,left,adult\nHugo,right,minor\n"


def sample_home(folder: Path) -> Home:
    """A home with a book on court, its backups here and in a second place, and files to read."""
    shutil.copytree(_sample_home().folder, folder, copy_function=shutil.copy2)
    return Home(folder)


@cache
def _sample_home() -> Home:
    folder = new_folder()
    home = Home(folder)
    (folder / "stick").mkdir()
    (folder / "tmp").mkdir()
    (folder / "drills").mkdir()
    _write(folder / "sheet.txt", _MORE)
    _write(folder / "bay.txt", _BAY)
    _write(folder / "roster.csv", _ROSTER)
    _write(folder / "again.txt", "".join(f"09:0{at}:07 Bo 212\n" for at in range(6)))
    _well(home, "settings", "second_backup", "~/stick")
    _well(home, "settings", "coach", "Ines")
    desk = desk_in(folder)
    feed(desk, "222 0-1!/")
    desk.book.close()
    film = video(mvhd(0, 1000, 600_000), track())
    (folder / "20260512-083000.mp4").write_bytes(film)
    (folder / "filmed.mp4").write_bytes(video(mvhd(0, 1000, 60_000), track()))
    _well(home, "roster", "edit", "Maren", "--filming", "yes", "--adult")
    _well(home, "film", "add", "filmed.mp4", "--at", "0:02", "--shows", "08:30:00")
    _well(home, "sheet", "in", "bay.txt")
    _well(home, "backup")
    _well(home, "export", "exported")
    _well(home, "plan", "keep", "--date", "2026-05-20")
    for name in ("uneven.db", "damaged.db", "left.db"):
        shutil.copyfile(home.book, folder / name)
    with closing(sqlite3.connect(folder / "uneven.db")) as db, db:
        db.execute("UPDATE tally SET made = made + 1")
    _damage(folder / "damaged.db")
    _leave_open(folder / "left.db")
    _well(home, "sheet", "in", "sheet.txt", "--book", "other.db")
    older_book(folder / "old.db")
    _well(home, "academy", "add", "other.db", "--in", "lakes")
    return home


def words_of(command: Command, home: Home) -> list[str]:
    """The words as they are on this home."""
    (copy,) = (home.folder / "backups").glob("book-*.db")
    return [copy.name if word == "BACKUP" else word for word in command.words]


def _well(home: Home, *words: str | Path) -> None:
    said = home.run(*words)
    assert said.code == 0, said.err


def _write(path: Path, text: str) -> None:
    path.write_text(text, encoding="utf-8")


def _damage(path: Path) -> None:
    """A page in the middle that is no page."""
    with path.open("rb+") as file:
        file.seek(path.stat().st_size // 8192 * 4096)
        file.write(b"\xff" * 4096)


def _leave_open(path: Path) -> None:
    """The book as a program that died leaves it, with its last words in the log."""
    away = path.with_name("away.db")
    path.rename(away)
    with closing(sqlite3.connect(away)) as db:
        db.execute("PRAGMA journal_mode = WAL")
        with db:
            db.execute("UPDATE player SET level = 'quick'")
        shutil.copyfile(away, path)
        shutil.copyfile(f"{away}-wal", f"{path}-wal")
    away.unlink()


def older_book(path: Path) -> None:
    """A book of the first version, with a clinic and a player."""
    with closing(sqlite3.connect(path)) as db:
        old = Database(db, execute_plugins=False)
        migrations.apply(old, stop_before="m002_run_the_clinic")
        old.execute("PRAGMA user_version = 1")
        old.execute(f"PRAGMA application_id = {APPLICATION_ID}")
        old.execute("INSERT INTO book VALUES (1, 'x', 5, '0.1.0', 0)")
        old.execute("INSERT INTO clinic VALUES (7, 'Harbour Week', 'UTC', 3)")
        old.execute("INSERT INTO player VALUES (8, 'Maren', 'left')")
        old.execute("INSERT INTO roster VALUES (7, 8, 1, NULL)")
        db.commit()
