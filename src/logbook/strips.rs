//! The strips of a logbook beside each other: those of one film and developer, and those of one series.
//!
//! For: whoever compares strips, the pane that reads one, the screen and the commands of curves. Promises:
//! strips are put together only where film, developer, dilution and channel are the same; of two strips
//! of one time the newer counts; a control strip tells of its series and of no family. Leaves to others:
//! where strips are kept, and every formula.

use chrono::{DateTime, FixedOffset};

use super::life::Found;
use super::{Channel, Life, LimitsSet, StripRead};
use crate::craft::sensitometry::control::Set;
use crate::craft::sensitometry::{Curve, Family, Tablet, Whole};
use crate::craft::{Concern, Impossible, Remark, Seconds};
use crate::figures::densities::{Control, ControlStrip, Wanted, control};

/// How far the temperatures of a family may lie apart before it is said, in degrees C.
const AS_WARM: f64 = 0.5;

/// A strip that is kept.
#[derive(Clone, Debug, PartialEq)]
pub struct KeptStrip {
    /// What it is called.
    pub reference: String,
    /// When it was read.
    pub at: DateTime<FixedOffset>,
    /// What was read.
    pub strip: StripRead,
}

/// What strips must have in common to be compared.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Stock {
    /// The film.
    pub film: String,
    /// The developer with its dilution.
    pub developer: String,
    /// The light it was read with.
    pub channel: &'static str,
}

impl Stock {
    /// What a strip is of. Case and blanks make no other film.
    pub fn of(strip: &StripRead) -> Stock {
        let plain = |text: Option<&str>| {
            let words: Vec<&str> = text.unwrap_or_default().split_whitespace().collect();
            words.join(" ").to_lowercase()
        };
        let dilution = strip.dilution.as_ref().map(ToString::to_string);
        let developer = format!(
            "{} {}",
            plain(strip.developer.as_deref()),
            dilution.unwrap_or_default()
        );
        Stock {
            film: plain(strip.film.as_deref()),
            developer: developer.trim().to_owned(),
            channel: strip.channel.unwrap_or(Channel::Visual).word(),
        }
    }
}

impl KeptStrip {
    /// The strip whose life this is, if it is one.
    pub fn of(life: &Life) -> Option<KeptStrip> {
        let finding = life.finding()?;
        match finding.found.as_ref()? {
            Found::Strip(strip) => Some(KeptStrip {
                reference: life.reference.clone(),
                at: finding.at?,
                strip: (**strip).clone(),
            }),
            _ => None,
        }
    }

    /// What it is of.
    pub fn stock(&self) -> Stock {
        Stock::of(&self.strip)
    }

    /// Whether it is a control strip of this series.
    pub fn is_of_series(&self, series: &str) -> bool {
        let own = self.strip.series.as_deref();
        own.is_some_and(|own| same_words(own, series))
    }

    /// Its curve with the tablet it was read behind.
    ///
    /// # Errors
    /// As [`StripRead::curve`].
    pub fn curve(&self) -> Result<(Curve, Tablet), Impossible> {
        Ok((self.strip.curve()?, self.strip.through()?))
    }

    /// What it tells.
    ///
    /// # Errors
    /// As [`StripRead::curve`].
    pub fn whole(&self) -> Result<Whole, Impossible> {
        Ok(Whole::of(&self.strip.curve()?))
    }

    /// The film as it was written.
    pub fn film(&self) -> &str {
        self.strip.film.as_deref().unwrap_or("an unknown film")
    }

    /// The developer with its dilution as it was written.
    pub fn developer(&self) -> String {
        let developer = self
            .strip
            .developer
            .as_deref()
            .unwrap_or("an unknown developer");
        match &self.strip.dilution {
            Some(dilution) => format!("{developer} {dilution}"),
            None => developer.to_owned(),
        }
    }
}

/// Whether two names are the same but for case and blanks.
fn same_words(one: &str, other: &str) -> bool {
    let words = |text: &str| {
        text.to_lowercase()
            .split_whitespace()
            .collect::<Vec<_>>()
            .join(" ")
    };
    words(one) == words(other)
}

/// A family of strips with the tablet of its first.
#[derive(Clone, Debug)]
pub struct StripFamily {
    /// The family.
    pub family: Family,
    /// The tablet of its shortest time.
    pub tablet: Tablet,
    /// What it is made of, shortest time first.
    pub strips: Vec<KeptStrip>,
    /// What to look at.
    pub remarks: Vec<Remark>,
}

