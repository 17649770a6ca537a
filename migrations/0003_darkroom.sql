-- Schema 3: what the darkroom needs to know: solutions by area and age, runs step by step, faults, strips
-- of steps, films and formats of the user's own.
--
-- Only projections change. What stands in the new columns and tables is made from the entries, which is
-- done when a file that has some is opened next: projections = 'to be made' in settings asks for it.

ALTER TABLE sheet ADD COLUMN scan TEXT;               -- where the file of its latest scan is
ALTER TABLE sheet ADD COLUMN faults INTEGER NOT NULL DEFAULT 0;

-- One row for each fault that was seen and counts.
CREATE TABLE fault (
    entry    INTEGER PRIMARY KEY,
    sheet    BLOB NOT NULL,
    happened TEXT NOT NULL,
    fault    TEXT NOT NULL,
    cause    TEXT,
    place    TEXT,
    harm     TEXT                                     -- harmless, can be mended, spoils it
) STRICT;

CREATE INDEX fault_sheet ON fault (sheet, entry);

-- Baths: what they were mixed from, what they are trusted with, how long they keep, and what went through
-- them by area. Areas are in square inches.
ALTER TABLE bath ADD COLUMN formula TEXT;
ALTER TABLE bath ADD COLUMN concentrate TEXT;
ALTER TABLE bath ADD COLUMN good_for TEXT;                        -- as it was told: '24 of 4x5 in'
ALTER TABLE bath ADD COLUMN good_for_area REAL;                   -- sq in
ALTER TABLE bath ADD COLUMN keeps TEXT;                           -- as it was told: '60 days'
ALTER TABLE bath ADD COLUMN last_day TEXT;                        -- good on it, and not longer
ALTER TABLE bath ADD COLUMN least REAL;                           -- ml of stock for 80 sq in
ALTER TABLE bath ADD COLUMN area REAL NOT NULL DEFAULT 0;         -- sq in, since mixed or replenished
ALTER TABLE bath ADD COLUMN unmeasured INTEGER NOT NULL DEFAULT 0; -- sheets of no known size
ALTER TABLE bath ADD COLUMN total_uses INTEGER NOT NULL DEFAULT 0; -- since mixed
ALTER TABLE bath ADD COLUMN total_area REAL NOT NULL DEFAULT 0;   -- sq in, since mixed
ALTER TABLE bath ADD COLUMN fresh_clearing REAL;                  -- s, film in the fresh fixer
ALTER TABLE bath ADD COLUMN clearing REAL;                        -- s, the same film last
ALTER TABLE bath ADD COLUMN first_bath BLOB;                      -- it is the second behind this one
ALTER TABLE bath ADD COLUMN second_bath BLOB;                     -- it is the first before this one
ALTER TABLE bath ADD COLUMN changes INTEGER NOT NULL DEFAULT 0;   -- of the pair it is the first of

INSERT OR REPLACE INTO settings (name, value)
    SELECT 'projections', 'to be made' WHERE EXISTS (SELECT 1 FROM entry);
