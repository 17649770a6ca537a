//! Enlarging: image scale, aperture, filters, parts of a stop, drying.

use notchbook::craft::printing::burning::seconds;
use notchbook::craft::printing::enlarging::{Change, changed, dry_down_percent, dry_down_stops};
use notchbook::craft::printing::lamp::distance;
use notchbook::craft::{Aperture, Millimetres, Stops};
use notchbook::reference::Reference;
use notchbook::reference::grade::filter_at;

use super::{near, time};

fn after(text: &str, change: Change) -> f64 {
    let figure = changed(time(text), &[change]);
    figure.unwrap_or_else(|why| panic!("{why}")).value.value()
}

fn stops(value: f64) -> Stops {
    Stops::new(value).unwrap_or_else(|why| panic!("{why}"))
}

/// Kingslake and Ray as cited on APUG, 228578, with the example 2x to 4x (second-hand); 2.78 is printed at
/// qeeebo.com (published), also as 750 mm over 450 mm squared. Within 0.01 and 0.005; 10 s become 27.8 s (derived) within 0.05 s.
/// The rule of areas gives 4.00, which is not reproduced.
#[test]
fn twice_the_enlargement_is_less_than_four_times_the_light() {
    let larger = Change::Enlargement { from: 2.0, to: 4.0 };
    let factor = after("10 s", larger) / 10.0;
    near(factor, 2.7778, 0.01);
    near(factor.log2(), 1.474, 0.005);
    near(after("10 s", larger), 27.8, 0.05);
    assert!((factor - 4.0).abs() > 1.0);
    let mm = |value| Millimetres::new(value).unwrap();
    let by_distance = distance(time("10 s"), mm(450.0), mm(750.0), None)
        .unwrap()
        .value;
    near(by_distance.value() / 10.0, 2.778, 0.005);
}

/// photokb.com, photo darkroom, thread 2028 (published): 8x10 to 11x14 from 4x5, 2 to 2.8 times, 1.6. The others derived by the
/// formula, within 0.001.
#[test]
fn other_enlargements() {
    for (from, to, factor) in [
        (1.0, 2.0, 2.25),
        (1.6, 2.0, 1.3314),
        (2.0, 2.8, 1.6044),
        (2.0, 3.2, 1.96),
        (2.8, 4.0, 1.7313),
        (4.0, 2.0, 0.36),
        (3.0, 3.0, 1.0),
    ] {
        let change = Change::Enlargement { from, to };
        near(after("10 s", change) / 10.0, factor, 0.001);
    }
}

/// One click doubles or halves the light: R. W. Lambrecht, f/stop Timing (published). From f/8 to f/11 20 s become 40 s, exact, the marks
/// standing for exact stops; by the printed numbers it would be 37.8 s, which is not reproduced.
#[test]
fn a_marked_aperture_stands_for_its_stop() {
    let change = Change::Aperture {
        from: Aperture::parse("f/8").unwrap(),
        to: Aperture::parse("f/11").unwrap(),
    };
    near(after("20 s", change), 40.0, 0.01);
    assert!((after("20 s", change) - 37.8).abs() > 2.0);
}

/// Photrio, thread 209811 (published): 17 s and 0.4 stop are 22.4 s; 20 s burned 2/3 stop 11.7 s more; dodged 1/2 stop 5.9 s less. Lambrecht's
/// table (published): 25.4 s and 1/2 stop 10.5 s more. LUSENET 007rkh (published): 16 s and 1/2 stop 6.6 s more. Within 0.06 s.
#[test]
fn burning_and_dodging_in_stops() {
    near(after("17 s", Change::Stops(stops(0.4))), 22.4, 0.05);
    for (base, change, expected) in [
        ("20 s", 2.0 / 3.0, 11.7),
        ("20 s", -0.5, -5.9),
        ("25.4 s", 0.5, 10.5),
        ("16 s", 0.5, 6.6),
    ] {
        near(
            seconds(time(base), stops(change)).unwrap().seconds,
            expected,
            0.06,
        );
    }
}

/// Kodak Polycontrast as described by its seller (published): the same time from 00 to 3.5, twice from 4. Exact.
#[test]
fn matched_filters_double_from_four_up() {
    let reference = Reference::built_in().unwrap();
    let set = reference
        .matched_filters()
        .iter()
        .find(|it| it.id == "polycontrast");
    let set = set.unwrap();
    let factor = |filter: &str| {
        if filter_at(filter).unwrap() >= set.from {
            set.factor
        } else {
            1.0
        }
    };
    let moved = |from: &str, to: &str| {
        after(
            "15 s",
            Change::Filter {
                from: factor(from),
                to: factor(to),
            },
        )
    };
    near(moved("3", "4"), 30.0, 1e-9);
    near(moved("00", "3.5"), 15.0, 1e-9);
    near(moved("5", "2"), 7.5, 1e-9);
}

/// From memory of ISO 6846: half the paper speed takes twice the time. 12 s become 24 s, exact.
#[test]
fn half_the_paper_speed_takes_twice_the_time() {
    near(
        after(
            "12 s",
            Change::Speed {
                from: 200.0,
                to: 100.0,
            },
        ),
        24.0,
        1e-9,
    );
}

/// R. Hicks and F. Schultz (published): about 10 % less for drying. 20 s become 18.0 s and -0.152 stop (derived), within 0.01. A
/// quarter stop (tf-photography.pages.dev, published) is 15.9 % (derived), within 0.1; 5, 8 and 12 % derived.
#[test]
fn prints_dry_darker() {
    near(after("20 s", Change::DryDown(10.0)), 18.0, 0.01);
    near(dry_down_percent(0.25).unwrap(), 15.9, 0.1);
    for (percent, expected) in [(5.0, -0.074), (8.0, -0.120), (10.0, -0.152), (12.0, -0.184)] {
        near(dry_down_stops(percent).unwrap().value(), expected, 0.001);
    }
}

/// The light falls with the square of the height (derived): 60 to 90 cm, 6 s become 13.5 s; within 0.05 s.
#[test]
fn a_higher_head_takes_longer_for_a_contact_print() {
    let mm = |text: &str| Millimetres::parse(text).unwrap();
    let moved = distance(time("6 s"), mm("60 cm"), mm("90 cm"), Some(mm("1 mm")));
    near(moved.unwrap().value.value(), 13.5, 0.05);
}
