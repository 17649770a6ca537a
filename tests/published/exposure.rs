//! Exposure at the camera: exposure values, the additive system, marks and the exact series.

use crate::near;
use notchbook::craft::exposure::{
    Setting, aperture_for, at_speed, exposure_value, speed_value, stops_between, stops_of_speed,
    time_changed, time_for, time_value,
};
use notchbook::craft::{Aperture, ExposureValue, FilmSpeed, Seconds, Size, Stops};

fn aperture(text: &str) -> Aperture {
    Aperture::parse(text).unwrap_or_else(|why| panic!("{why}"))
}

fn time(text: &str) -> Seconds {
    Seconds::parse(text).unwrap_or_else(|why| panic!("{why}"))
}

fn speed(value: u32) -> FilmSpeed {
    FilmSpeed::new(value).unwrap_or_else(|why| panic!("{why}"))
}

fn ev(value: f64) -> ExposureValue {
    ExposureValue::new(value).unwrap_or_else(|why| panic!("{why}"))
}

fn setting(aperture_text: &str, time_text: &str) -> Setting {
    Setting {
        aperture: aperture(aperture_text),
        time: time(time_text),
    }
}

/// "Exposure value", encyclopedia article, section on the formal definition (it cites S. Ray, 2000,
/// p. 318). Published: EV 0 is f/1 at 1 s.
#[test]
fn exposure_value_zero_is_f1_at_one_second() {
    near(exposure_value(setting("f/1", "1 s")).value(), 0.0, 1e-9);
}

/// "Exposure value" at probsee.com and theinfolist.com. Published: f/16 at 1/125 s is EV 15. The
/// marked numbers taken at their word would give 14.966 (derived).
#[test]
fn f16_at_a_125th_is_exposure_value_15() {
    let value = exposure_value(setting("f/16", "1/125")).value();
    near(value, 15.0, 1e-9);
    assert!((value - 14.966).abs() > 0.03);
}

/// "Zone system placement / EV system", jackspcs.com. Published: f/22 at 1/2 s is EV 10. The marked
/// numbers taken at their word would give 9.919 (derived).
#[test]
fn f22_at_half_a_second_is_exposure_value_10() {
    let value = exposure_value(setting("f/22", "1/2")).value();
    near(value, 10.0, 1e-9);
    assert!((value - 9.919).abs() > 0.08);
}

/// "Chan's exposure formula", APUG thread 92350. Published: a reading of 12 at ISO 100 is EV 14 for
/// film of ISO 400, which at 1/250 s asks for f/8.
#[test]
fn a_reading_for_one_film_speed_serves_another() {
    let value = at_speed(ev(12.0), speed(100), speed(400)).unwrap();
    assert_eq!(value.to_string(), "EV 14");
    assert_eq!(
        aperture_for(value, time("1/250")).unwrap().to_string(),
        "f/8"
    );
    assert_eq!(
        time_for(value, aperture("f/8")).unwrap().to_string(),
        "1/250 s"
    );
}

/// A. Wittbrodt, note on exposure values, arekwittbrodt.blogspot.com, 2012: the term is
/// log2(S/100). Derived from it: 320 against 400 is 0.32 stop.
#[test]
fn film_speeds_differ_by_the_logarithm_of_their_ratio() {
    near(stops_of_speed(speed(100), speed(400)).value(), 2.0, 1e-12);
    near(
        stops_of_speed(speed(400), speed(320)).value(),
        -0.3219,
        1e-4,
    );
}

/// "Additive System of Photographic Exposure", German encyclopedia in translation (it names
/// ASA PH2.5-1960, PH2.12-1961 and ANSI PH3.49-1971). Published: the marks from 1 s to 1/1000 s are
/// Tv 0 to 10; f/32 is Av 10.
#[test]
fn the_additive_system_counts_the_marks_in_whole_stops() {
    let marks = [
        "1", "1/2", "1/4", "1/8", "1/15", "1/30", "1/60", "1/125", "1/250", "1/500", "1/1000",
    ];
    for (stops, mark) in (0_u8..).zip(marks) {
        near(time_value(time(mark)), f64::from(stops), 1e-9);
    }
    near(aperture("f/32").stops(), 10.0, 1e-9);
}

/// "Additive System of Photographic Exposure" in German and "APEX" in French translation.
/// Published: ISO 100 is Sv 5; derived from Sv = log2(S / 3.125): 50 is 4, 400 is 7.
#[test]
fn the_additive_system_counts_film_speed_from_3_125() {
    for (value, stops) in [(100, 5.0), (50, 4.0), (400, 7.0)] {
        near(speed_value(speed(value)), stops, 1e-9);
    }
}

