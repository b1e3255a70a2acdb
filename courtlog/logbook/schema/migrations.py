"""The shape of the book, one named step after another; a step that has shipped never changes."""

from __future__ import annotations

from courtlog.logbook.schema import row_versions, views
from courtlog.logbook.schema.database import Database, Migrations

migrations = Migrations("courtlog")

_FIRST = """
-- Moments are INTEGER milliseconds UTC since 1970. Ids tell which book made them (see ids.py).
CREATE TABLE book (
    one INTEGER PRIMARY KEY CHECK (one = 1),
    uuid TEXT NOT NULL,
    tag INTEGER NOT NULL,
    app_version TEXT NOT NULL,
    created_at INTEGER NOT NULL
) STRICT;

CREATE TABLE clinic (
    id INTEGER PRIMARY KEY,
    name TEXT NOT NULL,
    zone TEXT NOT NULL,
    planned_days INTEGER CHECK (planned_days > 0)
) STRICT;

CREATE TABLE coach (
    id INTEGER PRIMARY KEY,
    name TEXT NOT NULL UNIQUE
) STRICT;

CREATE TABLE day (
    id INTEGER PRIMARY KEY,
    clinic_id INTEGER NOT NULL REFERENCES clinic (id),
    date TEXT NOT NULL CHECK (date = date(date)),
    court TEXT NOT NULL,
    coach_id INTEGER NOT NULL REFERENCES coach (id),
    UNIQUE (clinic_id, date, court)
) STRICT;

CREATE TABLE player (
    id INTEGER PRIMARY KEY,
    name TEXT NOT NULL,
    hand TEXT NOT NULL DEFAULT '' CHECK (hand IN ('', 'left', 'right'))
) STRICT;

CREATE TABLE roster (
    clinic_id INTEGER NOT NULL REFERENCES clinic (id),
    player_id INTEGER NOT NULL REFERENCES player (id),
    place INTEGER NOT NULL,
    next_drill TEXT,
    PRIMARY KEY (clinic_id, player_id)
) STRICT, WITHOUT ROWID;

-- A drill as it read on the day: editing a drill file later does not rewrite history.
CREATE TABLE drill_used (
    id INTEGER PRIMARY KEY,
    name TEXT NOT NULL,
    stroke TEXT NOT NULL,
    rung INTEGER NOT NULL,
    feed TEXT NOT NULL,
    card TEXT NOT NULL CHECK (json_valid(card)),
    digest TEXT NOT NULL UNIQUE
) STRICT;

CREATE TABLE round (
    id INTEGER PRIMARY KEY,
    day_id INTEGER NOT NULL REFERENCES day (id),
    player_id INTEGER NOT NULL REFERENCES player (id),
    coach_id INTEGER NOT NULL REFERENCES coach (id),
    drill_id INTEGER NOT NULL REFERENCES drill_used (id),
    purpose TEXT NOT NULL
        CHECK (purpose IN ('choosing', 'yardstick', 'practice', 'hold', 'transfer')),
    place INTEGER NOT NULL,
    feed_seed INTEGER NOT NULL,
    feed_order TEXT NOT NULL,
    started_at INTEGER,
    ended_at INTEGER,
    paused_ms INTEGER NOT NULL DEFAULT 0 CHECK (paused_ms >= 0),
    UNIQUE (day_id, place)
) STRICT;

CREATE INDEX round_player ON round (player_id);

CREATE TABLE round_cue (
    round_id INTEGER NOT NULL REFERENCES round (id),
    row INTEGER NOT NULL CHECK (row BETWEEN 0 AND 3),
    cue TEXT NOT NULL,
    PRIMARY KEY (round_id, row)
) STRICT, WITHOUT ROWID;

CREATE TABLE ball (
    id INTEGER PRIMARY KEY,
    round_id INTEGER NOT NULL REFERENCES round (id),
    number INTEGER NOT NULL,
    taken INTEGER NOT NULL CHECK (taken IN (0, 1)),
    tough INTEGER NOT NULL CHECK (tough IN (0, 1)),
    clip_at INTEGER,
    taken_at INTEGER,
    UNIQUE (round_id, number)
) STRICT;

-- Not seen is the absence of a row.
CREATE TABLE rating (
    ball_id INTEGER NOT NULL REFERENCES ball (id),
    row INTEGER NOT NULL,
    grade INTEGER NOT NULL CHECK (grade BETWEEN 0 AND 2),
    PRIMARY KEY (ball_id, row)
) STRICT, WITHOUT ROWID;

-- Every key that changed a ball, and every key taken back: nothing here is ever changed.
CREATE TABLE journal (
    id INTEGER PRIMARY KEY,
    ball_id INTEGER NOT NULL REFERENCES ball (id),
    kind TEXT NOT NULL CHECK (kind IN ('key', 'undo', 'move')),
    before TEXT NOT NULL,
    after TEXT NOT NULL,
    undoes INTEGER REFERENCES journal (id),
    at INTEGER NOT NULL
) STRICT;
CREATE INDEX journal_ball ON journal (ball_id);
CREATE UNIQUE INDEX journal_undoes ON journal (undoes) WHERE undoes IS NOT NULL;

CREATE TABLE note (
    id INTEGER PRIMARY KEY,
    round_id INTEGER NOT NULL REFERENCES round (id),
    ball_id INTEGER REFERENCES ball (id),
    text TEXT NOT NULL,
    at INTEGER
) STRICT;
CREATE INDEX note_round ON note (round_id);
CREATE INDEX note_ball ON note (ball_id) WHERE ball_id IS NOT NULL;

CREATE TABLE check_in (
    id INTEGER PRIMARY KEY,
    day_id INTEGER NOT NULL REFERENCES day (id),
    player_id INTEGER NOT NULL REFERENCES player (id),
    round_id INTEGER REFERENCES round (id),
    moment TEXT CHECK (moment IN ('arrival', 'break', 'end', 'morning')),
    pain INTEGER CHECK (pain BETWEEN 0 AND 10),
    place TEXT NOT NULL DEFAULT '',
    effort INTEGER CHECK (effort BETWEEN 0 AND 10),
    minutes INTEGER CHECK (minutes >= 0),
    note TEXT NOT NULL DEFAULT '',
    at INTEGER
) STRICT;
CREATE INDEX check_in_day ON check_in (day_id);

-- Day-by-cue counts, kept in the transaction of the rating; like is kept with like.
CREATE TABLE tally (
    player_id INTEGER NOT NULL REFERENCES player (id),
    stroke TEXT NOT NULL,
    cue TEXT NOT NULL,
    day_id INTEGER NOT NULL REFERENCES day (id),
    drill_id INTEGER NOT NULL REFERENCES drill_used (id),
    purpose TEXT NOT NULL,
    tough INTEGER NOT NULL,
    missed INTEGER NOT NULL,
    near INTEGER NOT NULL,
    made INTEGER NOT NULL,
    unseen INTEGER NOT NULL,
    PRIMARY KEY (player_id, stroke, cue, day_id, drill_id, purpose, tough)
) STRICT, WITHOUT ROWID;
CREATE INDEX tally_day ON tally (day_id);

-- Where the book was left open.
CREATE TABLE bookmark (
    one INTEGER PRIMARY KEY CHECK (one = 1),
    clinic_id INTEGER NOT NULL REFERENCES clinic (id),
    day_id INTEGER NOT NULL REFERENCES day (id),
    round_id INTEGER REFERENCES round (id),
    basket_left INTEGER NOT NULL,
    basket_size INTEGER NOT NULL CHECK (basket_size > 0),
    paused_at INTEGER
) STRICT;
"""

