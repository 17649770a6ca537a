//! The limits: what bare SQLite, a bare file and a bare buffer take for the least that has to be
//! done. Whatever notchbook does beyond that is what the ratios show.

use std::fs::File;
use std::io::Write as _;
use std::path::Path;

use anyhow::Result;
use ratatui::buffer::Buffer;
use ratatui::layout::Rect;
use ratatui::text::Line;
use ratatui::widgets::{Paragraph, Widget as _};
use rusqlite::{Connection, params};

/// Rows on a first page.
const ROWS: u32 = 60;

/// A connection as plain as it may be and still be safe.
pub(crate) fn open(path: &Path) -> Result<Connection> {
    let db = Connection::open(path)?;
    db.pragma_update(None, "journal_mode", "WAL")?;
    db.pragma_update(None, "synchronous", "FULL")?;
    Ok(db)
}

/// The newest sixty sheets, as text.
pub(crate) fn newest(db: &Connection) -> Result<Vec<String>> {
    let mut select = db.prepare_cached(
        "SELECT reference, state, coalesce(exposed, ''), coalesce(subject, '') FROM sheet \
         ORDER BY id DESC LIMIT ?1",
    )?;
    let rows = select.query_map([ROWS], |row| {
        let cells: [String; 4] = [row.get(0)?, row.get(1)?, row.get(2)?, row.get(3)?];
        Ok(cells.join("  "))
    })?;
    Ok(rows.collect::<rusqlite::Result<_>>()?)
}

/// Draws lines into a picture of this size.
pub(crate) fn draw(lines: &[String], (columns, rows): (u16, u16)) -> Buffer {
    let area = Rect::new(0, 0, columns, rows);
    let mut buffer = Buffer::empty(area);
    let lines: Vec<Line<'_>> = lines.iter().map(|line| Line::raw(line.as_str())).collect();
    Paragraph::new(lines).render(area, &mut buffer);
    buffer
}

/// A picture of this size in which every cell says something.
pub(crate) fn full_frame(before: &Buffer, (columns, rows): (u16, u16)) -> usize {
    let line = "S-0042  exposed  north wall, thaw  f/32 6 s  ".repeat(6);
    let lines = vec![line; usize::from(rows)];
    before.diff(&draw(&lines, (columns, rows))).len()
}

/// Opens, asks and draws.
pub(crate) fn first_frame(path: &Path, size: (u16, u16)) -> Result<Buffer> {
    let db = open(path)?;
    let lines = newest(&db)?;
    Ok(draw(&lines, size))
}

/// Four kilobytes at the end of a file, on the disk when this returns.
pub(crate) fn append(file: &mut File) -> Result<()> {
    file.write_all(&[0x5A; 4096])?;
    Ok(file.sync_data()?)
}

/// A file with one table like that of the entries, and nothing made from them.
pub(crate) struct OneTable {
    db: Connection,
    next: i64,
}

impl OneTable {
    /// A new file.
    pub(crate) fn create(path: &Path) -> Result<OneTable> {
        let db = open(path)?;
        db.execute_batch(
            "CREATE TABLE entry (row INTEGER PRIMARY KEY, id BLOB NOT NULL UNIQUE, \
             happened_us INTEGER NOT NULL, kind TEXT NOT NULL, body TEXT NOT NULL) STRICT",
        )?;
        Ok(OneTable { db, next: 1 })
    }

    /// One row, committed.
    pub(crate) fn insert(&mut self, body: &str) -> Result<()> {
        let mut id = [0_u8; 16];
        id[..8].copy_from_slice(&self.next.to_be_bytes());
        self.next += 1;
        self.db
            .prepare_cached(
                "INSERT INTO entry (id, happened_us, kind, body) VALUES (?1, ?2, ?3, ?4)",
            )?
            .execute(params![id, self.next, "exposed", body])?;
        Ok(())
    }

