//! Circles of confusion, hyperfocal distance, depth of field and of focus.
//!
//! Printed examples reckon with the mark of an aperture, f/11 as 11, and so do these.

use notchbook::craft::optics::Distance;
use notchbook::craft::optics::blur::of_point;
use notchbook::craft::optics::circle::{by_diagonal, for_print};
use notchbook::craft::optics::depth::{
    Sharpness, consecutive, focus_between, hyperfocal, limits, of_focus, simple_far, simple_near,
};

use super::{INCH, frame, mm, near, off};

fn sharp(f: f64, number: f64, circle: f64) -> Sharpness {
    Sharpness::new(mm(f), number, circle).unwrap_or_else(|why| panic!("{why}"))
}

/// dpreview.com glossary, theimage.com, everything2.com. Published: the circle is the diagonal over
/// 1500 or over 1730; 36x24 mm gives 0.029 and 0.025. From 0.25 mm on an 8x10 print it is 0.033
/// (published) by the ratio of the diagonals (0.0333: computed). 1/1720 is often quoted and was found
/// in none of them.
#[test]
fn circles_by_the_diagonal_of_36x24() {
    let small = frame(36.0, 24.0);
    near(small.diagonal(), 43.267, 5e-4);
    near(by_diagonal(small, 1500.0), 0.028_84, 5e-4);
    near(by_diagonal(small, 1730.0), 0.025_01, 5e-4);
    let print = frame(8.0 * INCH, 10.0 * INCH);
    near(0.25 * small.diagonal() / print.diagonal(), 0.0333, 5e-4);
}

/// Computed: diagonal, d/1500, d/1730 and the factors to 36x24 mm by diagonal and by long side for 6x9,
/// 4x5, 5x7, 8x10 and 11x14. Image areas: 6x9 published, 4x5 as Rodenstock's printed movements bear
/// out, the larger ones remembered.
#[test]
fn circles_and_factors_by_format() {
    let table = [
        ([56.0, 84.0], [100.96, 0.0673, 0.0584, 2.3333, 2.3333]),
        ([96.0, 120.0], [153.67, 0.1024, 0.0888, 3.5518, 3.3333]),
        ([120.0, 170.0], [208.09, 0.1387, 0.1203, 4.8094, 4.7222]),
        ([194.0, 245.0], [312.51, 0.2083, 0.1806, 7.2228, 6.8056]),
        ([270.0, 347.0], [439.67, 0.2931, 0.2541, 10.1619, 9.6389]),
    ];
    let small = frame(36.0, 24.0);
    for ([h, w], [diagonal, strict, stricter, factor, by_long]) in table {
        let sheet = frame(w, h);
        near(sheet.diagonal(), diagonal, 0.0051);
        near(by_diagonal(sheet, 1500.0), strict, 0.000_051);
        near(by_diagonal(sheet, 1730.0), stricter, 0.000_051);
        near(sheet.diagonal() / small.diagonal(), factor, 0.000_051);
        near(sheet.long() / small.long(), by_long, 0.000_051);
    }
    for ([w, h], diagonal) in [
        ([4.0, 5.0], 162.64),
        ([5.0, 7.0], 218.50),
        ([8.0, 10.0], 325.28),
        ([11.0, 14.0], 452.23),
    ] {
        near(frame(w * INCH, h * INCH).diagonal(), diagonal, 0.0051);
    }
}

/// S. F. Ray, 2000, p. 52, as the encyclopedia article "Circle of confusion" cites it (second hand): 5
/// line pairs a mm at 250 mm. Derived: 120 mm of negative to a 254 mm print 0.0945 mm, to 20 in 0.0472
/// and 0.0945 seen from 500 mm, an 8x10 contact 0.2.
#[test]
fn circles_by_the_print() {
    let at = |seen, enlargement| for_print(mm(seen), 5.0, enlargement).unwrap().value;
    near(at(250.0, 254.0 / 120.0), 0.0945, 5e-5);
    near(at(250.0, 508.0 / 120.0), 0.0472, 5e-5);
    near(at(500.0, 508.0 / 120.0), 0.0945, 5e-5);
    near(at(250.0, 1.0), 0.2, 1e-12);
}

