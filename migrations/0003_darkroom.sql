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

-- Films and formats of the user's own are findings; each sort fills its own columns.
ALTER TABLE finding ADD COLUMN speed     INTEGER;     -- of a film, arithmetic
ALTER TABLE finding ADD COLUMN maker     TEXT;
ALTER TABLE finding ADD COLUMN kind      TEXT;        -- to what colours a film answers
ALTER TABLE finding ADD COLUMN size      TEXT;        -- the size in the name of a format
ALTER TABLE finding ADD COLUMN image     TEXT;        -- what its holders leave open
ALTER TABLE finding ADD COLUMN cut       TEXT;        -- the size its sheets are cut to
ALTER TABLE finding ADD COLUMN depth     REAL;        -- mm, from the face of the holder to its septum
ALTER TABLE finding ADD COLUMN tolerance REAL;        -- mm, either way

-- Strips of steps. One row for each strip that was read; what is reckoned from it is not kept.
CREATE TABLE strip (
    id          BLOB PRIMARY KEY,                     -- its finding
    read        TEXT,                                 -- when
    film        TEXT,
    developer   TEXT,
    dilution    TEXT,
    seconds     REAL,
    temperature REAL,                                 -- C
    sheet       BLOB,
    run         BLOB,
    bath        BLOB,
    series      TEXT,                                 -- of control strips
    tablet      TEXT NOT NULL,                        -- JSON: its steps, or the density of each
    bare        REAL,                                 -- log10 lux seconds without the tablet
    base_fog    REAL,
    readings    TEXT NOT NULL,                        -- JSON array of densities, null where none was read
    channel     TEXT,
    instrument  TEXT,
    joined      TEXT
) STRICT, WITHOUT ROWID;

CREATE INDEX strip_film ON strip (film, developer, id);
CREATE INDEX strip_series ON strip (series, id);
CREATE INDEX finding_sort ON finding (sort, id);

-- Steps by the clock: the sequence a run follows, and what is being counted of it or of a print.
ALTER TABLE run ADD COLUMN sequence TEXT;
ALTER TABLE run ADD COLUMN timing TEXT;              -- the step that is under way
ALTER TABLE print ADD COLUMN timing TEXT;

CREATE INDEX run_under_way ON run (id) WHERE ended IS NULL;
CREATE INDEX run_timing ON run (id) WHERE timing IS NOT NULL;
CREATE INDEX print_timing ON print (id) WHERE timing IS NOT NULL;

CREATE TABLE timed_step (
    thing       BLOB NOT NULL,                       -- a run or a print
    nth         INTEGER NOT NULL,
    step        TEXT NOT NULL,
    begun       TEXT NOT NULL,
    ended       TEXT,
    planned     REAL,                                -- seconds
    given       REAL,                                -- seconds, once it has ended
    bath        BLOB,
    temperature REAL,                                -- degrees C, as it was read last
    PRIMARY KEY (thing, nth)
) STRICT, WITHOUT ROWID;

-- Developing times of the user's own, and what a run was planned for.
ALTER TABLE finding ADD COLUMN developer TEXT;
ALTER TABLE finding ADD COLUMN dilution TEXT;
ALTER TABLE finding ADD COLUMN developed REAL;        -- seconds
ALTER TABLE finding ADD COLUMN temperature REAL;      -- degrees C
ALTER TABLE finding ADD COLUMN contrast TEXT;         -- N-1
ALTER TABLE finding ADD COLUMN gradient REAL;
ALTER TABLE run ADD COLUMN planned REAL;              -- seconds
ALTER TABLE run ADD COLUMN contrast TEXT;             -- what was asked of the development

INSERT OR REPLACE INTO settings (name, value)
    SELECT 'projections', 'to be made' WHERE EXISTS (SELECT 1 FROM entry);