_RUNNING = """
ALTER TABLE player ADD COLUMN short_name TEXT NOT NULL DEFAULT '';
ALTER TABLE player ADD COLUMN backhand TEXT NOT NULL DEFAULT ''
    CHECK (backhand IN ('', 'one-handed', 'two-handed'));
ALTER TABLE player ADD COLUMN level TEXT NOT NULL DEFAULT '';
ALTER TABLE player ADD COLUMN complaints TEXT NOT NULL DEFAULT '';
ALTER TABLE player ADD COLUMN age_group TEXT NOT NULL DEFAULT ''
    CHECK (age_group IN ('', 'adult', 'minor'));
ALTER TABLE player ADD COLUMN contact TEXT NOT NULL DEFAULT '';

ALTER TABLE roster ADD COLUMN goal TEXT NOT NULL DEFAULT '';
ALTER TABLE roster ADD COLUMN usual_week TEXT NOT NULL DEFAULT '';
ALTER TABLE roster ADD COLUMN ball_limit INTEGER CHECK (ball_limit > 0);

-- Stations beside the feed, in the order a player walks through them; a JSON list of names.
ALTER TABLE clinic ADD COLUMN stations TEXT NOT NULL
    DEFAULT '["shadow","fence","self-feed"]' CHECK (json_valid(stations));
ALTER TABLE clinic ADD COLUMN turn_order TEXT NOT NULL DEFAULT 'cyclic'
    CHECK (turn_order IN ('cyclic', 'williams', 'pairs'));
ALTER TABLE clinic ADD COLUMN turn_seconds INTEGER CHECK (turn_seconds > 0);
-- The coach's own lines for a measured WBGT in degrees Celsius, and whose rule they are.
ALTER TABLE clinic ADD COLUMN wbgt_modify REAL;
ALTER TABLE clinic ADD COLUMN wbgt_stop REAL;
ALTER TABLE clinic ADD COLUMN wbgt_rule TEXT NOT NULL DEFAULT '';
ALTER TABLE clinic ADD COLUMN rest_minutes INTEGER CHECK (rest_minutes > 0);
-- The court and coach of the first day, while there is none.
ALTER TABLE clinic ADD COLUMN first_court TEXT NOT NULL DEFAULT '';
ALTER TABLE clinic ADD COLUMN first_coach TEXT NOT NULL DEFAULT '';

-- How a round's balls are fed and spoken on. tough_plan: one 0 or 1 a ball, repeated when it ends.
ALTER TABLE round ADD COLUMN order_kind TEXT NOT NULL DEFAULT ''
    CHECK (order_kind IN ('', 'blocked', 'serial', 'shuffled'));
ALTER TABLE round ADD COLUMN tough_plan TEXT NOT NULL DEFAULT '';
ALTER TABLE round ADD COLUMN rate_every INTEGER NOT NULL DEFAULT 1 CHECK (rate_every IN (1, 2));
ALTER TABLE round ADD COLUMN speak TEXT NOT NULL DEFAULT '';
-- Balls the day's plan gave this round; NULL: as many as its drill and purpose ask for.
ALTER TABLE round ADD COLUMN planned_balls INTEGER CHECK (planned_balls > 0);

ALTER TABLE check_in ADD COLUMN signs TEXT NOT NULL DEFAULT '';

-- What the coach saw on a stroke: what is good, the chosen cues, and why these.
CREATE TABLE focus (
    clinic_id INTEGER NOT NULL REFERENCES clinic (id),
    player_id INTEGER NOT NULL REFERENCES player (id),
    stroke TEXT NOT NULL,
    strengths TEXT NOT NULL DEFAULT '',
    cues TEXT NOT NULL DEFAULT '',
    why TEXT NOT NULL DEFAULT '',
    at INTEGER NOT NULL,
    PRIMARY KEY (clinic_id, player_id, stroke)
) STRICT, WITHOUT ROWID;

-- Who is there on a day; nobody noted means here. head_start: balls credited to a late comer.
CREATE TABLE attendance (
    day_id INTEGER NOT NULL REFERENCES day (id),
    player_id INTEGER NOT NULL REFERENCES player (id),
    state TEXT NOT NULL CHECK (state IN ('here', 'late', 'left')),
    head_start REAL NOT NULL DEFAULT 0,
    at INTEGER NOT NULL,
    PRIMARY KEY (day_id, player_id)
) STRICT, WITHOUT ROWID;

-- Where everyone stands now and since when, and where they stood before.
CREATE TABLE standing (
    day_id INTEGER NOT NULL REFERENCES day (id),
    player_id INTEGER NOT NULL REFERENCES player (id),
    station TEXT NOT NULL,
    before TEXT NOT NULL DEFAULT '',
    since INTEGER NOT NULL,
    PRIMARY KEY (day_id, player_id)
) STRICT, WITHOUT ROWID;

-- Two players who changed places in the queue of one turn of a day.
CREATE TABLE queue_swap (
    id INTEGER PRIMARY KEY,
    day_id INTEGER NOT NULL REFERENCES day (id),
    turn INTEGER NOT NULL,
    one_id INTEGER NOT NULL REFERENCES player (id),
    other_id INTEGER NOT NULL REFERENCES player (id),
    at INTEGER NOT NULL
) STRICT;
CREATE INDEX queue_swap_day ON queue_swap (day_id);

-- Repetitions at a station alone, in the player's word.
CREATE TABLE solo (
    id INTEGER PRIMARY KEY,
    day_id INTEGER NOT NULL REFERENCES day (id),
    player_id INTEGER NOT NULL REFERENCES player (id),
    station TEXT NOT NULL,
    reps INTEGER NOT NULL CHECK (reps > 0),
    at INTEGER NOT NULL
) STRICT;
CREATE INDEX solo_day ON solo (day_id);

-- After which ball the coach spoke, in which of the cue's two wordings.
CREATE TABLE said (
    ball_id INTEGER PRIMARY KEY REFERENCES ball (id),
    wording TEXT NOT NULL CHECK (wording IN ('inner', 'outer')),
    at INTEGER NOT NULL
) STRICT;

-- A red is never changed and never taken away; a clinician's word stands beside it.
CREATE TABLE red_flag (
    id INTEGER PRIMARY KEY,
    day_id INTEGER NOT NULL REFERENCES day (id),
    player_id INTEGER NOT NULL REFERENCES player (id),
    check_in_id INTEGER REFERENCES check_in (id),
    reason TEXT NOT NULL,
    at INTEGER NOT NULL
) STRICT;
CREATE INDEX red_flag_player ON red_flag (player_id);
INSERT INTO red_flag
    SELECT check_in.id, day_id, player_id, check_in.id, 'pain ' || pain || ', more than 5',
        coalesce(at, 1000 * CAST(strftime('%s', date) AS INTEGER))
    FROM check_in JOIN day ON day.id = day_id WHERE pain > 5;

CREATE TABLE clinician_word (
    id INTEGER PRIMARY KEY,
    red_flag_id INTEGER NOT NULL REFERENCES red_flag (id),
    who TEXT NOT NULL,
    text TEXT NOT NULL,
    at INTEGER NOT NULL
) STRICT;
CREATE INDEX clinician_word_flag ON clinician_word (red_flag_id);
CREATE TRIGGER red_flag_changed BEFORE UPDATE ON red_flag
    BEGIN SELECT RAISE(ABORT, 'a red stays'); END;
CREATE TRIGGER red_flag_gone BEFORE DELETE ON red_flag
    BEGIN SELECT RAISE(ABORT, 'a red stays'); END;
CREATE TRIGGER clinician_word_changed BEFORE UPDATE ON clinician_word
    BEGIN SELECT RAISE(ABORT, 'the word stays'); END;
CREATE TRIGGER clinician_word_gone BEFORE DELETE ON clinician_word
    BEGIN SELECT RAISE(ABORT, 'the word stays'); END;

CREATE TABLE heat (
    id INTEGER PRIMARY KEY,
    day_id INTEGER NOT NULL REFERENCES day (id),
    celsius REAL,
    humidity REAL CHECK (humidity BETWEEN 0 AND 100),
    wbgt REAL,
    at INTEGER NOT NULL
) STRICT;
CREATE INDEX heat_day ON heat (day_id);

-- What was put right afterwards, by whom and when; undoes: the one it takes back. other_id: the
-- round beside the first that a split, move or join made or emptied. Nothing here is ever changed.
-- A ball struck out is not taken and has a number below 0.
CREATE TABLE amendment (
    id INTEGER PRIMARY KEY,
    kind TEXT NOT NULL
        CHECK (kind IN ('ball', 'strike', 'move', 'split', 'join', 'drill', 'purpose')),
    round_id INTEGER NOT NULL REFERENCES round (id),
    other_id INTEGER REFERENCES round (id),
    who TEXT NOT NULL,
    at INTEGER NOT NULL,
    undoes INTEGER REFERENCES amendment (id)
) STRICT;
CREATE INDEX amendment_undoes ON amendment (undoes) WHERE undoes IS NOT NULL;
CREATE INDEX amendment_round ON amendment (round_id);
CREATE INDEX amendment_other ON amendment (other_id) WHERE other_id IS NOT NULL;

-- Each value an amendment changed, as JSON: of which ball, round, note or check-in (row_id), and
-- the journal's line that says the same of a ball's grades.
CREATE TABLE amended (
    id INTEGER PRIMARY KEY,
    amendment_id INTEGER NOT NULL REFERENCES amendment (id),
    journal_id INTEGER REFERENCES journal (id),
    what TEXT NOT NULL CHECK (what IN ('state', 'struck', 'place', 'note', 'check-in', 'drill',
        'purpose', 'ended', 'paused', 'order')),
    row_id INTEGER NOT NULL,
    before TEXT NOT NULL CHECK (json_valid(before)),
    after TEXT NOT NULL CHECK (json_valid(after))
) STRICT;
CREATE INDEX amended_amendment ON amended (amendment_id);
CREATE UNIQUE INDEX amended_journal ON amended (journal_id) WHERE journal_id IS NOT NULL;

-- The plan the coach kept for a date, in its order.
CREATE TABLE planned_round (
    id INTEGER PRIMARY KEY,
    clinic_id INTEGER NOT NULL REFERENCES clinic (id),
    date TEXT NOT NULL CHECK (date = date(date)),
    place INTEGER NOT NULL,
    player_id INTEGER NOT NULL REFERENCES player (id),
    drill TEXT NOT NULL,
    purpose TEXT NOT NULL
        CHECK (purpose IN ('choosing', 'yardstick', 'practice', 'hold', 'transfer')),
    balls INTEGER NOT NULL CHECK (balls > 0)
) STRICT;
CREATE INDEX planned_round_date ON planned_round (clinic_id, date, place);

-- Balls rated once more without sight of the first grades: by another coach, or from clips.
-- sitting counts each coach's goes from 1; a grade of NULL: looked at, and not seen.
CREATE TABLE second_rating (
    id INTEGER PRIMARY KEY,
    ball_id INTEGER NOT NULL REFERENCES ball (id),
    coach_id INTEGER NOT NULL REFERENCES coach (id),
    sitting INTEGER NOT NULL CHECK (sitting > 0),
    row INTEGER NOT NULL CHECK (row BETWEEN 0 AND 3),
    grade INTEGER CHECK (grade BETWEEN 0 AND 2),
    at INTEGER NOT NULL,
    UNIQUE (ball_id, coach_id, sitting, row)
) STRICT;

-- People removed for good, by the id they had and nothing else. When books are joined, nobody in
-- here comes in again, and nothing that hangs on them.
CREATE TABLE erased (
    player_id INTEGER PRIMARY KEY
) STRICT;

-- Joining books: what rows read before, what stands against what (row_versions.py), who is who.
CREATE TABLE former (
    tbl TEXT NOT NULL,
    key TEXT NOT NULL,
    revision INTEGER NOT NULL,
    reading TEXT NOT NULL CHECK (json_valid(reading)),
    PRIMARY KEY (tbl, key, revision, reading)
) STRICT, WITHOUT ROWID;
CREATE TABLE conflict (
    tbl TEXT NOT NULL,
    key TEXT NOT NULL,
    revision INTEGER NOT NULL,
    reading TEXT NOT NULL CHECK (json_valid(reading)),
    PRIMARY KEY (tbl, key, revision, reading)
) STRICT, WITHOUT ROWID;
CREATE TABLE matched (
    tbl TEXT NOT NULL,
    one_id INTEGER NOT NULL,
    other_id INTEGER NOT NULL CHECK (other_id > one_id),
    same INTEGER NOT NULL CHECK (same IN (0, 1)),
    PRIMARY KEY (tbl, one_id, other_id)
) STRICT, WITHOUT ROWID;
-- Which file on which computer this is, and the number its new ids begin with.
CREATE TABLE home (
    one INTEGER PRIMARY KEY CHECK (one = 1),
    place TEXT NOT NULL,
    tag INTEGER NOT NULL
) STRICT;
-- Two books that were one may both have taken back the same key.
DROP INDEX journal_undoes;
CREATE INDEX journal_undoes ON journal (undoes) WHERE undoes IS NOT NULL;
"""

