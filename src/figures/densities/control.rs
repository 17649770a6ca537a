//! Control strips of one process over time: gradient, speed and base plus fog between limits.
//!
//! For: the control view of a logbook, its command and its files. Promises: every limit comes with the
//! rule that made it; what lies outside is said with how much, on which side and since which day; a strip
//! of which a measure cannot be taken is left out of that measure and said.

use chrono::NaiveDate;

use crate::craft::sensitometry::control::{Ending, Limits, Set, ending, limits, trend_grounds};
use crate::craft::sensitometry::{Curve, Whole};
use crate::craft::{Amount, Concern, Figure, Grounds, Impossible, Remark, Step};
use crate::figures::{Answer, Chart, Line, Series, Table};

/// Log exposure of one stop.
const STOP: f64 = std::f64::consts::LOG10_2;
/// How far a density is off when it is read to two places.
const READ_TO: f64 = 0.01;
/// Over how much log exposure the average gradient is taken.
const SPAN: f64 = 1.50;

/// Where to look when a process leaves its limits.
const CAUSES: Grounds = Grounds::published(
    "US Navy, Photography (Advanced), NAVEDTRA 14208, plotting high density on a process control chart: \
     temperature, time and replenishment bring it out of control",
);

/// One control strip.
#[derive(Debug, Clone)]
pub struct ControlStrip {
    /// What it is called.
    pub name: String,
    /// The day it was read.
    pub on: NaiveDate,
    /// Its curve.
    pub curve: Curve,
}

/// What a series is measured against, where it was set.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Wanted {
    /// Of the average gradient.
    pub gradient: Set,
    /// Of the effective speed: the aim as a speed, how far it may be off in stops.
    pub speed: Set,
    /// Of base plus fog.
    pub base_fog: Set,
}

/// One measure over all strips.
#[derive(Debug, Clone)]
pub struct Measure {
    /// What it is.
    pub name: &'static str,
    /// Its limits, in its own unit: stops for a speed.
    pub limits: Result<Limits, Impossible>,
    /// How it ends.
    pub ending: Option<Ending>,
    /// That in a sentence.
    pub says: String,
    /// The value of every strip, where it can be taken, in its own unit.
    pub values: Vec<Option<f64>>,
    scale: Scale,
}

/// How a measure is written.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Scale {
    /// As it is, with so many places.
    Plain(usize),
    /// In stops, and told as a speed.
    Speed,
    /// In stops from the bare light.
    Stops,
}

impl Scale {
    const fn places(self) -> usize {
        match self {
            Scale::Plain(places) => places,
            Scale::Speed | Scale::Stops => 2,
        }
    }

    /// A value as it is drawn and told.
    fn told(self, value: f64) -> f64 {
        match self {
            Scale::Speed => value.exp2(),
            Scale::Plain(_) | Scale::Stops => value,
        }
    }

    fn difference(self, by: f64) -> String {
        match self {
            // What is outside by a hair is not outside by nothing.
            Scale::Plain(_) if by.abs() < 0.005 => format!("{:.3}", by.abs()),
            Scale::Plain(_) => format!("{:.2}", by.abs()),
            Scale::Speed | Scale::Stops => format!("{:.2} stop", by.abs()),
        }
    }

    fn amount(self, value: f64) -> Amount {
        match self {
            Scale::Speed => Amount::number(value.exp2(), "", 0),
            Scale::Plain(places) => Amount::number(value, "", places),
            Scale::Stops => Amount::number(value, "stops", 2),
        }
    }
}

/// A series of control strips against its limits.
#[derive(Debug, Clone)]
pub struct Control {
    /// The strips, oldest first.
    pub strips: Vec<ControlStrip>,
    /// Gradient, speed and base plus fog.
    pub measures: Vec<Measure>,
    /// What to look at.
    pub remarks: Vec<Remark>,
}

