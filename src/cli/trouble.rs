//! What can go wrong on the command line, each kind with its exit code.
//!
//! The code says what kind of trouble it was, so that a script can tell a refusal from a full disk;
//! the message says what happened and what to do next.

use std::io;
use std::path::{Path, PathBuf};

use serde_json::{Value, json};

use super::table::labelled;
use crate::logbook::{Kind, Refusal};
use crate::store::{AppendError, StoreError};

/// A flag whose value could not be read.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct BadFlag {
    /// The flag, with its dashes.
    pub(super) flag: String,
    /// What is wrong and how to write it.
    pub(super) problem: String,
}

/// What went wrong.
#[derive(Debug)]
pub(super) enum Trouble {
    /// The command line itself.
    Usage(String),
    /// The logbook says no.
    Refused(Box<Refusal>),
    /// Something typed cannot be read.
    Unreadable(Vec<BadFlag>),
    /// What was typed can be read, and still nothing can be reckoned from it.
    Impossible(String),
    /// Lines of a file that do not fit, and so none was taken in.
    NotTaken(Vec<String>),
    /// What was asked for is not in the logbook.
    NotFound(String),
    /// There is no logbook yet.
    NoLogbook {
        /// Where it would be.
        path: PathBuf,
        /// Whether it is the usual place.
        usual: bool,
    },
    /// The logbook file.
    Logbook(Box<StoreError>),
    /// Another file.
    File(String),
    /// Anything else.
    Other(String),
    /// Nobody reads the output any longer.
    ReaderGone,
}

/// Each exit code with what it means, for the help.
pub(super) const EXIT_CODES: &[(u8, &str)] = &[
    (0, "done"),
    (1, "something else went wrong"),
    (2, "the command line is wrong"),
    (3, "the logbook refuses"),
    (4, "something typed cannot be read or reckoned with"),
    (5, "not found in the logbook"),
    (
        6,
        "the logbook file is missing, locked, newer, damaged or full",
    ),
    (7, "another file cannot be read or written"),
];

impl Trouble {
    /// The exit code.
    pub(super) fn code(&self) -> u8 {
        match self {
            Trouble::ReaderGone => 0,
            Trouble::Other(_) => 1,
            Trouble::Usage(_) => 2,
            Trouble::Refused(_) | Trouble::NotTaken(_) => 3,
            Trouble::Unreadable(_) | Trouble::Impossible(_) => 4,
            Trouble::NotFound(_) => 5,
            Trouble::NoLogbook { .. } | Trouble::Logbook(_) => 6,
            Trouble::File(_) => 7,
        }
    }

