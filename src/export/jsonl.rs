//! The whole logbook as lines of JSON, out and in.
//!
//! For: leaving. A file of these lines holds everything a logbook knows, can be read by any program
//! in any language, and makes the same logbook again, entry by entry with the same hashes.
//!
//! The first line says what follows:
//!
//! ```json
//! {"notchbook":1,"schema":1,"machine":"…","entries":57}
//! ```
//!
//! `notchbook` is the version of this form, `machine` the one the logbook was written on, `entries`
//! how many lines follow, by which a file that was cut off is noticed (it may be left out). Then
//! comes one object for each entry in the order they were written down:
//!
//! | key | value |
//! |---|---|
//! | `id`, `act`, `machine` | UUIDs as text |
//! | `seq` | its number on that machine |
//! | `happened`, `written` | RFC 3339, microseconds, the offset of the place |
//! | `kind` | what kind of thing happened |
//! | `form` | version of the body's form |
//! | `body` | the figures: the very JSON that is stored and hashed, so its spelling counts |
//! | `strikes`, `amends` | the entry it is about, when it is about one |
//! | `over` | why the usual order did not hold, when it did not |
//! | `note` | the note, when there is one |
//! | `hash` | BLAKE3 over all of this, in hex |
//!
//! Promises: [`read_lines`] of what [`write_lines`] wrote into an empty logbook gives the same
//! hashes and the same things; no line is passed over in silence. Leaves to the store: what may be
//! taken in, and the hash.

use std::io::{self, BufRead, Write};

use chrono::{DateTime, FixedOffset, SecondsFormat};
use serde::{Deserialize, Serialize};
use serde_json::value::RawValue;
use uuid::Uuid;

use crate::logbook::{ActId, EntryId, MachineId};
use crate::reference::Reference;
use crate::store::{Carried, Manner, NotTaken, Store, StoreError, Stored, TakenIn};

/// The version of the form of the lines.
const FORM: u32 = 1;

/// How long a line may be, in bytes: an entry has 64 KiB at most, and JSON may write a character of
/// a text in six.
const LONGEST_LINE: u64 = 512 * 1024;

/// The first line.
#[derive(Debug, Serialize, Deserialize)]
struct Header {
    notchbook: u32,
    schema: i64,
    machine: Uuid,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    entries: Option<u64>,
}

/// Any other line.
#[derive(Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Line {
    id: Uuid,
    act: Uuid,
    machine: Uuid,
    seq: u64,
    happened: String,
    written: String,
    kind: String,
    form: u32,
    body: Box<RawValue>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    strikes: Option<Uuid>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    amends: Option<Uuid>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    over: Option<String>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    note: Option<String>,
    hash: String,
}

/// A logbook could not be written out.
#[derive(Debug, thiserror::Error)]
pub enum ExportError {
    /// The logbook could not be read.
    #[error(transparent)]
    Store(#[from] StoreError),
    /// The lines could not be written.
    #[error("the export could not be written ({0}): what was written so far is not complete")]
    Write(#[from] io::Error),
    /// A line could not be put into JSON.
    #[error("entry #{row} could not be written as JSON ({source}): run check on the logbook")]
    Json {
        /// The number of the entry.
        row: i64,
        /// What is in the way.
        source: serde_json::Error,
    },
}

/// Lines could not be taken in at all.
#[derive(Debug, thiserror::Error)]
pub enum ImportError {
    /// The logbook could not be written.
    #[error(transparent)]
    Store(#[from] StoreError),
    /// The lines could not be read.
    #[error("the file could not be read ({0}): nothing was taken in")]
    Read(#[from] io::Error),
    /// The first line is not a header.
    #[error(
        "this is not an export of a logbook: its first line would begin with {{\"notchbook\":1; nothing was taken in"
    )]
    NotOurs,
    /// The form is newer than this version knows.
    #[error(
        "this export is of form {found} and this version reads forms up to {FORM}: use a newer version; nothing was taken in"
    )]
    Newer {
        /// Its form.
        found: u32,
    },
}

/// What was written out.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Exported {
    /// How many entries.
    pub entries: u64,
    /// The numbers of those whose hash is not that of what they say. They are written as they are,
    /// and will not be taken in anywhere.
    pub damaged: Vec<i64>,
}

