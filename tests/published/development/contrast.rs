//! Contrast: the gradient that is wanted, and the times that lead there.

use notchbook::craft::development::contrast::{
    Expansion, Grain, changed, exposure_with, slightly, trial,
};
use notchbook::craft::development::gradient::{
    AVERAGE_RANGE, FLARE, USUAL_FLARE, Wanted, in_stops, of_stops, range_for, target,
};
use notchbook::craft::{Concern, Standing};

use super::{minutes, near};

fn gradient(density_range: f64, subject_range: f64, flare: f64) -> f64 {
    let wanted = Wanted {
        density_range,
        subject_range,
        flare,
    };
    target(wanted).expect("a gradient").value
}

fn by(text: &str) -> Expansion {
    Expansion::parse(text).expect("a change")
}

/// Photrio, "Alphabet soup help", p. 2 (second-hand): a density range of 1.25 over 5 stops is a
/// gradient of 0.83, counted with 0.3 a stop. Tolerance 0.005; exact stops of 0.301 stay within it.
#[test]
fn a_density_range_over_five_stops() {
    near(gradient(1.25, 1.5, 0.0), 0.83, 0.005);
    near(gradient(1.25, of_stops(5.0), 0.0), 0.83, 0.005);
}

/// S. Benskin, post on APUG (second-hand): a range of 1.05 for grade 2 paper, a subject of 2.20. With a
/// flare of 0.40 (remembered) the gradient is 0.583; tolerance 0.001.
#[test]
fn grade_two_paper_and_the_average_subject() {
    near(gradient(1.05, AVERAGE_RANGE, FLARE), 0.583, 0.001);
    assert_eq!(USUAL_FLARE.standing, Standing::Remembered);
}

/// Lambrecht and Woodhouse, Way Beyond Monochrome, pp. 212-213, as quoted by S. Benskin (second-hand):
/// 1.20 over 7 stops, 2.10, is 0.57. Tolerance 0.005.
#[test]
fn full_scale_paper_over_seven_stops() {
    near(gradient(1.20, 2.10, 0.0), 0.57, 0.005);
}

/// S. Benskin, post on APUG (second-hand): 2.20 is 7 1/3 stops. Tolerance 0.03.
#[test]
fn the_average_subject_in_stops() {
    near(in_stops(AVERAGE_RANGE), 7.0 + 1.0 / 3.0, 0.03);
    near(in_stops(AVERAGE_RANGE), 7.31, 0.005);
}

/// Photrio, "Alphabet soup help" (second-hand), adds that 32 to 1 is 1.505 exactly. Tolerance 0.0005.
#[test]
fn five_stops_are_not_quite_one_and_a_half() {
    near(of_stops(5.0), 1.505, 0.0005);
}

/// Derived with 0.30 for a zone: gradients for N-2 to N+2, by density range and flare. Tolerance 0.0006.
#[test]
fn gradients_for_every_change() {
    let columns = [
        (1.05, 0.4, [0.438, 0.500, 0.583, 0.700, 0.875]),
        (1.05, 0.0, [0.375, 0.420, 0.477, 0.553, 0.656]),
        (1.20, 0.0, [0.429, 0.480, 0.545, 0.632, 0.750]),
        (0.80, 0.4, [0.333, 0.381, 0.444, 0.533, 0.667]),
        (1.60, 0.0, [0.571, 0.640, 0.727, 0.842, 1.000]),
        (1.80, 0.0, [0.643, 0.720, 0.818, 0.947, 1.125]),
    ];
    for (density_range, flare, wanted) in columns {
        for (zones, wanted) in ["N-2", "N-1", "N", "N+1", "N+2"].into_iter().zip(wanted) {
            near(
                gradient(density_range, range_for(by(zones)), flare),
                wanted,
                0.0006,
            );
        }
    }
}

/// B. Thornton, development times (published): begin at 20 % less than the maker's time, 10 min to 8.0;
/// exact. His further 10 % are of one time or the other, 7.2 or 7.0 min, and which is said.
#[test]
fn where_thornton_begins_a_test() {
    let figure = trial(minutes(10.0)).unwrap();
    near(figure.value.first.value(), 480.0, 1e-9);
    near(figure.value.next.value(), 432.0, 1e-9);
    near(figure.value.next_of_maker.value(), 420.0, 1e-9);
    assert!(figure.remarks.iter().any(|it| it.words.contains("7 min")));
}

/// B. Thornton, development times, second part (published), gives about half a stop less exposure for
/// N+1 and N+2, and writes it as 50 % more speed. Half a stop is 41 %; the 50 % are not reproduced.
#[test]
fn half_a_stop_is_41_percent() {
    for change in ["N+1", "N+2"] {
        let stops = exposure_with(by(change)).unwrap().value.value();
        near((-stops).exp2(), 1.414, 0.001);
    }
}

/// Kodak F-4016, T-MAX 100 Film, February 2016 (published): 10 to 15 % more or less time for a small
/// correction. Exact.
#[test]
fn kodaks_small_correction() {
    let more = slightly(minutes(10.0), true).unwrap();
    near(more.value.least.value(), 660.0, 1e-9);
    near(more.value.most.value(), 690.0, 1e-9);
    assert_eq!(more.grounds.standing, Standing::Published);
    let less = slightly(minutes(10.0), false).unwrap().value;
    near(less.least.value(), 510.0, 1e-9);
    near(less.most.value(), 540.0, 1e-9);
}

/// Common practice, no source: N-1 15 to 25 % less, N-2 30 to 40 %; N+1 25 to 40 % more, N+2 60 to
/// 100 %; half of it for flat grain; a third of a stop of speed for each zone of contraction. Exact.
#[test]
fn percentages_of_common_practice() {
    for (change, least, most) in [
        ("N-2", -40.0, -30.0),
        ("N-1", -25.0, -15.0),
        ("N+1", 25.0, 40.0),
        ("N+2", 60.0, 100.0),
    ] {
        let percent = |time: f64| (time / 600.0 - 1.0) * 100.0;
        let figure = changed(minutes(10.0), by(change), Grain::Classic).unwrap();
        near(percent(figure.value.least.value()), least, 1e-9);
        near(percent(figure.value.most.value()), most, 1e-9);
        assert_eq!(figure.grounds.standing, Standing::Usual);
        let flat = changed(minutes(10.0), by(change), Grain::Tabular).unwrap();
        near(percent(flat.value.least.value()), least / 2.0, 1e-9);
    }
    near(
        exposure_with(by("N-1")).unwrap().value.value(),
        1.0 / 3.0,
        1e-6,
    );
    near(
        exposure_with(by("N-2")).unwrap().value.value(),
        2.0 / 3.0,
        1e-6,
    );
}

/// "Negative thinking, part two", theonlinedarkroom.com, 2014 (second-hand): keep development over five
/// minutes. Shorter is warned of.
#[test]
fn less_than_five_minutes_is_warned_of() {
    let figure = changed(minutes(6.0), by("N-1"), Grain::Classic).unwrap();
    let warned = figure
        .remarks
        .iter()
        .any(|it| it.concern == Concern::Warning);
    assert!(warned);
}
