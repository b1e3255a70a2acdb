-- A clinic, once: the id that its books agree on, and what the latest of them calls it.
SELECT clinic_id, clinic, planned_days
FROM (
    SELECT coalesce(kept_id.kept, clinic.id) AS clinic_id, clinic.name AS clinic, planned_days,
           row_number() OVER (
               PARTITION BY coalesce(kept_id.kept, clinic.id)
               ORDER BY exports.place DESC, clinic.id
           ) AS turn
    FROM clinic
    JOIN exports ON exports.book = clinic.book
    LEFT JOIN kept_id ON kept_id.tbl = 'clinic' AND kept_id.id = clinic.id
) AS named
WHERE turn = 1
