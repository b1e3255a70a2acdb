-- The season by clinic, player, stroke, cue and purpose: how often each cue was made.
SELECT clinic_id, clinic, player_id, player, stroke, cue, purpose,
       CAST(sum(missed) AS BIGINT) AS missed, CAST(sum(near) AS BIGINT) AS near,
       CAST(sum(made) AS BIGINT) AS made, CAST(sum(not_seen) AS BIGINT) AS not_seen
FROM cue_counts
JOIN rounds ON rounds.book = cue_counts.book AND rounds.round_id = cue_counts.round_id
GROUP BY clinic_id, clinic, player_id, player, stroke, cue, purpose
ORDER BY clinic, clinic_id, player, player_id, stroke, cue, purpose
