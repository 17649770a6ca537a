//! Spot readings, the zones they are placed on, and the development they ask for.
//!
//! For: turning what a meter saw of a subject into one setting. A [`Reading`] is an exposure value at
//! ISO 100, with the zone the photographer wants it on or without one; [`place`] finds the setting,
//! where every other reading falls, and by how much development would have to differ from normal.
//! Promises: the darkest placed reading governs, and a conflict between placements is said in words
//! with what would reconcile it. One counting convention holds everywhere: a range is the difference
//! of the readings, so from f/11 to f/22 is two stops, and not the number of tones, which is three.
//! Reading what was typed is in `zones/reading.rs`, the sentences in `zones/words.rs`; how long to
//! develop is for the chapter of development.

mod reading;
mod words;
mod zone;

pub use reading::{Reading, parse_readings};
pub use words::{development_name, development_words};
pub use zone::{Zone, zone_look, zone_name};

use super::exposure_value::ExposureValue;
use super::figure::{Amount, Concern, Figure, Impossible, Step};
use super::grounds::Grounds;
use super::numeral::trimmed;
use super::stops::Stops;

const ZONES: Grounds = Grounds::published(
    "G. Arkenberg, \"Death of the Zone System, part V\", 2017, quoting A. Adams, The Negative, 1981, \
     p. 49 (second-hand)",
);
const PLACING: Grounds =
    Grounds::published("C. Johnson, The Practical Zone System: a meter reads every area as Zone V");
const DEVELOPING: Grounds = Grounds::published(
    "D. Kachel, \"Modified Zone System Terminology\", Darkroom & Creative Camera Techniques, 1995",
);
const RANGES: Grounds =
    Grounds::published("S. King, APUG post 17781, after P. Davis (second-hand)");

/// How far a reading may fall from where it is wanted before that is a conflict, in zones.
const TOLERANCE: f64 = 0.5;
/// Beyond this many zones, development alone does no good.
const MOST: f64 = 2.0;
/// The zone that development is counted from.
const WHITE: f64 = 8.0;
const MIDDLE: f64 = 5.0;

/// Where one reading falls.
#[derive(Debug, Clone, PartialEq)]
pub struct Fall {
    /// The reading.
    pub reading: Reading,
    /// The zone it falls on; below 0 it leaves the film bare, above X it is blocked.
    pub zone: f64,
    /// How far that is above where it was wanted, in zones; nothing if no zone was asked for.
    pub off: Option<f64>,
}

/// A placed reading that falls more than half a zone from where it is wanted.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Conflict {
    /// Which reading, counted from 0.
    pub reading: usize,
    /// How far it falls above where it is wanted with normal development, in zones.
    pub off: f64,
    /// How far it still does after the development of the placement; nothing without one.
    pub after: Option<f64>,
}

/// Several readings under one setting.
#[derive(Debug, Clone, PartialEq)]
pub struct Placement {
    /// The exposure value to set, at ISO 100.
    pub set: ExposureValue,
    /// Which reading decides it, counted from 0.
    pub governing: usize,
    /// Where each reading falls, in the order they were given.
    pub falls: Vec<Fall>,
    /// From the lowest reading to the highest: the difference of their exposure values.
    pub range: Stops,
    /// By how many zones development lifts what is exposed for Zone VIII: 0 is normal, -1 is N-1;
    /// nothing unless two readings are placed on different zones.
    pub development: Option<f64>,
    /// What falls elsewhere than it is wanted.
    pub conflicts: Vec<Conflict>,
}

/// The exposure value that puts a reading on a zone: `EV + (5 - zone)`.
///
/// # Errors
/// If the result is outside the range of exposure values.
pub fn on(value: ExposureValue, zone: Zone) -> Result<ExposureValue, Impossible> {
    Ok(ExposureValue::new(value.value() + MIDDLE - zone.value())?)
}

/// The zone a reading falls on when this exposure value is set.
#[must_use]
pub fn falls_on(reading: ExposureValue, set: ExposureValue) -> f64 {
    MIDDLE + reading.value() - set.value()
}

/// The zone of exposure that a development of N + `n` brings to the density of Zone VIII.
///
/// D. Kachel, 1995: N-1 gives an exposure on IX the density of VIII, N+1 an exposure on VII.
#[must_use]
pub fn brought_to_white(n: f64) -> f64 {
    WHITE - n
}