    /// Many rows in one transaction.
    pub(crate) fn insert_all(&mut self, bodies: &[String]) -> Result<()> {
        self.db.execute_batch("BEGIN IMMEDIATE")?;
        for body in bodies {
            self.insert(body)?;
        }
        Ok(self.db.execute_batch("COMMIT")?)
    }
}

/// Every body in a logbook.
pub(crate) fn bodies(path: &Path) -> Result<Vec<String>> {
    let db = open(path)?;
    let mut select = db.prepare("SELECT body FROM entry ORDER BY row")?;
    let rows = select.query_map([], |row| row.get(0))?;
    Ok(rows.collect::<rusqlite::Result<_>>()?)
}

/// What a rebuild cannot do without: it reads every body and writes every row that is made from
/// them, which here are copied from the file that has them; and it puts a text for each entry into
/// an index of words. The new file is `to`.
pub(crate) fn rewrite_everything(path: &Path, to: &Path) -> Result<()> {
    let db = open(to)?;
    db.execute_batch(include_str!("../../migrations/0001_logbook.sql"))?;
    db.execute("ATTACH ?1 AS made", [path.to_string_lossy()])?;
    db.execute_batch("BEGIN IMMEDIATE")?;
    let mut select = db.prepare("SELECT body FROM made.entry ORDER BY happened_us")?;
    let mut rows = select.query([])?;
    while let Some(row) = rows.next()? {
        let body: serde_json::Value = serde_json::from_str(row.get_ref(0)?.as_str()?)?;
        std::hint::black_box(body);
    }
    for table in [
        "touch",
        "link",
        "life",
        "counter",
        "film_box",
        "holder",
        "side",
        "sheet",
        "exposure",
        "companion_set",
        "run",
        "run_sheet",
        "bath",
        "paper",
        "print",
        "print_step",
        "lens",
        "camera",
    ] {
        db.execute_batch(&format!(
            "INSERT INTO main.{table} SELECT * FROM made.{table}"
        ))?;
    }
    db.execute_batch(
        "INSERT INTO main.words (rowid, text) \
         SELECT row, kind || ' ' || coalesce(note, '') || ' ' || substr(body, 1, 200) \
         FROM made.entry; COMMIT",
    )?;
    Ok(())
}

/// What a check cannot do without: a hash over every entry, and SQLite's own look at its pages.
pub(crate) fn hash_and_look(path: &Path) -> Result<usize> {
    let db = open(path)?;
    let mut right = 0;
    let mut select = db.prepare("SELECT id, kind, body, hash FROM entry ORDER BY row")?;
    let mut rows = select.query([])?;
    while let Some(row) = rows.next()? {
        let mut hasher = blake3::Hasher::new();
        hasher.update(row.get_ref(0)?.as_blob()?);
        hasher.update(row.get_ref(1)?.as_bytes()?);
        hasher.update(row.get_ref(2)?.as_bytes()?);
        let same = hasher.finalize().as_bytes().as_slice() == row.get_ref(3)?.as_blob()?;
        right += usize::from(same);
    }
    let verdict: String = db.query_row("PRAGMA quick_check", [], |row| row.get(0))?;
    anyhow::ensure!(verdict == "ok", "{verdict}");
    Ok(right)
}

/// Every entry as a line of JSON, by SQLite itself.
pub(crate) fn lines(path: &Path, out: &mut Vec<u8>) -> Result<()> {
    let db = open(path)?;
    let mut select = db.prepare(
        "SELECT json_object('id', hex(id), 'act', hex(act), 'machine', hex(machine), 'seq', seq, \
         'happened', happened_us, 'written', written_us, 'kind', kind, 'body', json(body), \
         'over', over, 'note', note, 'hash', hex(hash)) FROM entry ORDER BY row",
    )?;
    let mut rows = select.query([])?;
    while let Some(row) = rows.next()? {
        out.write_all(row.get_ref(0)?.as_bytes()?)?;
        out.write_all(b"\n")?;
    }
    Ok(())
}
