-- Schema 2: what figures at the camera need to know.
--
-- Only projections change. What stands in the new columns is made from the entries, which is done when
-- a file that has some is opened next: projections = 'to be made' in settings asks for it.

ALTER TABLE lens ADD COLUMN focal_length REAL;        -- mm
ALTER TABLE lens ADD COLUMN widest TEXT;
ALTER TABLE lens ADD COLUMN smallest TEXT;
ALTER TABLE lens ADD COLUMN shutter TEXT;
ALTER TABLE lens ADD COLUMN serial TEXT;
ALTER TABLE lens ADD COLUMN image_circle REAL;        -- mm across at infinity
ALTER TABLE lens ADD COLUMN pupil_ratio REAL;         -- exit over entrance
ALTER TABLE lens ADD COLUMN flange REAL;              -- mm to the film at infinity

ALTER TABLE camera ADD COLUMN size TEXT;
ALTER TABLE camera ADD COLUMN shortest_draw REAL;     -- mm
ALTER TABLE camera ADD COLUMN longest_draw REAL;      -- mm

ALTER TABLE exposure ADD COLUMN openings TEXT;        -- JSON array of seconds
ALTER TABLE exposure ADD COLUMN magnification REAL;   -- film over subject
ALTER TABLE exposure ADD COLUMN distance REAL;        -- mm from lens to subject
ALTER TABLE exposure ADD COLUMN flash TEXT;
ALTER TABLE exposure ADD COLUMN facing TEXT;
ALTER TABLE exposure ADD COLUMN planned_aperture TEXT;
ALTER TABLE exposure ADD COLUMN planned_seconds REAL;
ALTER TABLE exposure ADD COLUMN reckoning TEXT;       -- JSON object: the steps from reading to setting

-- One row for each test of a mark of a shutter that counts.
CREATE TABLE shutter_test (
    entry      INTEGER PRIMARY KEY,
    lens       BLOB NOT NULL,
    happened   TEXT NOT NULL,
    mark       REAL NOT NULL,                         -- seconds
    timings    TEXT NOT NULL,                         -- JSON array of seconds
    shots      INTEGER NOT NULL,
    mean       REAL,                                  -- seconds
    aperture   TEXT,
    instrument TEXT
) STRICT;

CREATE INDEX shutter_test_lens ON shutter_test (lens, entry);

-- What the user has found out. Each sort fills its own columns.
CREATE TABLE finding (
    id             BLOB PRIMARY KEY,
    reference      TEXT NOT NULL,
    state          TEXT NOT NULL,
    sort           TEXT NOT NULL,                     -- filter, reciprocity, light, meter, place
    about          TEXT NOT NULL,                     -- the filter, film, scene or place
    says           TEXT NOT NULL,                     -- what was found, in words
    film           TEXT,
    light          TEXT,
    stops          REAL,                              -- what a filter takes
    metered        REAL,                              -- seconds
    needed         REAL,                              -- seconds
    exposure_value REAL,                              -- at ISO 100
    reflected      REAL,                              -- K, cd/m2
    incident       REAL,                              -- C, lux
    latitude       REAL,                              -- degrees, south negative
    longitude      REAL,                              -- degrees, west negative
    zone           TEXT,
    found          TEXT,
    born           TEXT,
    since          TEXT
) STRICT, WITHOUT ROWID;

CREATE INDEX finding_state ON finding (state, id);

INSERT INTO settings (name, value)
    SELECT 'projections', 'to be made' WHERE EXISTS (SELECT 1 FROM entry);
