//! The area that is coated, and how much sensitizer it takes.
//!
//! Promises: the coated area is that of the paper under the brush, margins and all, not that of the
//! negative; a coating smaller than the negative crops it and says how much of it is left. How far a
//! millilitre goes is the user's own figure: published ones differ by several times.

use super::{four, within};
use crate::craft::{Amount, Concern, Figure, Grounds, Impossible, Millimetres, Size, Step};

/// Square millimetres in a square inch, exactly.
const SQUARE_INCH: f64 = 645.16;

/// Millimetres in an inch.
const INCH: f64 = 25.4;

/// Width of a brush against the shortest side that is coated.
pub const BRUSH: Grounds = Grounds::published(
    "J. D. Mathias, Guide to Platinum Palladium Photographic Printmaking, Coating Efficiency, 1999/2000: \
     not more than 15 % of the shortest side",
);

/// Share of the shortest side that a brush may be wide.
const BRUSH_SHARE: f64 = 0.15;

/// A heavier coat only wastes material, a weak one harms the print.
const COVERAGE: Grounds = Grounds::published(
    "J. D. Mathias, Guide to Platinum Palladium Photographic Printmaking, Coating Coverage, 1999/2000",
);

/// What is coated, against the negative.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Field {
    /// The negative with as much all round; nothing for its very size.
    Margin(Millimetres),
    /// A size of its own: larger than the negative, or a crop of it.
    Coated(Size),
}

/// The coated area.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Coated {
    /// Its sides in millimetres, the way round the negative lies.
    pub sides: (f64, f64),
    /// The sides of the negative in millimetres.
    pub negative: (f64, f64),
    /// Its area in square inches.
    pub area: f64,
    /// How much of the negative prints, 1 for all of it.
    pub used: f64,
}

impl Coated {
    /// The area in square centimetres.
    #[must_use]
    pub fn area_cm2(&self) -> f64 {
        self.area * SQUARE_INCH / 100.0
    }

    /// What is left over on each side of the negative: left and right, top and foot, in millimetres;
    /// negative where the negative is cropped.
    #[must_use]
    pub fn margins(&self) -> (f64, f64) {
        let margin = |coated: f64, negative: f64| (coated - negative) / 2.0;
        (
            margin(self.sides.0, self.negative.0),
            margin(self.sides.1, self.negative.1),
        )
    }

    /// The widest brush for it, in millimetres.
    #[must_use]
    pub fn widest_brush(&self) -> f64 {
        BRUSH_SHARE * self.sides.0.min(self.sides.1)
    }
}

/// The area that is coated for a negative: `(w + 2m)(h + 2m)`, or that of the coated size.
///
/// ```
/// use notchbook::craft::printing::coating::{Field, coated};
/// use notchbook::craft::{Millimetres, Size};
/// let field = Field::Margin(Millimetres::parse("1/2 in")?);
/// let coated = coated(Size::parse("8x10")?, field).unwrap().value;
/// assert!((coated.area - 99.0).abs() < 1e-9);
/// # Ok::<(), notchbook::craft::Unreadable>(())
/// ```
///
/// # Errors
/// If a side would be longer than 10 m.
pub fn coated(negative: Size, field: Field) -> Result<Figure<Coated>, Impossible> {
    let (w, h) = negative.mm();
    let sides = match field {
        Field::Margin(margin) => (w + 2.0 * margin.value(), h + 2.0 * margin.value()),
        Field::Coated(size) => laid_along(size.mm(), (w, h)),
    };
    within("a coated side", sides.0.max(sides.1), 1.0..=10_000.0, "mm")?;
    let area = sides.0 * sides.1 / SQUARE_INCH;
    let used = sides.0.min(w) * sides.1.min(h) / (w * h);
    let value = Coated {
        sides,
        negative: (w, h),
        area,
        used,
    };
    let unit = negative.unit();
    let side = |mm: f64| four(mm / unit.in_mm());
    let working = format!("{} x {} {}", side(sides.0), side(sides.1), unit.symbol());
    let step = Step::new("coated", Amount::number(area, "sq in", 2)).working(working);
    let mut figure = Figure::new(value, Grounds::own("the sizes as typed")).step(step);
    let bare = negative.area_sq_in();
    if area > bare * (1.0 + 1e-9) {
        let more = Amount::number(100.0 * (area / bare - 1.0), "%", 1);
        figure = figure.step(Step::new("more than the negative", more));
    }
    Ok(remarked(figure))
}

/// A size turned so that its long side lies along the long side of the negative.
fn laid_along((w, h): (f64, f64), negative: (f64, f64)) -> (f64, f64) {
    if (w > h) == (negative.0 > negative.1) || w == h {
        (w, h)
    } else {
        (h, w)
    }
}

fn remarked(figure: Figure<Coated>) -> Figure<Coated> {
    let (across, up) = figure.value.margins();
    let tiny = 1e-6;
    let larger = across > tiny || up > tiny;
    let smaller = across < -tiny || up < -tiny;
    let figure = if larger {
        figure.remark(
            Concern::Note,
            "what is coated beyond the negative prints black unless it is masked",
        )
    } else {
        figure
    };
    if smaller {
        figure.remark(
            Concern::Note,
            "coated smaller than the negative: no black border, and the edge of the coating is the edge \
             of the picture, so it has to be straight; pencil dots or drafting tape mark it",
        )
    } else {
        figure
    }
}