/// Puts strips, oldest first, between limits.
#[must_use]
pub fn control(strips: Vec<ControlStrip>, wanted: &Wanted) -> Control {
    let wholes: Vec<Whole> = strips.iter().map(|strip| Whole::of(&strip.curve)).collect();
    let gradients = wholes.iter().map(Whole::average_gradient).collect();
    let points: Vec<_> = wholes.iter().map(Whole::speed_point).collect();
    let absolute = points.iter().flatten().all(|point| point.speed.is_some());
    let speeds = points.iter().map(|point| {
        let point = (*point)?;
        match point.speed {
            Some(speed) if absolute => Some(speed.log2()),
            // Less light at the speed point is more speed.
            _ => Some(-point.log_h / STOP),
        }
    });
    let base_fogs = wholes.iter().map(|whole| Some(whole.base_fog)).collect();
    // Two densities make a gradient, and two make the place of the speed point.
    let off = std::f64::consts::SQRT_2 * READ_TO;
    let slope = strips.iter().zip(&points).find_map(|(strip, point)| {
        let slope = strip.curve.slope(point.as_ref()?.log_h)?;
        (slope > 0.0).then_some(slope)
    });
    let speed_off = slope.map_or(READ_TO, |slope| off / slope / STOP);
    let (speed_name, scale) = if absolute {
        ("effective speed", Scale::Speed)
    } else {
        ("speed point", Scale::Stops)
    };
    let speed = Set {
        aim: wanted.speed.aim.filter(|_| absolute).map(f64::log2),
        ..wanted.speed
    };
    let mut remarks = Vec::new();
    let measures = vec![
        Measure::of(
            "gradient",
            gradients,
            wanted.gradient,
            off / SPAN,
            Scale::Plain(3),
            &strips,
        ),
        Measure::of(
            speed_name,
            speeds.collect(),
            speed,
            speed_off,
            scale,
            &strips,
        ),
        Measure::of(
            "base plus fog",
            base_fogs,
            wanted.base_fog,
            READ_TO,
            Scale::Plain(2),
            &strips,
        ),
    ];
    let mut say = |concern, words: String| remarks.push(Remark { concern, words });
    if wanted.speed.aim.is_some() && !absolute {
        say(
            Concern::Note,
            "an effective speed is set, and not every strip tells the light without tablet, so that \
             strips are compared with each other"
                .to_owned(),
        );
    }
    for measure in &measures {
        let left_out: Vec<&str> = measure
            .values
            .iter()
            .zip(&strips)
            .filter(|(value, _)| value.is_none())
            .map(|(_, strip)| strip.name.as_str())
            .collect();
        if !left_out.is_empty() {
            let words = format!("{} cannot be told of {}", measure.name, left_out.join(", "));
            say(Concern::Note, words);
        }
        match measure.ending {
            Some(Ending::Outside { .. }) => say(Concern::Warning, measure.says.clone()),
            Some(Ending::Trend { .. }) => say(Concern::Note, measure.says.clone()),
            _ => {}
        }
    }
    if let [gradient, speed, ..] = measures.as_slice()
        && gradient.goes_down()
        && speed.goes_down()
    {
        say(
            Concern::Warning,
            "gradient and speed go down together: the developer does less than it did; look at its \
             temperature, time and replenishment before anything else is developed"
                .to_owned(),
        );
    }
    Control {
        strips,
        measures,
        remarks,
    }
}

/// A day as people say it; its year where it is another than that of `last`.
fn day(on: NaiveDate, last: NaiveDate) -> String {
    use chrono::Datelike;
    let format = if on.year() == last.year() {
        "%-d %b"
    } else {
        "%-d %b %Y"
    };
    on.format(format).to_string()
}

