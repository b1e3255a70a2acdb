-- Who practised which drill, and on how many balls.
SELECT clinic_id, player_id, stroke, drill, CAST(sum(balls) AS BIGINT) AS balls
FROM rounds
WHERE purpose = 'practice'
GROUP BY clinic_id, player_id, stroke, drill
ORDER BY clinic_id, player_id, stroke, drill
