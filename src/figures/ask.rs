//! What a figure asks, and what was typed in answer.
//!
//! For: recipes, which read their answers here. Promises: a text that cannot be read becomes a
//! [`Problem`] that names its question and says how to write it; what was typed is never changed.

use std::collections::BTreeMap;
use std::fmt;

use chrono::{DateTime, FixedOffset};

use super::kit::Kit;
use crate::craft::{TimeZone, Unreadable, number};
use crate::reference::Reference;

/// Where the words come from that can be offered for a question.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Book {
    /// None: it is typed.
    None,
    /// One of these words and no other.
    Choice(&'static [&'static str]),
    /// Films of the reference; others can be typed.
    Films,
    /// Developers of the reference; others can be typed.
    Developers,
    /// Filters of the reference and the user's own; others can be typed.
    Filters,
    /// Formats of the reference; other sizes can be typed.
    Formats,
    /// Scenes of the reference and the user's own.
    Scenes,
    /// Lenses of the logbook.
    Lenses,
    /// Cameras of the logbook.
    Cameras,
    /// Places of the logbook; coordinates can be typed.
    Places,
}

/// One question of a figure.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Ask {
    /// Its key; with dashes for underscores its flag on the command line.
    pub key: &'static str,
    /// Its label in a pane.
    pub label: &'static str,
    /// What it means and how to write it, by an example: `bellows draw, 294 mm`.
    pub hint: &'static str,
    /// What can be offered for it.
    pub book: Book,
}

impl Ask {
    /// A question that is answered by typing.
    pub const fn typed(key: &'static str, label: &'static str, hint: &'static str) -> Ask {
        Ask {
            key,
            label,
            hint,
            book: Book::None,
        }
    }

    /// The same question with words that can be offered for it.
    pub const fn from(mut self, book: Book) -> Ask {
        self.book = book;
        self
    }

    /// The flag it has on the command line, without the dashes in front.
    pub fn flag(&self) -> String {
        self.key.replace('_', "-")
    }
}

/// What a figure could not be reckoned for.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub struct Problem {
    /// The key of the question it is about; nothing if it is about several together.
    pub key: Option<&'static str>,
    /// The label of that question.
    pub label: &'static str,
    /// What is wrong and what would do.
    pub says: String,
}

impl fmt::Display for Problem {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if self.label.is_empty() {
            f.write_str(&self.says)
        } else {
            write!(f, "{}: {}", self.label, self.says)
        }
    }
}

impl Problem {
    /// A problem of all that was typed together.
    pub fn of_all(says: impl Into<String>) -> Problem {
        Problem {
            key: None,
            label: "",
            says: says.into(),
        }
    }
}

/// What is at hand when a figure is reckoned.
#[derive(Clone, Copy)]
pub struct Desk<'a> {
    /// What the trade has published.
    pub reference: &'a Reference,
    /// What the user has measured and owns.
    pub kit: &'a dyn Kit,
    /// The moment, in the zone the user is in.
    pub now: DateTime<FixedOffset>,
    /// That zone.
    pub zone: TimeZone,
}

impl<'a> Desk<'a> {
    /// A desk with these things on it, in the zone whose clocks always stand as they do now.
    pub fn new(reference: &'a Reference, kit: &'a dyn Kit, now: DateTime<FixedOffset>) -> Desk<'a> {
        Desk {
            reference,
            kit,
            now,
            zone: TimeZone::Fixed(*now.offset()),
        }
    }

    /// The same desk in a zone.
    #[must_use]
    pub const fn in_zone(self, zone: TimeZone) -> Desk<'a> {
        Desk { zone, ..self }
    }
}

/// What was typed, question by question.
#[derive(Clone, Copy)]
pub struct Given<'a> {
    asks: &'a [Ask],
    typed: &'a BTreeMap<String, String>,
    desk: &'a Desk<'a>,
}

impl<'a> Given<'a> {
    /// What was typed in answer to `asks`.
    pub const fn new(
        asks: &'a [Ask],
        typed: &'a BTreeMap<String, String>,
        desk: &'a Desk<'a>,
    ) -> Given<'a> {
        Given { asks, typed, desk }
    }

    /// What is at hand.
    pub const fn desk(&self) -> &'a Desk<'a> {
        self.desk
    }

    /// The text of an answer without the blanks around it; nothing if it is empty.
    pub fn text(&self, key: &str) -> Option<&'a str> {
        let text = self.typed.get(key)?.trim();
        (!text.is_empty()).then_some(text)
    }

    /// An answer that may be missing.
    ///
    /// # Errors
    /// If it is there and cannot be read.
    pub fn may<T>(
        &self,
        key: &'static str,
        read: impl FnOnce(&str) -> Result<T, Unreadable>,
    ) -> Result<Option<T>, Problem> {
        self.text(key)
            .map(|text| read(text).map_err(|why| self.problem(key, why.to_string())))
            .transpose()
    }

    /// An answer that must be there.
    ///
    /// # Errors
    /// If it is missing or cannot be read.
    pub fn must<T>(
        &self,
        key: &'static str,
        read: impl FnOnce(&str) -> Result<T, Unreadable>,
    ) -> Result<T, Problem> {
        self.may(key, read)?.ok_or_else(|| self.missing(key))
    }

    /// A plain number that may be missing: `2.25`, `1/4`, `-3`.
    ///
    /// # Errors
    /// If it is there and is no number.
    pub fn number(&self, key: &'static str) -> Result<Option<f64>, Problem> {
        self.may(key, number)
    }

    /// One of the words of a question that offers a closed choice, found by its beginning.
    ///
    /// # Errors
    /// If it is there and is none of them.
    pub fn choice(&self, key: &'static str) -> Result<Option<&'static str>, Problem> {
        let Some(text) = self.text(key) else {
            return Ok(None);
        };
        let words = match self.ask(key).map(|ask| ask.book) {
            Some(Book::Choice(words)) => words,
            _ => &[],
        };
        let wanted = text.to_lowercase();
        let mut begun = words.iter().filter(|word| word.starts_with(&wanted));
        let exact = words.iter().find(|word| **word == wanted);
        let found = exact.or_else(|| match (begun.next(), begun.next()) {
            (Some(word), None) => Some(word),
            _ => None,
        });
        found.map(|word| Some(*word)).ok_or_else(|| {
            let words = words.join(", ");
            self.problem(key, format!("\"{text}\" is none of: {words}"))
        })
    }

    /// The problem that an answer is missing, with how to write it.
    pub fn missing(&self, key: &'static str) -> Problem {
        let hint = self.ask(key).map_or("", |ask| ask.hint);
        self.problem(key, format!("this is needed: {hint}"))
    }

    /// A problem with one answer.
    pub fn problem(&self, key: &'static str, says: impl Into<String>) -> Problem {
        Problem {
            key: Some(key),
            label: self.ask(key).map_or("", |ask| ask.label),
            says: says.into(),
        }
    }

    fn ask(&self, key: &str) -> Option<&'a Ask> {
        self.asks.iter().find(|ask| ask.key == key)
    }
}
