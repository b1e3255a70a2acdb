-- A round with a ball, in words, as one book has it. `turn` is its place among the player's rounds
-- of that stroke and date.
SELECT round.book, round.id AS round_id, clinics.clinic_id, clinics.clinic, day.date, day.court,
       people.player_id, people.player, drill_used.stroke, drill_used.name AS drill,
       drill_used.rung, drill_used.feed, round.purpose, ball_counts.balls, ball_counts.tough,
       row_number() OVER (
           PARTITION BY clinics.clinic_id, people.player_id, drill_used.stroke, day.date
           ORDER BY day.court, round.place, round.id
       ) AS turn
FROM ball_counts
JOIN round ON round.book = ball_counts.book AND round.id = ball_counts.round_id
JOIN day ON day.book = round.book AND day.id = round.day_id
JOIN drill_used ON drill_used.book = round.book AND drill_used.id = round.drill_id
LEFT JOIN kept_id AS of_clinic ON of_clinic.tbl = 'clinic' AND of_clinic.id = day.clinic_id
LEFT JOIN kept_id AS of_player ON of_player.tbl = 'player' AND of_player.id = round.player_id
JOIN clinics ON clinics.clinic_id = coalesce(of_clinic.kept, day.clinic_id)
JOIN people ON people.player_id = coalesce(of_player.kept, round.player_id)
