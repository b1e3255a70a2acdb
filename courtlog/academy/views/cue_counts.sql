-- A cue of a round: its grades, and of neighbouring balls that were both seen how many there are
-- (`pairs`), how many are both made, and how often one of them is. Only what was seen has a row in
-- `rating`. A ball is a bit here: sixty in a number, and the next one's first as the 61st, so that
-- neighbours are found without sorting all balls.
WITH placed AS (
    SELECT book, ball_id, round_id, number - number % 60 AS first, number % 60 AS place
    FROM taken_balls
    UNION ALL
    SELECT book, ball_id, round_id, number - 60 AS first, 60 AS place
    FROM taken_balls
    WHERE number % 60 = 0
), graded AS (
    SELECT placed.book, placed.round_id, rating.row AS cue_row, first,
           count(CASE WHEN grade = 0 AND place < 60 THEN 1 END) AS missed,
           count(CASE WHEN grade = 1 AND place < 60 THEN 1 END) AS near,
           count(CASE WHEN grade = 2 AND place < 60 THEN 1 END) AS made,
           bit_or(CAST(1 AS BIGINT) << CAST(place AS INT)) AS seen_bits,
           bit_or(CAST(CASE WHEN grade = 2 THEN 1 ELSE 0 END AS BIGINT) << CAST(place AS INT))
               AS made_bits
    FROM placed
    JOIN rating
        ON rating.book = placed.book AND rating.ball_id = placed.ball_id
    GROUP BY placed.book, placed.round_id, rating.row, first
), counted AS (
    SELECT book, round_id, cue_row,
           CAST(sum(missed) AS BIGINT) AS missed, CAST(sum(near) AS BIGINT) AS near,
           CAST(sum(made) AS BIGINT) AS made, CAST(sum(missed + near + made) AS BIGINT) AS seen,
           CAST(sum(bit_count(seen_bits & (seen_bits >> 1))) AS BIGINT) AS pairs,
           CAST(sum(bit_count(made_bits & (made_bits >> 1))) AS BIGINT) AS both_made,
           CAST(sum(
               bit_count(made_bits & (seen_bits >> 1)) + bit_count(seen_bits & (made_bits >> 1))
           ) AS BIGINT) AS either_made
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