    /// Its word in JSON.
    fn kind(&self) -> &'static str {
        match self {
            Trouble::ReaderGone | Trouble::Other(_) => "other",
            Trouble::Usage(_) => "usage",
            Trouble::Refused(_) | Trouble::NotTaken(_) => "refused",
            Trouble::Unreadable(_) => "unreadable",
            Trouble::Impossible(_) => "impossible",
            Trouble::NotFound(_) => "not-found",
            Trouble::NoLogbook { .. } | Trouble::Logbook(_) => "logbook",
            Trouble::File(_) => "file",
        }
    }

    /// What happened, in a sentence.
    fn message(&self) -> String {
        match self {
            Trouble::Usage(text)
            | Trouble::Impossible(text)
            | Trouble::NotFound(text)
            | Trouble::File(text)
            | Trouble::Other(text) => text.clone(),
            Trouble::Refused(refusal) => refusal.to_string(),
            Trouble::NotTaken(_) => "not every line fits, so nothing was taken in: correct the file, or take what fits with --keep-going".to_owned(),
            Trouble::Unreadable(flags) => match flags.as_slice() {
                [only] => format!("{}: {}", only.flag, only.problem),
                many => format!("{} things are missing or cannot be read:", many.len()),
            },
            Trouble::NoLogbook { path, usual: true } => format!(
                "there is no logbook yet at {}: \"notchbook begin\" makes one, and so does \"notchbook\" alone",
                path.display()
            ),
            Trouble::NoLogbook { path, usual: false } => format!(
                "there is no logbook at {}: check the name, or make one there with \"notchbook --logbook {} begin\"",
                path.display(),
                path.display()
            ),
            Trouble::Logbook(error) => with_causes(error.as_ref()),
            Trouble::ReaderGone => String::new(),
        }
    }

    /// Everything there is to say, over several lines if need be.
    pub(super) fn words(&self) -> String {
        let mut words = self.message();
        match self {
            Trouble::Unreadable(flags) if flags.len() > 1 => {
                let pairs: Vec<(&str, &str)> = flags
                    .iter()
                    .map(|flag| (flag.flag.as_str(), flag.problem.as_str()))
                    .collect();
                words.push('\n');
                words.push_str(&labelled(2, &pairs));
            }
            Trouble::NotTaken(lines) => {
                for line in lines {
                    words.push_str(&format!("\n  {line}"));
                }
            }
            Trouble::Refused(refusal) => {
                let possible = possible(refusal);
                // Most refusals name the alternatives themselves; a note is always possible.
                let named = |kind: &Kind| *kind == Kind::Noted || words.contains(kind.word());
                if !possible.iter().all(named) {
                    words.push_str(&format!("\n  can be logged now: {}", list(&possible)));
                }
                if refusal.can_be_overridden() {
                    words.push_str(
                        "\n  if it happened all the same: the same command with --override \"the reason\"",
                    );
                }
            }
            _ => {}
        }
        words
    }

    /// The trouble as a JSON document.
    pub(super) fn document(&self) -> Value {
        let mut error = json!({
            "kind": self.kind(),
            "message": self.message(),
            "possible": [],
            "exit": self.code(),
        });
        match self {
            Trouble::Refused(refusal) => {
                let words: Vec<&str> = possible(refusal).into_iter().map(Kind::word).collect();
                error["possible"] = words.into();
                error["can_be_overridden"] = refusal.can_be_overridden().into();
            }
            Trouble::NotTaken(lines) => error["lines"] = lines.clone().into(),
            Trouble::Unreadable(flags) => {
                let flags = flags
                    .iter()
                    .map(|flag| json!({ "flag": flag.flag, "problem": flag.problem }));
                error["flags"] = flags.collect();
            }
            _ => {}
        }
        json!({ "error": error })
    }

    /// A file other than the logbook that could not be used.
    pub(super) fn file(path: &Path, what: &str, error: &io::Error, next: &str) -> Trouble {
        let path = path.display();
        Trouble::File(format!("{path} cannot be {what} ({error}): {next}"))
    }

    /// Standard output could not be written.
    pub(super) fn from_output(error: io::Error) -> Trouble {
        if error.kind() == io::ErrorKind::BrokenPipe {
            Trouble::ReaderGone
        } else {
            Trouble::File(format!(
                "standard output cannot be written ({error}): check where it goes"
            ))
        }
    }
}

/// What can be logged instead. Of a thing that was not there at that time nothing can.
fn possible(refusal: &Refusal) -> Vec<Kind> {
    match refusal {
        Refusal::Order(order) if order.life.is_new() => Vec::new(),
        refusal => refusal.possible(),
    }
}

fn list(kinds: &[Kind]) -> String {
    let words: Vec<&str> = kinds.iter().map(|kind| kind.word()).collect();
    words.join(", ")
}

/// An error with what caused it, where the sentence does not say so already.
fn with_causes(error: &dyn std::error::Error) -> String {
    let mut text = error.to_string();
    let mut cause = error.source();
    while let Some(deeper) = cause {
        let why = deeper.to_string();
        if !text.contains(&why) {
            text.push_str(&format!(" ({why})"));
        }
        cause = deeper.source();
    }
    text
}

impl From<StoreError> for Trouble {
    fn from(error: StoreError) -> Trouble {
        Trouble::Logbook(Box::new(error))
    }
}

impl From<AppendError> for Trouble {
    fn from(error: AppendError) -> Trouble {
        match error {
            AppendError::Refused(refusal) => Trouble::Refused(Box::new(refusal)),
            AppendError::Store(error) => error.into(),
        }
    }
}
