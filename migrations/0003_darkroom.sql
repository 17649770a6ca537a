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

INSERT OR REPLACE INTO settings (name, value)
    SELECT 'projections', 'to be made' WHERE EXISTS (SELECT 1 FROM entry);
