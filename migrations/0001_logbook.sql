-- The logbook file, schema 1.
--
-- entry is the truth: written once, never changed. Everything below the line "projections" is made
-- from it, in the same transaction, and can be made again from it at any time. Ids are UUIDs in 16
-- bytes. Times in entry are microseconds since 1970 with the offset of the place in minutes; in
-- projections they are RFC 3339 text with that offset. Quantities are in the unit the column's name
-- or comment says.

CREATE TABLE settings (
    name  TEXT PRIMARY KEY,
    value TEXT NOT NULL
) STRICT, WITHOUT ROWID;

CREATE TABLE entry (
    row             INTEGER PRIMARY KEY,              -- the number people use: #57
    id              BLOB NOT NULL UNIQUE CHECK (length(id) = 16),
    act             BLOB NOT NULL CHECK (length(act) = 16),
    machine         BLOB NOT NULL CHECK (length(machine) = 16),
    seq             INTEGER NOT NULL CHECK (seq > 0),
    happened_us     INTEGER NOT NULL,
    happened_offset INTEGER NOT NULL,
    written_us      INTEGER NOT NULL,
    written_offset  INTEGER NOT NULL,
    kind            TEXT NOT NULL,
    v               INTEGER NOT NULL,                 -- version of the body's form
    body            TEXT NOT NULL,                    -- JSON
    strikes         BLOB CHECK (length(strikes) = 16),
    amends          BLOB CHECK (length(amends) = 16),
    over            TEXT,                             -- why the usual order does not hold
    note            TEXT,
    hash            BLOB NOT NULL CHECK (length(hash) = 32),
    UNIQUE (machine, seq)
) STRICT;

CREATE INDEX entry_order ON entry (happened_us, written_us, machine, seq);
CREATE INDEX entry_kind ON entry (kind);
CREATE INDEX entry_strikes ON entry (strikes) WHERE strikes IS NOT NULL;
CREATE INDEX entry_amends ON entry (amends) WHERE amends IS NOT NULL;

CREATE TRIGGER entry_is_never_changed BEFORE UPDATE ON entry
BEGIN
    SELECT RAISE(ABORT, 'an entry is never changed: strike or amend it');
END;

CREATE TRIGGER entry_is_never_removed BEFORE DELETE ON entry
BEGIN
    SELECT RAISE(ABORT, 'an entry is never removed: strike it');
END;

-- INSERT OR REPLACE would remove an entry without asking the trigger above.
CREATE TRIGGER entry_is_never_replaced BEFORE INSERT ON entry
WHEN EXISTS (SELECT 1 FROM entry WHERE row = NEW.row)
  OR EXISTS (SELECT 1 FROM entry WHERE id = NEW.id)
  OR EXISTS (SELECT 1 FROM entry WHERE machine = NEW.machine AND seq = NEW.seq)
BEGIN
    SELECT RAISE(ABORT, 'an entry is never replaced: it is there already');
END;

-- What was typed and not yet logged. Not part of the log.
CREATE TABLE draft (
    name    TEXT PRIMARY KEY,
    kind    TEXT NOT NULL,
    about   TEXT,                                     -- reference of the thing at hand
    typed   TEXT NOT NULL,                            -- JSON object: key of the field, text
    changed TEXT NOT NULL
) STRICT, WITHOUT ROWID;

-- projections -------------------------------------------------------------------------------------

-- Which entries are part of the story of which thing. The entries about one entry (strikes,
-- amendments) and that entry all touch what any of them touches.
CREATE TABLE touch (
    thing BLOB NOT NULL CHECK (length(thing) = 16),
    entry INTEGER NOT NULL,
    kind  TEXT NOT NULL,                              -- kind of the thing
    PRIMARY KEY (thing, entry)
) STRICT, WITHOUT ROWID;

CREATE INDEX touch_entry ON touch (entry, thing, kind);

-- Lines of descent that count: of entries not struck, with their amended figures.
CREATE TABLE link (
    child  BLOB NOT NULL CHECK (length(child) = 16),
    parent BLOB NOT NULL CHECK (length(parent) = 16),
    role   TEXT NOT NULL,
    entry  INTEGER NOT NULL,
    PRIMARY KEY (child, parent, role, entry)
) STRICT, WITHOUT ROWID;

CREATE INDEX link_down ON link (parent, child, role, entry);