_MAIN_CUE = """
-- Each time the coach named the main one of a stroke's chosen cues. Nothing here is ever changed;
-- which name counts is in main_cue_lookups.py.
CREATE TABLE main_cue (
    id INTEGER PRIMARY KEY,
    clinic_id INTEGER NOT NULL REFERENCES clinic (id),
    player_id INTEGER NOT NULL REFERENCES player (id),
    stroke TEXT NOT NULL,
    cue TEXT NOT NULL CHECK (cue <> ''),
    at INTEGER NOT NULL
) STRICT;
CREATE INDEX main_cue_player ON main_cue (clinic_id, player_id);
CREATE TRIGGER main_cue_changed BEFORE UPDATE ON main_cue
    BEGIN SELECT RAISE(ABORT, 'a main cue stays as it was named'); END;
CREATE TRIGGER main_cue_gone BEFORE DELETE ON main_cue
    BEGIN SELECT RAISE(ABORT, 'a main cue stays as it was named'); END;
"""

_FILMS = """
-- Films of a clinic; the book has their times and never their pictures. began_at is by the book's
-- clock, known_by says how it is known. hit_ms moves the hit in all clips of the film.
CREATE TABLE film (
    id INTEGER PRIMARY KEY,
    clinic_id INTEGER NOT NULL REFERENCES clinic (id),
    name TEXT NOT NULL,
    fingerprint TEXT NOT NULL,
    length_ms INTEGER NOT NULL CHECK (length_ms > 0),
    began_at INTEGER NOT NULL,
    known_by TEXT NOT NULL
        CHECK (known_by IN ('slate', 'mark', 'zone', 'name', 'said', 'file')),
    hit_ms INTEGER NOT NULL DEFAULT 0,
    at INTEGER NOT NULL
) STRICT;
CREATE INDEX film_clinic ON film (clinic_id);

-- The hit of one ball moved within one film, beside what moves all of them.
CREATE TABLE moved_hit (
    film_id INTEGER NOT NULL REFERENCES film (id),
    ball_id INTEGER NOT NULL REFERENCES ball (id),
    hit_ms INTEGER NOT NULL,
    PRIMARY KEY (film_id, ball_id)
) STRICT, WITHOUT ROWID;
CREATE INDEX moved_hit_ball ON moved_hit (ball_id);

-- Each time somebody said whether the player may be filmed. Nothing here is ever changed; the
-- latest counts, and an empty answer takes the earlier ones back.
CREATE TABLE filming_consent (
    id INTEGER PRIMARY KEY,
    player_id INTEGER NOT NULL REFERENCES player (id),
    answer TEXT NOT NULL CHECK (answer IN ('', 'asked', 'yes', 'no')),
    date TEXT NOT NULL CHECK (date = date(date)),
    who TEXT NOT NULL DEFAULT '',
    at INTEGER NOT NULL
) STRICT;
CREATE INDEX filming_consent_player ON filming_consent (player_id);
CREATE TRIGGER filming_consent_changed BEFORE UPDATE ON filming_consent
    BEGIN SELECT RAISE(ABORT, 'a word on filming stays as it was said'); END;
CREATE TRIGGER filming_consent_gone BEFORE DELETE ON filming_consent
    BEGIN SELECT RAISE(ABORT, 'a word on filming stays as it was said'); END;
"""

