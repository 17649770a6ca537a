//! What a figure carries besides its value: the steps that led to it, what to look at, where the
//! formula holds and what it rests on.
//!
//! For: every function of the craft whose result a person acts on. Promises: a [`Figure`] never comes
//! without its steps; what cannot be reckoned is an [`Impossible`], a sentence and no number. Putting
//! a figure on a screen or into JSON is left to the callers, who find all they need as plain data.

use std::borrow::Cow;
use std::fmt;

use chrono::{DateTime, FixedOffset, TimeDelta};
use serde::Serialize;

use super::numeral::{four_figures, trimmed};
use super::{Aperture, ExposureValue, FilmSpeed, Grounds, Millimetres, Seconds, Stops, Unreadable};

/// A value with its unit, as a step or a result shows it.
#[derive(Debug, Clone, PartialEq)]
pub enum Amount {
    /// A span of time.
    Time(Seconds),
    /// An aperture.
    Aperture(Aperture),
    /// An exposure value.
    Ev(ExposureValue),
    /// A change in exposure.
    Stops(Stops),
    /// A film speed.
    Speed(FilmSpeed),
    /// A length.
    Length(Millimetres),
    /// A factor by which an exposure is multiplied.
    Factor(f64),
    /// A number of any other unit, shown with so many decimals at most.
    Number {
        /// The number, in `unit`.
        value: f64,
        /// The unit as the trade writes it; empty for a bare number.
        unit: &'static str,
        /// The most decimals that mean something.
        places: usize,
    },
    /// A moment.
    Moment(DateTime<FixedOffset>),
    /// A moment of a day that is known, shown as its time to the nearest minute.
    Clock(DateTime<FixedOffset>),
    /// Something said in words: `infinity`, `none`.
    Words(Cow<'static, str>),
}

impl Amount {
    /// A number of `unit`, shown with at most `places` decimals.
    #[must_use]
    pub const fn number(value: f64, unit: &'static str, places: usize) -> Amount {
        Amount::Number {
            value,
            unit,
            places,
        }
    }

    /// A number of `unit`, shown to four figures.
    #[must_use]
    pub fn measured(value: f64, unit: &'static str) -> Amount {
        Amount::number(value, unit, four_figures(value))
    }

    /// An angle in degrees, shown to a hundredth.
    #[must_use]
    pub const fn degrees(value: f64) -> Amount {
        Amount::number(value, "deg", 2)
    }

    /// Something said in words.
    #[must_use]
    pub fn words(words: impl Into<Cow<'static, str>>) -> Amount {
        Amount::Words(words.into())
    }

    /// The plain number and its unit, for scripts; no number for a moment and for words.
    #[must_use]
    pub fn plain(&self) -> (Option<f64>, &'static str) {
        match self {
            Amount::Time(time) => (Some(time.value()), "s"),
            Amount::Aperture(aperture) => (Some(aperture.number()), "f"),
            Amount::Ev(value) => (Some(value.value()), "EV"),
            Amount::Stops(stops) => (Some(stops.value()), "stops"),
            Amount::Speed(speed) => (Some(f64::from(speed.value())), "ISO"),
            Amount::Length(length) => (Some(length.value()), "mm"),
            Amount::Factor(factor) => (Some(*factor), "x"),
            Amount::Number { value, unit, .. } => (Some(*value), unit),
            Amount::Moment(_) | Amount::Clock(_) | Amount::Words(_) => (None, ""),
        }
    }
}

/// Shorter times than this are shown as fractions, which then tell them apart to a fortieth, in seconds.
const SHORT: f64 = 0.05;

/// A time as it can be held against the marks of a shutter: a short one that lies on none of them as the
/// nearest fraction, 1/410 s and not 0.002441 s.
fn in_marks(time: Seconds) -> String {
    if time.value() >= SHORT {
        return time.to_string();
    }
    format!("1/{:.0} s", 1.0 / time.value())
}

impl fmt::Display for Amount {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Amount::Time(time) => f.write_str(&in_marks(*time)),
            Amount::Aperture(aperture) => aperture.fmt(f),
            Amount::Ev(value) => value.fmt(f),
            Amount::Stops(stops) => stops.fmt(f),
            Amount::Speed(speed) => speed.fmt(f),
            Amount::Length(length) => length.fmt(f),
            Amount::Factor(factor) => write!(f, "x{}", trimmed(*factor, four_figures(*factor))),
            Amount::Number {
                value,
                unit,
                places,
            } => {
                if *unit == "f" {
                    return write!(f, "f/{}", trimmed(*value, *places));
                }
                f.write_str(&trimmed(*value, *places))?;
                if unit.is_empty() {
                    Ok(())
                } else {
                    write!(f, " {unit}")
                }
            }
            Amount::Moment(at) => write!(f, "{}", at.format("%Y-%m-%d %H:%M:%S")),
            Amount::Clock(at) => {
                let half_a_minute = TimeDelta::seconds(30);
                let nearest = at.checked_add_signed(half_a_minute).unwrap_or(*at);
                write!(f, "{}", nearest.format("%H:%M"))
            }
            Amount::Words(words) => f.write_str(words),
        }
    }
}

