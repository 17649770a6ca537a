//! Angles of view and equivalent focal lengths.

use notchbook::craft::optics::angle::{Side, circle_of, equivalent, of_circle, of_side, of_view};

use super::{frame, mm, near};

/// Leica Users Group, 20 August 1999, table of picture angles. Published: 36x24 mm with lenses of 21,
/// 50 and 135 mm, along the long side, the short side and the diagonal; within 0.001 deg.
#[test]
fn angles_on_36x24_are_the_printed_ones() {
    for (f, long, short, diagonal) in [
        (21.0, 81.203, 59.490, 91.702),
        (50.0, 39.598, 26.991, 46.793),
        (135.0, 15.189, 10.159, 18.208),
    ] {
        let views = of_view(frame(36.0, 24.0), mm(f), 0.0).unwrap().value;
        near(views.long, long, 0.001);
        near(views.short, short, 0.001);
        near(views.diagonal, diagonal, 0.001);
    }
}

/// Computed from 2 atan(d / 2f) for a 4x5 of 96 x 120 mm at infinity, a table to a tenth of a degree;
/// the equivalents by diagonal and by long side against 36x24 mm, to a hundredth and a tenth.
#[test]
fn angles_and_equivalents_on_4x5() {
    let table = [
        (65.0, 85.4, 72.9, 99.5, 18.3, 19.5),
        (75.0, 77.3, 65.2, 91.4, 21.12, 22.5),
        (90.0, 67.4, 56.1, 81.0, 25.34, 27.0),
        (120.0, 53.1, 43.6, 65.3, 33.79, 36.0),
        (135.0, 47.9, 39.1, 59.3, 38.01, 40.5),
        (150.0, 43.6, 35.5, 54.2, 42.23, 45.0),
        (180.0, 36.9, 29.9, 46.2, 50.68, 54.0),
        (210.0, 31.9, 25.8, 40.2, 59.12, 63.0),
        (240.0, 28.1, 22.6, 35.5, 67.57, 72.0),
        (300.0, 22.6, 18.2, 28.7, 84.46, 90.0),
    ];
    let (sheet, small) = (frame(96.0, 120.0), frame(36.0, 24.0));
    for (f, long, short, diagonal, by_diagonal, by_long) in table {
        let views = of_view(sheet, mm(f), 0.0).unwrap().value;
        near(views.long, long, 0.051);
        near(views.short, short, 0.051);
        near(views.diagonal, diagonal, 0.051);
        let like = |side| equivalent(mm(f), sheet, small, side).unwrap().value;
        near(like(Side::Diagonal), by_diagonal, 0.0051);
        near(like(Side::Long), by_long, 0.051);
    }
}

/// US Army subcourse SS0511: a lens as long as the diagonal is the normal one. Published as a rule;
/// computed: it takes in 53.13 deg corner to corner.
#[test]
fn the_normal_lens_takes_in_53_degrees() {
    for (w, h) in [(96.0, 120.0), (36.0, 24.0), (194.0, 245.0)] {
        let diagonal = frame(w, h).diagonal();
        near(of_side(diagonal, diagonal, 0.0), 53.13, 0.005);
    }
}

/// D. M. Jacobson, Photographic Lenses FAQ, question 6: the angle narrows with the draw. Derived: at
/// life size a 150 mm lens takes in what a 300 mm lens does at infinity.
#[test]
fn the_angle_narrows_as_the_lens_is_racked_out() {
    near(
        of_side(120.0, 150.0, 1.0),
        of_side(120.0, 300.0, 0.0),
        1e-12,
    );
}

/// M. Cavina, "Rodenstock Geronar e Geronar-WA": 85 deg stand beside 170 mm for the 90 mm lens. The
/// angle gives 164.9 mm, and the remark says that the circle is the one to keep.
#[test]
fn a_circle_from_an_angle_comes_with_a_remark() {
    let circle = circle_of(mm(90.0), 85.0).unwrap();
    near(circle.value, 164.9, 0.05);
    assert_eq!(circle.remarks.len(), 1);
    near(of_circle(170.0, 90.0), 86.7, 0.05);
}
