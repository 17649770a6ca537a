//! The parts of a sensitizer counted out in drops.
//!
//! For: a mix of several solutions by shares, for a volume. Promises: the parts are kept in proportion
//! by volume, each by its own dropper; a part is rounded to the nearest whole drop, so that it is never
//! more than half a drop off; and what that does to the proportion is told for every part.

use super::{four, within};
use crate::craft::{Amount, Concern, Figure, Grounds, Impossible, Step};

/// The most parts a mix has.
const MOST: usize = 12;

/// How far a part may be off by rounding before it is worth a word, in percent of it.
const HARDLY: f64 = 5.0;

/// One solution of a mix.
#[derive(Debug, Clone, PartialEq)]
pub struct Part {
    /// What it is called: `A`, `palladium`.
    pub name: String,
    /// Its share, in any unit that all parts have in common.
    pub share: f64,
    /// Drops of it to a millilitre.
    pub drops_per_ml: f64,
}

/// What is taken of one solution.
#[derive(Debug, Clone, PartialEq)]
pub struct Portion {
    /// What it is called.
    pub name: String,
    /// What was wanted of it, in millilitres.
    pub wanted: f64,
    /// The same in drops, before rounding.
    pub exact: f64,
    /// Whole drops.
    pub drops: u32,
    /// What they come to, in millilitres.
    pub ml: f64,
    /// Its part of the whole mix as counted, against what was wanted, in percent of what was wanted.
    pub error: f64,
}

/// A mix counted out.
#[derive(Debug, Clone, PartialEq)]
pub struct Mix {
    /// Its parts, in the order given.
    pub portions: Vec<Portion>,
    /// The volume wanted, in millilitres.
    pub wanted: f64,
    /// The volume counted, in millilitres.
    pub ml: f64,
}

impl Mix {
    /// All the drops.
    #[must_use]
    pub fn drops(&self) -> u32 {
        self.portions.iter().map(|portion| portion.drops).sum()
    }

    /// The share of one part among some, in percent of their volume: as wanted, and as counted.
    #[must_use]
    pub fn percent_of(&self, part: &str, among: &[&str]) -> Option<(f64, f64)> {
        let of = |ml: fn(&Portion) -> f64| {
            let named = |name: &str| {
                let found = self.portions.iter().find(|portion| portion.name == name);
                found.map(ml)
            };
            let all: Option<f64> = among.iter().map(|name| named(name)).sum();
            let all = all.filter(|all| *all > 0.0)?;
            Some(100.0 * named(part)? / all)
        };
        Some((of(|it| it.wanted)?, of(|it| it.ml)?))
    }
}

/// Counts out `volume` millilitres by the shares of the parts.
///
/// # Errors
/// If there are no parts or too many, a share is negative or all are nothing, or a number cannot be.
pub fn count_out(parts: &[Part], volume: f64) -> Result<Figure<Mix>, Impossible> {
    let volume = within("a volume", volume, 0.02..=1000.0, "ml")?;
    if parts.is_empty() || parts.len() > MOST {
        return Err(Impossible::new(format!(
            "{} parts make no sensitizer: give from 1 to {MOST}, such as A 3, B 4, metal 7",
            parts.len()
        )));
    }
    for part in parts {
        within(
            &format!("a share of {}", part.name),
            part.share,
            0.0..=1e6,
            "",
        )?;
        within(
            "a dropper",
            part.drops_per_ml,
            5.0..=100.0,
            "drops a millilitre",
        )?;
    }
    let shares: f64 = parts.iter().map(|part| part.share).sum();
    if shares <= 0.0 {
        return Err(Impossible::new(
            "all shares are nothing: give at least one part a share",
        ));
    }
    let mut portions: Vec<Portion> = parts
        .iter()
        .map(|part| {
            let wanted = volume * part.share / shares;
            let exact = wanted * part.drops_per_ml;
            // At most a litre in drops of a hundredth, which fits a whole number.
            let drops = exact.round() as u32;
            Portion {
                name: part.name.clone(),
                wanted,
                exact,
                drops,
                ml: f64::from(drops) / part.drops_per_ml,
                error: 0.0,
            }
        })
        .collect();
    let ml: f64 = portions.iter().map(|portion| portion.ml).sum();
    if ml <= 0.0 {
        return Err(Impossible::new(format!(
            "{} ml is less than half a drop of every part: mix for a larger area, or thin the solutions",
            four(volume)
        )));
    }
    for portion in &mut portions {
        if portion.wanted > 0.0 {
            portion.error = 100.0 * (portion.ml / ml / (portion.wanted / volume) - 1.0);
        }
    }
    let mix = Mix {
        portions,
        wanted: volume,
        ml,
    };
    Ok(told(mix, parts))
}

