-- A cue of a round: its grades, and of neighbouring balls that were both seen how many there are
-- (`pairs`), how many are both made, and how often one of them is. Only what was seen has a row in
-- `rating`, so neighbours are told by the numbers of their balls.
WITH graded AS (
    SELECT taken_balls.book, taken_balls.round_id, rating.row AS cue_row, rating.grade,
           CASE WHEN lag(taken_balls.number) OVER turns = taken_balls.number - 1
                THEN lag(rating.grade) OVER turns END AS earlier
    FROM taken_balls
    JOIN rating
        ON rating.book = taken_balls.book AND rating.ball_id = taken_balls.ball_id
    WINDOW turns AS (
        PARTITION BY taken_balls.book, taken_balls.round_id, rating.row
        ORDER BY taken_balls.number
    )
), counted AS (
    SELECT book, round_id, cue_row,
           count(CASE WHEN grade = 0 THEN 1 END) AS missed,
           count(CASE WHEN grade = 1 THEN 1 END) AS near,
           count(CASE WHEN grade = 2 THEN 1 END) AS made,
           count(*) AS seen,
           count(earlier) AS pairs,
           count(CASE WHEN grade = 2 AND earlier = 2 THEN 1 END) AS both_made,
           count(CASE WHEN grade = 2 THEN earlier END)
               + count(CASE WHEN earlier = 2 THEN 1 END) AS either_made
    FROM graded
    GROUP BY book, round_id, cue_row
)
SELECT round_cue.book, round_cue.round_id, round_cue.cue,
       coalesce(missed, 0) AS missed, coalesce(near, 0) AS near, coalesce(made, 0) AS made,
       ball_counts.balls - coalesce(seen, 0) AS not_seen, coalesce(seen, 0) AS seen,
       coalesce(pairs, 0) AS pairs, coalesce(both_made, 0) AS both_made,
       coalesce(either_made, 0) AS either_made
FROM ball_counts
JOIN round_cue
    ON round_cue.book = ball_counts.book AND round_cue.round_id = ball_counts.round_id
LEFT JOIN counted
    ON counted.book = round_cue.book AND counted.round_id = round_cue.round_id
    AND counted.cue_row = round_cue.row