impl Measure {
    fn of(
        name: &'static str,
        values: Vec<Option<f64>>,
        set: Set,
        least: f64,
        scale: Scale,
        strips: &[ControlStrip],
    ) -> Measure {
        let there: Vec<(usize, f64)> = values
            .iter()
            .enumerate()
            .filter_map(|(at, value)| Some((at, (*value)?)))
            .collect();
        let plain: Vec<f64> = there.iter().map(|(_, value)| *value).collect();
        let limits = limits(&plain, set, least, scale.places());
        let ending = limits
            .as_ref()
            .ok()
            .and_then(|limits| ending(&plain, limits));
        let since = |at: usize| {
            let strip = there.get(at).and_then(|(strip, _)| strips.get(*strip));
            let last = strips.last().map(|strip| strip.on);
            match (strip, last) {
                (Some(strip), Some(last)) => {
                    format!("since {} ({})", day(strip.on, last), strip.name)
                }
                _ => String::new(),
            }
        };
        let says = match (&ending, &limits) {
            (Some(Ending::Outside { by, since: at }), _) => {
                let side = if *by < 0.0 {
                    "under the lower limit"
                } else {
                    "over the upper limit"
                };
                format!("{name} {} {side} {}", scale.difference(*by), since(*at))
            }
            (Some(Ending::Trend { rising, since: at }), _) => {
                let way = if *rising { "rises" } else { "falls" };
                format!(
                    "{name} {way} from strip to strip {}, still within",
                    since(*at)
                )
            }
            (Some(Ending::Within), _) => format!("{name} within its limits"),
            (None, Err(why)) => format!("{name}: {why}"),
            (None, Ok(_)) => format!("{name}: no strip tells it"),
        };
        Measure {
            name,
            limits,
            ending,
            says,
            values,
            scale,
        }
    }

    fn goes_down(&self) -> bool {
        match self.ending {
            Some(Ending::Outside { by, .. }) => by < 0.0,
            Some(Ending::Trend { rising, .. }) => !rising,
            _ => false,
        }
    }

    /// Lower limit, middle and upper limit as they are told: a speed as a speed.
    #[must_use]
    pub fn told_limits(&self) -> Option<[f64; 3]> {
        let limits = self.limits.as_ref().ok()?;
        let all = [limits.lower(), limits.aim, limits.upper()];
        Some(all.map(|value| self.scale.told(value)))
    }

    /// The value of every strip as it is told: a speed as a speed.
    #[must_use]
    pub fn told_values(&self) -> Vec<Option<f64>> {
        let values = self.values.iter();
        values
            .map(|value| value.map(|value| self.scale.told(value)))
            .collect()
    }

    /// Whether the strip at this place lies outside, and on which side: below zero under the lower limit.
    #[must_use]
    pub fn outside(&self, at: usize) -> Option<f64> {
        let value = self.values.get(at).copied().flatten()?;
        self.limits.as_ref().ok()?.outside(value)
    }
}

impl Control {
    /// The measures over the days since the first strip, with their limits as lines.
    #[must_use]
    pub fn charts(&self) -> Vec<Chart> {
        let first = self
            .strips
            .first()
            .map(|strip| strip.on)
            .unwrap_or_default();
        let days = self
            .strips
            .iter()
            .map(|strip| (strip.on - first).num_days());
        // Some thousands of days, which a float counts exactly.
        let days: Vec<f64> = days.map(|days| days as f64).collect();
        let (start, end) = (
            days.first().copied().unwrap_or(0.0),
            days.last().copied().unwrap_or(0.0),
        );
        // Strips of one day lie beside each other.
        let along: Vec<f64> = if end > start {
            days
        } else {
            (0..self.strips.len()).map(|at| at as f64).collect()
        };
        let x = if end > start {
            format!("days since {}", first.format("%-d %b %Y"))
        } else {
            "strips of one day".to_owned()
        };
        let (start, end) = (
            along.first().copied().unwrap_or(0.0),
            along.last().copied().unwrap_or(0.0),
        );
        let chart = |measure: &Measure| {
            let told = measure.told_values();
            let points = along.iter().zip(told).filter_map(|(x, y)| Some((*x, y?)));
            let mut series = vec![Series {
                name: measure.name.into(),
                points: points.collect(),
            }];
            if let Some([lower, aim, upper]) = measure.told_limits() {
                for (name, y) in [
                    ("lower limit", lower),
                    ("middle", aim),
                    ("upper limit", upper),
                ] {
                    series.push(Series {
                        name: name.into(),
                        points: vec![(start, y), (end, y)],
                    });
                }
            }
            Chart {
                x: x.clone().into(),
                y: measure.name.into(),
                series,
                marks: Vec::new(),
            }
        };
        self.measures.iter().map(chart).collect()
    }