-- Every thing an entry touches. state is "not there yet" when every entry that brought it into
-- being is struck.
CREATE TABLE life (
    thing     BLOB PRIMARY KEY CHECK (length(thing) = 16),
    kind      TEXT NOT NULL,
    reference TEXT NOT NULL,                          -- empty when it is not there
    state     TEXT NOT NULL,
    born      TEXT,
    since     TEXT,
    last_us   INTEGER,                                -- when its last entry happened
    entries   INTEGER NOT NULL,
    overrides INTEGER NOT NULL,
    body      TEXT NOT NULL                           -- JSON: everything that is known of it
) STRICT;

CREATE INDEX life_reference ON life (reference, kind);

-- The highest number any reference of a kind was ever given, so that none is given twice.
CREATE TABLE counter (
    kind    TEXT PRIMARY KEY,
    highest INTEGER NOT NULL
) STRICT, WITHOUT ROWID;

CREATE TABLE film_box (
    id        BLOB PRIMARY KEY,
    reference TEXT NOT NULL,
    state     TEXT NOT NULL,
    film      TEXT NOT NULL,
    size      TEXT,
    speed     INTEGER,
    emulsion  TEXT,
    expiry    TEXT,
    kept      TEXT,
    sheets    INTEGER NOT NULL,
    remaining INTEGER NOT NULL,
    born      TEXT,
    since     TEXT
) STRICT, WITHOUT ROWID;

CREATE TABLE holder (
    id        BLOB PRIMARY KEY,
    reference TEXT NOT NULL,
    state     TEXT NOT NULL,
    size      TEXT,
    sides     INTEGER NOT NULL,
    make      TEXT,
    born      TEXT,
    since     TEXT
) STRICT, WITHOUT ROWID;

CREATE TABLE side (
    id         BLOB PRIMARY KEY,
    reference  TEXT NOT NULL,
    holder     BLOB,
    label      TEXT NOT NULL,
    nth        INTEGER NOT NULL,                      -- place among the sides of its holder, from 0
    state      TEXT NOT NULL,
    size       TEXT,
    sheet      BLOB,
    slide      TEXT,                                  -- bright, dark
    exposed    TEXT,
    doubt      TEXT,                                  -- what a slide showed that contradicts the log
    doubted    TEXT,
    since      TEXT
) STRICT, WITHOUT ROWID;

CREATE INDEX side_holder ON side (holder, nth);

CREATE TABLE sheet (
    id            BLOB PRIMARY KEY,
    reference     TEXT NOT NULL,
    state         TEXT NOT NULL,
    film_box      BLOB,
    side          BLOB,
    run           BLOB,
    companion_set BLOB,
    exposures     INTEGER NOT NULL,
    exposed       TEXT,                               -- the last exposure
    subject       TEXT,
    place         TEXT,
    camera        BLOB,
    lens          BLOB,
    aperture      TEXT,
    seconds       REAL,
    low           REAL,                               -- densities
    high          REAL,
    density_range REAL,
    base_fog      REAL,
    channel       TEXT,
    file_place    TEXT,
    prints        INTEGER NOT NULL,
    ending        TEXT,
    born          TEXT,
    since         TEXT
) STRICT, WITHOUT ROWID;

CREATE INDEX sheet_state ON sheet (state, id);
CREATE INDEX sheet_film_box ON sheet (film_box, id);
CREATE INDEX sheet_run ON sheet (run, id) WHERE run IS NOT NULL;
CREATE INDEX sheet_set ON sheet (companion_set, id) WHERE companion_set IS NOT NULL;

-- One row for each exposure that counts.
CREATE TABLE exposure (
    entry       INTEGER PRIMARY KEY,
    sheet       BLOB,
    side        BLOB,
    camera      BLOB,
    lens        BLOB,
    happened    TEXT NOT NULL,
    again       INTEGER NOT NULL,
    subject     TEXT,
    aperture    TEXT,
    f_number    REAL,
    seconds     REAL,
    speed       INTEGER,
    readings    TEXT,
    filters     TEXT,
    draw        REAL,                                 -- mm
    movements   TEXT,
    in_front    TEXT,
    light       TEXT,
    place       TEXT,
    weather     TEXT,
    development TEXT
) STRICT;

CREATE INDEX exposure_sheet ON exposure (sheet, entry);

