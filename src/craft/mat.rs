//! The borders of a window mat, from the board, the window and where the window is to sit.
//!
//! The window is the opening at the face of the board. Bevel, overlap over the print and the
//! cutter's own allowances are not reckoned here. The borders and the window always add up to the
//! board: `W = left + w + right` and `H = top + h + bottom`.

use std::fmt;

use super::millimetres::Millimetres;
use super::size::{LengthUnit, Size};

/// Where a window sits between the top and the foot of its mat; the sides are always equal.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Placing {
    /// Top and foot alike.
    Centred,
    /// The foot wider than the top by this much.
    Foot(Millimetres),
    /// The top like the sides, and all that is left at the foot.
    SpareAtFoot,
    /// From side to top and from top to foot the same step.
    EqualSteps,
    /// On the optical centre. The construction: lay the window in the upper left corner; draw a
    /// line from its lower left corner to the right edge of the board, half-way down what is left
    /// below it; where that line crosses the middle of what is left beside the window, the window's
    /// lower right corner belongs. The closed form `top = (H - h)(W + w) / 4W` is R. Cottrell's
    /// ("Optical Print Centering", 2000).
    OpticalCentre,
}

/// The four borders of a window mat, in the unit in which the board was given.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Borders {
    /// Width of the left border.
    pub left: f64,
    /// Width of the right border.
    pub right: f64,
    /// Height of the border above the window.
    pub top: f64,
    /// Height of the border below the window, the foot.
    pub bottom: f64,
    /// The unit of all four.
    pub unit: LengthUnit,
}

/// Why a window cannot be cut so.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
pub enum Misfit {
    /// The window is as wide or as high as the board, or more.
    #[error(
        "a window of {window} does not lie inside a board of {outer}: choose a smaller window or a larger board"
    )]
    NotInside {
        /// The board.
        outer: Size,
        /// The window.
        window: Size,
    },
    /// The window fits, but not where it was to sit.
    #[error(
        "a window of {window} placed so leaves nothing at the {edge} of a board of {outer}: ask for less at the other edge"
    )]
    NothingLeft {
        /// The board.
        outer: Size,
        /// The window.
        window: Size,
        /// `top` or `foot`.
        edge: &'static str,
    },
}

/// A border narrower than this, in millimetres, is none.
const NONE: f64 = 0.001;

/// The borders of a board of size `outer` with a window of size `window`.
///
/// ```
/// use notchbook::craft::Size;
/// use notchbook::craft::mat::{Placing, borders};
/// let (board, window) = (Size::parse("11x14")?, Size::parse("7.5x9.5")?);
/// let cut = borders(board, window, Placing::OpticalCentre)?;
/// assert_eq!(cut.to_string(), "left 1.75, right 1.75, top 1.892, foot 2.608 in");
/// assert!(borders(window, board, Placing::Centred).is_err());
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
///
/// # Errors
/// If the window does not lie inside the board, or the placing leaves nothing at the top or foot.
pub fn borders(outer: Size, window: Size, placing: Placing) -> Result<Borders, Misfit> {
    let unit = outer.unit();
    // The same unit on both sides keeps inches free of the noise of a conversion.
    let scale = window.unit().in_mm() / unit.in_mm();
    let (width, height) = (outer.width(), outer.height());
    let (w, h) = (window.width() * scale, window.height() * scale);
    let least = NONE / unit.in_mm();
    let (beside, above) = (width - w, height - h);
    if beside < 2.0 * least || above < 2.0 * least {
        return Err(Misfit::NotInside { outer, window });
    }
    let side = beside / 2.0;
    let top = match placing {
        Placing::Centred => above / 2.0,
        Placing::Foot(wider) => (above - wider.value() / unit.in_mm()) / 2.0,
        Placing::SpareAtFoot => side,
        Placing::EqualSteps => (above + side) / 3.0,
        Placing::OpticalCentre => above * (width + w) / (4.0 * width),
    };
    let bottom = above - top;
    for (border, edge) in [(top, "top"), (bottom, "foot")] {
        if border < least {
            return Err(Misfit::NothingLeft {
                outer,
                window,
                edge,
            });
        }
    }
    Ok(Borders {
        left: side,
        right: beside - side,
        top,
        bottom,
        unit,
    })
}

