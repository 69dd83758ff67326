-- The night's newest mark when a programme took over at once; null when it waits until the host accepts it.
ALTER TABLE tour ADD COLUMN took_over_at_seq INTEGER CHECK (took_over_at_seq >= 0);
UPDATE tour SET took_over_at_seq = 0;
