//! Readings as they are typed, and what placing them says.

use proptest::prelude::*;

use super::*;
use crate::craft::meter::Constants;
use crate::craft::{FilmSpeed, Unreadable};

fn read_for(text: &str, speed: u32) -> Result<Vec<Reading>, Unreadable> {
    parse_readings(text, FilmSpeed::new(speed).ok(), &Constants::default())
}

/// What was read, in one line: `III 8.7 shadow | 12.3 incident`.
fn told(text: &str) -> String {
    let readings = read_for(text, 400).unwrap_or_else(|why| panic!("{why}"));
    let one = |reading: &Reading| {
        let mut words: Vec<String> = reading.zone.iter().map(Zone::to_string).collect();
        words.push(trimmed(reading.value.value(), 2));
        words.extend(reading.name.clone());
        if reading.incident {
            words.push("(incident)".to_owned());
        }
        words.join(" ")
    };
    let told: Vec<String> = readings.iter().map(one).collect();
    told.join(" | ")
}

fn placed(text: &str) -> Figure<Placement> {
    place(&read_for(text, 100).unwrap()).unwrap()
}

fn words(figure: &Figure<Placement>) -> Vec<&str> {
    let remarks = figure.remarks.iter();
    remarks.map(|remark| remark.words.as_str()).collect()
}

#[test]
fn readings_are_read_as_photographers_write_them() {
    for (typed, read) in [
        ("III 8.7  V 10.3  VIII 13.9", "III 8.7 | V 10.3 | VIII 13.9"),
        ("iii 8,7 viii 13,9", "III 8.7 | VIII 13.9"),
        (
            "shadow III 8.7, sky VIII 13.9",
            "III 8.7 shadow | VIII 13.9 sky",
        ),
        (
            "shadow III 8.7 sky VIII 13.9",
            "III 8.7 shadow | VIII 13.9 sky",
        ),
        (
            "III 8.7 dark bark, VIII 13.9 sky",
            "III 8.7 dark bark | VIII 13.9 sky",
        ),
        (
            "bark on III 8,7; sky on VIII 13,9",
            "III 8.7 bark | VIII 13.9 sky",
        ),
        ("bark 8.7 on III", "III 8.7 bark"),
        ("III: 8.7, VIII=13.9", "III 8.7 | VIII 13.9"),
        ("zone 3 8.7, zone VIII 13.9", "III 8.7 | VIII 13.9"),
        ("incident 12.3", "12.3 (incident)"),
        ("12.3", "12.3"),
        ("EV 12.3", "12.3"),
        ("12 1/3 EV", "12.33"),
        ("III 8 1/3 VIII 13 2/3", "III 8.33 | VIII 13.67"),
        ("III EV -2, V EV-1", "III -2 | V -1"),
        ("III 1/15 f/22", "III 11"),
        (
            "III 1/15 at f/22 sky VIII 1/125 f/22",
            "III 11 | VIII 14 sky",
        ),
        ("V f/22 1/2", "V 8"),
        ("V 1/2 f/22", "V 8"),
        ("V 1/2 10.3", "V+1/2 10.3"),
        ("V½ 10.3", "V+1/2 10.3"),
        ("VII+1/3 12", "VII+1/3 12"),
        ("III 2 s f/22 ISO 100", "III 8"),
        ("III 10.7 ISO 400", "III 8.7"),
        ("III 10.7 @400, VIII 15.9 @400", "III 8.7 | VIII 13.9"),
        ("V 400 lx", "V 7.32 (incident)"),
        ("V 40 fc", "V 7.43 (incident)"),
        ("III 12 cd/m2 V 64cd/m²", "III 6.58 | V 9"),
        ("8.7, 13.9", "8.7 | 13.9"),
        ("III 8.7\nVIII 13.9\n", "III 8.7 | VIII 13.9"),
    ] {
        assert_eq!(told(typed), read, "{typed}");
    }
}

