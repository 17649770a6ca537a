//! Zones: where readings fall, the setting, the development; and the two ways of counting a range.

use notchbook::craft::meter::Constants;
use notchbook::craft::zones::{
    BASE_RANGE, Placement, Zone, brought_to_white, by_range, falls_on, log_exposure, on,
    parse_readings, place,
};

use super::{ev, near, speed};

fn zone(text: &str) -> Zone {
    Zone::parse(text).unwrap_or_else(|why| panic!("{why}"))
}

fn placed(text: &str) -> Placement {
    let readings = parse_readings(text, Some(speed(100)), &Constants::default());
    place(&readings.unwrap_or_else(|why| panic!("{why}")))
        .unwrap_or_else(|why| panic!("{why}"))
        .value
}

/// Nikon manual 25420, p. 73. Published: Zones II to VIII lie at -3, -2, -1, 0, +1, +2 and +3 stops
/// from the meter.
#[test]
fn zones_lie_a_stop_apart_and_v_is_where_the_meter_reads() {
    for (numeral, stops) in [
        ("II", -3.0),
        ("III", -2.0),
        ("IV", -1.0),
        ("V", 0.0),
        ("VI", 1.0),
        ("VII", 2.0),
        ("VIII", 3.0),
    ] {
        // Setting what the meter reads puts the area on V; so many stops from it, here.
        let set = on(ev(10.0), zone(numeral)).unwrap();
        near(10.0 - set.value(), stops, 1e-9);
        near(
            falls_on(ev(10.0 + stops), ev(10.0)),
            zone(numeral).value(),
            1e-9,
        );
    }
}

/// G. Arkenberg, "Death of the Zone System, part V", quoting A. Adams, The Negative, 1981, p. 49.
/// Second hand: a zone is a stop, 0.301 in log exposure. Derived: the whole scale, and 2.107 from
/// Zone I to Zone VIII; 0.001.
#[test]
fn a_zone_is_three_tenths_of_log_exposure() {
    for (numeral, log) in [
        ("0", -1.505),
        ("I", -1.204),
        ("II", -0.903),
        ("III", -0.602),
        ("IV", -0.301),
        ("V", 0.0),
        ("VI", 0.301),
        ("VII", 0.602),
        ("VIII", 0.903),
        ("IX", 1.204),
        ("X", 1.505),
    ] {
        near(log_exposure(zone(numeral).value()), log, 0.001);
    }
    near(log_exposure(8.0) - log_exposure(1.0), 2.107, 0.001);
}

/// C. Johnson, The Practical Zone System, and A. Ross, "The Zone System and digital". Published rule:
/// the meter reads every area as V. Derived: a shadow of EV 10 on Zone III is exposed at EV 12, two
/// stops less.
#[test]
fn a_shadow_on_iii_gets_two_stops_less_than_the_meter_says() {
    let placement = placed("shadow III 10");
    assert_eq!(placement.set.to_string(), "EV 12");
    // The film speed is not part of it.
    let at_400 = parse_readings("III 12 ISO 400", None, &Constants::default()).unwrap();
    assert_eq!(place(&at_400).unwrap().value.set.to_string(), "EV 12");
}

/// Slip: "Chan's exposure formula", APUG thread 92350, puts a shadow of LV 12 on Zone III by using
/// LV 15. Two stops are LV 14.
#[test]
fn lv_12_on_iii_is_lv_14_and_not_15() {
    let set = placed("III LV 12").set;
    assert_eq!(set.to_string(), "EV 14");
    assert!((set.value() - 15.0).abs() > 0.9);
}

/// D. Kachel, "Modified Zone System Terminology", 1995. Published: N-1 gives a Zone IX exposure the
/// density of VIII, N+1 a Zone VII exposure.
#[test]
fn n_minus_one_brings_ix_to_viii_and_n_plus_one_vii() {
    near(brought_to_white(-1.0), 9.0, 1e-12);
    near(brought_to_white(1.0), 7.0, 1e-12);
    near(brought_to_white(0.0), 8.0, 1e-12);
}

/// Derived from the same pivot, VIII: from the shadow on III to the light on VIII five stops are
/// normal, six N-1, four N+1. greatuseofpixels.com states five as normal and four as +1 (published).
#[test]
fn five_stops_from_iii_to_viii_are_normal() {
    for (light, n) in [(15.0, 0.0), (16.0, -1.0), (14.0, 1.0)] {
        let placement = placed(&format!("shadow III 10, cloud VIII {light}"));
        near(placement.development.unwrap_or(f64::NAN), n, 1e-9);
    }
}

/// S. King, APUG post 17781, after P. Davis. Second hand: ranges of 9, 8, 7, 6 and 5.5 stops ask for
/// N-2, N-1, N, N+1 and N+2. The base of 5 stops that is part of them is remembered.
#[test]
fn the_range_by_incident_readings_gives_the_printed_developments() {
    for (range, n) in [(9.0, -2.0), (8.0, -1.0), (7.0, 0.0), (6.0, 1.0), (5.5, 2.0)] {
        let figure = by_range(ev(10.0), ev(10.0 + range - BASE_RANGE), BASE_RANGE).unwrap();
        near(figure.value, n, 1e-9);
    }
}

/// Slip: simplifiedzonesystem.com, chapter 4, counts f/11, f/16, f/22 as a range of three. Those are
/// three tones; the readings differ by two stops, and that is what is counted here.
#[test]
fn a_range_is_the_difference_of_the_readings_and_not_their_number() {
    let placement = placed("shadow III 1/15 f/11, light V 1/15 f/22");
    assert_eq!(placement.range.to_string(), "+2 stops");
    assert!((placement.range.value() - 3.0).abs() > 0.5);
}