_BLIND = """
-- Pages that play the balls of a player's two yardsticks in shuffled order, the day hidden. code
-- names the page on paper; cues (in their order, by blanks) are what is rated on each ball.
CREATE TABLE blind_page (
    id INTEGER PRIMARY KEY,
    clinic_id INTEGER NOT NULL REFERENCES clinic (id),
    player_id INTEGER NOT NULL REFERENCES player (id),
    stroke TEXT NOT NULL,
    cues TEXT NOT NULL,
    code TEXT NOT NULL,
    seed INTEGER NOT NULL,
    at INTEGER NOT NULL
) STRICT;
CREATE INDEX blind_page_player ON blind_page (clinic_id, player_id);

-- Which ball stands under which number of such a page.
CREATE TABLE blind_ball (
    page_id INTEGER NOT NULL REFERENCES blind_page (id),
    number INTEGER NOT NULL CHECK (number > 0),
    ball_id INTEGER NOT NULL REFERENCES ball (id),
    PRIMARY KEY (page_id, number),
    UNIQUE (page_id, ball_id)
) STRICT, WITHOUT ROWID;
CREATE INDEX blind_ball_ball ON blind_ball (ball_id);

-- Which sitting of second ratings was made from such a page.
CREATE TABLE blind_sitting (
    page_id INTEGER NOT NULL REFERENCES blind_page (id),
    coach_id INTEGER NOT NULL REFERENCES coach (id),
    sitting INTEGER NOT NULL CHECK (sitting > 0),
    PRIMARY KEY (page_id, coach_id, sitting)
) STRICT, WITHOUT ROWID;
"""