/// Writes the whole logbook as lines.
///
/// # Errors
/// When the logbook cannot be read or the lines cannot be written.
pub fn write_lines(store: &Store, out: &mut dyn Write) -> Result<Exported, ExportError> {
    let mut exported = Exported::default();
    let out = std::cell::RefCell::new(out);
    store.walk(
        |whole| {
            let header = Header {
                notchbook: FORM,
                schema: whole.schema,
                machine: whole.machine.0,
                entries: Some(whole.entries),
            };
            write_line(&mut **out.borrow_mut(), 0, &header)
        },
        |row, stored| {
            if !stored.is_intact() {
                exported.damaged.push(row);
            }
            exported.entries += 1;
            let line = Line::of(stored).map_err(|source| ExportError::Json { row, source })?;
            write_line(&mut **out.borrow_mut(), row, &line)
        },
    )?;
    out.into_inner().flush()?;
    Ok(exported)
}

fn write_line(out: &mut dyn Write, row: i64, line: &impl Serialize) -> Result<(), ExportError> {
    let text = serde_json::to_string(line).map_err(|source| ExportError::Json { row, source })?;
    out.write_all(text.as_bytes())?;
    out.write_all(b"\n")?;
    Ok(())
}

/// Takes in lines that [`write_lines`] wrote, here or elsewhere.
///
/// # Errors
/// When the file is not an export, is of a newer form, or the logbook cannot be written; nothing was
/// taken in then. Lines that cannot be taken are no error: they are listed.
pub fn read_lines(
    store: &mut Store,
    input: &mut dyn BufRead,
    manner: Manner,
    reference: &Reference,
) -> Result<TakenIn, ImportError> {
    let mut lines = Lines::new(input);
    let first = match lines.next_line()? {
        Some((_, Ok(first))) => first,
        _ => return Err(ImportError::NotOurs),
    };
    // A form of the future may have another header, but will keep its first word.
    #[derive(Deserialize)]
    struct FirstWord {
        notchbook: u32,
    }
    let first = first.strip_prefix("\u{feff}".as_bytes()).unwrap_or(&first);
    match serde_json::from_slice::<FirstWord>(first) {
        Ok(word) if word.notchbook > FORM => {
            let found = word.notchbook;
            return Err(ImportError::Newer { found });
        }
        Ok(_) => {}
        Err(_) => return Err(ImportError::NotOurs),
    }
    let header: Header = serde_json::from_slice(first).map_err(|_| ImportError::NotOurs)?;
    let acts = Acts {
        lines,
        wanted: header.entries,
        seen: 0,
        ahead: None,
        over: false,
    };
    Ok(store.take_in(acts, manner, reference)?)
}

impl Line {
    fn of(stored: Stored) -> serde_json::Result<Line> {
        Ok(Line {
            id: stored.id.0,
            act: stored.act.0,
            machine: stored.machine.0,
            seq: stored.seq,
            happened: time_text(stored.happened),
            written: time_text(stored.written),
            kind: stored.kind,
            form: stored.form,
            body: raw(stored.body)?,
            strikes: stored.strikes.map(|it| it.0),
            amends: stored.amends.map(|it| it.0),
            over: stored.over,
            note: stored.note,
            hash: blake3::Hash::from_bytes(stored.hash).to_hex().to_string(),
        })
    }

    fn stored(self) -> Result<Stored, String> {
        Ok(Stored {
            id: EntryId(self.id),
            act: ActId(self.act),
            machine: MachineId(self.machine),
            seq: self.seq,
            happened: time(&self.happened)?,
            written: time(&self.written)?,
            kind: self.kind,
            form: self.form,
            body: text(&self.body)?,
            strikes: self.strikes.map(EntryId),
            amends: self.amends.map(EntryId),
            over: self.over,
            note: self.note,
            hash: blake3::Hash::from_hex(&self.hash)
                .map(Into::into)
                .map_err(|_| {
                    format!(
                        "\"{}\" is not a hash: 64 digits and letters a to f",
                        self.hash
                    )
                })?,
        })
    }
}

/// The stored text of a body as it stands in a line. A text that would break the line, which only a
/// file written by other means can hold, stands there as a string.
fn raw(body: String) -> serde_json::Result<Box<RawValue>> {
    if body.contains(['\n', '\r']) {
        return serde_json::value::to_raw_value(&body);
    }
    match RawValue::from_string(body.clone()) {
        Ok(raw) => Ok(raw),
        Err(_) => serde_json::value::to_raw_value(&body),
    }
}