#[test]
fn what_could_mean_two_things_is_refused_and_not_guessed() {
    for typed in [
        "",
        " , ",
        "III",
        "III VIII 8.7",
        "3 8.7",
        "8.7 13.9",
        "III 8.7 13.9",
        "1/15",
        "III 1/15",
        "f/22",
        "III f/22",
        "III 8.7 VIII",
        "III 12,000 lx",
        "III 99",
        "XI 8.7",
        "III nan",
        "V 0 lx",
        "shadow",
        "III 8.7 VIII 13.9 sky",
        "zone 12 8.7",
        "III 12 cd/m",
        "III 12 stops",
    ] {
        assert!(read_for(typed, 400).is_err(), "{typed}: {}", told(typed));
    }
    let why = read_for("8.7 13.9", 100).unwrap_err().to_string();
    assert!(
        why.starts_with("\"8.7 13.9\" is not clear: write a comma"),
        "{why}"
    );
}

#[test]
fn a_setting_asks_for_the_speed_it_was_read_at() {
    let why = parse_readings("III 1/15 f/22", None, &Constants::default()).unwrap_err();
    assert!(
        why.to_string().contains("until the film speed is known"),
        "{why}"
    );
    assert!(parse_readings("III 8.7", None, &Constants::default()).is_ok());
}

#[test]
fn the_darkest_placed_reading_governs() {
    let figure = placed("III 8.7  V 10.3  VIII 13.9");
    let placement = &figure.value;
    assert_eq!(placement.set.to_string(), "EV 10.7");
    assert_eq!(placement.governing, 0);
    assert_eq!(placement.range.to_string(), "+5.2 stops");
    let falls: Vec<String> = placement
        .falls
        .iter()
        .map(|fall| zone_name(fall.zone))
        .collect();
    assert_eq!(falls, ["III", "IV+0.6", "VIII+0.2"]);
    assert!((placement.development.unwrap() + 0.2).abs() < 1e-9);
    assert!(placement.conflicts.is_empty());
    let step = &figure.steps[0];
    assert_eq!(step.name, "EV 8.7 on III");
    assert_eq!(step.amount.to_string(), "-2 stops");
    assert_eq!(step.working, "EV 8.7 + 2 = EV 10.7");
}

#[test]
fn a_single_reading_without_a_zone_is_the_middle() {
    let figure = placed("12.3");
    assert_eq!(figure.value.set.to_string(), "EV 12.3");
    assert_eq!(figure.value.development, None);
    assert_eq!(figure.value.range.value(), 0.0);
    assert_eq!(placed("incident 12.3").value.set.to_string(), "EV 12.3");
}

#[test]
fn readings_that_are_nowhere_placed_are_asked_about() {
    let why = place(&read_for("8.7, 13.9", 100).unwrap()).unwrap_err();
    assert!(
        why.to_string().contains("write its zone before one"),
        "{why}"
    );
    assert!(place(&[]).is_err());
}

#[test]
fn readings_without_a_zone_only_show_where_they_fall() {
    let figure = placed("shadow III 8.7, water 11.2, sky 13.9");
    assert_eq!(figure.value.falls[1].off, None);
    assert!((figure.value.falls[1].zone - 5.5).abs() < 1e-9);
    assert_eq!(figure.value.development, None);
    assert_eq!(figure.value.range.to_string(), "+5.2 stops");
}

#[test]
fn a_highlight_that_falls_too_high_is_brought_back_by_development() {
    let figure = placed("shadow III 8, sky VIII 14");
    assert_eq!(figure.value.development, Some(-1.0));
    let said = words(&figure);
    assert_eq!(
        said[0],
        "sky falls on IX, 1 zone above the VIII it is wanted on; N-1 brings it there"
    );
    assert_eq!(
        said[1],
        "N-1 gives what is exposed on IX the density of VIII"
    );
}

