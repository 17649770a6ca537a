//! Paper speed, range, grades, filters, safelights.

use notchbook::craft::printing::paper::{Head, filters, range, safe_time, speed, wanted};
use notchbook::craft::{Grounds, Standing};
use notchbook::reference::Reference;

use super::{near, time};

/// From memory of ISO 6846: P is 1000 over the exposure in lux seconds. 5 lx s are 200, exact; the others of its steps too.
#[test]
fn a_paper_of_five_lux_seconds_has_speed_two_hundred() {
    for (exposure, expected) in [(10.0, 100.0), (6.25, 160.0), (5.0, 200.0), (2.5, 400.0)] {
        near(speed(exposure).unwrap().value, expected, 1e-9);
    }
    assert_eq!(speed(5.0).unwrap().grounds.standing, Standing::Remembered);
}

/// The ends are those of the Focal Encyclopedia, 4th ed., p. 679 (published); the rounding to tens is from memory. From -1.20 to -0.13 the range is 1.07,
/// R 110, exact.
#[test]
fn a_range_is_rounded_to_tens() {
    let (ler, iso) = range(-1.20, -0.13).unwrap().value;
    near(ler, 1.07, 1e-9);
    near(iso, 110.0, 1e-9);
}

/// Ilford technical data as quoted at grainmag.com (second-hand): Multigrade IV RC, filters 2, 5, 00. Exact. The speeds
/// beside them are from memory and say so.
#[test]
fn the_ranges_of_a_paper_under_its_filters() {
    let reference = Reference::built_in().unwrap();
    let paper = reference.filtered_paper("MGIV RC").unwrap();
    for (filter, expected) in [("2", 110.0), ("5", 40.0), ("00", 180.0)] {
        let row = paper
            .filters
            .iter()
            .find(|row| row.filter == filter)
            .unwrap();
        near(row.range, expected, 1e-9);
    }
    assert_eq!(paper.ranges.standing, Standing::Published);
    assert_eq!(paper.speeds.standing, Standing::Remembered);
}

/// Between two rows (derived): a range of 1.05 falls on filter 2.25, one of 0.75 on 3.5; within 0.01. Outside 0.40 to 1.80 nothing is
/// given.
#[test]
fn a_filter_is_found_between_two_rows() {
    let reference = Reference::built_in().unwrap();
    let paper = reference.filtered_paper("MGIV RC").unwrap();
    let rows: Vec<(f64, f64)> = paper
        .filters
        .iter()
        .map(|row| (row.at, row.range))
        .collect();
    let table = filters(&rows, Grounds::usual()).unwrap();
    for (negative, expected) in [(1.05, 2.25), (0.75, 3.5), (1.80, -1.0)] {
        let ler = wanted(negative, Head::Diffuser).unwrap().value;
        near(table.setting_for(ler).unwrap(), expected, 0.01);
    }
    assert!(table.setting_for(0.35).is_none() && table.setting_for(1.85).is_none());
}

/// A range of 1.05 is grade 2: S. Benskin quoting Way Beyond Monochrome, 2nd ed., pp. 212-213 (second-hand). 0.35 to 0.50 is the draft grade
/// 6, and 0.50 to 1.70 hold six grades: Focal Encyclopedia, p. 679 (published). The bounds between are from memory.
#[test]
fn grades_by_their_ranges() {
    let reference = Reference::built_in().unwrap();
    let grade = |ler: f64| {
        let found = reference
            .grades()
            .iter()
            .find(|it| it.from <= ler && ler <= it.to);
        found.map(|it| it.grade)
    };
    assert_eq!(grade(1.05), Some(2));
    assert_eq!(grade(0.45), Some(6));
    assert_eq!(grade(0.55), Some(5));
    assert_eq!(grade(1.69), Some(0));
    assert_eq!(grade(1.75), None);
    let six = reference.grades().iter().find(|it| it.grade == 6).unwrap();
    assert_eq!(six.grounds.standing, Standing::Published);
    let two = reference.grades().iter().find(|it| it.grade == 2).unwrap();
    assert_eq!(two.grounds.standing, Standing::Remembered);
}

/// ANSI IT2.26-1998, definition 3.14 (published): half the geometric mean. 7 min that show and 5 that do not are 2.96 min (derived), within
/// 0.01 min.
#[test]
fn half_of_the_middle_between_what_shows_and_what_does_not() {
    let safe = safe_time(time("7 min"), time("5 min")).unwrap().value;
    near(safe.value() / 60.0, 2.96, 0.01);
}
