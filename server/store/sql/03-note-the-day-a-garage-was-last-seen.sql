-- The day on which a device of the garage last called, counted from 1970-01-01.
-- Garages that were there before count as seen today.
ALTER TABLE garages ADD COLUMN seen_day INTEGER NOT NULL DEFAULT 0;
UPDATE garages SET seen_day = unixepoch() / 86400;
