//! Marks and the exact series behind them.

use notchbook::craft::series::{Scale, apertures, settable_aperture, settable_time, times};

use super::{aperture, near, time};

/// Derived from the exact series 2^(k/2) (onsen.ca, "f-stop numbers: how to calculate", 2009): the
/// whole stops, and by how much each mark, taken at its word, is too bright.
#[test]
#[allow(clippy::approx_constant, reason = "the figure as it is printed")]
fn whole_stops_are_marked_as_rings_are() {
    let wanted = [
        (1.4, 1.4142, 0.029),
        (2.0, 2.0, 0.0),
        (2.8, 2.8284, 0.029),
        (4.0, 4.0, 0.0),
        (5.6, 5.6569, 0.029),
        (8.0, 8.0, 0.0),
        (11.0, 11.314, 0.081),
        (16.0, 16.0, 0.0),
        (22.0, 22.627, 0.081),
        (32.0, 32.0, 0.0),
        (45.0, 45.255, 0.016),
        (64.0, 64.0, 0.0),
        (90.0, 90.510, 0.016),
        (128.0, 128.0, 0.0),
    ];
    for (marked, (mark, exact, brighter)) in apertures(Scale::Whole).skip(1).zip(wanted) {
        near(marked.mark.mark(), mark, 1e-9);
        near(marked.exact, exact, 0.0005);
        near(marked.off.value(), brighter, 0.0005);
    }
    assert_eq!(apertures(Scale::Whole).count(), wanted.len() + 1);
}

/// T. Westbrook, photographic notebook, tomwestbrook.com. Published: the marks of meters from f/16 to
/// f/64. Large Format Photography Forum, thread 8513, prints the exact thirds (second hand): 17.96,
/// 20.16, 22.63, 25.40; 0.005.
#[test]
fn third_and_half_stops_are_marked_as_meters_are() {
    let from_16 = |scale| apertures(scale).skip_while(|one| one.exact < 15.9);
    let thirds = [16, 18, 20, 22, 25, 29, 32, 36, 40, 45, 51, 57, 64];
    for (marked, mark) in from_16(Scale::Third).zip(thirds) {
        near(marked.mark.mark(), f64::from(mark), 1e-9);
    }
    let halves = [16, 19, 22, 27, 32, 38, 45, 54, 64];
    for (marked, mark) in from_16(Scale::Half).zip(halves) {
        near(marked.mark.mark(), f64::from(mark), 1e-9);
    }
    let printed = [16.0, 17.96, 20.16, 22.63, 25.40];
    for (marked, exact) in from_16(Scale::Third).zip(printed) {
        near(marked.exact, exact, 0.005);
    }
}

/// "Additive System of Photographic Exposure", German encyclopedia in translation: the marks.
/// Derived: exact 2^-k, and by how much each mark is too long.
#[test]
fn whole_stops_of_time_are_marked_as_shutters_are() {
    let wanted = [
        ("1", 0.0),
        ("1/2", 0.0),
        ("1/4", 0.0),
        ("1/8", 0.0),
        ("1/15", 0.093),
        ("1/30", 0.093),
        ("1/60", 0.093),
        ("1/125", 0.034),
        ("1/250", 0.034),
        ("1/500", 0.034),
        ("1/1000", 0.034),
    ];
    let short = times(Scale::Whole).skip_while(|one| one.exact > 1.5);
    for (marked, (mark, longer)) in short.zip(wanted) {
        assert_eq!(marked.mark, time(mark));
        near(marked.off.value(), longer, 0.0005);
    }
}

/// Forum answer of 2000-09-14 on shutter sequences, greenspun.com. Second hand: long marks in half
/// stops, up to about 0.2 stop from the exact run 1, 1.41, 2, 2.83 ... 32.
#[test]
fn long_marks_lie_up_to_a_fifth_of_a_stop_off() {
    let marks = [
        120.0, 90.0, 60.0, 45.0, 30.0, 20.0, 15.0, 10.0, 8.0, 6.0, 4.0, 3.0, 2.0, 1.5, 1.0,
    ];
    let mut furthest: f64 = 0.0;
    for (marked, mark) in times(Scale::Half).zip(marks) {
        near(marked.mark.value(), mark, 1e-9);
        furthest = furthest.max(marked.off.value().abs());
    }
    near(furthest, 0.2, 0.03);
}

/// Derived: rounding to thirds is never more than a sixth of a stop off, and the error is what is left.
/// Common practice for the shutter: marks below a second, counted half seconds above.
#[test]
fn what_is_reckoned_is_rounded_with_its_error() {
    let set = settable_aperture(aperture("f/18.4").stops(), Scale::Third, None, None).unwrap();
    assert_eq!(set.value.to_string(), "f/16+1/3");
    near(set.error.value(), 0.07, 0.005);
    let set = settable_time(time("0.3 s"));
    assert_eq!(set.value, time("1/4"));
    near(set.error.value(), (0.25_f64 / 0.3).log2(), 1e-9);
}
