"""A book in which one player has rows in every table that hangs on a player, and others too."""

from __future__ import annotations

from pathlib import Path

from courtlog.coaching.game.people import Player
from courtlog.courtside.desk.desk import Desk
from courtlog.logbook.file.book import Book
from courtlog.logbook.reads import lookups
from courtlog.logbook.reads.find_person import player_named
from tests.court import desk_in, feed

NAME, SHORT = "Märit Ödelström", "Mäx"
SECRETS = ("MÄRIT-SPEAKS", "+00 555 ÅÅ 12", "elbow-örtlich", "Föcus", "reason-rød", "klinik-Ø")

WRITTEN = """
UPDATE player SET short_name = '{short}', complaints = '{2}', contact = '{1}', age_group = 'minor'
    WHERE id = {who};
UPDATE roster SET goal = '{0}' WHERE player_id = {who};
INSERT INTO note SELECT 1, max(id), NULL, '{0}', 1 FROM round WHERE player_id = {who};
INSERT INTO note SELECT 2, max(id), NULL, '{name} and Ödelström''s racquet; {short} too; mäxi', 1
    FROM round WHERE player_id = {other};
INSERT INTO check_in SELECT 3, {day}, {who}, max(id), NULL, 6, '{2}', NULL, NULL, '{0}', 1, '{0}'
    FROM round WHERE player_id = {who};
INSERT INTO check_in VALUES (4, {day}, {other}, NULL, NULL, 6, 'arm', NULL, NULL, '', 1, '');
INSERT INTO focus (clinic_id, player_id, stroke, strengths, why, at)
    VALUES ({clinic}, {who}, 'forehand', '{3}', '{3}', 1);
INSERT INTO filming_consent VALUES (14, {who}, 'yes', '2026-05-12', '{1}', 1);
INSERT INTO film VALUES (15, {clinic}, 'a.mp4', 'f', 60000, 1, 'slate', 0, 1);
INSERT INTO film_court VALUES (20, {clinic}, 15, '2', 1);
INSERT INTO moved_hit SELECT 15, max(ball.id), 200 FROM ball JOIN round ON round.id = round_id
    WHERE player_id = {who};
INSERT INTO home_yardstick SELECT 18, {clinic}, {who}, max(id), '2026-06-20', '{0}', 'turn',
    '2 0', 1, 0 FROM drill_used;
INSERT INTO player_court VALUES (19, {clinic}, '2026-05-12', {who}, '2', 'handed', 1);
INSERT INTO sheet_round SELECT round.id, 2, 'digest', min(ball.id), 1 FROM ball
    JOIN round ON round.id = round_id WHERE player_id = {who} GROUP BY round.id;
INSERT INTO blind_page VALUES (16, {clinic}, {who}, 'forehand', 'turn', 'KRTW', 1, 1),
    (17, {clinic}, {other}, 'forehand', 'turn', 'BNHS', 1, 1);
INSERT INTO blind_ball SELECT 16, 1, max(ball.id) FROM ball JOIN round ON round.id = round_id
    WHERE player_id = {who};
INSERT INTO blind_ball SELECT 17, 1, max(ball.id) FROM ball JOIN round ON round.id = round_id
    WHERE player_id = {other};
INSERT INTO blind_sitting SELECT 16, max(id), 1 FROM coach;
INSERT INTO blind_sitting SELECT 17, max(id), 1 FROM coach;
INSERT INTO main_cue VALUES (13, {clinic}, {who}, 'forehand', 'turn', 1);
INSERT OR REPLACE INTO attendance (day_id, player_id, state, at) VALUES ({day}, {who}, 'here', 1);
INSERT OR REPLACE INTO standing (day_id, player_id, station, since)
    VALUES ({day}, {who}, 'fence', 1);
INSERT INTO queue_swap (id, day_id, turn, one_id, other_id, at)
    VALUES (5, {day}, 1, {other}, {who}, 1);
INSERT INTO solo (id, day_id, player_id, station, reps, at)
    VALUES (6, {day}, {who}, 'fence', 20, 1);
INSERT INTO said SELECT max(ball.id), 'inner', 1 FROM ball JOIN round ON round.id = round_id
    WHERE player_id = {who};
INSERT INTO red_flag VALUES (7, {day}, {who}, 3, '{4}', 1), (8, {day}, {other}, 4, 'pain', 1);
INSERT INTO clinician_word VALUES (9, 7, '{5}', '{5}', 1), (10, 8, 'Dr', 'asked about {name}', 1);
INSERT INTO second_rating SELECT 12, max(ball.id), coach_id, 1, 0, 2, 1 FROM ball
    JOIN round ON round.id = round_id WHERE player_id = {who};
INSERT INTO planned_round
    VALUES (11, {clinic}, '2026-05-13', 1, {who}, 'forehand/live', 'practice', 10);
"""
"""Every text of the person is a word that stands nowhere else; the other player has rows too."""


def person(book: Book, name: str = NAME) -> Player:
    """The player with rows in every table."""
    return player_named(book, name)


def desk_with_every_table(folder: Path) -> Desk:
    """Two players with rows in every table; the one to go is on court with a ball half rated."""
    desk = desk_in(folder, names=("Tove", NAME, "Ruben"))
    feed(desk, "_21!0_@")
    desk.balls.note("Tove is late")
    desk.rounds.start(player=lookups.players(desk.book, desk.view.clinic.id)[1])
    feed(desk, "_20!1T_<222@")
    for secret in SECRETS:
        desk.balls.note(f"{secret} on a ball")
    feed(desk, "1")
    who, other = person(desk.book), person(desk.book, "Tove")
    desk.book.db.executescript(
        WRITTEN.format(
            *SECRETS,
            name=NAME,
            short=SHORT,
            who=who.id,
            other=other.id,
            day=desk.view.day.id,
            clinic=desk.view.clinic.id,
        )
    )
    return desk
