-- The cue that was named the main one of a stroke before its first yardstick ball.
-- Ids tell what came first: their lower 40 bits count upwards with the clock.
WITH begun AS (
    SELECT clinic_id, player_id, stroke, min(ball_id & 1099511627775) AS first_ball
    FROM taken_balls
    JOIN rounds ON rounds.book = taken_balls.book AND rounds.round_id = taken_balls.round_id
    WHERE purpose = 'yardstick'
    GROUP BY clinic_id, player_id, stroke
), named AS (
    SELECT coalesce(of_clinic.kept, main_cue.clinic_id) AS clinic_id,
           coalesce(of_player.kept, main_cue.player_id) AS player_id, main_cue.stroke, main_cue.cue,
           main_cue.id & 1099511627775 AS at_count
    FROM main_cue
    LEFT JOIN kept_id AS of_clinic
        ON of_clinic.tbl = 'clinic' AND of_clinic.id = main_cue.clinic_id
    LEFT JOIN kept_id AS of_player
        ON of_player.tbl = 'player' AND of_player.id = main_cue.player_id
), placed AS (
    SELECT named.clinic_id, named.player_id, named.stroke, cue,
           row_number() OVER (
               PARTITION BY named.clinic_id, named.player_id, named.stroke
               ORDER BY at_count DESC, cue
           ) AS turn
    FROM named
    JOIN begun
        ON begun.clinic_id = named.clinic_id AND begun.player_id = named.player_id
        AND begun.stroke = named.stroke
    WHERE at_count < first_ball
)
SELECT clinic_id, player_id, stroke, cue FROM placed WHERE turn = 1
ORDER BY clinic_id, player_id, stroke
