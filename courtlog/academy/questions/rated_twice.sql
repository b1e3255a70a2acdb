-- Strokes and cues of a clinic of which balls were rated a second time.
SELECT DISTINCT clinic_id, stroke, cue
FROM second_rating
JOIN ball ON ball.book = second_rating.book AND ball.id = second_rating.ball_id
JOIN rounds ON rounds.book = ball.book AND rounds.round_id = ball.round_id
JOIN round_cue
    ON round_cue.book = rounds.book AND round_cue.round_id = rounds.round_id
    AND round_cue.row = second_rating.row
ORDER BY clinic_id, stroke, cue
