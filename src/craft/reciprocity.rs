//! What film loses in long and in very short exposures, and what makes up for it.
//!
//! Twice the time stops being twice the exposure when the light is very weak or very strong. Makers
//! and practitioners say how much in different shapes, and each shape is a [`Form`] here: a power of
//! the time, the time with a power of it added, a table of rows, a list of bands. [`correct`] answers
//! all of them alike. Promises: a corrected time is never shorter than the metered one and grows with
//! it; a longer time and a wider lens are two ways out and are never turned into each other, because
//! the longer time fails once more; what lies outside a table is said to, or declined. Leaves to
//! others: which law belongs to which film (`reference`), which of several laws to trust, and the order of
//! work, in which this correction comes last, on the time that filters and bellows have led to.

mod bands;
mod table;

pub use bands::{Band, Bands, Gain};
pub use table::{Point, Table};

use super::figure::{Amount, Concern, Figure, Impossible, Step};
use super::numeral::trimmed;
use super::{Grounds, Seconds, Standing, Stops};

/// What was told, with what it rests on.
#[derive(Debug, Clone, PartialEq)]
pub struct Told<T> {
    /// What was told.
    pub value: T,
    /// What it rests on.
    pub grounds: Grounds,
}

impl<T> Told<T> {
    /// This, resting on that.
    pub const fn new(value: T, grounds: Grounds) -> Told<T> {
        Told { value, grounds }
    }
}

/// The shape in which a loss is told.
#[derive(Debug, Clone, PartialEq)]
pub enum Form {
    /// `t^P` with t in units of `from`: for t in seconds and a start of 1 s plainly `t^P`.
    Exponent {
        /// P, at least 1.
        power: f64,
        /// Up to here nothing is lost.
        from: Seconds,
    },
    /// `t + a t^P`, t in seconds.
    Additive {
        /// a, not below 0.
        a: f64,
        /// P, at least 1.
        power: f64,
    },
    /// Rows of metered times, straight between them on logarithmic scales.
    Table(Table),
    /// The same gain from one time on to the next.
    Bands(Bands),
}

/// The loss of one film as one text tells it.
#[derive(Debug, Clone, PartialEq)]
pub struct Law {
    /// The shape in which it is told.
    pub form: Form,
    /// What it rests on, where a single row does not say something else.
    pub grounds: Grounds,
    /// What the text advises besides, such as how to round; empty if nothing.
    pub advice: String,
}

/// What each part of a correction rests on.
#[derive(Debug, Clone, PartialEq)]
pub struct Rests {
    /// The longer time.
    pub time: Grounds,
    /// The wider lens.
    pub open: Grounds,
    /// The change of development.
    pub development: Grounds,
}

/// What makes up for the loss: a longer time, or instead of it a wider lens.
#[derive(Debug, Clone, PartialEq)]
pub struct Corrected {
    /// The time to give at the same aperture; the metered one where nothing is lost, none where the
    /// text gives a lens opening only.
    pub time: Option<Seconds>,
    /// By how much to open the lens instead, at the metered time; none where nothing is lost or the
    /// text gives a time only.
    pub open: Option<Stops>,
    /// What the correction comes to in stops: that of the time where there is one, else of the lens.
    pub stops: Stops,
    /// How to change the development, in the words of the text.
    pub development: Option<String>,
    /// Whether this lies outside what the text covers.
    pub beyond: bool,
    /// What each part rests on.
    pub rests: Rests,
}

impl Law {
    /// With this shape, resting on that.
    #[must_use]
    pub const fn new(form: Form, grounds: Grounds) -> Law {
        Law {
            form,
            grounds,
            advice: String::new(),
        }
    }

    /// The same law with what the text advises besides.
    #[must_use]
    pub fn advising(mut self, advice: impl Into<String>) -> Law {
        self.advice = advice.into();
        self
    }

    /// The longest time at which nothing is lost, where the text says one.
    #[must_use]
    pub fn starts(&self) -> Option<Seconds> {
        match &self.form {
            Form::Exponent { from, .. } => Some(*from),
            Form::Additive { .. } => None,
            Form::Table(table) => table.none_to(),
            Form::Bands(bands) => Some(bands.starts()),
        }
    }
}

/// What a form says of one metered time.
struct Found {
    /// The time in seconds.
    time: Option<Told<f64>>,
    /// The gain of the lens in stops.
    open: Option<Told<f64>>,
    development: Option<Told<String>>,
    working: String,
    /// What is to be said of it besides.
    remarks: Vec<(Concern, String)>,
}

