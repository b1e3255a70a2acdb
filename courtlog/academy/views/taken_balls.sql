-- A taken ball, once: one known to several books as the latest of them has it.
-- Only books whose ids begin alike can share a ball, so that most balls need not be compared.
WITH beginnings AS (
    SELECT DISTINCT book, id >> 40 AS beginning FROM ball
), shared AS (
    SELECT beginning FROM beginnings GROUP BY beginning HAVING count(*) > 1
)
SELECT book, id AS ball_id, round_id, number, tough
FROM ball
WHERE taken AND id >> 40 NOT IN (SELECT beginning FROM shared)
UNION ALL
SELECT book, id AS ball_id, round_id, number, tough
FROM (
    SELECT ball.book, id, round_id, number, tough, taken,
           row_number() OVER (PARTITION BY id ORDER BY exports.place DESC) AS turn
    FROM ball
    JOIN exports ON exports.book = ball.book
    WHERE id >> 40 IN (SELECT beginning FROM shared)
) AS known
WHERE turn = 1 AND taken