_HOME = """
-- Yardsticks that somebody else watched at home: another eye, and so no rounds. `balls` are written
-- as on a sheet. One that is taken back stays, and counts no more.
CREATE TABLE home_yardstick (
    id INTEGER PRIMARY KEY,
    clinic_id INTEGER NOT NULL REFERENCES clinic (id),
    player_id INTEGER NOT NULL REFERENCES player (id),
    drill_id INTEGER NOT NULL REFERENCES drill_used (id),
    date TEXT NOT NULL CHECK (date = date(date)),
    watcher TEXT NOT NULL DEFAULT '',
    cues TEXT NOT NULL CHECK (cues <> ''),
    balls TEXT NOT NULL,
    at INTEGER NOT NULL,
    taken_back INTEGER NOT NULL DEFAULT 0 CHECK (taken_back IN (0, 1))
) STRICT;
CREATE INDEX home_yardstick_player ON home_yardstick (clinic_id, player_id);
"""

_SHEETS = """
-- Rounds that came from paper or from a sheet. number is the one in a paper sheet's code; 0 stands
-- for plain text, which has none. digest names what was written there; first_ball_id and balls say
-- which balls came with it. All three are empty where the book had the round before the sheet.
CREATE TABLE sheet_round (
    round_id INTEGER NOT NULL REFERENCES round (id),
    number INTEGER NOT NULL CHECK (number >= 0),
    digest TEXT NOT NULL DEFAULT '',
    first_ball_id INTEGER REFERENCES ball (id),
    balls INTEGER NOT NULL DEFAULT 0 CHECK (balls >= 0),
    PRIMARY KEY (round_id, number)
) STRICT, WITHOUT ROWID;
CREATE INDEX sheet_round_ball ON sheet_round (first_ball_id) WHERE first_ball_id IS NOT NULL;
"""

