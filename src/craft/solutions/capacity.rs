//! How much a bath has left: by the area that went through it, and by its age.
//!
//! A capacity belongs to the text that names it; texts differ by two and more times, and no figure here
//! averages them. What is left is never below nothing: a bath that was worked past its capacity is
//! exhausted, and says by how much.

use super::volume::{UNIT, units};
use super::{four, millilitres, some, some_or_none};
use crate::craft::{Amount, Concern, Figure, Grounds, Impossible, Millilitres, Size, Step};

/// The share of its capacity from which a bath is watched.
pub const NEARLY: f64 = 0.8;

/// What a bath has behind it and before it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Left {
    /// What it can take in all, in 8x10 sheets.
    pub whole: f64,
    /// What went through it, in 8x10 sheets.
    pub used: f64,
    /// What it can still take, in 8x10 sheets; 0 when exhausted.
    pub left: f64,
    /// What it can still take, in whole sheets of the size given.
    pub sheets_left: f64,
}

/// What is left of `volume` of a bath that takes `per_litre` 8x10 sheets a litre, after `sheets`.
///
/// # Errors
/// If a number cannot be.
pub fn left(
    per_litre: f64,
    grounds: Grounds,
    volume: Millilitres,
    size: Size,
    sheets: f64,
) -> Result<Figure<Left>, Impossible> {
    let per_litre = some("a capacity", per_litre, "8x10 per l")?;
    let sheets = some_or_none("a number", sheets, "sheets")?;
    let whole = per_litre * volume.value() / 1000.0;
    let each = units(size, 1.0)?.value;
    let used = each * sheets;
    let left = (whole - used).max(0.0);
    // A hair is added, so that 20.0 units of 0.25 are 80 sheets and not 79.
    let value = Left {
        whole,
        used,
        left,
        sheets_left: (left / each + 1e-9).floor(),
    };
    let sheet = |value: f64| Amount::number(value, "8x10", 2);
    let mut figure = Figure::new(value, grounds.clone())
        .step(
            Step::new("takes in all", sheet(whole))
                .working(format!(
                    "{} per l x {} ml",
                    four(per_litre),
                    four(volume.value())
                ))
                .on(grounds),
        )
        .step(
            Step::new("went through", sheet(used))
                .working(format!("{} sheets of {}", four(sheets), four(each)))
                .on(UNIT),
        )
        .step(Step::new("left", sheet(left)).working(format!("{} - {}", four(whole), four(used))));
    if used >= whole {
        figure = figure.remark(
            Concern::Warning,
            "the bath is exhausted by this capacity: mix a new one",
        );
    } else if used >= NEARLY * whole {
        figure = figure.remark(
            Concern::Warning,
            "the bath is nearly exhausted: test it before use",
        );
    }
    Ok(figure)
}

/// The days a bath may still be used; 0 when its time is over.
///
/// # Errors
/// If a number cannot be.
pub fn days_left(age: f64, keeps: f64, grounds: Grounds) -> Result<Figure<f64>, Impossible> {
    let age = some_or_none("an age", age, "days")?;
    let keeps = some("a keeping time", keeps, "days")?;
    let left = (keeps - age).max(0.0);
    let figure = Figure::new(left, grounds.clone()).step(
        Step::new("keeps on", Amount::number(left, "days", 0))
            .working(format!("{} - {} days", four(keeps), four(age)))
            .on(grounds),
    );
    Ok(if age >= keeps {
        figure.remark(
            Concern::Warning,
            "the bath is past its keeping time, however little went through it: mix a new one",
        )
    } else {
        figure
    })
}

/// Replenisher for so much area, in millilitres: remove that much of the bath, add it, and restore
/// the level.
///
/// # Errors
/// If a number cannot be.
pub fn replenish(
    area_units: f64,
    per_unit: f64,
    grounds: Grounds,
) -> Result<Figure<f64>, Impossible> {
    let area = some("an area", area_units, "units")?;
    let rate = some("a rate", per_unit, "ml")?;
    let ml = some("replenisher", area * rate, "ml")?;
    Ok(Figure::new(ml, grounds.clone())
        .step(
            Step::new("replenisher", millilitres(ml))
                .working(format!("{} x {} ml", four(area), four(rate)))
                .on(grounds),
        )
        .remark(
            Concern::Note,
            "take some of the bath out, add the replenisher, restore the level with what was taken \
             out and throw the rest away",
        )
        .remark(
            Concern::Note,
            "a replenisher keeps a bath as it is; it does not revive one that is exhausted",
        ))
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn litre() -> Millilitres {
        Millilitres::new(1000.0).unwrap()
    }

    #[test]
    fn a_bath_worked_past_its_capacity_is_exhausted_and_never_below_nothing() {
        let size = Size::parse("8x10").unwrap();
        let figure = left(20.0, Grounds::usual(), litre(), size, 25.0).unwrap();
        assert_eq!((figure.value.left, figure.value.sheets_left), (0.0, 0.0));
        assert!(figure.remarks[0].words.contains("exhausted"));
        let nearly = left(20.0, Grounds::usual(), litre(), size, 17.0).unwrap();
        assert!(nearly.remarks[0].words.contains("nearly"));
    }

    #[test]
    fn a_litre_for_twenty_is_a_litre_for_eighty_quarters() {
        let size = Size::parse("4x5").unwrap();
        let figure = left(20.0, Grounds::usual(), litre(), size, 0.0).unwrap();
        assert_eq!(figure.value.sheets_left, 80.0);
    }

    #[test]
    fn an_old_bath_says_so() {
        let old = days_left(61.0, 60.0, Grounds::usual()).unwrap();
        assert_eq!(old.value, 0.0);
        assert_eq!(old.remarks[0].concern, Concern::Warning);
        assert!(days_left(-1.0, 60.0, Grounds::usual()).is_err());
        assert!(replenish(0.0, 22.0, Grounds::usual()).is_err());
    }

    proptest! {
        #[test]
        fn what_is_left_is_never_negative_and_never_grows(
            per in 1.0..100.0_f64, sheets in 0..500_u32, ml in 100.0..5000.0_f64,
        ) {
            let size = Size::parse("5x7").unwrap();
            let volume = Millilitres::new(ml).unwrap();
            let at = |n: u32| left(per, Grounds::usual(), volume, size, f64::from(n)).unwrap().value.left;
            prop_assert!(at(sheets) >= 0.0);
            prop_assert!(at(sheets + 1) <= at(sheets));
        }
    }
}
