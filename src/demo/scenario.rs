//! The files of the scenario: days, and on each day lines as they would have been typed.
//!
//! # The file
//!
//! ```toml
//! [[day]]
//! date = "2025-02-03"
//! log = [
//!   { at = "21:32", log = "load", side = "H-07 A", film_box = "F-03", makes = "S-0042" },
//!   { at = "21:40", log = "note", thing = "H-07", text = "slide A is stiff" },
//! ]
//! ```
//!
//! `at` is when the line was written down, `log` the word of the deed on the command line; the other
//! keys are the fields of the deed, as text, number, or true and false for yes and no. Figures of a
//! step stand in a table of their own: `figures = { drops-a = 14 }`. Besides the fields there are
//!
//! - `happened`, when that was not `at`: a time of the same day, or `2025-02-02 16:40`;
//! - `over` and `note`, as in every pane;
//! - `makes`, the reference that what comes into being must be given;
//! - `refused = true`: the logbook must refuse the line, and it leaves no trace;
//! - `call`, a word by which a later line can strike or amend this one with `entry = "that word"`.
//!
//! A list in place of a value makes several entries of one act, and every list in the line has one
//! value for each of them: `side = ["H-07 A", "H-07 B"]`. A note that is no list goes with the first
//! of them. `{year}` in a text is the year of the line.
//! Days, times and the dates in fields are moved together, so only their distances matter; a date
//! that is the first of a month, as on a film box, stays one.

use std::collections::BTreeMap;

use chrono::{DateTime, Datelike, FixedOffset, NaiveDate, NaiveDateTime, NaiveTime, TimeDelta};
use serde::Deserialize;
use toml::{Spanned, Value};

use super::error::{DemoError, Problem};
use crate::logbook::draft::{FIGURE_PREFIX, NOTE};

/// One act of the scenario: a line of a file, which makes one entry or several.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Act {
    /// The file it stands in.
    pub(super) file: &'static str,
    /// Its line there, from 1.
    pub(super) line: usize,
    /// When it was written down, in the time of the file.
    pub(super) at: NaiveDateTime,
    /// The word of the deed.
    pub(super) log: String,
    /// Whether the logbook must refuse it.
    pub(super) refused: bool,
    /// Its entries.
    pub(super) entries: Vec<Typed>,
}