_COURTS = """
-- To which court of a clinic a player belongs on a date: dealt in the morning, handed over by the
-- court that had the player, or picked by the one that has the player now. The latest row counts,
-- and nothing here is ever changed.
CREATE TABLE player_court (
    id INTEGER PRIMARY KEY,
    clinic_id INTEGER NOT NULL REFERENCES clinic (id),
    date TEXT NOT NULL CHECK (date = date(date)),
    player_id INTEGER NOT NULL REFERENCES player (id),
    court TEXT NOT NULL CHECK (court <> ''),
    kind TEXT NOT NULL CHECK (kind IN ('dealt', 'handed', 'picked')),
    at INTEGER NOT NULL
) STRICT;
CREATE INDEX player_court_date ON player_court (clinic_id, date);
CREATE INDEX player_court_player ON player_court (player_id);
CREATE TRIGGER player_court_changed BEFORE UPDATE ON player_court
    BEGIN SELECT RAISE(ABORT, 'a court stays as it was dealt'); END;
CREATE TRIGGER player_court_gone BEFORE DELETE ON player_court
    BEGIN SELECT RAISE(ABORT, 'a court stays as it was dealt'); END;

-- Of which court this file is the book, whose it is, where it lays copies for the other courts, and
-- when it was written as a copy. `number` keeps its new ids apart from those of the other courts.
CREATE TABLE court_book (
    one INTEGER PRIMARY KEY CHECK (one = 1),
    court TEXT NOT NULL CHECK (court <> ''),
    owner TEXT NOT NULL CHECK (owner IN ('head', 'assistant', 'free')),
    number INTEGER NOT NULL CHECK (number BETWEEN 0 AND 15),
    stick TEXT NOT NULL,
    written_at INTEGER NOT NULL
) STRICT;
-- Up to which moment this file knows what another court's book held.
CREATE TABLE court_reading (
    court TEXT PRIMARY KEY CHECK (court <> ''),
    written_at INTEGER NOT NULL
) STRICT, WITHOUT ROWID;
"""

