//! How long solutions and papers keep, and how much a bath does.
//!
//! Promises: a time that is read is one, a capacity is an amount for a volume, and both say what they
//! rest on; words stand where a text gives no number. When a bath of the user's own is spent is left
//! to its own record.

use std::fmt;

use serde::Deserialize;
use toml::Spanned;

use super::error::{Fault, ReferenceError};
use super::page::{Cite, Page};
use super::standing::Standing;
use crate::craft::{Millilitres, trimmed};
use crate::words::words;

words! {
    /// What a time of keeping is counted in.
    Span {
        /// Minutes.
        Minutes = "min",
        /// Hours.
        Hours = "h",
        /// Days.
        Days = "days",
        /// Weeks.
        Weeks = "weeks",
        /// Months of a twelfth of a year.
        Months = "months",
        /// Years of 365.25 days.
        Years = "years",
    }
}

impl Span {
    /// How many hours it has.
    pub const fn hours(self) -> f64 {
        match self {
            Span::Minutes => 1.0 / 60.0,
            Span::Hours => 1.0,
            Span::Days => 24.0,
            Span::Weeks => 168.0,
            Span::Months => 730.5,
            Span::Years => 8766.0,
        }
    }
}

/// How long something keeps.
#[derive(Debug, Clone, PartialEq)]
pub struct Keeping {
    /// What keeps, such as `A and B, apart`.
    pub what: String,
    /// How long, least and most, with the unit; `None` where the text says it in words.
    pub time: Option<((f64, f64), Span)>,
    /// What the text says in words; empty if nothing.
    pub note: String,
    /// Where it was read.
    pub source: String,
    /// What that source is worth.
    pub standing: Standing,
}

impl Keeping {
    /// How long in hours, least and most.
    pub fn hours(&self) -> Option<(f64, f64)> {
        let ((least, most), unit) = self.time?;
        Some((least * unit.hours(), most * unit.hours()))
    }
}

/// `3 days`, or the words where there is no number.
impl fmt::Display for Keeping {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.time {
            None => f.write_str(&self.note),
            Some((range, unit)) => write!(f, "{} {unit}", written(range)),
        }
    }
}

/// How much a bath does before it is spent.
#[derive(Debug, Clone, PartialEq)]
pub struct Capacity {
    /// Which bath.
    pub what: String,
    /// How many, least and most.
    pub amount: (f64, f64),
    /// What is counted, such as `sheets`.
    pub unit: String,
    /// The volume of the bath that does so many.
    pub per: Millilitres,
    /// A remark; empty if there is none.
    pub note: String,
    /// Where it was read.
    pub source: String,
    /// What that source is worth.
    pub standing: Standing,
}

impl Capacity {
    /// How many a litre does, least and most.
    pub fn per_litre(&self) -> (f64, f64) {
        let litres = self.per.value() / 1000.0;
        (self.amount.0 / litres, self.amount.1 / litres)
    }
}

/// `12 sheets in 887 ml`.
impl fmt::Display for Capacity {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} {} in {}", written(self.amount), self.unit, self.per)
    }
}

fn written((least, most): (f64, f64)) -> String {
    if most > least {
        format!("{} to {}", trimmed(least, 2), trimmed(most, 2))
    } else {
        trimmed(least, 2)
    }
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct KeepingFile {
    what: Spanned<String>,
    from: Option<f64>,
    to: Option<f64>,
    unit: Option<Span>,
    #[serde(default)]
    note: String,
    source: Option<String>,
    standing: Option<Standing>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct CapacityFile {
    what: Spanned<String>,
    from: f64,
    to: Option<f64>,
    unit: Spanned<String>,
    per: Spanned<String>,
    #[serde(default)]
    note: String,
    source: Option<String>,
    standing: Option<Standing>,
}

/// Reads and checks how long things keep.
pub(super) fn keeping(
    page: &Page<'_>,
    written: Vec<KeepingFile>,
) -> Result<Vec<Keeping>, ReferenceError> {
    let one = |one: KeepingFile| {
        let what = page.text("what", &one.what)?;
        let span = one.what.span();
        let range = page.range(&what, span.clone(), one.from, one.to)?;
        let time = match (range, one.unit) {
            (Some((least, _)), _) if least <= 0.0 => {
                let fault = Fault::NotPositive {
                    what: "a time of keeping",
                    value: least.to_string(),
                };
                return Err(page.fault(span, fault));
            }
            (Some(range), Some(unit)) => Some((range, unit)),
            (Some(_), None) => return Err(page.fault(span, Fault::NoUnit { what })),
            (None, _) if one.note.trim().is_empty() => {
                return Err(page.fault(span, Fault::SaysNothing { what }));
            }
            (None, _) => None,
        };
        let cite = Cite {
            source: one.source,
            standing: one.standing,
        };
        let (source, standing) = page.cited(&what, span, cite)?;
        Ok(Keeping {
            what,
            time,
            note: one.note,
            source,
            standing,
        })
    };
    written.into_iter().map(one).collect()
}

/// Reads and checks how much baths do.
pub(super) fn capacities(
    page: &Page<'_>,
    written: Vec<CapacityFile>,
) -> Result<Vec<Capacity>, ReferenceError> {
    let one = |one: CapacityFile| {
        let what = page.text("what", &one.what)?;
        let span = one.what.span();
        let range = page.range(&what, span.clone(), Some(one.from), one.to)?;
        let Some(amount) = range.filter(|(least, _)| *least > 0.0) else {
            let fault = Fault::NotPositive {
                what: "a capacity",
                value: one.from.to_string(),
            };
            return Err(page.fault(span, fault));
        };
        let per = Millilitres::parse(one.per.get_ref()).map_err(|why| {
            let message = why.to_string();
            page.fault(one.per.span(), Fault::Shape { message })
        })?;
        let cite = Cite {
            source: one.source,
            standing: one.standing,
        };
        let (source, standing) = page.cited(&what, span, cite)?;
        Ok(Capacity {
            what,
            amount,
            unit: page.text("unit", &one.unit)?,
            per,
            note: one.note,
            source,
            standing,
        })
    };
    written.into_iter().map(one).collect()
}