/// As a script reads it: the plain number with its unit, and the text a person reads.
impl Serialize for Amount {
    fn serialize<S: serde::Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        #[derive(Serialize)]
        struct Written {
            #[serde(skip_serializing_if = "Option::is_none")]
            value: Option<f64>,
            #[serde(skip_serializing_if = "str::is_empty")]
            unit: &'static str,
            #[serde(skip_serializing_if = "Option::is_none")]
            at: Option<String>,
            text: String,
        }
        let (value, unit) = self.plain();
        let at = match self {
            Amount::Moment(at) | Amount::Clock(at) => Some(at.to_rfc3339()),
            _ => None,
        };
        let text = self.to_string();
        Written {
            value,
            unit,
            at,
            text,
        }
        .serialize(serializer)
    }
}

/// One named step on the way to a figure.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Step {
    /// What it is, in a few words: `orange filter`, `draw 294 mm`.
    pub name: Cow<'static, str>,
    /// What it adds or what it comes to.
    pub amount: Amount,
    /// The working, with its numbers: `(294 / 240)² = 1.5`; empty where there is nothing to show.
    #[serde(skip_serializing_if = "String::is_empty")]
    pub working: String,
    /// What the figure has come to after this step, where that helps: the time so far.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub brings: Option<Amount>,
    /// What the number rests on; nothing for plain arithmetic on what was typed.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub grounds: Option<Grounds>,
}

impl Step {
    /// A step of plain arithmetic.
    #[must_use]
    pub fn new(name: impl Into<Cow<'static, str>>, amount: Amount) -> Step {
        Step {
            name: name.into(),
            amount,
            working: String::new(),
            brings: None,
            grounds: None,
        }
    }

    /// The same step with its working.
    #[must_use]
    pub fn working(mut self, working: impl Into<String>) -> Step {
        self.working = working.into();
        self
    }

    /// The same step with what the figure has come to after it.
    #[must_use]
    pub fn brings(mut self, amount: Amount) -> Step {
        self.brings = Some(amount);
        self
    }

    /// The same step with what the figure has come to after it, where that is known.
    #[must_use]
    pub fn brings_some(mut self, amount: Option<Amount>) -> Step {
        self.brings = amount;
        self
    }

    /// The same step with what its number rests on.
    #[must_use]
    pub fn on(mut self, grounds: Grounds) -> Step {
        self.grounds = Some(grounds);
        self
    }
}

/// How a remark is meant.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum Concern {
    /// Worth knowing.
    Note,
    /// To be looked at before going on.
    Warning,
    /// The figure is reckoned beyond what its source covers.
    Beyond,
}

/// A sentence beside a figure.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Remark {
    /// How it is meant.
    pub concern: Concern,
    /// The sentence.
    pub words: String,
}

/// A value with how it came about.
#[derive(Debug, Clone, PartialEq)]
pub struct Figure<T> {
    /// The value.
    pub value: T,
    /// The steps that led to it, in order.
    pub steps: Vec<Step>,
    /// What to look at.
    pub remarks: Vec<Remark>,
    /// Where the formula holds, in words; empty where it always does.
    pub domain: &'static str,
    /// What the formula rests on.
    pub grounds: Grounds,
}