_FILM_COURTS = """
-- Each time somebody said which court a film shows. Nothing here is ever changed, and the latest
-- counts. A film without a row is of the one court that was open while it ran.
CREATE TABLE film_court (
    id INTEGER PRIMARY KEY,
    clinic_id INTEGER NOT NULL REFERENCES clinic (id),
    film_id INTEGER NOT NULL REFERENCES film (id),
    court TEXT NOT NULL,
    at INTEGER NOT NULL
) STRICT;
CREATE INDEX film_court_film ON film_court (film_id);
CREATE TRIGGER film_court_changed BEFORE UPDATE ON film_court
    BEGIN SELECT RAISE(ABORT, 'the court of a film stays as it was said'); END;
"""


@migrations()
def m001_first_book(db: Database) -> None:
    """Clinic, day, people, drills as used, rounds, balls, ratings, journal, tallies."""
    db.executescript(_FIRST)


@migrations()
def m002_run_the_clinic(db: Database) -> None:
    """Player cards, rotation, feed plans, what was said, arm and heat care, plans for a day."""
    db.executescript(_RUNNING)
    views.create(db.conn)
    row_versions.create_triggers(db.conn)


@migrations()
def m003_main_cue(db: Database) -> None:
    """The main one of the chosen cues, each time it was named."""
    db.executescript(_MAIN_CUE)
    row_versions.create_triggers(db.conn, {"main_cue"})


