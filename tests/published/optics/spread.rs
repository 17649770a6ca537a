//! The aperture from the focus spread, and diffraction.

use notchbook::craft::optics::Distance;
use notchbook::craft::optics::blur::diffraction;
use notchbook::craft::optics::spread::{
    admissible, for_distances, for_travel, optimum, round_optimum,
};

use super::{mm, near, off};

/// Whole stops below an f-number and the stops beyond, on the exact series.
fn stop_and_part(number: f64) -> (f64, f64) {
    let stops = 2.0 * number.log2();
    (stops.floor(), stops.fract())
}

/// Whole stops of a mark.
fn whole(mark: &str) -> f64 {
    match mark {
        "16" => 8.0,
        "22" => 9.0,
        "32" => 10.0,
        "45" => 11.0,
        "64" => 12.0,
        _ => f64::NAN,
    }
}

/// Q.-T. Luong, "How to select the f-stop", The Large Format Page, after P. Hansma. Published: the
/// spread in mm and the f-number, "32.6" being f/32 and 0.6 stop. √(375 dv) lies within 0.1 stop of
/// every line but the last (0.13). The other columns are computed; cut to tenths, 20 √dv (remembered)
/// gives lines 1 to 9 as printed.
#[test]
fn the_printed_f_numbers_by_spread() {
    let table = [
        (1.0, "16.6", 19.36, "16 + 0.55", 20.0, "16 + 0.64"),
        (2.0, "22.6", 27.39, "22 + 0.55", 28.28, "22 + 0.64"),
        (3.0, "32.2", 33.54, "32 + 0.14", 34.64, "32 + 0.23"),
        (4.0, "32.6", 38.73, "32 + 0.55", 40.0, "32 + 0.64"),
        (5.0, "32.9", 43.3, "32 + 0.87", 44.72, "32 + 0.97"),
        (6.0, "45.2", 47.43, "45 + 0.14", 48.99, "45 + 0.23"),
        (7.0, "45.4", 51.23, "45 + 0.36", 52.92, "45 + 0.45"),
        (8.0, "45.6", 54.77, "45 + 0.55", 56.57, "45 + 0.64"),
        (9.0, "45.8", 58.09, "45 + 0.72", 60.0, "45 + 0.81"),
        (10.0, "64", 61.24, "45 + 0.87", 63.25, "45 + 0.97"),
    ];
    for (spread, printed, balanced, balanced_part, round, round_part) in table {
        let (mark, tenths) = printed.split_once('.').unwrap_or((printed, "0"));
        let printed = whole(mark) + tenths.parse::<f64>().unwrap() / 10.0;
        let found = optimum(spread, 0.0);
        near(found, balanced, 0.0051);
        near(
            for_travel(mm(spread), 0.1, 0.0).unwrap().value.optimum,
            found,
            1e-12,
        );
        let within = if spread == 10.0 { 0.135 } else { 0.1 };
        near(2.0 * found.log2(), printed, within);

        let near_rounded = round_optimum(spread, 0.0);
        near(near_rounded, round, 0.0051);
        for (number, text) in [(found, balanced_part), (near_rounded, round_part)] {
            let (mark, part) = text.split_once(" + ").unwrap();
            let (stops, beyond) = stop_and_part(number);
            near(stops, whole(mark), 1e-12);
            near(beyond, part.parse().unwrap(), 0.0051);
        }
        if spread < 10.0 {
            let cut = (20.0 * near_rounded.log2()).floor() / 10.0;
            near(cut, printed, 1e-9);
        }
    }
}

