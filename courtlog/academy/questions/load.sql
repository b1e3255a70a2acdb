-- The balls of each player, date and court.
SELECT clinic_id, clinic, date, court, player_id, player,
       count(DISTINCT round_id) AS rounds, CAST(sum(balls) AS BIGINT) AS balls,
       CAST(sum(tough) AS BIGINT) AS tough
FROM rounds
GROUP BY clinic_id, clinic, date, court, player_id, player
ORDER BY clinic, clinic_id, date, court, player, player_id
