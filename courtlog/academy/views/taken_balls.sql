-- A taken ball, once: one known to several books as the latest of them has it.
-- Only books whose ids begin alike can share a ball, so that most balls need not be compared. A
-- sheet that two books read in gave its balls two ids; a joined book knows which are one.
WITH known AS (
    SELECT ball.book, ball.id AS ball_id, ball.round_id, ball.number, ball.tough, ball.taken,
           coalesce(kept_id.kept, ball.id) AS kept
    FROM ball
    LEFT JOIN kept_id ON kept_id.tbl = 'ball' AND kept_id.id = ball.id
), beginnings AS (
    SELECT DISTINCT book, kept >> 40 AS beginning FROM known
), shared AS (
    SELECT beginning FROM beginnings GROUP BY beginning HAVING count(*) > 1
)
SELECT book, ball_id, round_id, number, tough
FROM known
WHERE taken AND kept >> 40 NOT IN (SELECT beginning FROM shared)
UNION ALL
SELECT book, ball_id, round_id, number, tough
FROM (
    SELECT known.book, ball_id, round_id, number, tough, taken,
           row_number() OVER (PARTITION BY kept ORDER BY exports.place DESC) AS turn
    FROM known
    JOIN exports ON exports.book = known.book
    WHERE kept >> 40 IN (SELECT beginning FROM shared)
) AS told
WHERE turn = 1 AND taken
