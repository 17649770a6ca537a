//! Figures of the shutter: tested marks, drift, and what small stops add.
//!
//! For: the exposure chain, which asks [`of_lens`] what a lens's own shutter gives at a mark, and the
//! figures of tests.

use super::{LensRecord, ShutterTest};
use crate::craft::shutter::{self, Tested, in_fractions};
use crate::craft::{Amount, Figure, Grounds, Seconds, Step};

/// How far two times may differ and be the same mark, as a part of it.
const SAME_MARK: f64 = 0.001;

/// What the shutter of a lens gives at a mark, as a step in stops, by the latest session in which that
/// mark was timed; nothing if it never was.
///
/// Plus is more exposure than the mark says, so whoever reckons a setting takes it off.
#[must_use]
pub fn of_lens(lens: &LensRecord, mark: Seconds) -> Option<Step> {
    let (on, figure) = sessions(lens, mark).pop()?;
    let tested = figure.value;
    let spread = tested
        .spread
        .map_or_else(String::new, |spread| format!(", spread {spread}"));
    let shots = match tested.count {
        1 => "1 shot".to_owned(),
        count => format!("{count} shots"),
    };
    Some(
        Step::new(format!("shutter at {mark}"), Amount::Stops(tested.error))
            .working(format!(
                "gives {} (mean of {shots}{spread})",
                in_fractions(tested.mean)
            ))
            .on(Grounds::own(format!("tested on {on}, {shots}"))),
    )
}

/// The sessions of one mark in the order of their days; tests of one day are one session.
fn sessions(lens: &LensRecord, mark: Seconds) -> Vec<(chrono::NaiveDate, Figure<Tested>)> {
    let same = |test: &&ShutterTest| (test.mark.value() / mark.value() - 1.0).abs() < SAME_MARK;
    let mut days: std::collections::BTreeMap<chrono::NaiveDate, Vec<Seconds>> =
        std::collections::BTreeMap::new();
    for test in lens.tests.iter().filter(same) {
        days.entry(test.on).or_default().extend(&test.timings);
    }
    days.into_iter()
        .filter_map(|(on, timings)| Some((on, shutter::test(mark, &timings).ok()?)))
        .collect()
}