/// "Sunny f/16 rule", wordiq.com. Published: f/16 at 1/100 s and f/11 at 1/200 s are one exposure.
#[test]
fn a_stop_of_aperture_is_a_stop_of_time() {
    near(
        stops_between(setting("f/16", "1/100"), setting("f/11", "1/200")).value(),
        0.0,
        0.1,
    );
}

/// "Looney 11 rule", wikisum.wiki. Second hand: f/8 at 1/250 s is f/11 at 1/125 s.
#[test]
fn the_moon_may_be_taken_at_either_setting() {
    near(
        stops_between(setting("f/8", "1/250"), setting("f/11", "1/125")).value(),
        0.0,
        1e-9,
    );
}

/// J. VanCleave, APUG post 1026246. Second hand: from f/128 to f/280 the time grows 4.785-fold.
#[test]
fn a_pinhole_off_the_scales_is_reckoned_from_its_own_number() {
    let value = exposure_value(setting("f/128", "10 s"));
    let longer = time_for(value, aperture("f/280")).unwrap();
    near(longer.value() / 10.0, 4.785, 0.001);
}

/// Large Format Photography Forum, thread 8513. Published: the exact third-stop run from f/16 to
/// f/128, and that f/22 is really 22.6.
#[test]
fn thirds_of_a_stop_follow_the_printed_exact_run() {
    let run = [
        16.00, 17.96, 20.16, 22.63, 25.40, 28.51, 32.00, 35.92, 40.32, 45.25, 50.80, 57.02, 64.00,
        71.84, 80.63, 90.51, 101.59, 114.04, 128.00,
    ];
    let marks = ["f/16", "f/22", "f/32", "f/45", "f/64", "f/90", "f/128"];
    let set = marks.into_iter().flat_map(|mark| {
        ["", "+1/3", "+2/3"].map(|third| aperture(&format!("{mark}{third}")).number())
    });
    for (number, printed) in set.zip(run) {
        // 45.2548 is printed cut off, not rounded.
        near(number, printed, 0.0051);
    }
}

/// Large Format Photography Forum, thread 8513. Published: the half-stop marks from f/1 on.
#[test]
fn half_stop_marks_are_half_stops() {
    let marks = [1.0, 1.2, 1.4, 1.7, 2.0, 2.4, 2.8, 3.4, 4.0, 4.8];
    for (halves, mark) in (0_u8..).zip(marks) {
        let set = Aperture::new(mark).unwrap();
        near(set.stops(), f64::from(halves) / 2.0, 1e-9);
    }
}

/// T. Westbrook, photographic notebook, tomwestbrook.com. Published: the marks of meters from f/16
/// to f/64 in thirds and in halves of a stop.
#[test]
fn meter_marks_between_f16_and_f64_are_exact_thirds_and_halves() {
    let thirds = [16, 18, 20, 22, 25, 29, 32, 36, 40, 45, 51, 57, 64];
    for (step, mark) in (0_u8..).zip(thirds) {
        let set = Aperture::new(f64::from(mark)).unwrap();
        near(set.stops(), 8.0 + f64::from(step) / 3.0, 1e-9);
    }
    let halves = [16, 19, 22, 27, 32, 38, 45, 54, 64];
    for (step, mark) in (0_u8..).zip(halves) {
        let set = Aperture::new(f64::from(mark)).unwrap();
        near(set.stops(), 8.0 + f64::from(step) / 2.0, 1e-9);
    }
}

/// Derived from the exact series 2^(k/2) (onsen.ca, "f-stop numbers: how to calculate", 2009): by
/// how much each mark, taken at its word, would be too bright.
#[test]
#[allow(clippy::approx_constant, reason = "the figure as it is printed")]
fn marks_are_brighter_than_the_series_by_the_derived_amounts() {
    for (mark, exact, brighter) in [
        ("f/1.4", 1.4142, 0.029),
        ("f/2", 2.0, 0.0),
        ("f/2.8", 2.8284, 0.029),
        ("f/5.6", 5.6569, 0.029),
        ("f/8", 8.0, 0.0),
        ("f/11", 11.314, 0.081),
        ("f/16", 16.0, 0.0),
        ("f/22", 22.627, 0.081),
        ("f/45", 45.255, 0.016),
        ("f/64", 64.0, 0.0),
        ("f/90", 90.510, 0.016),
        ("f/128", 128.0, 0.0),
    ] {
        let set = aperture(mark);
        near(set.number(), exact, 0.0005);
        near(set.stops() - 2.0 * set.mark().log2(), brighter, 0.0005);
    }
}