#[test]
fn more_than_two_zones_of_development_is_a_compromise() {
    let figure = placed("shadow III 7, sky VIII 14.6");
    assert!(
        words(&figure)
            .iter()
            .any(|words| words.contains("let the light areas go"))
    );
    assert!(development_words(-2.6).ends_with("a compromise is needed"));
}

#[test]
fn a_third_placement_no_development_can_give_is_said() {
    let figure = placed("shadow III 8, wall VII 9.5, sky VIII 13");
    let conflict = figure.value.conflicts[0];
    assert_eq!(conflict.reading, 1);
    assert!((conflict.off + 2.5).abs() < 1e-9);
    assert!(
        words(&figure)[0].contains("no development gives both"),
        "{:?}",
        words(&figure)
    );
}

#[test]
fn two_areas_wanted_on_one_zone_cannot_be_parted_by_development() {
    let figure = placed("bark III 8, rock III 9.2");
    assert_eq!(figure.value.set.to_string(), "EV 10");
    assert_eq!(figure.value.development, None);
    assert!(words(&figure)[0].contains("cannot part them"));
    // The brighter of the two is wanted darker: nothing does that either.
    let figure = placed("bark VII 8, rock III 10");
    assert_eq!(figure.value.development, None);
    assert_eq!(figure.value.conflicts.len(), 1);
}

#[test]
fn a_development_counted_from_another_zone_than_viii_says_so() {
    let figure = placed("shadow III 8, skin VI 12");
    assert!(
        words(&figure)
            .iter()
            .any(|words| words.contains("counted here from VI"))
    );
}

#[test]
fn developments_are_named_in_plain_words() {
    for (n, said) in [
        (0.0, "develop normally"),
        (0.04, "develop normally"),
        (-0.2, "develop a little less, N-0.2"),
        (0.5, "develop a little more, N+0.5"),
        (-1.0, "develop less, N-1"),
        (2.0, "develop much more, N+2"),
    ] {
        assert_eq!(development_words(n), said);
    }
}

#[test]
fn a_range_outside_the_table_is_declined() {
    let ev = |value| ExposureValue::new(value).unwrap();
    assert!(by_range(ev(10.0), ev(15.0), BASE_RANGE).is_err());
    assert!(by_range(ev(12.0), ev(10.0), BASE_RANGE).is_err());
    let figure = by_range(ev(10.0), ev(11.5), BASE_RANGE).unwrap();
    assert!((figure.value - 0.5).abs() < 1e-9);
}

proptest! {
    #[test]
    fn a_placed_reading_falls_where_it_was_placed(value in -10.0..20.0_f64, zone in 0.0..=10.0_f64) {
        let (value, zone) = (ExposureValue::new(value).unwrap(), Zone::new(zone).unwrap());
        prop_assert!((falls_on(value, on(value, zone).unwrap()) - zone.value()).abs() < 1e-9);
    }

    #[test]
    fn the_governing_reading_never_conflicts_and_nothing_is_lost(
        given in proptest::collection::vec((-5.0..18.0_f64, proptest::option::of(0.0..=10.0_f64)), 1..6),
    ) {
        let readings: Vec<Reading> = given
            .iter()
            .map(|(value, zone)| Reading {
                zone: zone.map(|zone| Zone::new(zone).unwrap()),
                value: ExposureValue::new(*value).unwrap(),
                name: None,
                incident: false,
            })
            .collect();
        if let Ok(figure) = place(&readings) {
            let placement = figure.value;
            prop_assert_eq!(placement.falls.len(), readings.len());
            let governs = placement.governing;
            prop_assert!(placement.conflicts.iter().all(|one| one.reading != governs));
            prop_assert!(placement.range.value() >= 0.0);
        } else {
            prop_assert!(readings.len() > 1 && readings.iter().all(|one| one.zone.is_none()));
        }
    }

    #[test]
    fn no_text_makes_the_reader_panic(text in crate::craft::scribble::text()) {
        if let Ok(readings) = read_for(&text, 400) {
            prop_assert!(!readings.is_empty());
            let _ = place(&readings);
        }
    }
}