/// The table of the same page as Large Format Photography Forum, thread 14459, quotes it (second
/// hand): f-number, line pairs a millimetre, disc in mm. Printed values are cut and not rounded, so
/// 46.9 must not be expected as 47, nor printed as 46.
#[test]
fn the_printed_diffraction_by_f_number() {
    for (number, resolution, disc) in [
        (11.0, 136.0, 0.014),
        (16.0, 93.0, 0.021),
        (22.0, 68.0, 0.029),
        (32.0, 46.0, 0.042),
        (45.0, 33.0, 0.059),
        (64.0, 23.0, 0.085),
    ] {
        let found = diffraction(number, 0.0).unwrap().value;
        near(found.resolution.floor(), resolution, 1e-12);
        assert!((0.0..=0.001_001).contains(&(found.disc - disc)), "{number}");
    }
    let at_32 = diffraction(32.0, 0.0).unwrap().value;
    near(at_32.resolution, 46.9, 0.05);
    near(at_32.disc, 0.042_67, 1e-5);
}

/// D. M. Jacobson, Photographic Lenses Tutorial, ch. 5: the first dark ring of a point lies at 1.21967
/// wavelengths times N from its middle (published). Derived: a disc of N / 750 is the whole ring at
/// 546.6 nm.
#[test]
fn the_disc_is_the_first_dark_ring_of_green_light() {
    let disc = diffraction(22.0, 0.0).unwrap().value.disc;
    near(disc, 2.0 * 1.219_67 * 546.6e-6 * 22.0, 1e-5);
}

/// Derived: 4 mm of spread: f/38.73, both blurs 0.05164 mm, together 0.07303 mm; within 1e-4.
#[test]
fn four_millimetres_of_spread() {
    let found = for_travel(mm(4.0), 0.1, 0.0).unwrap().value;
    near(found.optimum, 38.730, 1e-3);
    near(found.defocus, 0.051_64, 1e-4);
    near(found.optimum / 750.0, 0.051_64, 1e-4);
    near(found.total, 0.073_03, 1e-4);
}

/// Derived: 150 mm lens, 3 m to infinity, circle 0.1 mm; within 0.01.
#[test]
fn from_three_metres_to_infinity_with_a_150_mm_lens() {
    let found = for_distances(mm(150.0), off(3000.0), Distance::INFINITY, 0.1)
        .unwrap()
        .value;
    near(found.near, 157.895, 0.01);
    near(found.far, 150.0, 1e-9);
    near(found.working.travel, 7.895, 0.01);
    near(found.midpoint, 153.947, 0.01);
    near(found.best, 153.846, 0.01);
    near(found.focus.millimetres().unwrap(), 6000.0, 0.01);
    near(admissible(found.working.travel, 0.1, 0.0), 39.47, 0.01);
    near(found.working.admissible, 38.46, 0.01);
    near(optimum(found.working.travel, 0.0), 54.41, 0.01);
    // Close to the travel the midpoint is too long by dv² / (2 (vn + vf)).
    near(
        found.midpoint - found.best,
        7.895 * 7.895 / (2.0 * 307.895),
        1e-3,
    );
}

/// Derived: 150 mm lens, 2 m to 10 m; within 0.01. The distance in focus is the one that US Navy
/// NAVEDTRA 14209 gives, 2 D d / (D + d).
#[test]
fn from_two_to_ten_metres_with_a_150_mm_lens() {
    let found = for_distances(mm(150.0), off(2000.0), off(10_000.0), 0.1)
        .unwrap()
        .value;
    near(found.working.travel, 9.878, 0.01);
    near(found.focus.millimetres().unwrap(), 3333.3, 0.05);
    near(admissible(found.working.travel, 0.1, 0.0), 49.39, 0.01);
    near(found.working.admissible, 47.12, 0.01);
}

/// Derived: 90 mm lens, 1 m to 20 m; within 0.01.
#[test]
fn from_one_to_twenty_metres_with_a_90_mm_lens() {
    let found = for_distances(mm(90.0), off(1000.0), off(20_000.0), 0.1)
        .unwrap()
        .value;
    near(found.working.travel, 8.494, 0.01);
    near(admissible(found.working.travel, 0.1, 0.0), 42.47, 0.01);
    near(found.working.admissible, 40.38, 0.01);
    near(optimum(found.working.travel, 0.0), 56.44, 0.01);
}