impl<T> Figure<T> {
    /// A value by a formula that rests on `grounds`.
    #[must_use]
    pub const fn new(value: T, grounds: Grounds) -> Figure<T> {
        Figure {
            value,
            steps: Vec::new(),
            remarks: Vec::new(),
            domain: "",
            grounds,
        }
    }

    /// The same figure, holding where `domain` says.
    #[must_use]
    pub const fn within(mut self, domain: &'static str) -> Figure<T> {
        self.domain = domain;
        self
    }

    /// The same figure with one more step.
    #[must_use]
    pub fn step(mut self, step: Step) -> Figure<T> {
        self.steps.push(step);
        self
    }

    /// The same figure with a remark.
    #[must_use]
    pub fn remark(mut self, concern: Concern, words: impl Into<String>) -> Figure<T> {
        self.remarks.push(Remark {
            concern,
            words: words.into(),
        });
        self
    }

    /// The same steps to another form of the value.
    #[must_use]
    pub fn map<U>(self, to: impl FnOnce(T) -> U) -> Figure<U> {
        Figure {
            value: to(self.value),
            steps: self.steps,
            remarks: self.remarks,
            domain: self.domain,
            grounds: self.grounds,
        }
    }
}

/// What cannot be reckoned, in a sentence that says why and what would do.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("{0}")]
pub struct Impossible(Cow<'static, str>);

impl Impossible {
    /// With this sentence, beginning small and without a full stop.
    #[must_use]
    pub fn new(says: impl Into<Cow<'static, str>>) -> Impossible {
        Impossible(says.into())
    }
}

impl From<Unreadable> for Impossible {
    fn from(why: Unreadable) -> Impossible {
        Impossible::new(why.to_string())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_short_time_off_the_marks_is_shown_as_a_fraction() {
        for (seconds, shown) in [
            (0.002_441, "1/410 s"),
            (1.0 / 60.0, "1/60 s"),
            (0.0187, "1/53 s"),
            (0.09, "0.09 s"),
            (4.5, "4.5 s"),
        ] {
            let time = Amount::Time(Seconds::new(seconds).unwrap());
            assert_eq!(time.to_string(), shown);
        }
    }

    #[test]
    fn an_amount_is_a_number_for_scripts_and_a_text_for_people() {
        let time = Amount::Time(Seconds::parse("1/15").unwrap());
        let json = serde_json::to_value(&time).unwrap();
        assert_eq!(json["text"], "1/15 s");
        assert_eq!(json["unit"], "s");
        assert!((json["value"].as_f64().unwrap() - 1.0 / 15.0).abs() < 1e-12);
        let words = serde_json::to_value(Amount::words("infinity")).unwrap();
        assert_eq!(words, serde_json::json!({ "text": "infinity" }));
    }

    #[test]
    fn a_number_shows_no_more_decimals_than_mean_something() {
        assert_eq!(Amount::number(2.25, "", 3).to_string(), "2.25");
        assert_eq!(Amount::number(81_920.4, "lx", 0).to_string(), "81920 lx");
        assert_eq!(Amount::Factor(1.0 / 3.0).to_string(), "x0.3333");
        assert_eq!(Amount::Factor(20.159).to_string(), "x20.16");
        assert_eq!(Amount::Factor(1000.0).to_string(), "x1000");
        assert_eq!(Amount::number(163.3, "f", 0).to_string(), "f/163");
        assert_eq!(Amount::degrees(5.7392).to_string(), "5.74 deg");
    }

    #[test]
    fn a_figure_keeps_its_steps_and_remarks_in_order() {
        let figure = Figure::new(1.0, Grounds::usual())
            .step(Step::new("first", Amount::Factor(2.0)))
            .step(Step::new("second", Amount::Factor(0.5)).working("1 / 2"))
            .remark(Concern::Beyond, "outside the table")
            .map(|value| value * 2.0);
        assert_eq!(figure.value, 2.0);
        let names: Vec<_> = figure.steps.iter().map(|step| step.name.as_ref()).collect();
        assert_eq!(names, ["first", "second"]);
        assert_eq!(figure.remarks.len(), 1);
    }
}