impl fmt::Display for Borders {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let [left, right, top, bottom] = [self.left, self.right, self.top, self.bottom]
            .map(|border| super::numeral::trimmed(border, 3));
        let unit = self.unit.symbol();
        write!(
            f,
            "left {left}, right {right}, top {top}, foot {bottom} {unit}"
        )
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn size(text: &str) -> Size {
        Size::parse(text).unwrap()
    }

    #[test]
    fn a_window_that_is_not_inside_is_refused_with_both_sizes() {
        for window in ["11x9", "8x14", "11x14", "12x15", "279.4x200 mm"] {
            let why = borders(size("11x14"), size(window), Placing::Centred).unwrap_err();
            assert!(matches!(why, Misfit::NotInside { .. }), "{window}");
        }
        let why = borders(size("8x10"), size("8x10"), Placing::Centred).unwrap_err();
        assert_eq!(
            why.to_string(),
            "a window of 8x10 in does not lie inside a board of 8x10 in: choose a smaller window or a larger board"
        );
    }

    #[test]
    fn a_foot_that_eats_the_top_is_refused() {
        let foot = Placing::Foot(Millimetres::parse("4 in").unwrap());
        let why = borders(size("11x14"), size("8x10"), foot).unwrap_err();
        assert!(
            matches!(why, Misfit::NothingLeft { edge: "top", .. }),
            "{why}"
        );
        let why = borders(size("16x11"), size("8x10"), Placing::SpareAtFoot).unwrap_err();
        assert!(
            matches!(why, Misfit::NothingLeft { edge: "foot", .. }),
            "{why}"
        );
    }

    #[test]
    fn board_and_window_may_be_in_different_units() {
        let cut = borders(size("40x50 cm"), size("8x10 in"), Placing::Centred).unwrap();
        assert_eq!(
            cut.to_string(),
            "left 9.84, right 9.84, top 12.3, foot 12.3 cm"
        );
    }

    #[test]
    fn a_foot_is_wider_than_the_top_by_what_was_asked() {
        let foot = Placing::Foot(Millimetres::parse("1/2 in").unwrap());
        let cut = borders(size("14x17"), size("8x10"), foot).unwrap();
        assert_eq!(cut.to_string(), "left 3, right 3, top 3.25, foot 3.75 in");
    }

    proptest! {
        #[test]
        fn borders_and_window_add_up_to_the_board(
            width in 2.0..60.0_f64, height in 2.0..60.0_f64,
            w in 0.1..0.99_f64, h in 0.1..0.99_f64,
            foot in 0.0..30.0_f64, rule in 0..5,
        ) {
            let outer = Size::new(width, height, LengthUnit::Inch).unwrap();
            let window = Size::new(width * w, height * h, LengthUnit::Inch).unwrap();
            let placing = match rule {
                0 => Placing::Centred,
                1 => Placing::Foot(Millimetres::new(foot).unwrap()),
                2 => Placing::SpareAtFoot,
                3 => Placing::EqualSteps,
                _ => Placing::OpticalCentre,
            };
            if let Ok(cut) = borders(outer, window, placing) {
                let across = cut.left + window.width() + cut.right;
                let down = cut.top + window.height() + cut.bottom;
                prop_assert!((across - outer.width()).abs() < 1e-9);
                prop_assert!((down - outer.height()).abs() < 1e-9);
                for border in [cut.left, cut.right, cut.top, cut.bottom] {
                    prop_assert!(border > 0.0);
                }
            } else {
                prop_assert!(!matches!(placing, Placing::Centred | Placing::OpticalCentre));
            }
        }

        #[test]
        fn the_optical_centre_never_lies_below_the_middle(
            width in 2.0..60.0_f64, height in 2.0..60.0_f64,
            w in 0.1..0.99_f64, h in 0.1..0.99_f64,
        ) {
            let outer = Size::new(width, height, LengthUnit::Inch).unwrap();
            let window = Size::new(width * w, height * h, LengthUnit::Inch).unwrap();
            let cut = borders(outer, window, Placing::OpticalCentre).unwrap();
            prop_assert!(cut.top <= cut.bottom);
        }
    }
}