fn text(body: &RawValue) -> Result<String, String> {
    if body.get().starts_with('"') {
        return serde_json::from_str(body.get()).map_err(|error| error.to_string());
    }
    Ok(body.get().to_owned())
}

fn time_text(at: DateTime<FixedOffset>) -> String {
    at.to_rfc3339_opts(SecondsFormat::Micros, false)
}

fn time(text: &str) -> Result<DateTime<FixedOffset>, String> {
    DateTime::parse_from_rfc3339(text).map_err(|error| {
        format!("\"{text}\" is not a time as in 2026-03-04T16:02:00+01:00 ({error})")
    })
}

/// The lines of a file, none of them longer than it may be.
struct Lines<'a> {
    input: &'a mut dyn BufRead,
    number: u64,
}

/// A line, or why it is none.
type Read = Result<Vec<u8>, &'static str>;

impl<'a> Lines<'a> {
    fn new(input: &'a mut dyn BufRead) -> Lines<'a> {
        Lines { input, number: 0 }
    }

    /// The next line that is not empty, with its number.
    fn next_line(&mut self) -> io::Result<Option<(u64, Read)>> {
        loop {
            let mut line = Vec::new();
            let mut limited = io::Read::take(&mut *self.input, LONGEST_LINE);
            if limited.read_until(b'\n', &mut line)? == 0 {
                return Ok(None);
            }
            self.number += 1;
            let ended = line.ends_with(b"\n");
            if !ended && line.len() as u64 == LONGEST_LINE {
                self.skip_line()?;
                return Ok(Some((
                    self.number,
                    Err("it is longer than any entry can be"),
                )));
            }
            if !line.trim_ascii().is_empty() {
                return Ok(Some((self.number, Ok(line))));
            }
        }
    }

    fn skip_line(&mut self) -> io::Result<()> {
        loop {
            let buffer = self.input.fill_buf()?;
            if buffer.is_empty() {
                return Ok(());
            }
            let end = buffer.iter().position(|byte| *byte == b'\n');
            let used = end.map_or(buffer.len(), |at| at + 1);
            self.input.consume(used);
            if end.is_some() {
                return Ok(());
            }
        }
    }
}

/// The acts of a file: lines that follow each other and belong to one act are offered together.
struct Acts<'a> {
    lines: Lines<'a>,
    /// How many entries the header promises.
    wanted: Option<u64>,
    /// How many lines there were.
    seen: u64,
    /// What was read beyond the act that was offered last.
    ahead: Option<Result<Carried, NotTaken>>,
    /// Whether the file is at its end.
    over: bool,
}

impl Acts<'_> {
    fn read_one(&mut self) -> Option<Result<Carried, NotTaken>> {
        if self.over {
            return None;
        }
        let line = self.lines.number + 1;
        match self.lines.next_line() {
            Ok(Some((line, read))) => {
                self.seen += 1;
                Some(
                    read.map_err(str::to_owned)
                        .and_then(|read| parse(&read))
                        .map(|stored| Carried { line, stored })
                        .map_err(|why| NotTaken { line, why }),
                )
            }
            Ok(None) => {
                self.over = true;
                let (wanted, seen) = (self.wanted?, self.seen);
                (wanted != seen).then(|| {
                    let why = format!(
                        "the file ends here after {seen} entries, and its first line promises {wanted}: it was cut off or changed"
                    );
                    Err(NotTaken { line, why })
                })
            }
            Err(error) => {
                self.over = true;
                let why = format!("the file could not be read any further ({error})");
                Some(Err(NotTaken { line, why }))
            }
        }
    }
}

fn parse(line: &[u8]) -> Result<Stored, String> {
    let line: Line = serde_json::from_slice(line)
        .map_err(|error| format!("it cannot be read as an entry ({error})"))?;
    line.stored()
}

impl Iterator for Acts<'_> {
    type Item = Result<Vec<Carried>, NotTaken>;

    fn next(&mut self) -> Option<Self::Item> {
        let first = match self.ahead.take().or_else(|| self.read_one())? {
            Ok(first) => first,
            Err(not_taken) => return Some(Err(not_taken)),
        };
        let act = first.stored.act;
        let mut carried = vec![first];
        loop {
            match self.read_one() {
                Some(Ok(next)) if next.stored.act == act => carried.push(next),
                ahead => {
                    self.ahead = ahead;
                    return Some(Ok(carried));
                }
            }
        }
    }
}
