-- The balls without help that yardsticks are compared by: each date's yardstick, and the morning's
-- hold on its drills.
WITH practice AS (
    SELECT clinic_id, player_id, stroke, date, min(turn) AS turn
    FROM rounds
    WHERE purpose = 'practice'
    GROUP BY clinic_id, player_id, stroke, date
), yardsticks AS (
    SELECT DISTINCT clinic_id, player_id, stroke, date, drill FROM rounds WHERE purpose = 'yardstick'
), uncoached AS (
    SELECT * FROM rounds WHERE purpose = 'yardstick'
    UNION ALL
    SELECT rounds.*
    FROM rounds
    JOIN yardsticks
        ON yardsticks.clinic_id = rounds.clinic_id AND yardsticks.player_id = rounds.player_id
        AND yardsticks.stroke = rounds.stroke AND yardsticks.date = rounds.date
        AND yardsticks.drill = rounds.drill
    LEFT JOIN practice
        ON practice.clinic_id = rounds.clinic_id AND practice.player_id = rounds.player_id
        AND practice.stroke = rounds.stroke AND practice.date = rounds.date
    WHERE purpose = 'hold' AND (practice.turn IS NULL OR rounds.turn < practice.turn)
)
SELECT clinic_id, clinic, player_id, player, stroke, cue, date, purpose, drill, rung, feed,
       CAST(sum(made) AS BIGINT) AS made, CAST(sum(seen) AS BIGINT) AS seen
FROM cue_counts
JOIN uncoached
    ON uncoached.book = cue_counts.book AND uncoached.round_id = cue_counts.round_id
GROUP BY clinic_id, clinic, player_id, player, stroke, cue, date, purpose, drill, rung, feed
ORDER BY clinic, clinic_id, player, player_id, stroke, cue, date, purpose, drill, rung, feed
