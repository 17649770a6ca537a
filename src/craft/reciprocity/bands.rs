//! Losses told in bands: the same gain from one time on to the next.

use super::super::{Concern, Grounds, Impossible, Seconds, Stops};
use super::{Found, Told};

/// What a band gives.
#[derive(Debug, Clone, PartialEq)]
pub enum Gain {
    /// The metered time is multiplied by this, 1 or more.
    Factor(f64),
    /// The lens is opened by this.
    Open(Stops),
}

impl Gain {
    /// The gain in stops.
    fn stops(&self) -> f64 {
        match self {
            Gain::Factor(factor) => factor.log2(),
            Gain::Open(stops) => stops.value(),
        }
    }
}

/// The same gain from one time on to the next band.
#[derive(Debug, Clone, PartialEq)]
pub struct Band {
    /// Where it begins.
    pub start: Seconds,
    /// Whether it holds at its beginning, or only above it.
    pub including: bool,
    /// What it gives.
    pub gain: Told<Gain>,
}

/// Bands in the order of time, with nothing lost before the first.
#[derive(Debug, Clone, PartialEq)]
pub struct Bands {
    bands: Vec<Band>,
    /// Where the first band begins.
    starts: Seconds,
    ends: Option<Seconds>,
}

impl Bands {
    /// These bands; nothing is said of times longer than `ends`.
    ///
    /// # Errors
    /// If there is no band, they are not in the order of time, a later one gives less than an earlier
    /// one, or one gives less than nothing.
    pub fn new(bands: Vec<Band>, ends: Option<Seconds>) -> Result<Bands, Impossible> {
        let (Some(first), Some(last)) = (bands.first(), bands.last()) else {
            return Err(Impossible::new(
                "no band is given: give one, such as a factor of 2 from 1 s on",
            ));
        };
        let starts = first.start;
        if ends.is_some_and(|ends| ends <= last.start) {
            return Err(Impossible::new("the last band ends before it begins"));
        }
        let mut before: Option<&Band> = None;
        for band in &bands {
            let least = before.map_or(0.0, |band| band.gain.value.stops());
            let stops = band.gain.value.stops();
            if !(stops >= least && stops.is_finite()) {
                return Err(Impossible::new(format!(
                    "the band from {} gives less than the one before it: longer times lose more",
                    band.start
                )));
            }
            if before.is_some_and(|before| before.start >= band.start) {
                return Err(Impossible::new(format!(
                    "the band from {} does not begin after the one before it",
                    band.start
                )));
            }
            before = Some(band);
        }
        Ok(Bands {
            bands,
            starts,
            ends,
        })
    }

    /// Where the first band begins.
    pub(super) const fn starts(&self) -> Seconds {
        self.starts
    }

    pub(super) fn find(&self, metered: Seconds, law: &Grounds) -> Found {
        let holds = |band: &&Band| {
            metered > band.start || (band.including && metered.value() == band.start.value())
        };
        let Some(band) = self.bands.iter().rev().find(holds) else {
            let why = format!("no correction before {}", self.starts);
            return Found::nothing_lost(metered, law, why);
        };
        let grounds = &band.gain.grounds;
        let word = if band.including { "from" } else { "over" };
        let mut found = match &band.gain.value {
            Gain::Factor(factor) => {
                let working = format!("x {factor} {word} {}", band.start);
                Found::longer(metered.value() * factor, grounds, working)
            }
            Gain::Open(stops) => Found {
                time: None,
                open: Some(Told::new(stops.value(), grounds.clone())),
                development: None,
                working: format!("{stops} {word} {}", band.start),
                remarks: Vec::new(),
            },
        };
        if let Some(ends) = self.ends.filter(|ends| metered > *ends) {
            let words =
                format!("nothing is said of more than {ends}: this is the last figure, test it");
            found = found.remark(Concern::Beyond, words);
        }
        found
    }
}
