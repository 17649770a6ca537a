//! How much solution: sheets by area, the least a vessel works with, the least stock that does the
//! work, and a tray by its depth.
//!
//! A sheet takes from the developer what its area takes, so a thin bath needs a larger volume. The unit
//! of area is that of the trade: 80 square inches, one 8x10.

use super::{four, millilitres, some, some_or_none};
use crate::craft::{
    Amount, Concern, Dilution, Figure, Grounds, Impossible, Millilitres, Size, Step,
};

/// Square inches in the unit of area by which capacity is told.
pub const UNIT_SQ_IN: f64 = 80.0;
/// Where that unit was read.
pub const UNIT: Grounds =
    Grounds::published("S. Anchell, The Darkroom Cookbook, 3rd ed., Focal Press 2008, p. 108");
/// How deep a tray is filled at least.
pub const DEPTH: Grounds = Grounds::published(
    "US Army Signal Center, Laboratory Procedures, subcourse SS0509-8, 1988, p. 18",
);
/// That depth, in inches.
pub const LEAST_DEPTH_IN: f64 = 0.5;
/// Millilitres in a cubic inch, exact.
const CUBIC_INCH: f64 = 16.387_064;
/// Millimetres in an inch, exact.
const INCH: f64 = 25.4;

/// The area of so many sheets in units of 80 square inches.
///
/// # Errors
/// If there are no sheets, or more than a million units.
pub fn units(size: Size, sheets: f64) -> Result<Figure<f64>, Impossible> {
    let sheets = some("a number", sheets, "sheets")?;
    let each = size.area_sq_in() / UNIT_SQ_IN;
    let units = some("an area", each * sheets, "units")?;
    let working = format!("{} x {} sq in / 80", four(sheets), four(size.area_sq_in()));
    let step = Step::new("area in 8x10 sheets", Amount::number(units, "", 4))
        .working(working)
        .on(UNIT);
    Ok(Figure::new(units, UNIT).step(step))
}

/// What a bath is made up to.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Filled {
    /// Working solution, in millilitres.
    pub working: f64,
    /// Stock or concentrate in it, in millilitres.
    pub stock: f64,
}

/// The working solution for `units` of area: what the vessel needs, or what holds `stock_per_unit`
/// millilitres of stock (the first part of the dilution) for each unit, whichever is more.
///
/// # Errors
/// If a number cannot be.
pub fn working(
    units: f64,
    stock_per_unit: f64,
    dilution: Dilution,
    vessel: Option<Millilitres>,
) -> Result<Figure<Filled>, Impossible> {
    let units = some("an area", units, "units")?;
    let least = some_or_none("the least stock", stock_per_unit, "ml")? * units;
    let parts = dilution.parts();
    let total = parts.iter().sum::<f64>() / parts.first().copied().unwrap_or(1.0);
    let by_area = some_or_none("a volume", least * total, "ml")?;
    let by_vessel = vessel.map_or(0.0, Millilitres::value);
    let working = by_area.max(by_vessel);
    if working <= 0.0 {
        return Err(Impossible::new(
            "neither a vessel nor a least amount of stock is given: one of them is needed",
        ));
    }
    let value = Filled {
        working,
        stock: working / total,
    };
    let mut figure = Figure::new(value, Grounds::usual());
    if by_area > 0.0 {
        figure = figure
            .step(
                Step::new("stock for the area", millilitres(least)).working(format!(
                    "{} x {} ml",
                    four(units),
                    four(stock_per_unit)
                )),
            )
            .step(
                Step::new("as working solution", millilitres(by_area)).working(format!(
                    "{dilution}: {} ml x {}",
                    four(least),
                    four(total)
                )),
            );
    }
    if by_vessel > 0.0 {
        figure = figure.step(Step::new("the vessel needs", millilitres(by_vessel)));
        if by_area > by_vessel {
            figure = figure.remark(
                Concern::Warning,
                "the vessel filled to its mark does not hold stock enough for this area: fill more, \
                 develop fewer sheets at once, or thin it less",
            );
        }
    }
    Ok(figure.step(Step::new("to mix", millilitres(working)).working("the larger of the two")))
}

/// The volume that fills a tray of this inside size to a depth, in millilitres.
///
/// # Errors
/// If the depth is nothing or more than a metre.
pub fn tray(inside: Size, depth_in: f64) -> Result<Figure<f64>, Impossible> {
    if !(depth_in > 0.0 && depth_in <= 40.0) {
        return Err(Impossible::new(format!(
            "a tray {depth_in} in deep in solution cannot be: half an inch is usual, and 40 is the most"
        )));
    }
    let (w, h) = inside.mm();
    let ml = some(
        "a tray",
        w / INCH * (h / INCH) * depth_in * CUBIC_INCH,
        "ml",
    )?;
    let working = format!(
        "{} x {} x {} in x 16.387",
        four(w / INCH),
        four(h / INCH),
        four(depth_in)
    );
    let mut figure =
        Figure::new(ml, DEPTH).step(Step::new("tray", millilitres(ml)).working(working));
    if depth_in < LEAST_DEPTH_IN {
        figure = figure.remark(
            Concern::Warning,
            "shallower than half an inch: sheets may lie dry in parts, and develop in patches",
        );
    }
    Ok(figure)
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn a_thin_bath_needs_more_than_the_drum_is_filled_with() {
        let dilution = Dilution::parse("1+3").unwrap();
        let drum = Millilitres::new(500.0).ok();
        let figure = working(1.0, 250.0, dilution, drum).unwrap();
        assert!((figure.value.working - 1000.0).abs() < 1e-9);
        assert!((figure.value.stock - 250.0).abs() < 1e-9);
        assert_eq!(figure.remarks[0].concern, Concern::Warning);
    }

    #[test]
    fn what_cannot_be_filled_is_refused() {
        let size = Size::parse("8x10").unwrap();
        assert!(units(size, 0.0).is_err());
        assert!(units(size, -3.0).is_err());
        assert!(tray(size, 0.0).is_err());
        assert!(tray(size, f64::NAN).is_err());
        assert!(working(1.0, 0.0, Dilution::STOCK, None).is_err());
        assert_eq!(
            tray(size, 0.2).unwrap().remarks[0].concern,
            Concern::Warning
        );
    }

    proptest! {
        #[test]
        fn the_stock_is_never_less_than_the_area_takes(
            units in 0.1..20.0_f64, per in 1.0..500.0_f64, water in 1..100_u32, vessel in 1.0..5000.0_f64,
        ) {
            let dilution = Dilution::parse(&format!("1+{water}")).unwrap();
            let figure = working(units, per, dilution, Millilitres::new(vessel).ok()).unwrap();
            prop_assert!(figure.value.stock >= units * per - 1e-6);
            prop_assert!(figure.value.working >= vessel - 1e-9);
        }
    }
}