/// US Navy NAVEDTRA 14209, "Photography (Basic)", ch. 1. Published to a tenth: hyperfocal 554 ft,
/// focused at 10 ft, sharp from 9.8 to 10.2 ft (9.823 and 10.184: computed); focus for these limits
/// 10 ft; within 0.03 and 0.01 ft.
#[test]
fn the_navys_limits_about_ten_feet() {
    near(simple_near(554.0, 10.0), 9.823, 0.001);
    near(simple_far(554.0, 10.0).unwrap(), 10.184, 0.001);
    near(simple_near(554.0, 10.0), 9.8, 0.03);
    near(simple_far(554.0, 10.0).unwrap(), 10.2, 0.03);
    let focus = focus_between(off(9.8 * 304.8), off(10.2 * 304.8))
        .unwrap()
        .value;
    near(focus.millimetres().unwrap() / 304.8, 9.996, 0.01);
    // Far at infinity: twice the near limit.
    let twice = focus_between(off(3000.0), Distance::INFINITY)
        .unwrap()
        .value;
    near(twice.millimetres().unwrap(), 6000.0, 1e-6);
}

/// "The Sinclair Handbook of Photography", Lens Facts. Published: 5 in, f/8, 1/100 in give 26 ft (26.04)
/// and sharpness from 13 ft; within 0.05 ft. Its formula at 8 ft (computed): 6.118 to 11.556 ft.
#[test]
fn the_hyperfocal_distance_of_a_5_inch_lens() {
    let feet = sharp(5.0 * INCH, 8.0, 0.01 * INCH).hyperfocal() / 304.8;
    near(feet, 26.04, 0.005);
    near(feet, 26.0, 0.05);
    near(feet / 2.0, 13.0, 0.05);
    near(simple_near(26.0, 8.0), 6.118, 0.01);
    near(simple_far(26.0, 8.0).unwrap(), 11.556, 0.01);
    assert_eq!(simple_far(26.0, 26.0), None);
}

/// "The Barnet Book of Photography", Depth. Published, exact: 6 in, f/8, 1/100 in give 37.5 ft.
#[test]
fn the_hyperfocal_distance_of_a_6_inch_lens() {
    near(
        sharp(6.0 * INCH, 8.0, 0.01 * INCH).hyperfocal() / 304.8,
        37.5,
        1e-9,
    );
}

/// H. M. Merklinger, View Camera, Sep/Oct 1996. Published: 150 mm, f/11, 0.1 mm give about 67 ft;
/// within 0.2 ft. 20454.5 mm: computed.
#[test]
fn the_hyperfocal_distance_of_a_150_mm_lens() {
    let found = hyperfocal(sharp(150.0, 11.0, 0.1)).value;
    let simple = found.simple.millimetres().unwrap();
    near(simple, 20_454.5, 0.05);
    near(simple / 304.8, 67.0, 0.2);
    near(found.exact.millimetres().unwrap(), simple + 150.0, 1e-6);
}

/// E. Bigler, Large Format Photography Forum, thread 80266, 2011. Published, exact: at f/22 and 0.150 mm
/// the lens stands 3.3 mm beyond infinity at the hyperfocal distance, whatever the focal length.
#[test]
fn the_extension_at_the_hyperfocal_distance_knows_no_focal_length() {
    for f in [90.0, 150.0, 300.0] {
        near(
            hyperfocal(sharp(f, 22.0, 0.150)).value.extension,
            3.3,
            1e-12,
        );
    }
}

/// D. M. Jacobson, Photographic Lenses FAQ. Published, exact: focused at an eighth of the hyperfocal
/// distance it is sharp from 8/9 to 8/7 of it. The Sinclair Handbook gives the same series.
#[test]
fn an_eighth_of_the_hyperfocal_distance() {
    near(simple_near(8.0, 1.0), 8.0 / 9.0, 1e-12);
    near(simple_far(8.0, 1.0).unwrap(), 8.0 / 7.0, 1e-12);
    let (focus, depth) = consecutive(8000.0, 8);
    near(focus.millimetres().unwrap(), 1000.0, 1e-9);
    near(depth.near.millimetres().unwrap(), 8000.0 / 9.0, 1e-9);
    near(depth.far.millimetres().unwrap(), 8000.0 / 7.0, 1e-9);
    let (_, depth) = consecutive(8000.0, 1);
    assert!(depth.far.is_infinite());
}