/// Derived from the exact series 2^-k and the marks of the additive system: by how much each
/// shutter mark, taken at its word, would be too long.
#[test]
fn shutter_marks_are_longer_than_the_series_by_the_derived_amounts() {
    for (mark, longer) in [
        ("1/8", 0.0),
        ("1/15", 0.093),
        ("1/30", 0.093),
        ("1/60", 0.093),
        ("1/125", 0.034),
        ("1/250", 0.034),
        ("1/500", 0.034),
        ("1/1000", 0.034),
    ] {
        let set = time(mark);
        near(time_value(set) + set.value().log2(), longer, 0.0005);
    }
}

/// Forum answer of 2000-09-14 on shutter sequences, greenspun.com. Second hand: the long marks of a
/// meter lie up to about 0.2 stop from the exact half-stop run. They are counted, so they are kept.
#[test]
fn counted_seconds_are_taken_at_their_word() {
    let marks = [
        1.0, 1.5, 2.0, 3.0, 4.0, 6.0, 8.0, 10.0, 15.0, 20.0, 30.0, 45.0, 60.0, 90.0, 120.0,
    ];
    let mut furthest: f64 = 0.0;
    for (halves, mark) in (0_u8..).zip(marks) {
        let stops = time_value(Seconds::new(mark).unwrap());
        near(stops, -mark.log2(), 1e-12);
        furthest = furthest.max((stops + f64::from(halves) / 2.0).abs());
    }
    near(furthest, 0.2, 0.03);
}

/// Minolta Flash Meter IV operation manual, p. 38. Published: lighting ratios in stops, to a tenth.
#[test]
fn a_factor_in_stops_is_its_logarithm() {
    for (ratio, stops) in [(2.0, 1.0), (3.0, 1.6), (4.0, 2.0), (6.0, 2.6), (8.0, 3.0)] {
        near(Stops::from_factor(ratio).unwrap().value(), stops, 0.05);
    }
}

/// R. W. Lambrecht, "f/stop Timing". Published: one click of the lens doubles or halves the light.
/// Derived: 20 s at f/8 is 40.0 s at f/11; the bare marks would give 37.8 s.
#[test]
fn closing_an_enlarger_lens_one_click_doubles_the_time() {
    let value = exposure_value(setting("f/8", "20 s"));
    let longer = time_for(value, aperture("f/11")).unwrap().value();
    near(longer, 40.0, 0.01);
    assert!((longer - 37.8).abs() > 1.0);
}

/// "Calculating f-stop timing in enlarging", Photrio thread 209811. Published: 17 s and 0.4 stop more is 22.4 s.
#[test]
fn a_time_grows_by_parts_of_a_stop() {
    let longer = time_changed(time("17 s"), Stops::parse("+0.4").unwrap()).unwrap();
    near(longer.value(), 22.4, 0.05);
}

/// Kodak F-4016 and F-4043 (2016), F-9 (2001) and EXR 500T (1993) data sheets, "Tech talk: candles
/// and calculations" (hohenfels-volks.blogspot.com, 2012) and the encyclopedia article "Ilford FP"
/// print both scales. Published pairs; the rule is 1 + 10 log10 S.
#[test]
fn the_two_scales_of_film_speed_agree_with_the_printed_pairs() {
    for (arithmetic, degrees) in [(125, 22), (200, 24), (320, 26), (400, 27), (500, 28)] {
        assert_eq!(speed(arithmetic).degrees(), degrees);
    }
}

/// Derived: 8x10 in is 203.2 x 254.0 mm, an inch being 25.4 mm.
#[test]
fn the_nominal_8x10_is_203_by_254_millimetres() {
    let (w, h) = Size::parse("8x10").unwrap().mm();
    near(w, 203.2, 1e-9);
    near(h, 254.0, 1e-9);
}

/// Slip: simplifiedzonesystem.com, chapter 4, counts f/11 to f/22 as three. Three marks are two
/// stops.
#[test]
fn from_f11_to_f22_is_two_stops_and_not_three() {
    let apart = stops_between(setting("f/22", "1 s"), setting("f/11", "1 s"));
    assert_eq!(apart.to_string(), "+2 stops");
}

/// Slip: Photrio thread 5027 calls a factor of 1.44 one and a half stops. It is about half a stop.
#[test]
fn a_factor_of_1_44_is_half_a_stop_and_not_one_and_a_half() {
    near(Stops::from_factor(1.44).unwrap().value(), 0.53, 0.005);
}

/// Slip: Kodak F-4016 (2007), p. 5, prints 1 2/3 stops beside a factor of 2.5. The factor is 1 1/3.
#[test]
fn a_factor_of_2_5_is_one_and_a_third_stops_and_not_one_and_two_thirds() {
    let stops = Stops::from_factor(2.5).unwrap().value();
    assert_eq!((stops * 3.0).round(), 4.0);
}