/// The relative log exposure of a zone, 0.301 for each one above V.
#[must_use]
pub fn log_exposure(zone: f64) -> f64 {
    2_f64.log10() * (zone - MIDDLE)
}

/// Places readings: the darkest one that has a zone decides the setting.
///
/// A single reading without a zone is taken as the meter takes it, as Zone V.
///
/// ```
/// use notchbook::craft::meter::Constants;
/// use notchbook::craft::zones::{parse_readings, place};
/// let readings = parse_readings("III 8.7  VIII 13.9", None, &Constants::default())?;
/// let placed = place(&readings).unwrap().value;
/// assert_eq!(placed.set.to_string(), "EV 10.7");
/// assert_eq!(placed.range.to_string(), "+5.2 stops");
/// # Ok::<(), notchbook::craft::Unreadable>(())
/// ```
///
/// # Errors
/// If there is no reading, or several and none of them placed.
pub fn place(readings: &[Reading]) -> Result<Figure<Placement>, Impossible> {
    let (governing, reading, zone) = governing(readings)?;
    let set = on(reading.value, zone)?;
    let falls: Vec<Fall> = readings
        .iter()
        .map(|reading| {
            let zone = falls_on(reading.value, set);
            Fall {
                reading: reading.clone(),
                zone,
                off: reading.zone.map(|wanted| zone - wanted.value()),
            }
        })
        .collect();
    let (low, high) = ends(
        readings
            .iter()
            .filter(|one| one.incident == reading.incident),
    )
    .unwrap_or((reading, reading));
    let range = Stops::reckoned(high.value.value() - low.value.value());
    let placed = ends(readings.iter().filter(|one| one.zone.is_some()));
    let asked = placed.and_then(|(low, high)| asked_between(low, high));
    let development = asked.as_ref().map(|asked| asked.n);
    let conflicts = conflicts(&falls, asked.as_ref());

    let stops = Stops::reckoned(zone.value() - MIDDLE);
    let mut figure = Figure::new(
        Placement {
            set,
            governing,
            falls,
            range,
            development,
            conflicts,
        },
        ZONES,
    );
    figure.steps.push(
        Step::new(
            format!("{} on {zone}", reading.called()),
            Amount::Stops(stops),
        )
        .working(format!(
            "{} {} {} = {set}",
            reading.value,
            if stops.value() > 0.0 { '-' } else { '+' },
            trimmed(stops.value().abs(), 2),
        ))
        .brings(Amount::Ev(set))
        .on(PLACING),
    );
    if readings.len() > 1 {
        figure.steps.push(
            Step::new("range of the readings", Amount::Stops(range)).working(format!(
                "{} - {}, the difference of the readings: f/11 to f/22 counts 2",
                high.value, low.value
            )),
        );
    }
    if let (Some(asked), Some((low, high))) = (&asked, placed) {
        figure.steps.push(
            Step::new("development", Amount::words(development_name(asked.n)))
                .working(format!(
                    "{} zones wanted from {} to {}, {} stops read",
                    trimmed(asked.wanted, 2),
                    low.called(),
                    high.called(),
                    trimmed(asked.read, 2),
                ))
                .on(DEVELOPING),
        );
    }
    Ok(words::remarks(figure))
}

/// The reading that decides the setting, with its zone.
fn governing(readings: &[Reading]) -> Result<(usize, &Reading, Zone), Impossible> {
    let placed = readings
        .iter()
        .enumerate()
        .filter_map(|(index, reading)| Some((index, reading, reading.zone?)));
    // Of two as dark as each other, the one that asks for more exposure.
    let darkest = placed.min_by(|(_, one, on_one), (_, other, on_other)| {
        let by_light = one.value.value().total_cmp(&other.value.value());
        by_light.then(on_other.value().total_cmp(&on_one.value()))
    });
    match (darkest, readings) {
        (Some(darkest), _) => Ok(darkest),
        (None, [only]) => Ok((0, only, Zone::MIDDLE)),
        (None, []) => Err(Impossible::new(
            "there is no reading: write one, such as 12.3 or III 8.7",
        )),
        (None, _) => Err(Impossible::new(
            "none of these readings says where it belongs: write its zone before one of them, such \
             as III 8.7",
        )),
    }
}