impl Found {
    /// Nothing is lost at this time.
    fn nothing_lost(metered: Seconds, grounds: &Grounds, why: impl Into<String>) -> Found {
        Found {
            time: Some(Told::new(metered.value(), grounds.clone())),
            open: None,
            development: None,
            working: why.into(),
            remarks: Vec::new(),
        }
    }

    /// A longer time.
    fn longer(time: f64, grounds: &Grounds, working: String) -> Found {
        Found {
            time: Some(Told::new(time, grounds.clone())),
            open: None,
            development: None,
            working,
            remarks: Vec::new(),
        }
    }

    fn remark(mut self, concern: Concern, words: impl Into<String>) -> Found {
        self.remarks.push((concern, words.into()));
        self
    }
}

/// What makes up for the loss at `metered`, the time that meter, filters and bellows have led to.
///
/// ```
/// use notchbook::craft::reciprocity::{Form, Law, correct};
/// use notchbook::craft::{Grounds, Seconds};
/// let form = Form::Exponent { power: 1.31, from: Seconds::parse("1 s")? };
/// let law = Law::new(form, Grounds::published("Ilford, reciprocity compensation sheet"));
/// let time = correct(&law, Seconds::parse("10 s")?).unwrap().value.time.unwrap();
/// assert_eq!(time.to_string(), "20.417 s");
/// # Ok::<(), notchbook::craft::Unreadable>(())
/// ```
///
/// # Errors
/// If the law says nothing of so long a time, would shorten a time, or leads beyond 30 days.
pub fn correct(law: &Law, metered: Seconds) -> Result<Figure<Corrected>, Impossible> {
    let found = match &law.form {
        Form::Exponent { power, from } => exponent(*power, *from, metered, &law.grounds)?,
        Form::Additive { a, power } => additive(*a, *power, metered, &law.grounds)?,
        Form::Table(table) => table.find(metered, &law.grounds)?,
        Form::Bands(bands) => bands.find(metered, &law.grounds),
    };
    told(law, metered, found)
}

fn exponent(
    power: f64,
    from: Seconds,
    metered: Seconds,
    grounds: &Grounds,
) -> Result<Found, Impossible> {
    if !(power >= 1.0 && power.is_finite()) {
        return Err(Impossible::new(format!(
            "an exponent of {power} would shorten long times: it is 1 or more, such as 1.31"
        )));
    }
    if metered <= from {
        let why = format!("no correction at {from} or less");
        return Ok(Found::nothing_lost(metered, grounds, why));
    }
    let time = from.value() * (metered.value() / from.value()).powf(power);
    let base = trimmed(metered.value() / from.value(), 3);
    let unit = if from.value() == 1.0 {
        String::new()
    } else {
        format!("{from} x ")
    };
    let working = format!(
        "{unit}{base}^{} = {} s",
        trimmed(power, 3),
        significant(time)
    );
    Ok(Found::longer(time, grounds, working))
}

fn additive(a: f64, power: f64, metered: Seconds, grounds: &Grounds) -> Result<Found, Impossible> {
    if !(a >= 0.0 && a.is_finite() && power >= 1.0 && power.is_finite()) {
        return Err(Impossible::new(format!(
            "t + {a} t^{power} would shorten long times: the factor is 0 or more, the exponent 1 or \
             more, such as t + 0.1 t^1.62"
        )));
    }
    let t = metered.value();
    let time = t + a * t.powf(power);
    let shown = trimmed(t, 3);
    let working = format!(
        "{shown} + {} x {shown}^{} = {} s",
        trimmed(a, 4),
        trimmed(power, 3),
        significant(time)
    );
    Ok(Found::longer(time, grounds, working))
}

/// The factor `a` of `t + a t^power` for a film that needs `needed` seconds where `metered` were
/// reckoned; both in seconds.
///
/// # Errors
/// If the needed time is shorter than the metered one.
pub fn factor_of_added(metered: Seconds, needed: Seconds, power: f64) -> Result<f64, Impossible> {
    let (t, tc) = (metered.value(), needed.value());
    if tc < t {
        return Err(Impossible::new(format!(
            "{needed} is shorter than {metered}: film never needs less than was reckoned"
        )));
    }
    Ok((tc - t) / t.powf(power))
}

