//! The table: what was measured, the limit measured beside it, the goal, and whether it is met.
//!
//! A goal is a ratio to a limit that bare code reached in the same run, a ceiling that people would
//! feel, or both. A goal that is not met is said in words and is no failure: the clock of a machine
//! that does other work is no judge.

use std::fmt;
use std::time::Duration;

/// A measured amount.
#[derive(Clone, Copy)]
pub(crate) enum Amount {
    /// A time.
    Time(Duration),
    /// A size in bytes.
    Bytes(u64),
    /// A number of anything.
    Count(f64),
}

impl Amount {
    #[allow(clippy::cast_precision_loss)] // for showing and comparing
    fn value(self) -> f64 {
        match self {
            Amount::Time(time) => time.as_secs_f64(),
            Amount::Bytes(bytes) => bytes as f64,
            Amount::Count(count) => count,
        }
    }
}

impl From<Duration> for Amount {
    fn from(time: Duration) -> Amount {
        Amount::Time(time)
    }
}

impl fmt::Display for Amount {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let text = match *self {
            Amount::Time(time) => {
                let us = time.as_secs_f64() * 1e6;
                if us < 1000.0 {
                    format!("{us:.1} us")
                } else if us < 1_000_000.0 {
                    format!("{:.2} ms", us / 1000.0)
                } else {
                    format!("{:.2} s", us / 1e6)
                }
            }
            Amount::Bytes(_) => format!("{:.1} MB", self.value() / 1e6),
            Amount::Count(count) => format!("{count:.1}"),
        };
        f.pad(&text)
    }
}

/// One line of the table.
pub(crate) struct Line {
    what: String,
    limit: Option<Amount>,
    value: Amount,
    ratio: Option<f64>,
    ceiling: Option<Amount>,
}

impl Line {
    /// A line without a goal yet.
    pub(crate) fn new(what: impl Into<String>, value: impl Into<Amount>) -> Line {
        Line {
            what: what.into(),
            limit: None,
            value: value.into(),
            ratio: None,
            ceiling: None,
        }
    }

    /// Compared with a limit, without a goal.
    pub(crate) fn beside(mut self, limit: impl Into<Amount>) -> Line {
        self.limit = Some(limit.into());
        self
    }

    /// At most so many times the limit.
    pub(crate) fn at_most(mut self, ratio: f64, limit: impl Into<Amount>) -> Line {
        self.limit = Some(limit.into());
        self.ratio = Some(ratio);
        self
    }

    /// At most so much.
    pub(crate) fn under(mut self, ceiling: impl Into<Amount>) -> Line {
        self.ceiling = Some(ceiling.into());
        self
    }

    fn reached(&self) -> Option<f64> {
        let limit = self.limit?.value();
        (limit > 0.0).then(|| self.value.value() / limit)
    }

    fn goal(&self) -> String {
        let ratio = self.ratio.map(|ratio| format!("{ratio:.1}x"));
        let ceiling = self.ceiling.map(|ceiling| ceiling.to_string());
        let parts: Vec<String> = ratio.into_iter().chain(ceiling).collect();
        parts.join(", ")
    }

    fn verdict(&self) -> &'static str {
        let ratio = self
            .ratio
            .map(|wanted| self.reached().is_some_and(|reached| reached <= wanted));
        let ceiling = self
            .ceiling
            .map(|ceiling| self.value.value() <= ceiling.value());
        match (ratio, ceiling) {
            (None, None) => "",
            (Some(false), Some(true)) => "not met: the ratio",
            (Some(true), Some(false)) => "not met: the ceiling",
            (ratio, ceiling) if ratio.unwrap_or(true) && ceiling.unwrap_or(true) => "met",
            _ => "not met",
        }
    }
}

/// The whole table.
#[derive(Default)]
pub(crate) struct Report {
    lines: Vec<Line>,
    remarks: Vec<String>,
}

impl Report {
    /// Adds a line and shows it at once, for the rest takes its time.
    pub(crate) fn add(&mut self, line: Line) {
        eprintln!("  {}: {}", line.what, line.value);
        self.lines.push(line);
    }

    /// Adds a sentence that stands under the table.
    pub(crate) fn remark(&mut self, text: impl Into<String>) {
        self.remarks.push(text.into());
    }

    /// Prints the table.
    pub(crate) fn print(&self) {
        println!(
            "{:<58} {:>10} {:>10} {:>7} {:>15}  verdict",
            "what", "limit here", "value", "ratio", "goal"
        );
        for line in &self.lines {
            let limit = line.limit.map(|limit| limit.to_string());
            let ratio = line.reached().map(|ratio| format!("{ratio:.2}"));
            println!(
                "{:<58} {:>10} {:>10} {:>7} {:>15}  {}",
                line.what,
                limit.unwrap_or_default(),
                line.value.to_string(),
                ratio.unwrap_or_default(),
                line.goal(),
                line.verdict()
            );
        }
        for remark in &self.remarks {
            println!("- {remark}");
        }
        let count = |wanted: &str| {
            let verdicts = self.lines.iter().map(Line::verdict);
            verdicts
                .filter(|verdict| verdict.starts_with(wanted))
                .count()
        };
        println!("{} goals met, {} not met", count("met"), count("not met"));
    }
}