/// D. M. Jacobson, Photographic Lenses FAQ, question 11. Published formula, computed limits within
/// 0.1 mm: 210 mm, f/32, 0.1 mm at 3 m; 300 mm, f/45, 0.2 mm at 4 m.
#[test]
fn exact_limits_of_two_long_lenses() {
    for (f, number, circle, at, from, to) in [
        (210.0, 32.0, 0.1, 3000.0, 2494.9, 3761.5),
        (300.0, 45.0, 0.2, 4000.0, 2919.7, 6349.2),
    ] {
        let depth = limits(sharp(f, number, circle), off(at), 1.0)
            .unwrap()
            .value;
        near(depth.near.millimetres().unwrap(), from, 0.1);
        near(depth.far.millimetres().unwrap(), to, 0.1);
    }
}

/// Computed: at twenty focal lengths (150 mm, f/22, 0.1 mm) the simple near limit is off by 1.1 % and
/// the far one by 2.1 %, which is why the exact form is the value.
#[test]
fn the_simple_limits_are_off_by_known_amounts() {
    let sharp = sharp(150.0, 22.0, 0.1);
    let depth = limits(sharp, off(3000.0), 1.0).unwrap().value;
    let (h, s) = (sharp.hyperfocal(), 3000.0);
    let off_by = |simple: f64, exact: Distance| (simple / exact.millimetres().unwrap() - 1.0).abs();
    near(off_by(simple_near(h, s), depth.near), 0.011, 0.0006);
    near(off_by(simple_far(h, s).unwrap(), depth.far), 0.021, 0.0006);
}

/// The same FAQ's form with the pupil ratio: depth Ne c / (m² (1 ± N c / (f m))) before and behind.
/// Published formula, written out here as it is printed.
#[test]
fn the_printed_form_with_the_pupil_ratio() {
    for pupil in [0.6, 1.0, 1.5] {
        let (f, number, circle, s) = (150.0, 22.0, 0.1, 1000.0);
        let m = f / (s - f);
        let effective = number * (1.0 + m / pupil);
        let part = number * circle / (f * m);
        let depth = limits(sharp(f, number, circle), off(s), pupil)
            .unwrap()
            .value;
        let (from, to) = (
            depth.near.millimetres().unwrap(),
            depth.far.millimetres().unwrap(),
        );
        near(s - from, effective * circle / (m * m * (1.0 + part)), 1e-6);
        near(to - s, effective * circle / (m * m * (1.0 - part)), 1e-6);
    }
}

/// D. M. Jacobson, Photographic Lenses Tutorial, ch. 4. Published formula, computed blur within 1e-4 mm:
/// 150 mm, f/22, focused at 5 m. At the limits of sharpness for 0.1 mm it is 0.1 mm.
#[test]
fn the_blur_of_points_before_and_behind_five_metres() {
    let blur = |point| of_point(mm(150.0), 22.0, off(5000.0), point).unwrap().value;
    for (point, diameter, nearer) in [
        (off(3000.0), 0.1406, true),
        (off(4000.0), 0.0527, true),
        (off(8000.0), 0.0791, false),
        (Distance::INFINITY, 0.2109, false),
    ] {
        near(blur(point).diameter, diameter, 1e-4);
        assert_eq!(blur(point).nearer, nearer);
    }
    let depth = limits(sharp(150.0, 22.0, 0.1), off(5000.0), 1.0)
        .unwrap()
        .value;
    near(blur(depth.near).diameter, 0.1, 1e-9);
    near(blur(depth.far).diameter, 0.1, 1e-9);
    let focused_far = of_point(mm(150.0), 22.0, Distance::INFINITY, off(3000.0))
        .unwrap()
        .value;
    near(focused_far.diameter, 150.0 * 150.0 / (22.0 * 3000.0), 1e-9);
}

/// Slip: an APUG thread on depth of focus (which quotes S. F. Ray, 3rd ed., p. 221) multiplies
/// 2 x 0.2 x 45 and writes 9 mm. It is 18 mm.
#[test]
fn the_depth_of_focus_at_f45_is_18_mm_and_not_9() {
    near(of_focus(45.0, 0.2, 0.0).unwrap().value, 18.0, 1e-12);
    near(of_focus(5.6, 0.1, 0.0).unwrap().value, 1.12, 1e-12);
    near(of_focus(45.0, 0.2, 1.0).unwrap().value, 36.0, 1e-12);
}
