//! How far a number may be trusted, and the published or usual figures that carry it.
//!
//! Every number that comes out of the reference says where it was read ([`Usual::source`]) and what
//! standing that gives it ([`Standing`]). The user's own measurement always wins, then what was
//! published; a number from memory is never passed off as published. This module does not choose
//! between figures that disagree: published figures do, and the reader shall see it.

use crate::craft::trimmed;
use std::fmt;

use super::paper::PaperKind;

pub use crate::craft::Standing;

/// Whether a record came with the program or from the user's own folder.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub enum Origin {
    /// Compiled into the program from `assets/`.
    BuiltIn,
    /// Read from this file of the user's own folder.
    Own(std::path::PathBuf),
    /// Found out by the user and kept in the logbook.
    Logbook,
}

impl Origin {
    /// True for a record of the user's own.
    pub fn is_own(&self) -> bool {
        matches!(self, Origin::Own(_) | Origin::Logbook)
    }
}

/// One usual or published figure: a range with its unit, or advice in words, and its source.
#[derive(Debug, Clone, PartialEq)]
pub struct Usual {
    /// What the figure is of, such as `time`, `temperature` or `ferric oxalate`.
    pub what: String,
    /// Lower and upper end in [`Usual::unit`]; both the same for a single figure, `None` for advice
    /// in words.
    pub range: Option<(f64, f64)>,
    /// Unit of the range as the trade writes it: `s`, `min`, `h`, `C`, `F`, `%`, `g/100 ml` ...
    /// Empty for a bare number and for advice in words.
    pub unit: String,
    /// Where it was read: author, title, publisher or journal, year, place in the text.
    pub source: String,
    /// What that source is worth.
    pub standing: Standing,
    /// A remark in our own words; empty if there is none.
    pub note: String,
    /// Set if the figure holds for one kind of paper only.
    pub paper: Option<PaperKind>,
}

impl Usual {
    /// The figure as people write it: `7 to 10 min`, `15 min`, `1.8`; the note where the figure is
    /// advice in words.
    pub fn value(&self) -> String {
        let Some((from, to)) = self.range else {
            return self.note.clone();
        };
        let mut text = trimmed(from, 4);
        if to > from {
            text.push_str(" to ");
            text.push_str(&trimmed(to, 4));
        }
        if !self.unit.is_empty() {
            text.push(' ');
            text.push_str(&self.unit);
        }
        text
    }

    /// The range in seconds, if the unit is one of time (`s`, `min`, `h`).
    pub fn seconds(&self) -> Option<(f64, f64)> {
        let (from, to) = self.range?;
        let factor = match self.unit.as_str() {
            "s" => 1.0,
            "min" => 60.0,
            "h" => 3600.0,
            _ => return None,
        };
        Some((from * factor, to * factor))
    }
}

/// `time: 7 to 10 min (published)`.
impl fmt::Display for Usual {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}: {} ({})", self.what, self.value(), self.standing)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn usual(range: Option<(f64, f64)>, unit: &str) -> Usual {
        Usual {
            what: "time".into(),
            range,
            unit: unit.into(),
            source: "a book".into(),
            standing: Standing::Published,
            note: "until clear".into(),
            paper: None,
        }
    }

    #[test]
    fn a_range_is_written_with_its_unit_and_a_single_figure_without_a_range() {
        assert_eq!(usual(Some((7.0, 10.0)), "min").value(), "7 to 10 min");
        assert_eq!(usual(Some((1.8, 1.8)), "").value(), "1.8");
        assert_eq!(usual(Some((0.456, 0.456)), "%").value(), "0.456 %");
        assert_eq!(usual(None, "").value(), "until clear");
    }

    #[test]
    fn only_units_of_time_become_seconds() {
        assert_eq!(
            usual(Some((1.5, 2.0)), "min").seconds(),
            Some((90.0, 120.0))
        );
        assert_eq!(
            usual(Some((1.0, 1.0)), "h").seconds(),
            Some((3600.0, 3600.0))
        );
        assert_eq!(usual(Some((20.0, 20.0)), "C").seconds(), None);
        assert_eq!(usual(None, "min").seconds(), None);
    }
}