@migrations()
def m004_films(db: Database) -> None:
    """Films, the hit moved in them, and who agreed to be filmed."""
    db.executescript(_FILMS)
    row_versions.create_triggers(db.conn, {"film", "moved_hit", "filming_consent"})


@migrations()
def m005_blind_pages(db: Database) -> None:
    """Balls to rate without sight of their day, and the second ratings made so."""
    db.executescript(_BLIND)
    row_versions.create_triggers(db.conn, {"blind_page", "blind_ball", "blind_sitting"})


@migrations()
def m006_home_yardsticks(db: Database) -> None:
    """Yardsticks watched at home by somebody else."""
    db.executescript(_HOME)
    row_versions.create_triggers(db.conn, {"home_yardstick"})


@migrations()
def m007_sheet_numbers(db: Database) -> None:
    """Which rounds came from which sheet."""
    db.executescript(_SHEETS)
    row_versions.create_triggers(db.conn, {"sheet_round"})


@migrations()
def m008_courts(db: Database) -> None:
    """The courts of one clinic: who belongs to which, and which of them a file is the book of."""
    db.executescript(_COURTS)
    row_versions.create_triggers(db.conn, {"player_court"})


@migrations()
def m009_film_courts(db: Database) -> None:
    """Which court a film shows."""
    db.executescript(_FILM_COURTS)
    row_versions.create_triggers(db.conn, {"film_court"})
