//! What can be wrong with the scenario, with the file and line it stands in.

use thiserror::Error;

use crate::logbook::{FieldProblem, Refusal};
use crate::store::StoreError;

/// Why the demo logbook could not be built.
#[derive(Debug, Error)]
pub enum DemoError {
    /// A line of the scenario is wrong.
    #[error("{file}, line {line}: {problem}")]
    Line {
        /// The file, as it stands in the project.
        file: String,
        /// The line in it, from 1.
        line: usize,
        /// What is wrong.
        #[source]
        problem: Box<Problem>,
    },
    /// The scenario holds no line at all.
    #[error("the demo scenario is empty")]
    Empty,
    /// The logbook file could not be made.
    #[error("the demo logbook could not be made: {0}")]
    Store(#[from] StoreError),
}

/// What is wrong with a line.
#[derive(Debug, Error)]
pub enum Problem {
    /// It is not TOML of the right shape.
    #[error("{0}")]
    Shape(String),
    /// A key that every line needs is missing.
    #[error("\"{0}\" is missing")]
    Missing(&'static str),
    /// A day, a time of day or a moment that cannot be read.
    #[error("\"{typed}\" is not {wanted}")]
    Moment {
        /// What is written.
        typed: String,
        /// How it has to be written.
        wanted: &'static str,
    },
    /// It lies before the line above it.
    #[error("it lies before the line above: lines stand in the order in which they were written")]
    Backwards,
    /// Values of one line that are lists of different lengths.
    #[error("\"{key}\" lists {found}, another key of this line {wanted}")]
    Lengths {
        /// The key.
        key: String,
        /// How many values it has.
        found: usize,
        /// How many another key has.
        wanted: usize,
    },
    /// A value of a kind that cannot be typed into a field.
    #[error("\"{0}\" is neither text nor number nor yes or no, nor a list of such")]
    Value(String),
    /// The deed is not known.
    #[error("\"{0}\" is not something that can be logged")]
    Deed(String),
    /// The deed has no such field.
    #[error("\"{deed}\" has no field \"{key}\"")]
    NoField {
        /// The deed.
        deed: &'static str,
        /// The key.
        key: String,
    },
    /// No line above is called so.
    #[error("no line above is called \"{0}\"")]
    NoMark(String),
    /// Fields that cannot be read.
    #[error("{}", all(.0))]
    Fields(Vec<FieldProblem>),
    /// The logbook said no.
    #[error("refused: {0}")]
    Refused(Box<Refusal>),
    /// The logbook was to say no, and took it.
    #[error("this was to be refused, and was taken")]
    Taken,
    /// What came into being is called something else.
    #[error("this makes {got}, not {wanted}")]
    OtherReference {
        /// What the scenario calls it.
        wanted: String,
        /// What the logbook calls it.
        got: String,
    },
    /// The logbook could not be written.
    #[error("{0}")]
    Store(#[from] StoreError),
}

fn all(problems: &[FieldProblem]) -> String {
    let problems: Vec<String> = problems.iter().map(ToString::to_string).collect();
    problems.join("; ")
}
