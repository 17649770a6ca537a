//! What can be wrong with a reference file, in words that say where and what to do.
//!
//! The built-in files are checked by the tests, so a user meets these only with files of his own. A
//! bad own file is left out as a whole and reported; the built-in reference goes on without it.

use std::io;

use thiserror::Error;

/// A reference file that could not be used.
#[derive(Debug, Error)]
pub enum ReferenceError {
    /// The file or folder could not be read.
    #[error("{file} cannot be read ({source}): check that it is there and that you may read it")]
    Unreadable {
        /// The file or folder.
        file: String,
        /// What the system said.
        source: io::Error,
    },
    /// The file is too large to be a list that someone wrote.
    #[error(
        "{file} is larger than {limit} bytes: split it into smaller files, or check that it is the right one"
    )]
    TooLarge {
        /// The file.
        file: String,
        /// The largest size that is read, in bytes.
        limit: u64,
    },
    /// The file is not text.
    #[error("{file}, line {line}: not UTF-8 text: save the file as UTF-8")]
    NotText {
        /// The file.
        file: String,
        /// The line with the first bad byte, counted from 1.
        line: usize,
    },
    /// The file was read, but what it says cannot be used.
    #[error("{file}, line {line}: {fault}")]
    Faulty {
        /// The file.
        file: String,
        /// The line, counted from 1.
        line: usize,
        /// What is wrong there.
        fault: Fault,
    },
}

impl ReferenceError {
    /// The file the error is about.
    pub fn file(&self) -> &str {
        match self {
            ReferenceError::Unreadable { file, .. }
            | ReferenceError::TooLarge { file, .. }
            | ReferenceError::NotText { file, .. }
            | ReferenceError::Faulty { file, .. } => file,
        }
    }

    /// The line in that file, counted from 1, where one can be named.
    pub fn line(&self) -> Option<usize> {
        match self {
            ReferenceError::NotText { line, .. } | ReferenceError::Faulty { line, .. } => {
                Some(*line)
            }
            _ => None,
        }
    }

    /// What is wrong with the content, if the file could be read.
    pub fn fault(&self) -> Option<&Fault> {
        match self {
            ReferenceError::Faulty { fault, .. } => Some(fault),
            _ => None,
        }
    }
}

