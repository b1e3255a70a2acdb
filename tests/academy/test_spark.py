"""Spark gives the lines that DuckDB gives, by the same files of SQL; asked for with `--spark`."""

from __future__ import annotations

import json
import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest

from courtlog.academy.asking import ask_folder, ask_session, session_of
from courtlog.academy.engine_name import EngineName
from courtlog.academy.engines.engine import Engine, QuestionError, Rows
from courtlog.academy.folder import Books, shipped
from courtlog.academy.index import INDEX
from courtlog.academy.question_files import shipped_questions
from courtlog.academy.season.season import season
from courtlog.errors import CourtlogError
from tests.academy.folders import STATES, WEEKEND_BOOK, add, as_of_version_one, sample_home
from tests.academy.own_season import changes, lines, own_changes, own_lines
from tests.cli.program import Home

pytestmark = pytest.mark.spark

QUICK = {
    "spark.sql.adaptive.enabled": "false",
    "spark.sql.codegen.factoryMode": "NO_CODEGEN",
    "spark.sql.codegen.wholeStage": "false",
    "spark.sql.shuffle.partitions": "1",
}
"""Spark makes no code of its own: a few rows are read sooner than it is compiled."""


@pytest.fixture(scope="module")
def spark(
    request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory
) -> Iterator[Engine]:
    """One session for all: starting it takes longer than all that it is asked."""
    if not request.config.getoption("--spark"):
        pytest.skip("asked for with --spark")
    of_spark = pytest.importorskip("courtlog.academy.engines.of_spark", exc_type=ImportError)
    own = of_spark.settings_of
    try:
        with pytest.MonkeyPatch.context() as patch:
            patch.setattr(of_spark, "settings_of", lambda *session: own(*session) | QUICK)
            patch.setenv("JAVA_TOOL_OPTIONS", "-XX:TieredStopAtLevel=1 -XX:+UseSerialGC")
            session = session_of(EngineName.SPARK, tmp_path_factory.mktemp("spark"), "local[2]")
    except CourtlogError as error:
        pytest.skip(str(error))
    with session:
        yield session


@pytest.fixture(scope="module")
def home(tmp_path_factory: pytest.TempPathFactory) -> Home:
    """Both invented clinics in four exports, and a joined book that shares all their balls."""
    home = sample_home(tmp_path_factory.mktemp("academy") / "home")
    shutil.copyfile(home.folder / STATES[-1], home.folder / "joined.db")
    assert home.run("gather", WEEKEND_BOOK, "--book", "joined.db").lines
    add(home, *STATES, STATES[0], WEEKEND_BOOK)
    shutil.copytree(home.folder / "academy", home.folder / "shared")
    assert home.run("academy", "add", "joined.db", "--in", "shared").lines
    shutil.copytree(home.folder / "academy", home.folder / "mixed")
    path = home.folder / "mixed" / INDEX
    index = json.loads(path.read_text(encoding="utf-8"))
    as_of_version_one(home.folder / "mixed", index)
    path.write_text(json.dumps(index), encoding="utf-8")
    return home


def answers(engine: Engine, _: Books) -> dict[str, list[tuple[object, ...]]]:
    """What every shipped question says; sums of fractions to nine places."""
    return {one.name: _alike(engine.rows(one.statement)) for one in shipped_questions()}


def _alike(rows: Rows) -> list[tuple[object, ...]]:
    return [
        rows.names,
        *(
            tuple(round(cell, 9) if isinstance(cell, float) else cell for cell in row)
            for row in rows.rows
        ),
    ]


def test_every_question_has_the_same_lines(spark: Engine, home: Home) -> None:
    folder = home.folder / "shared"
    by_duckdb = ask_folder(folder, EngineName.DUCKDB, answers)
    assert ask_session(spark, folder, answers) == by_duckdb
    assert len(by_duckdb["season"]) > 100


def test_books_of_two_schemas_are_read_together(spark: Engine, home: Home) -> None:
    def lines_alone(engine: Engine, _: Books) -> list[tuple[object, ...]]:
        return _alike(engine.rows(shipped("questions", "season")))

    folder = home.folder / "mixed"
    by_duckdb = ask_folder(folder, EngineName.DUCKDB, lines_alone)
    assert ask_session(spark, folder, lines_alone) == by_duckdb


def test_the_season_is_that_of_the_books(spark: Engine, home: Home) -> None:
    found = ask_session(spark, home.folder / "academy", season)
    newest = home.folder / STATES[-1], home.folder / WEEKEND_BOOK
    assert lines(found) == own_lines(*newest)
    assert changes(found) == own_changes(*newest)


def test_what_is_no_question_is_refused(spark: Engine, home: Home) -> None:
    with pytest.raises(QuestionError, match="The engine refuses this"):
        ask_session(
            spark, home.folder / "academy", lambda engine, _: engine.rows("SELECT nothing FROM x")
        )


def test_a_file_that_is_gone_is_told(spark: Engine, home: Home, tmp_path: Path) -> None:
    shutil.copytree(home.folder / "academy", tmp_path / "academy")
    next((tmp_path / "academy" / "ball").rglob("*.parquet")).unlink()
    with pytest.raises(CourtlogError, match="cannot be read"):
        ask_session(spark, tmp_path / "academy", season)
