//! Finishing: the borders of a window mat.

use notchbook::craft::mat::{Borders, Misfit, Placing, borders};
use notchbook::craft::{Millimetres, Size};

fn size(text: &str) -> Size {
    Size::parse(text).unwrap_or_else(|why| panic!("{why}"))
}

fn cut(outer: &str, window: &str, placing: Placing) -> Borders {
    borders(size(outer), size(window), placing).unwrap_or_else(|why| panic!("{why}"))
}

#[track_caller]
fn are(cut: Borders, side: f64, top: f64, foot: f64) {
    let tolerance = 0.0006;
    for (border, expected) in [
        (cut.left, side),
        (cut.right, side),
        (cut.top, top),
        (cut.bottom, foot),
    ] {
        assert!((border - expected).abs() <= tolerance, "{cut}");
    }
}

/// Westfall Framing, "Works on Paper". Published: a 20x24 frame and an 11x14 window leave 5 in above
/// and below and 4.5 in at the sides.
#[test]
fn a_centred_window_of_11x14_in_20x24() {
    are(cut("20x24", "11x14", Placing::Centred), 4.5, 5.0, 5.0);
}

/// Framers Workshop, "Mat measuring". Published: a 14 in wide, 11 in high frame and a window of
/// 9 3/4 x 7 3/4 in leave 2 1/8 in at the sides and 1 5/8 in above and below.
#[test]
fn a_centred_window_of_9_and_3_quarters_by_7_and_3_quarters_in_14x11() {
    let cut = cut("14x11", "9 3/4 x 7 3/4 in", Placing::Centred);
    are(cut, 2.125, 1.625, 1.625);
}

/// "Thoughts on mat layout", Bee Happy Graphics, 2018. The three rules are published there, the
/// numbers for a board of 10x8 and a window of 7x4 derived; the equal steps are solved here.
#[test]
fn three_rules_for_the_same_board_and_window() {
    are(cut("10x8", "7x4", Placing::Centred), 1.5, 2.0, 2.0);
    are(cut("10x8", "7x4", Placing::SpareAtFoot), 1.5, 1.5, 2.5);
    are(cut("10x8", "7x4", Placing::EqualSteps), 1.5, 1.8333, 2.1667);
}

/// "Thoughts on mat layout", Bee Happy Graphics, 2018. Published: the foot is 1/4 to 1 in wider than
/// the top. Derived: for 10x8 and 7x4 the top loses half of that and the foot gains it.
#[test]
fn a_wider_foot_takes_half_its_width_from_the_top() {
    for (wider, top, foot) in [("1/4 in", 1.875, 2.125), ("1 in", 1.5, 2.5)] {
        let wider = Placing::Foot(Millimetres::parse(wider).unwrap());
        are(cut("10x8", "7x4", wider), 1.5, top, foot);
    }
}

/// US Navy, "Illustrator Draftsman", p. 2-32. Published: sides and top to foot as 3 to 4. Derived: an
/// 8x10 window with 3 in sides takes a board of 14x17, and that board gives those borders back.
#[test]
fn a_14x17_board_gives_three_to_four() {
    are(cut("14x17", "8x10", Placing::SpareAtFoot), 3.0, 3.0, 4.0);
}

/// "Cutting a picture mat", pictureframes101.com. Published: 2 in at the sides and the top and 4 in
/// at the foot. Derived: for an 8x10 window that is a board of 12x16.
#[test]
fn a_double_foot() {
    are(cut("12x16", "8x10", Placing::SpareAtFoot), 2.0, 2.0, 4.0);
}

/// R. Cottrell, "Optical Print Centering", russellcottrell.com, first posted 2000-12-20. Published:
/// top = (Wm + Wp)(Hm - Hp) / 4 Wm. The same construction is drawn at mmresourcecenter.org. Derived:
/// the numbers for 11x14 and 7.5x9.5.
#[test]
fn the_optical_centre_of_a_7_5x9_5_window_in_11x14() {
    are(
        cut("11x14", "7.5x9.5", Placing::OpticalCentre),
        1.75,
        1.892,
        2.608,
    );
}

/// Derived, by drawing the two lines of the construction instead of using its closed form.
#[test]
fn the_optical_centre_lies_where_the_two_lines_meet() {
    for (outer, window) in [("11x14", "7.5x9.5"), ("20x16", "13x10"), ("16x20", "9x12")] {
        let (board, opening) = (size(outer), size(window));
        let (width, height) = (board.width(), board.height());
        let (w, h) = (opening.width(), opening.height());
        // From the window's lower left corner (0, h) to the right edge at half of what is left.
        let slope = ((height + h) / 2.0 - h) / width;
        let lower_right = h + slope * (width + w) / 2.0;
        let top = lower_right - h;
        are(
            cut(outer, window, Placing::OpticalCentre),
            (width - w) / 2.0,
            top,
            height - h - top,
        );
    }
}

/// Derived from the rule that a mat must cover the edges: an 8x10 window in 8x10 covers none.
#[test]
fn a_window_as_large_as_the_sheet_is_refused() {
    let why = borders(size("8x10"), size("8x10"), Placing::Centred);
    assert!(matches!(why, Err(Misfit::NotInside { .. })), "{why:?}");
}