    /// All of it as an answer: a line and the rule of each measure, and a row for each strip.
    #[must_use]
    pub fn answer(&self) -> Answer {
        let own = Figure::new((), Grounds::own("control strips of this series"));
        let mut answer = Answer::of(own, |()| Vec::new());
        for measure in &self.measures {
            let last = measure.values.iter().rev().flatten().next();
            if let Some(last) = last {
                answer
                    .results
                    .push(Line::new(measure.name, measure.scale.amount(*last)));
            }
            match &measure.limits {
                Ok(limits) => answer.steps.push(
                    Step::new(
                        format!("limits of {}", measure.name),
                        Amount::words(measure.between().unwrap_or_default()),
                    )
                    .working(measure.rule(limits))
                    .on(limits.grounds.clone()),
                ),
                Err(why) => {
                    answer = answer.remark(Concern::Note, format!("{}: {why}", measure.name));
                }
            }
            if let Some(Ending::Trend { .. }) = measure.ending {
                let step = Step::new(format!("trend of {}", measure.name), Amount::words("yes"));
                answer.steps.push(step.on(trend_grounds()));
            }
        }
        if self.remarks.iter().any(|it| it.concern == Concern::Warning) {
            let step = Step::new("look at", Amount::words("temperature, time, replenishment"));
            answer.steps.push(step.on(CAUSES));
        }
        answer.remarks.extend(self.remarks.iter().cloned());
        let mut heads = vec!["day".into(), "strip".into()];
        for measure in &self.measures {
            heads.push(measure.name.into());
            heads.push("".into());
        }
        let rows = self.strips.iter().enumerate().map(|(at, strip)| {
            let mut row = vec![
                Amount::words(strip.on.format("%Y-%m-%d").to_string()),
                Amount::words(strip.name.clone()),
            ];
            for measure in &self.measures {
                let value = measure.values.get(at).copied().flatten();
                row.push(value.map_or(Amount::words("-"), |value| measure.scale.amount(value)));
                row.push(Amount::words(match measure.outside(at) {
                    Some(by) if by < 0.0 => "under",
                    Some(_) => "over",
                    None => "",
                }));
            }
            row
        });
        let table = Table {
            rows: rows.collect(),
            heads,
        };
        let answer = answer.table(table);
        match self.charts().into_iter().next() {
            Some(chart) => answer.chart(chart),
            None => answer,
        }
    }
}

impl Measure {
    /// From where to where its limits go, in words.
    #[must_use]
    pub fn between(&self) -> Option<String> {
        let [lower, _, upper] = self.told_limits()?;
        let places = match self.scale {
            Scale::Speed => 0,
            scale => scale.places(),
        };
        Some(format!("{lower:.places$} to {upper:.places$}"))
    }

    /// The rule of its limits, a speed as a speed.
    fn rule(&self, limits: &Limits) -> String {
        match self.scale {
            Scale::Speed => format!(
                "{} as a speed, in stops (log2): {}",
                limits.aim.exp2().round(),
                limits.rule
            ),
            Scale::Plain(_) | Scale::Stops => limits.rule.clone(),
        }
    }

    /// The rule of its limits in a sentence, or why there are none.
    #[must_use]
    pub fn rule_in_words(&self) -> String {
        match &self.limits {
            Ok(limits) => self.rule(limits),
            Err(why) => why.to_string(),
        }
    }
}
