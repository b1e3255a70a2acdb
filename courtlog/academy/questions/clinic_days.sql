-- The dates of each clinic, and how many days it was planned for.
SELECT DISTINCT clinics.clinic_id, clinics.clinic, planned_days, date
FROM day
LEFT JOIN kept_id ON kept_id.tbl = 'clinic' AND kept_id.id = day.clinic_id
JOIN clinics ON clinics.clinic_id = coalesce(kept_id.kept, day.clinic_id)
ORDER BY clinics.clinic, clinics.clinic_id, date
