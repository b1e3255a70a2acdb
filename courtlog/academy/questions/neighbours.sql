-- How far neighbouring balls of a cue go alike: the sums over rounds of measures/shares/neighbours.py.
WITH by_round AS (
    SELECT book, round_id, cue, seen, pairs, both_made, either_made,
           CAST(made AS DOUBLE) / seen AS mean,
           CAST(made AS DOUBLE) / seen * (1 - CAST(made AS DOUBLE) / seen) AS spread
    FROM cue_counts
    WHERE seen > 0
)
SELECT clinic_id, player_id, stroke, cue, CAST(sum(seen) AS BIGINT) AS seen,
       CAST(sum(pairs) AS BIGINT) AS pairs,
       sum(CASE WHEN pairs > 0 THEN both_made - mean * either_made + mean * mean * pairs
                + pairs * spread / (seen - 1) ELSE 0 END) AS together,
       sum(spread * pairs) AS expected
FROM by_round
JOIN rounds ON rounds.book = by_round.book AND rounds.round_id = by_round.round_id
GROUP BY clinic_id, player_id, stroke, cue
HAVING sum(seen) >= 100
ORDER BY clinic_id, player_id, stroke, cue