/// The sensitizer an area takes, in millilitres, where a millilitre covers `coverage` square inches,
/// in so many coats that share it.
///
/// # Errors
/// If a number cannot be.
pub fn volume(area: f64, coverage: f64) -> Result<Figure<f64>, Impossible> {
    let area = within("an area", area, 0.01..=200_000.0, "sq in")?;
    let coverage = within("a coverage", coverage, 0.5..=1000.0, "sq in a millilitre")?;
    let volume = area / coverage;
    let step = Step::new("sensitizer", Amount::number(volume, "ml", 2)).working(format!(
        "{} sq in / {}",
        four(area),
        four(coverage)
    ));
    Ok(Figure::new(volume, COVERAGE)
        .step(step)
        .within("one paper, one brush or rod, one strength of sensitizer"))
}

/// How far a millilitre went, in square inches, from what was coated.
///
/// # Errors
/// If a number cannot be.
pub fn coverage_of(area: f64, volume: f64) -> Result<f64, Impossible> {
    let volume = within("a volume", volume, 0.01..=1000.0, "ml")?;
    let coverage = within("an area", area, 0.01..=200_000.0, "sq in")? / volume;
    within("a coverage", coverage, 0.5..=1000.0, "sq in a millilitre")
}

/// Reads a coverage: `20`, `20 sq in`, `130 cm2`, always for one millilitre.
///
/// # Errors
/// If the text is no coverage.
pub fn read_coverage(text: &str) -> Result<f64, crate::craft::Unreadable> {
    let unread = || {
        crate::craft::Unreadable::new(
            text,
            "a coverage: write the square inches a millilitre covers, 20 sq in, or 130 cm2",
        )
    };
    let plain = text.trim().to_lowercase();
    let metric = ["cm2", "cm\u{b2}", "sq cm", "qcm"];
    let inches = ["sq in", "in2", "in\u{b2}", "square inches"];
    let stripped = |units: &[&str]| {
        let mut each = units.iter();
        each.find_map(|unit| plain.strip_suffix(unit).map(str::to_owned))
    };
    let (bare, factor) = match (stripped(&metric), stripped(&inches)) {
        (Some(bare), _) => (bare, 100.0 / SQUARE_INCH),
        (None, Some(bare)) => (bare, 1.0),
        (None, None) => (plain.clone(), 1.0),
    };
    let value = crate::craft::number(bare.trim()).map_err(|_| unread())? * factor;
    if (0.5..=1000.0).contains(&value) {
        Ok(value)
    } else {
        Err(unread())
    }
}

/// Millimetres as inches, for what printers measure in inches.
#[must_use]
pub fn inches(mm: f64) -> Amount {
    Amount::number(mm / INCH, "in", 2)
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn size(text: &str) -> Size {
        Size::parse(text).unwrap()
    }

    #[test]
    fn a_crop_is_laid_along_the_negative_and_says_what_is_left() {
        let crop = Field::Coated(size("7x5"));
        let value = coated(size("8x10"), crop).unwrap().value;
        assert!((value.area - 35.0).abs() < 1e-9);
        assert!((value.used - 35.0 / 80.0).abs() < 1e-9);
        let (across, up) = value.margins();
        assert!((across + 1.5 * INCH).abs() < 1e-9 && (up + 1.5 * INCH).abs() < 1e-9);
    }

    #[test]
    fn larger_one_way_and_smaller_the_other_says_both() {
        let figure = coated(size("8x10"), Field::Coated(size("9x5"))).unwrap();
        assert_eq!(figure.value.sides, (5.0 * INCH, 9.0 * INCH));
        let figure = coated(size("8x10"), Field::Coated(size("9x9"))).unwrap();
        assert_eq!(figure.remarks.len(), 2);
        assert!((figure.value.used - 0.9).abs() < 1e-9);
    }

    #[test]
    fn a_coverage_is_read_in_either_unit() {
        assert_eq!(read_coverage("20").unwrap(), 20.0);
        assert_eq!(read_coverage("20 sq in").unwrap(), 20.0);
        assert!((read_coverage("129.032 cm2").unwrap() - 20.0).abs() < 1e-9);
        for text in ["", "sq in", "0", "-3", "20 ml", "1e9"] {
            assert!(read_coverage(text).is_err(), "{text}");
        }
    }

    proptest! {
        #[test]
        fn a_margin_never_makes_less_of_it(margin in 0.0..500.0_f64) {
            let field = Field::Margin(Millimetres::new(margin).unwrap());
            let value = coated(size("8x10"), field).unwrap().value;
            prop_assert!(value.area >= 80.0 - 1e-9 && (value.used - 1.0).abs() < 1e-9);
        }

        #[test]
        fn what_covers_is_found_back(area in 1.0..1000.0_f64, coverage in 1.0..100.0_f64) {
            let ml = volume(area, coverage).unwrap().value;
            if (0.01..=1000.0).contains(&ml) {
                prop_assert!((coverage_of(area, ml).unwrap() - coverage).abs() < 1e-6);
            }
        }
    }
}