/// Three significant digits, as far as a count aloud can follow.
fn significant(value: f64) -> String {
    let places = match value {
        v if v < 1.0 => 4,
        v if v < 10.0 => 2,
        v if v < 100.0 => 1,
        _ => 0,
    };
    trimmed(value, places)
}

/// Puts what was found into a figure.
fn told(law: &Law, metered: Seconds, found: Found) -> Result<Figure<Corrected>, Impossible> {
    let too_long = || {
        Impossible::new(format!(
            "{metered} comes to more than 30 days on this film: open the lens, or wait for light"
        ))
    };
    // Powers and logarithms may fall short by a rounding error; no law shortens.
    let time = found
        .time
        .map(|time| Seconds::new(time.value.max(metered.value())).map(|t| (t, time.grounds)))
        .transpose()
        .map_err(|_| too_long())?;
    let open = found
        .open
        .map(|open| Stops::new(open.value).map(|stops| (stops, open.grounds)))
        .transpose()
        .map_err(|_| too_long())?;
    let stops = match (&time, &open) {
        (Some((time, _)), _) => Stops::from_factor(time.value() / metered.value())?,
        (None, Some((open, _))) => *open,
        (None, None) => {
            return Err(Impossible::new(format!(
                "neither a time nor a lens opening is given for {metered}: test it, or log what \
                 you found"
            )));
        }
    };
    let main = time.as_ref().map(|(_, grounds)| grounds);
    let main = main.or(open.as_ref().map(|(_, grounds)| grounds));
    let main = main.unwrap_or(&law.grounds).clone();
    let of = |grounds: Option<&Grounds>| grounds.unwrap_or(&law.grounds).clone();
    let rests = Rests {
        time: of(time.as_ref().map(|(_, grounds)| grounds)),
        open: of(open.as_ref().map(|(_, grounds)| grounds)),
        development: of(found.development.as_ref().map(|told| &told.grounds)),
    };

    let mut step = Step::new("reciprocity", Amount::Stops(stops))
        .working(found.working)
        .on(main.clone());
    if let Some((time, _)) = &time {
        step = step.brings(Amount::Time(*time));
    }
    let mut remembered = Vec::new();
    let mut note = |what: &'static str, grounds: &Grounds| {
        if grounds.standing == Standing::Remembered {
            remembered.push(what);
        }
    };
    let mut steps = vec![step];
    if let Some((_, grounds)) = &time {
        note("the time", grounds);
    }
    if let Some((open, grounds)) = &open {
        note("the lens opening", grounds);
        if time.is_some() {
            let instead = Step::new("or open the lens instead", Amount::Stops(*open));
            steps.push(instead.on(grounds.clone()));
        }
    }
    if let Some(development) = &found.development {
        note("the change of development", &development.grounds);
        let step = Step::new("development", Amount::words(development.value.clone()));
        steps.push(step.on(development.grounds.clone()));
    }

    let beyond = |(concern, _): &(Concern, String)| *concern == Concern::Beyond;
    let value = Corrected {
        time: time.as_ref().map(|(time, _)| *time),
        open: open.as_ref().map(|(open, _)| *open),
        stops,
        development: found.development.map(|told| told.value),
        beyond: found.remarks.iter().any(beyond),
        rests,
    };
    let mut figure = Figure::new(value, main).within(match law.form {
        Form::Table(_) => {
            "the rows, and straight lines between them on logarithmic scales, as usual"
        }
        Form::Bands(_) => "the bands that are told",
        Form::Exponent { .. } | Form::Additive { .. } => "",
    });
    figure.steps = steps;
    for (concern, words) in found.remarks {
        figure = figure.remark(concern, words);
    }
    if let (None, Some((open, _))) = (&time, &open) {
        let at_least = Seconds::new(metered.value() * open.factor()).map_err(|_| too_long())?;
        let words = format!(
            "only a lens opening is given; a longer time fails again, so it is more than {} s",
            significant(at_least.value())
        );
        figure = figure.remark(Concern::Note, words);
    }
    if !remembered.is_empty() {
        let words = format!("from memory, to be confirmed: {}", remembered.join(", "));
        figure = figure.remark(Concern::Warning, words);
    }
    // Where nothing is lost and nothing is to be said, advice would only be in the way.
    if !law.advice.is_empty() && (stops.value() > 0.0 || !figure.remarks.is_empty()) {
        figure = figure.remark(Concern::Note, law.advice.clone());
    }
    Ok(figure)
}

#[cfg(test)]
mod tests;