/// What is wrong with the content of a reference file.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
pub enum Fault {
    /// Not TOML, an unknown or missing key, or a value of the wrong kind.
    #[error("{message}: correct that line")]
    Shape {
        /// What the TOML reader said.
        message: String,
    },
    /// An id with other characters.
    #[error(
        "{id:?} is not an id: use lower-case letters, digits and single hyphens, such as \"clear-2\""
    )]
    BadId {
        /// What was written.
        id: String,
    },
    /// Two things with one id.
    #[error("a second {what} with the id {id:?}: give one of them another id")]
    Twice {
        /// What kind of thing.
        what: &'static str,
        /// The id.
        id: String,
    },
    /// The id was given in another of the user's files.
    #[error("{what} {id:?} is already in {other}: keep it in one of the two files")]
    InTwoFiles {
        /// What kind of thing.
        what: &'static str,
        /// The id.
        id: String,
        /// The other file.
        other: String,
    },
    /// A text that must say something is empty.
    #[error("{key} is empty: write something there, or leave the line out if it is optional")]
    Empty {
        /// The key.
        key: &'static str,
    },
    /// A name too long for a table column.
    #[error("short is longer than {limit} characters: shorten {short:?}")]
    TooLong {
        /// What was written.
        short: String,
        /// The most characters that fit.
        limit: usize,
    },
    /// A relation names a step that the process does not have.
    #[error(
        "{relation} of step {step:?} names {other:?}, which is no step of this process: correct the id, or add that step"
    )]
    UnknownStep {
        /// The step with the relation.
        step: String,
        /// `after`, `not_after` or `reopens`.
        relation: &'static str,
        /// The id it names.
        other: String,
    },
    /// A step comes after one that does not stand above it.
    #[error(
        "step {step:?} comes after {other:?}, which does not stand above it: put the steps in the order of work"
    )]
    NotAbove {
        /// The step.
        step: String,
        /// The step it names.
        other: String,
    },
    /// A required step comes after an optional one.
    #[error(
        "step {step:?} is required and comes after {other:?}, which is optional: make {other:?} required, or take it out of after"
    )]
    NeedsOptional {
        /// The required step.
        step: String,
        /// The optional one.
        other: String,
    },
    /// A step that comes after what forbids it.
    #[error(
        "step {step:?} can never be done: it comes after {other:?}, and {other:?} makes it too late"
    )]
    NeverPossible {
        /// The step.
        step: String,
        /// The step in both relations.
        other: String,
    },
    /// The required steps, done in order, do not finish a print.
    #[error("the required steps in their order do not finish a print: {problem}")]
    NoStraightRun {
        /// What stopped the run.
        problem: String,
    },
    /// A process without a required step.
    #[error("no step is required: a print would be finished before it is begun")]
    NothingRequired,
    /// A figure without a number and without words.
    #[error("{what:?} says nothing: give it from (and to), or a note")]
    SaysNothing {
        /// The name of the figure.
        what: String,
    },
    /// A range that is none.
    #[error(
        "{what:?} is not a range: from and to must be plain numbers, and to not less than from"
    )]
    BadRange {
        /// The name of the figure.
        what: String,
    },
    /// A built-in figure whose standing is not stated.
    #[error("{what:?} has no standing: write published, usual or remembered")]
    NoStanding {
        /// The name of the figure.
        what: String,
    },
    /// A published figure without its source.
    #[error(
        "{what:?} is called published but names no source: name the text, or call it usual or remembered"
    )]
    NoSource {
        /// The name of the figure.
        what: String,
    },
    /// A built-in figure that claims to be the user's own.
    #[error("{what:?} is called own, which only a user's own file can say")]
    NotOwn {
        /// The name of the figure.
        what: String,
    },
    /// A caution that is not in the list.
    #[error("no caution {id:?} in hazards.toml: correct the id, or add that caution")]
    UnknownCaution {
        /// The id.
        id: String,
    },
    /// A chemical that is not in the list.
    #[error("no chemical {id:?} in formulas.toml: correct the id, or add that chemical")]
    UnknownChemical {
        /// The id.
        id: String,
    },
    /// A formula that is not in the list.
    #[error("no formula {id:?} in formulas.toml: correct the id, or add that formula")]
    UnknownFormula {
        /// The id.
        id: String,
    },
    /// Something names a step, a figure, a part or a mix that the process does not have.
    #[error("{key} of {of} names {other:?}, which is not there: correct the name, or add it")]
    NotThere {
        /// What names it.
        of: String,
        /// The key that names it.
        key: &'static str,
        /// The name.
        other: String,
    },
    /// A recipe that cannot be reckoned with.
    #[error("mix {id:?} cannot be reckoned with: {why}")]
    BadMix {
        /// Its id.
        id: String,
        /// Why not, and what would do.
        why: String,
    },
    /// A table of contrast that cannot be reckoned with.
    #[error("contrast {id:?} cannot be reckoned with: {why}")]
    BadContrast {
        /// Its id.
        id: String,
        /// Why not, and what would do.
        why: String,
    },
    /// A bath of which nothing is told.
    #[error("the bath {name:?} says nothing: give it what it holds, a formula, or a note")]
    EmptyBath {
        /// Its name.
        name: String,
    },
    /// An amount without its unit.
    #[error("{what:?} has no unit: say what its number counts")]
    NoUnit {
        /// Its name.
        what: String,
    },
    /// An exposure scale that no print has.
    #[error("{what:?} is no exposure scale: it is a range of densities, above 0 and at most 4")]
    NoScale {
        /// The name of it.
        what: String,
    },
    /// A law of reciprocity that cannot be reckoned with.
    #[error("law {id:?} cannot be reckoned with: {why}")]
    BadLaw {
        /// Its id.
        id: String,
        /// Why not, and what would do.
        why: String,
    },
    /// A table of developing times that cannot be reckoned with.
    #[error("table of times {id:?} cannot be reckoned with: {why}")]
    BadTimes {
        /// Its id.
        id: String,
        /// Why not, and what would do.
        why: String,
    },
    /// A filter factor that gives light.
    #[error("{what:?} cannot have the factor {factor}: a filter takes light, so it is 1 or more")]
    NoFactor {
        /// The filter.
        what: String,
        /// What was written.
        factor: String,
    },
    /// Stops and a factor that do not say the same.
    #[error("{what:?} has stops and a factor that say two things: correct one, or leave it out")]
    Disagree {
        /// The filter.
        what: String,
    },
    /// A size or speed that cannot be.
    #[error("{what} must be greater than nothing: correct {value}")]
    NotPositive {
        /// The key.
        what: &'static str,
        /// What was written.
        value: String,
    },
}