CREATE TABLE companion_set (
    id        BLOB PRIMARY KEY,
    reference TEXT NOT NULL,
    state     TEXT NOT NULL,
    bond      TEXT,
    sheets    INTEGER NOT NULL,
    born      TEXT
) STRICT, WITHOUT ROWID;

CREATE TABLE run (
    id          BLOB PRIMARY KEY,
    reference   TEXT NOT NULL,
    state       TEXT NOT NULL,
    sheets      INTEGER NOT NULL,
    developer   BLOB,
    vessel      TEXT,
    seconds     REAL,
    temperature REAL,                                 -- degrees C
    ended       TEXT,
    born        TEXT,
    since       TEXT
) STRICT, WITHOUT ROWID;

CREATE TABLE run_sheet (
    run   BLOB NOT NULL,
    nth   INTEGER NOT NULL,
    sheet BLOB NOT NULL,
    PRIMARY KEY (run, nth)
) STRICT, WITHOUT ROWID;

CREATE TABLE bath (
    id        BLOB PRIMARY KEY,
    reference TEXT NOT NULL,
    state     TEXT NOT NULL,
    name      TEXT NOT NULL,
    purpose   TEXT,
    dilution  TEXT,
    volume    REAL,                                   -- ml
    stock     BLOB,
    capacity  INTEGER,
    uses      INTEGER NOT NULL,
    mixed     TEXT,
    born      TEXT,
    since     TEXT
) STRICT, WITHOUT ROWID;

CREATE INDEX bath_state ON bath (state, id);

CREATE TABLE paper (
    id        BLOB PRIMARY KEY,
    reference TEXT NOT NULL,
    state     TEXT NOT NULL,
    name      TEXT NOT NULL,
    sort      TEXT,
    size      TEXT,
    batch     TEXT,
    sheets    INTEGER NOT NULL,
    remaining INTEGER NOT NULL,
    born      TEXT,
    since     TEXT
) STRICT, WITHOUT ROWID;

CREATE TABLE print (
    id          BLOB PRIMARY KEY,
    reference   TEXT NOT NULL,
    state       TEXT NOT NULL,
    title       TEXT,
    process     TEXT NOT NULL,
    negative    BLOB,                                 -- the first; all of them are in link
    negatives   INTEGER NOT NULL,
    paper       BLOB,
    size        TEXT,
    steps       INTEGER NOT NULL,
    last_step   TEXT,
    number      TEXT,
    whereabouts TEXT,
    place       TEXT,
    due         TEXT,
    placed      TEXT,
    ending      TEXT,
    born        TEXT,
    since       TEXT
) STRICT, WITHOUT ROWID;

CREATE INDEX print_state ON print (state, id);

-- One row for each step of a print's process that counts.
CREATE TABLE print_step (
    entry       INTEGER PRIMARY KEY,
    print       BLOB NOT NULL,
    step        TEXT NOT NULL,
    happened    TEXT NOT NULL,
    seconds     REAL,
    temperature REAL,                                 -- degrees C
    figures     TEXT NOT NULL                         -- JSON object
) STRICT;

CREATE INDEX print_step_print ON print_step (print, entry);

CREATE TABLE lens (
    id        BLOB PRIMARY KEY,
    reference TEXT NOT NULL,
    state     TEXT NOT NULL,
    name      TEXT NOT NULL,
    exposures INTEGER NOT NULL,
    used      TEXT,
    born      TEXT,
    since     TEXT
) STRICT, WITHOUT ROWID;

CREATE TABLE camera (
    id        BLOB PRIMARY KEY,
    reference TEXT NOT NULL,
    state     TEXT NOT NULL,
    name      TEXT NOT NULL,
    exposures INTEGER NOT NULL,
    used      TEXT,
    born      TEXT,
    since     TEXT
) STRICT, WITHOUT ROWID;

-- Every word of every entry; rowid is the entry's row. The text itself is told anew from the entry.
CREATE VIRTUAL TABLE words USING fts5 (
    text,
    content = '',
    contentless_delete = 1,
    prefix = '2 3',
    tokenize = 'unicode61 remove_diacritics 2'
);

-- Small pieces of the index, merged seldom, make the writing of an entry touch few pages of the file.
INSERT INTO words (words, rank) VALUES ('automerge', 16);
INSERT INTO words (words, rank) VALUES ('pgsz', 1000);
