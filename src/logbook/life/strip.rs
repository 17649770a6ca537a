//! Strips, tablets and limits in words.

use crate::logbook::{LimitsSet, StripRead, TabletFound, TabletUsed};

/// What a strip was developed in, how long and how warm, and what it was read behind.
pub(in crate::logbook) fn strip_in_words(strip: &StripRead) -> String {
    let developer = match (&strip.developer, &strip.dilution) {
        (Some(developer), Some(dilution)) => Some(format!("{developer} {dilution}")),
        (Some(developer), None) => Some(developer.clone()),
        (None, Some(dilution)) => Some(dilution.to_string()),
        (None, None) => None,
    };
    let setting = match (strip.time, strip.temperature) {
        (Some(time), Some(temperature)) => Some(format!("{time} at {temperature}")),
        (Some(time), None) => Some(time.to_string()),
        (None, Some(temperature)) => Some(temperature.to_string()),
        (None, None) => None,
    };
    let read = strip.readings.iter().flatten().count();
    let parts = [
        developer,
        setting,
        Some(format!("{read} of {} steps", strip.readings.len())),
        strip.channel.map(|channel| channel.word().to_owned()),
        strip
            .series
            .as_ref()
            .map(|series| format!("control strip of {series}")),
    ];
    let parts: Vec<String> = parts.into_iter().flatten().collect();
    parts.join(", ")
}

/// How many steps a tablet has and from where to where they go.
pub(in crate::logbook) fn tablet_in_words(tablet: &TabletFound) -> String {
    let densities = &tablet.densities;
    match (densities.first(), densities.last()) {
        (Some(first), Some(last)) => format!("{} steps, {first} to {last}", densities.len()),
        _ => "no steps".to_owned(),
    }
}

/// What a tablet is called where a strip is told.
pub(in crate::logbook) fn tablet_used_in_words(tablet: &TabletUsed) -> String {
    match tablet {
        TabletUsed::Steps(steps) => steps.to_string(),
        TabletUsed::Measured {
            name: Some(name), ..
        } => name.clone(),
        TabletUsed::Measured { densities, .. } => {
            crate::craft::sensitometry::said_densities(densities)
        }
    }
}

/// What was set for a series, measure by measure.
pub(in crate::logbook) fn limits_in_words(limits: &LimitsSet) -> String {
    let one = |name: &str, aim: Option<String>, within: Option<String>| match (aim, within) {
        (Some(aim), Some(within)) => Some(format!("{name} {aim} \u{b1} {within}")),
        (Some(aim), None) => Some(format!("{name} {aim}")),
        (None, Some(within)) => Some(format!("{name} \u{b1} {within}")),
        (None, None) => None,
    };
    let plain = |number: Option<f64>| number.map(|number| number.to_string());
    let parts = [
        one(
            "gradient",
            plain(limits.gradient),
            plain(limits.gradient_within),
        ),
        one(
            "speed",
            plain(limits.speed),
            limits
                .speed_within
                .map(|within| within.to_string().replace('+', "")),
        ),
        one(
            "base plus fog",
            limits.base_fog.map(|density| density.to_string()),
            limits.base_fog_within.map(|within| within.to_string()),
        ),
        limits
            .first
            .map(|first| format!("else from the first {first} strips")),
    ];
    let parts: Vec<String> = parts.into_iter().flatten().collect();
    parts.join(", ")
}
