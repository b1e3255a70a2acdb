-- A player, once, without whoever was erased from any book.
SELECT player_id, player
FROM (
    SELECT coalesce(kept_id.kept, player.id) AS player_id, player.name AS player,
           row_number() OVER (
               PARTITION BY coalesce(kept_id.kept, player.id)
               ORDER BY exports.place DESC, player.id
           ) AS turn
    FROM player
    JOIN exports ON exports.book = player.book
    LEFT JOIN kept_id ON kept_id.tbl = 'player' AND kept_id.id = player.id
) AS named
WHERE turn = 1 AND player_id NOT IN (SELECT player_id FROM erased_people)