fn told(mix: Mix, parts: &[Part]) -> Figure<Mix> {
    let mut steps = Vec::new();
    let mut remarks = Vec::new();
    for (portion, part) in mix.portions.iter().zip(parts) {
        let step = Step::new(
            portion.name.clone(),
            Amount::number(portion.exact, "drops", 2),
        )
        .working(format!(
            "{} ml x {}",
            four(portion.wanted),
            four(part.drops_per_ml)
        ))
        .brings(Amount::number(f64::from(portion.drops), "drops", 0));
        steps.push(step);
        if portion.drops == 0 && portion.wanted > 0.0 {
            remarks.push(format!(
                "{} comes to less than half a drop and is left out: thin it and count more drops, or mix \
                 for a larger area",
                portion.name
            ));
        } else if portion.error.abs() > HARDLY {
            remarks.push(format!(
                "whole drops put {} {} % off its share: a larger mix or a pipette comes nearer",
                portion.name,
                Amount::number(portion.error, "", 1)
            ));
        }
    }
    let mut figure = Figure::new(mix, Grounds::own("the shares and droppers as typed"));
    figure.steps = steps;
    for words in remarks {
        figure = figure.remark(Concern::Warning, words);
    }
    figure
}

/// Reads parts: `A 3, B 4, metal 7`, `iron 1 + palladium 1`; a dropper of its own behind an at sign,
/// `palladium 7 @22`, others have `usual` drops to a millilitre.
///
/// # Errors
/// If the text does not name parts with their shares, or one is there twice.
pub fn read_parts(text: &str, usual: f64) -> Result<Vec<Part>, Impossible> {
    let mut parts: Vec<Part> = Vec::new();
    for one in text.split([',', ';', '+', '\n']).map(str::trim) {
        if one.is_empty() {
            continue;
        }
        let part = read_part(one, usual).ok_or_else(|| {
            Impossible::new(format!(
                "\"{one}\" is no part: write a name and its share, A 3, B 4, metal 7; with a dropper of \
                 its own, metal 7 @22"
            ))
        })?;
        if parts
            .iter()
            .any(|it| it.name.eq_ignore_ascii_case(&part.name))
        {
            return Err(Impossible::new(format!(
                "{} is there twice: give each part once",
                part.name
            )));
        }
        parts.push(part);
    }
    Ok(parts)
}

fn read_part(text: &str, usual: f64) -> Option<Part> {
    let (text, drops_per_ml) = match text.split_once('@') {
        Some((part, dropper)) => (part.trim(), crate::craft::number(dropper).ok()?),
        None => (text, usual),
    };
    let (name, share) = text.rsplit_once(char::is_whitespace)?;
    let share = crate::craft::number(share).ok()?;
    let name = name.trim().trim_end_matches(':').trim();
    (!name.is_empty()).then(|| Part {
        name: name.to_owned(),
        share,
        drops_per_ml,
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn parts_are_read_with_their_shares_and_droppers() {
        let parts = read_parts("A 3, iron B: 4 + metal 7 @22", 20.0).unwrap();
        let told: Vec<(&str, f64, f64)> = parts
            .iter()
            .map(|it| (it.name.as_str(), it.share, it.drops_per_ml))
            .collect();
        assert_eq!(
            told,
            [
                ("A", 3.0, 20.0),
                ("iron B", 4.0, 20.0),
                ("metal", 7.0, 22.0)
            ]
        );
        for (text, says) in [
            ("A", "\"A\" is no part"),
            ("3", "\"3\" is no part"),
            ("A three", "is no part"),
            ("A 1, a 2", "there twice"),
        ] {
            let why = read_parts(text, 20.0).unwrap_err().to_string();
            assert!(why.contains(says), "{why}");
        }
    }

    #[test]
    fn a_part_of_less_than_half_a_drop_is_told() {
        let parts = read_parts("iron 24, palladium 24, agent 0.4", 20.0).unwrap();
        let figure = count_out(&parts, 48.4 / 20.0).unwrap();
        assert_eq!(figure.value.portions[2].drops, 0);
        assert!(figure.remarks[0].words.contains("left out"));
    }

    #[test]
    fn what_cannot_be_mixed_is_refused() {
        let parts = read_parts("A 1, B 1", 20.0).unwrap();
        assert!(count_out(&parts, 0.0).is_err());
        assert!(count_out(&parts, 0.02).is_err(), "half a drop of nothing");
        assert!(count_out(&[], 1.0).is_err());
        let nothing = read_parts("A 0, B 0", 20.0).unwrap();
        assert!(count_out(&nothing, 1.0).is_err());
        let less = read_parts("A -1, B 2", 20.0).unwrap();
        assert!(count_out(&less, 1.0).is_err());
    }

    proptest! {
        #[test]
        fn a_volume_is_kept_within_half_a_drop_a_part(
            shares in proptest::collection::vec((0.1..20.0_f64, 15.0..40.0_f64), 1..6),
            volume in 0.5..20.0_f64,
        ) {
            let parts: Vec<Part> = shares.iter().enumerate().map(|(at, (share, drops))| Part {
                name: format!("part {at}"), share: *share, drops_per_ml: *drops,
            }).collect();
            if let Ok(figure) = count_out(&parts, volume) {
                let mut most = 1e-9;
                for (portion, part) in figure.value.portions.iter().zip(&parts) {
                    prop_assert!((portion.exact - f64::from(portion.drops)).abs() <= 0.5 + 1e-9);
                    most += 0.5 / part.drops_per_ml;
                }
                prop_assert!((figure.value.ml - volume).abs() <= most);
            }
        }
    }
}