/// The lowest and the highest of some readings.
fn ends<'r>(readings: impl Iterator<Item = &'r Reading>) -> Option<(&'r Reading, &'r Reading)> {
    readings.fold(None, |ends, one| match ends {
        None => Some((one, one)),
        Some((low, high)) => Some((
            if one.value < low.value { one } else { low },
            if one.value > high.value { one } else { high },
        )),
    })
}

/// What the lowest and the highest placed reading ask of development.
struct Asked {
    /// Zones wanted between them.
    wanted: f64,
    /// Stops read between them.
    read: f64,
    /// N + this.
    n: f64,
    /// The low one's reading and zone, from which the scale is stretched.
    low: (f64, f64),
}

fn asked_between(low: &Reading, high: &Reading) -> Option<Asked> {
    let (on_low, on_high) = (low.zone?.value(), high.zone?.value());
    let (wanted, read) = (on_high - on_low, high.value.value() - low.value.value());
    (wanted > 0.0 && read > 0.0).then_some(Asked {
        wanted,
        read,
        n: wanted - read,
        low: (low.value.value(), on_low),
    })
}

fn conflicts(falls: &[Fall], asked: Option<&Asked>) -> Vec<Conflict> {
    let after = |fall: &Fall| {
        let (asked, wanted) = (asked?, fall.reading.zone?);
        let (light, zone) = asked.low;
        let stretched = zone + (fall.reading.value.value() - light) * asked.wanted / asked.read;
        Some(stretched - wanted.value())
    };
    falls
        .iter()
        .enumerate()
        .filter_map(|(reading, fall)| {
            let (off, after) = (fall.off?, after(fall));
            let far = |off: f64| off.abs() > TOLERANCE + 1e-9;
            (far(off) || after.is_some_and(far)).then_some(Conflict {
                reading,
                off,
                after,
            })
        })
        .collect()
}

/// Stops from shadow to highlight, and what to develop: the range of a subject by incident readings.
const BY_RANGE: [(f64, f64); 5] = [(5.5, 2.0), (6.0, 1.0), (7.0, 0.0), (8.0, -1.0), (9.0, -2.0)];

/// The base range that is added to the difference of two incident readings, in stops.
pub const BASE_RANGE: f64 = 5.0;

/// What the range of a subject asks of development, by two incident readings: their difference and
/// the base range together, looked up in the table from 5.5 (N+2) to 9 stops (N-2), with straight
/// lines between its points.
///
/// # Errors
/// If the range lies outside the table.
pub fn by_range(
    shadow: ExposureValue,
    light: ExposureValue,
    base: f64,
) -> Result<Figure<f64>, Impossible> {
    let apart = light.value() - shadow.value();
    if apart < 0.0 {
        return Err(Impossible::new(format!(
            "the reading in the shadow, {shadow}, is higher than the one in the light, {light}: look \
             at which is which"
        )));
    }
    let range = apart + base;
    let between = BY_RANGE.windows(2).find_map(|pair| match *pair {
        [(from, high), (to, low)] if (from..=to).contains(&range) => {
            Some(high + (low - high) * (range - from) / (to - from))
        }
        _ => None,
    });
    let n = between.ok_or_else(|| {
        Impossible::new(format!(
            "a range of {} stops is outside the table, which goes from 5.5 to 9: read again, or \
             place spot readings on zones",
            trimmed(range, 1)
        ))
    })?;
    let apart = Stops::reckoned(apart);
    Ok(Figure::new(n, RANGES)
        .within("ranges from 5.5 to 9 stops")
        .step(
            Step::new("between the readings", Amount::Stops(apart)).working(format!(
                "{light} - {shadow}, the difference of the readings"
            )),
        )
        .step(
            Step::new("range of the subject", Amount::number(range, "stops", 2)).working(format!(
                "{} + {}, the base",
                trimmed(apart.value(), 2),
                trimmed(base, 2)
            )),
        )
        .step(
            Step::new("development", Amount::words(development_name(n)))
                .working("9, 8, 7, 6, 5.5 stops: N-2, N-1, N, N+1, N+2")
                .on(RANGES),
        ))
}

#[cfg(test)]
mod tests;