/// The family of strips of one film and developer. Control strips, and strips of no known time, are left
/// out, and of several strips of one time all but the newest.
///
/// # Errors
/// If what is left makes no family.
pub fn family(strips: &[KeptStrip]) -> Result<StripFamily, Impossible> {
    let mut remarks = Vec::new();
    let mut note = |words: String| {
        remarks.push(Remark {
            concern: Concern::Note,
            words,
        });
    };
    let mut all: Vec<(Seconds, &KeptStrip)> = Vec::new();
    for kept in strips.iter().filter(|kept| kept.strip.series.is_none()) {
        match kept.strip.time {
            Some(time) => all.push((time, kept)),
            None => note(format!("{} has no time and is left out", kept.reference)),
        }
    }
    all.sort_by(|(one, a), (other, b)| one.value().total_cmp(&other.value()).then(a.at.cmp(&b.at)));
    let mut chosen: Vec<(Seconds, &KeptStrip)> = Vec::new();
    for (time, kept) in all {
        match chosen.last_mut() {
            Some((before, older)) if time.value() - before.value() < 0.5 => {
                note(format!(
                    "{} is older than {} and of the same time: it is left out",
                    older.reference, kept.reference
                ));
                (*before, *older) = (time, kept);
            }
            _ => chosen.push((time, kept)),
        }
    }
    let warm = chosen.iter().filter_map(|(_, kept)| kept.strip.temperature);
    let (coldest, warmest) = warm.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), it| {
        (low.min(it.value()), high.max(it.value()))
    });
    if warmest - coldest > AS_WARM {
        note(format!(
            "the strips were developed at {coldest:.1} to {warmest:.1} C: warmth is told as if it were time"
        ));
    }
    let mut curves = Vec::new();
    let mut tablet = None;
    for (time, kept) in &chosen {
        let named = |why: Impossible| Impossible::new(format!("{}: {why}", kept.reference));
        let (curve, behind) = kept.curve().map_err(named)?;
        tablet.get_or_insert(behind);
        curves.push((*time, curve));
    }
    let family = Family::of(&curves)?;
    let tablet = match tablet {
        Some(tablet) => tablet,
        None => Tablet::nominal(21)?,
    };
    Ok(StripFamily {
        family,
        tablet,
        strips: chosen.into_iter().map(|(_, kept)| kept.clone()).collect(),
        remarks,
    })
}

/// The control strips of a series against its limits, which are those that were set last.
///
/// # Errors
/// If there is no strip of the series.
pub fn controlled(
    strips: &[KeptStrip],
    series: &str,
    set: Option<&LimitsSet>,
) -> Result<Control, Impossible> {
    let mut all: Vec<&KeptStrip> = strips
        .iter()
        .filter(|kept| kept.is_of_series(series))
        .collect();
    all.sort_by(|one, other| {
        one.at
            .cmp(&other.at)
            .then(one.reference.cmp(&other.reference))
    });
    if all.is_empty() {
        return Err(Impossible::new(format!(
            "no control strip of \"{series}\" was read yet"
        )));
    }
    let mut several = Vec::new();
    let mut of_one = Vec::new();
    for kept in &all {
        if !several.contains(&kept.stock()) {
            several.push(kept.stock());
        }
        let named = |why: Impossible| Impossible::new(format!("{}: {why}", kept.reference));
        of_one.push(ControlStrip {
            name: kept.reference.clone(),
            on: kept.at.date_naive(),
            curve: kept.strip.curve().map_err(named)?,
        });
    }
    let mut found = control(of_one, &set.map(wanted).unwrap_or_default());
    if several.len() > 1 {
        found.remarks.push(Remark {
            concern: Concern::Warning,
            words: format!(
                "\"{series}\" holds strips of several films, developers or channels: only strips that are \
                 alike tell of the process"
            ),
        });
    }
    Ok(found)
}

/// What limits that were set mean for each measure.
fn wanted(set: &LimitsSet) -> Wanted {
    let first = set.first.and_then(|first| usize::try_from(first).ok());
    let of = |aim: Option<f64>, within: Option<f64>| Set { aim, within, first };
    Wanted {
        gradient: of(set.gradient, set.gradient_within),
        speed: of(set.speed, set.speed_within.map(|stops| stops.value())),
        base_fog: of(
            set.base_fog.map(|density| density.value()),
            set.base_fog_within.map(|density| density.value()),
        ),
    }
}

/// The limits of a series that were set last, among these lives of findings.
pub fn limits_of(lives: &[Life], series: &str) -> Option<LimitsSet> {
    let set = lives.iter().filter_map(|life| {
        let finding = life.finding()?;
        match finding.found.as_ref()? {
            Found::Limits(set) if same_words(&set.series, series) => {
                Some(((finding.at, life.thing.id), set))
            }
            _ => None,
        }
    });
    set.max_by_key(|(when, _)| *when)
        .map(|(_, set)| set.clone())
}