/// What is typed for one entry.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct Typed {
    /// The fields, with `over` and `note`.
    pub(super) fields: BTreeMap<String, String>,
    /// When it happened, if not when it was written.
    pub(super) happened: Option<NaiveDateTime>,
    /// What the thing that comes into being must be called.
    pub(super) makes: Option<String>,
    /// The word by which later lines name this entry.
    pub(super) mark: Option<String>,
    /// The word of the entry this one is about.
    pub(super) entry: Option<String>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Page {
    #[serde(default)]
    day: Vec<Day>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Day {
    date: Spanned<String>,
    log: Vec<Spanned<BTreeMap<String, Value>>>,
}

/// Reads the files, given as name and text, and checks that time goes forward in them.
pub(super) fn read(files: &[(&'static str, &str)]) -> Result<Vec<Act>, DemoError> {
    let mut acts: Vec<Act> = Vec::new();
    for (file, text) in files {
        let at = |start: usize, problem: Problem| DemoError::Line {
            file: (*file).to_owned(),
            line: line_of(text, start),
            problem: Box::new(problem),
        };
        let page: Page = toml::from_str(text).map_err(|error| {
            let message = error.message().replace('\n', ", ");
            at(
                error.span().map_or(0, |span| span.start),
                Problem::Shape(message),
            )
        })?;
        for day in page.day {
            let date = read_date(day.date.get_ref())
                .map_err(|problem| at(day.date.span().start, problem))?;
            for line in day.log {
                let start = line.span().start;
                let act = read_act(file, line_of(text, start), date, line.into_inner())
                    .map_err(|problem| at(start, problem))?;
                if acts.last().is_some_and(|before| before.at > act.at) {
                    return Err(at(start, Problem::Backwards));
                }
                acts.push(act);
            }
        }
    }
    Ok(acts)
}

fn line_of(text: &str, start: usize) -> usize {
    let before = text.get(..start).unwrap_or(text);
    1 + before.matches('\n').count()
}

fn read_date(typed: &str) -> Result<NaiveDate, Problem> {
    NaiveDate::parse_from_str(typed, "%Y-%m-%d").map_err(|_| Problem::Moment {
        typed: typed.to_owned(),
        wanted: "a day: write 2025-02-03",
    })
}

/// Reads `16:40`, of the day of the line, or `2025-02-02 16:40`.
fn read_moment(date: NaiveDate, typed: &str) -> Result<NaiveDateTime, Problem> {
    let (date, time) = match typed.split_once(' ') {
        Some((date, time)) => (read_date(date)?, time),
        None => (date, typed),
    };
    let time = NaiveTime::parse_from_str(time, "%H:%M").map_err(|_| Problem::Moment {
        typed: typed.to_owned(),
        wanted: "a time: write 16:40 or 2025-02-02 16:40",
    })?;
    Ok(date.and_time(time))
}

fn read_act(
    file: &'static str,
    line: usize,
    date: NaiveDate,
    keys: BTreeMap<String, Value>,
) -> Result<Act, Problem> {
    let mut columns = Columns::default();
    for (key, value) in keys {
        match (key.as_str(), value) {
            ("figures", Value::Table(figures)) => {
                for (key, value) in figures {
                    columns.add(format!("{FIGURE_PREFIX}{key}"), value)?;
                }
            }
            (_, value) => columns.add(key, value)?,
        }
    }
    let at = columns.once("at").ok_or(Problem::Missing("at"))?;
    let log = columns.once("log").ok_or(Problem::Missing("log"))?;
    let refused = columns.once("refused").is_some_and(|word| word == "yes");
    let entries: Result<Vec<Typed>, Problem> = columns
        .rows()
        .into_iter()
        .map(|mut fields| {
            let happened = fields.remove("happened");
            Ok(Typed {
                happened: happened.map(|text| read_moment(date, &text)).transpose()?,
                makes: fields.remove("makes"),
                mark: fields.remove("call"),
                entry: fields.remove("entry"),
                fields,
            })
        })
        .collect();
    Ok(Act {
        file,
        line,
        at: read_moment(date, &at)?,
        log,
        refused,
        entries: entries?,
    })
}

/// The keys of a line, each with one value for all its entries or one for each.
#[derive(Default)]
struct Columns {
    same: BTreeMap<String, String>,
    each: BTreeMap<String, Vec<String>>,
}

impl Columns {
    fn add(&mut self, key: String, value: Value) -> Result<(), Problem> {
        if let Value::Array(values) = value {
            let texts: Result<Vec<String>, Problem> =
                values.iter().map(|value| plain(&key, value)).collect();
            let texts = texts?;
            if texts.is_empty() {
                return Err(Problem::Value(key));
            }
            if let Some(other) = self.each.values().next()
                && other.len() != texts.len()
            {
                return Err(Problem::Lengths {
                    key,
                    found: texts.len(),
                    wanted: other.len(),
                });
            }
            self.each.insert(key, texts);
        } else {
            let text = plain(&key, &value)?;
            self.same.insert(key, text);
        }
        Ok(())
    }

    /// Takes out a key that holds for the whole line.
    fn once(&mut self, key: &str) -> Option<String> {
        self.same.remove(key)
    }

    fn rows(self) -> Vec<BTreeMap<String, String>> {
        let count = self.each.values().next().map_or(1, Vec::len);
        let mut rows = vec![self.same; count];
        for row in rows.iter_mut().skip(1) {
            row.remove(NOTE);
        }
        for (key, values) in self.each {
            for (row, value) in rows.iter_mut().zip(values) {
                row.insert(key.clone(), value);
            }
        }
        rows
    }
}

/// A value as it would be typed.
fn plain(key: &str, value: &Value) -> Result<String, Problem> {
    match value {
        Value::String(text) => Ok(text.clone()),
        Value::Integer(number) => Ok(number.to_string()),
        Value::Float(number) => Ok(number.to_string()),
        Value::Boolean(true) => Ok("yes".to_owned()),
        Value::Boolean(false) => Ok("no".to_owned()),
        Value::Datetime(_) | Value::Array(_) | Value::Table(_) => {
            Err(Problem::Value(key.to_owned()))
        }
    }
}

/// By how many whole days the scenario is moved, and the zone it is put in.
#[derive(Clone, Copy, Debug)]
pub(super) struct Shift {
    days: TimeDelta,
    zone: FixedOffset,
}

impl Shift {
    /// Moves `last` to within the day before `end`.
    pub(super) fn to_end(last: NaiveDateTime, end: DateTime<FixedOffset>) -> Shift {
        let seconds = (end.naive_local() - last).num_seconds();
        Shift {
            days: TimeDelta::days(seconds.div_euclid(24 * 60 * 60)),
            zone: *end.offset(),
        }
    }

    /// A moment of the scenario.
    pub(super) fn moment(&self, at: NaiveDateTime) -> DateTime<FixedOffset> {
        let moved = at + self.days;
        // In a zone of one fixed offset every local time is there exactly once.
        DateTime::from_naive_utc_and_offset(moved - self.zone_delta(), self.zone)
    }

    fn zone_delta(&self) -> TimeDelta {
        TimeDelta::seconds(i64::from(self.zone.local_minus_utc()))
    }

    /// A date in a field of the scenario.
    pub(super) fn date(&self, typed: &str) -> Result<String, Problem> {
        let date = read_date(typed)?;
        let moved = date + self.days;
        let moved = if date.day() == 1 {
            moved.with_day(1).unwrap_or(moved)
        } else {
            moved
        };
        Ok(moved.to_string())
    }
}
