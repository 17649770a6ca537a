//! Curves of several strips in one chart, and what stands under a place on one of them.

use crate::craft::sensitometry::{Curve, DENSITY_ABOVE, Tablet, Whole};
use crate::craft::{Impossible, trimmed};
use crate::figures::densities::drawn;
use crate::figures::{Chart, Mark, Series};
use crate::logbook::strips::KeptStrip;

/// Log exposure of one stop.
const STOP: f64 = std::f64::consts::LOG10_2;
/// The highest zone that has a name.
const ZONES: [&str; 11] = [
    "0", "I", "II", "III", "IV", "V", "VI", "VII", "VIII", "IX", "X",
];

/// A strip with its curve.
#[derive(Debug, Clone)]
pub struct NamedStrip {
    /// The strip.
    pub kept: KeptStrip,
    /// What it is called beside others.
    pub name: String,
    /// Its curve.
    pub curve: Curve,
    /// The tablet it was read behind.
    pub tablet: Tablet,
    /// What it tells.
    pub whole: Whole,
}

impl NamedStrip {
    /// A strip with its curve, or why it makes none.
    ///
    /// # Errors
    /// As [`KeptStrip::curve`].
    pub fn of(kept: &KeptStrip) -> Result<NamedStrip, Impossible> {
        let (curve, tablet) = kept.curve()?;
        Ok(NamedStrip {
            name: match kept.strip.time {
                Some(time) => format!("{} {time}", kept.reference),
                None => kept.reference.clone(),
            },
            whole: Whole::of(&curve),
            kept: kept.clone(),
            curve,
            tablet,
        })
    }
}

/// The names of strips, for a heading.
#[must_use]
pub fn names(strips: &[NamedStrip]) -> String {
    let names: Vec<&str> = strips.iter().map(|strip| strip.name.as_str()).collect();
    names.join(", ")
}

/// The curves of strips over each other, the first with its speed point. `points` is how many points of each
/// are drawn, at least two: few where signs have to stay apart, many on paper. `here` is a place to mark.
#[must_use]
pub fn overlay(strips: &[NamedStrip], points: usize, here: Option<f64>) -> Chart {
    let series = strips.iter().map(|strip| Series {
        name: strip.name.clone().into(),
        points: thinned(drawn(&strip.curve), points),
    });
    let first = strips.first();
    let absolute = strips.iter().all(|strip| strip.curve.absolute);
    let speed_point = first.and_then(|strip| strip.whole.speed_point());
    let mut marks: Vec<Mark> = Vec::new();
    if let Some(point) = speed_point {
        marks.push(Mark {
            x: point.log_h,
            name: "speed point".into(),
        });
    }
    if let Some(x) = here {
        marks.push(Mark {
            x,
            name: "here".into(),
        });
    }
    let x = if absolute {
        "log exposure, lx s"
    } else {
        "log exposure against the bare light"
    };
    Chart {
        x: x.into(),
        y: "density".into(),
        series: series.collect(),
        marks,
    }
}

/// So many of the points, evenly, both ends among them.
fn thinned(points: Vec<(f64, f64)>, many: usize) -> Vec<(f64, f64)> {
    let last = points.len().saturating_sub(1);
    if last < many.max(2) {
        return points;
    }
    let parts = many.max(2) - 1;
    let at = (0..=parts).filter_map(|part| points.get(part * last / parts).copied());
    at.collect()
}

/// What stands under a place on the curve of a strip: log H, the nearest step, density, gradient there, and
/// how far it is from the speed point. Nothing outside the readings.
#[must_use]
pub fn place_on(strip: &NamedStrip, log_h: f64) -> Option<Vec<(&'static str, String)>> {
    let density = strip.curve.density(log_h)?;
    let nearest = strip.curve.points.iter().min_by(|one, other| {
        let far = |x: f64| (x - log_h).abs();
        far(one.log_h).total_cmp(&far(other.log_h))
    });
    let mut told = vec![("log H", format!("{log_h:+.2}"))];
    if let Some(nearest) = nearest {
        let exactly = (nearest.log_h - log_h).abs() < 0.005;
        let step = nearest.step;
        told.push((
            "step",
            if exactly {
                step.to_string()
            } else {
                format!("near {step}")
            },
        ));
    }
    told.push(("density", format!("{density:.2}")));
    if let Some(slope) = strip.curve.slope(log_h) {
        told.push(("gradient here", format!("{slope:.2}")));
    }
    if let Some(point) = strip.whole.speed_point() {
        let stops = (log_h - point.log_h) / STOP;
        // No minus before a zero.
        let rounded = (stops * 10.0).round() / 10.0 + 0.0;
        told.push(("from the speed point", format!("{rounded:+.1} stops")));
        if let Some(zone) = zone(stops) {
            told.push(("zone", format!("about {zone}, the speed point being I")));
        }
    }
    Some(told)
}

/// The zone so many stops over zone I, which lies at the speed point by its density.
fn zone(stops: f64) -> Option<&'static str> {
    let at = (stops + 1.0).round();
    if !(0.0..ZONES.len() as f64).contains(&at) {
        return None;
    }
    // The check above keeps this cast inside the list.
    ZONES.get(at as usize).copied()
}

impl NamedStrip {
    /// Gradient and speed in a few words: `0.60  64 ISO`, `0.60  64 effective`.
    #[must_use]
    pub fn in_short(&self) -> (String, String) {
        let gradient = self.whole.average_gradient();
        let gradient = gradient.map_or("-".to_owned(), |it| format!("{it:.2}"));
        let speed = self.whole.speed_point().and_then(|point| {
            let speed = crate::craft::sensitometry::nominal_speed(point.speed?)?;
            Some(if point.as_iso {
                format!("ISO {speed}")
            } else {
                speed.to_string()
            })
        });
        (gradient, speed.unwrap_or_else(|| "-".to_owned()))
    }

    /// The levels its curve is measured from, in words.
    #[must_use]
    pub fn levels(&self) -> String {
        format!(
            "base plus fog {}, speed point {} above it",
            trimmed(self.whole.base_fog, 2),
            trimmed(DENSITY_ABOVE, 2)
        )
    }
}
