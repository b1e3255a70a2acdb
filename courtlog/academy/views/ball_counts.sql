-- The balls of a round, as one book has it.
SELECT book, round_id, count(*) AS balls, sum(CASE WHEN tough THEN 1 ELSE 0 END) AS tough
FROM taken_balls
GROUP BY book, round_id
