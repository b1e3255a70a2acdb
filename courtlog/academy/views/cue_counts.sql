-- A cue of a round: its grades, and of neighbouring balls that were both seen how many there are
-- (`pairs`), how many are both made, and how often one of them is.
WITH graded AS (
    SELECT taken_balls.book, taken_balls.round_id, round_cue.cue, rating.grade,
           lag(rating.grade) OVER (
               PARTITION BY taken_balls.book, taken_balls.round_id, round_cue.row
               ORDER BY taken_balls.number
           ) AS earlier
    FROM taken_balls
    JOIN round_cue
        ON round_cue.book = taken_balls.book AND round_cue.round_id = taken_balls.round_id
    LEFT JOIN rating
        ON rating.book = taken_balls.book AND rating.ball_id = taken_balls.ball_id
        AND rating.row = round_cue.row
)
SELECT book, round_id, cue,
       count(CASE WHEN grade = 0 THEN 1 END) AS missed,
       count(CASE WHEN grade = 1 THEN 1 END) AS near,
       count(CASE WHEN grade = 2 THEN 1 END) AS made,
       count(*) - count(grade) AS not_seen,
       count(grade) AS seen,
       count(CASE WHEN grade >= 0 AND earlier >= 0 THEN 1 END) AS pairs,
       count(CASE WHEN grade = 2 AND earlier = 2 THEN 1 END) AS both_made,
       count(CASE WHEN grade = 2 AND earlier >= 0 THEN 1 END)
           + count(CASE WHEN grade >= 0 AND earlier = 2 THEN 1 END) AS either_made
FROM graded
GROUP BY book, round_id, cue
