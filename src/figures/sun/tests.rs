//! The figures of the sun as they are typed and read.

use std::collections::BTreeMap;

use chrono::DateTime;

use crate::craft::{Amount, Concern, TimeZone};
use crate::figures::{
    Answer, CameraRecord, Desk, Findings, Given, Kit, LensRecord, NoKit, Place, Problem, named,
};
use crate::reference::Reference;

/// A logbook that knows one place.
struct Cabin;

impl Kit for Cabin {
    fn lens(&self, _: &str) -> Option<LensRecord> {
        None
    }
    fn camera(&self, _: &str) -> Option<CameraRecord> {
        None
    }
    fn findings(&self) -> Findings {
        Findings {
            places: vec![Place {
                name: "North Cabin".to_owned(),
                latitude: 70.0,
                longitude: 25.0,
                zone: Some("Europe/Oslo".to_owned()),
            }],
            ..Findings::default()
        }
    }
}

fn reckon(word: &str, typed: &[(&str, &str)]) -> Result<Answer, Problem> {
    let reference = Reference::built_in().unwrap();
    let now = DateTime::parse_from_rfc3339("2026-03-04T16:02:00+01:00").unwrap();
    let desk = Desk::new(&reference, &Cabin, now);
    let typed: BTreeMap<String, String> = typed
        .iter()
        .map(|(key, text)| ((*key).to_owned(), (*text).to_owned()))
        .collect();
    let recipe = named(word).unwrap();
    (recipe.answer)(&Given::new(recipe.asks, &typed, &desk))
}

fn said(answer: &Answer, name: &str) -> String {
    let line = answer.results.iter().find(|line| line.name == name);
    line.map_or_else(String::new, |line| line.amount.to_string())
}

fn remarked(answer: &Answer, part: &str) -> bool {
    let mut remarks = answer.remarks.iter();
    remarks.any(|remark| remark.words.contains(part))
}

const ALP: (&str, &str) = ("place", "46.5 N 8.2 E");

#[test]
fn a_moment_is_read_by_the_summer_time_of_the_place_and_shadows_fall_away_from_the_sun() {
    let answer = reckon(
        "sun",
        &[ALP, ("at", "2024-06-21 19:30"), ("zone", "Europe/Zurich")],
    )
    .unwrap();
    // 18:30 at +01:00: azimuth 286.75, apparent elevation 16.68.
    assert_eq!(said(&answer, "azimuth"), "286.8 deg");
    assert_eq!(said(&answer, "stands in the"), "WNW");
    assert_eq!(said(&answer, "elevation"), "16.7 deg");
    assert_eq!(said(&answer, "shadows fall toward"), "106.8 deg");
    assert_eq!(said(&answer, "shadow, in heights of the thing"), "3.34");
    assert_eq!(said(&answer, "next, golden hour begins"), "20:37");
    assert!(remarked(&answer, "never look at the sun"));
}

#[test]
fn the_sun_in_the_picture_is_warned_of() {
    let view = |facing: &str, more: &[(&str, &str)]| {
        let mut typed = vec![
            ALP,
            ("at", "2024-06-21 19:30"),
            ("zone", "Europe/Zurich"),
            ("facing", facing),
        ];
        typed.extend(more);
        reckon("sun", &typed).unwrap()
    };
    let lens = [("focal_length", "90 mm"), ("format", "4x5")];
    let inside = view("WNW", &lens);
    assert!(said(&inside, "sun in the picture").starts_with("yes, 6 deg left and 17 deg above"));
    let warning = inside
        .remarks
        .iter()
        .find(|one| one.concern == Concern::Warning);
    assert!(warning.is_some_and(|one| one.words.contains("never look at the sun")));
    let angles = [("across", "67"), ("up", "56")];
    assert!(said(&view("WNW", &angles), "sun in the picture").starts_with("yes"));
    let pointed = [("across", "20"), ("up", "15"), ("pointed", "17")];
    assert!(said(&view("287", &pointed), "sun in the picture").starts_with("yes"));
    let behind = view("E", &lens);
    assert_eq!(
        said(&behind, "sun in the picture"),
        "no, it is behind the camera"
    );
    let bare = view("W", &[]);
    assert_eq!(
        said(&bare, "the sun is"),
        "17 deg to the right of where the camera faces"
    );
}

#[test]
fn what_belongs_together_is_asked_for_together() {
    let ask = |more: &[(&str, &str)]| {
        let mut typed = vec![ALP, ("facing", "W")];
        typed.extend(more);
        reckon("sun", &typed).unwrap_err().key
    };
    assert_eq!(ask(&[("across", "40")]), Some("up"));
    assert_eq!(ask(&[("focal_length", "150")]), Some("format"));
    assert_eq!(ask(&[("format", "4x5")]), Some("focal_length"));
    assert_eq!(ask(&[("lens", "L-09"), ("format", "4x5")]), Some("lens"));
    assert_eq!(ask(&[("across", "180"), ("up", "40")]), Some("facing"));
}

#[test]
fn a_compass_that_points_east_of_north_shows_less() {
    let answer = reckon(
        "sun",
        &[ALP, ("at", "2024-06-21 18:30 +01:00"), ("variation", "3")],
    )
    .unwrap();
    assert_eq!(said(&answer, "azimuth by your compass"), "283.8 deg");
    assert!(reckon("sun", &[ALP, ("variation", "200")]).is_err());
}

#[test]
fn a_place_that_was_noted_brings_its_time_zone() {
    let answer = reckon("day", &[("place", "north cabin"), ("date", "2025-06-21")]).unwrap();
    assert_eq!(said(&answer, "sunrise"), "none");
    assert_eq!(said(&answer, "noon"), "12:22");
    assert!(remarked(&answer, "does not set on this day"));
    let winter = reckon("day", &[("place", "North Cabin"), ("date", "2025-12-21")]).unwrap();
    assert!(remarked(&winter, "does not rise on this day"));
    let unknown = reckon("day", &[("place", "south cabin")]).unwrap_err();
    assert_eq!(unknown.key, Some("place"));
}

#[test]
fn a_day_has_its_events_in_order_and_a_chart_with_marks() {
    let typed = [
        ALP,
        ("date", "2024-06-21"),
        ("zone", "+01:00"),
        ("wall", "N"),
    ];
    let answer = reckon("day", &typed).unwrap();
    assert_eq!(said(&answer, "sunrise"), "04:34");
    assert_eq!(said(&answer, "sunset"), "20:24");
    assert_eq!(said(&answer, "highest"), "66.9 deg");
    let table = answer.table.unwrap();
    let names: Vec<String> = table.rows.iter().map(|row| row[0].to_string()).collect();
    let wanted = [
        "astronomical dawn",
        "nautical dawn",
        "civil dawn, blue hour",
        "golden hour begins",
        "sunrise",
        "golden hour ends",
        "noon",
        "golden hour begins",
        "sunset",
        "golden hour ends, blue hour",
        "civil dusk",
        "nautical dusk",
        "astronomical dusk",
    ];
    assert_eq!(names, wanted);
    let chart = answer.chart.unwrap();
    assert_eq!(chart.series[0].points.len(), 97);
    let marks: Vec<_> = chart.marks.iter().map(|mark| mark.name.as_ref()).collect();
    assert_eq!(
        marks,
        [
            "sunrise",
            "on the wall",
            "off the wall",
            "noon",
            "on the wall",
            "sunset",
            "off the wall"
        ]
    );
}

#[test]
fn clocks_that_cannot_be_those_of_the_place_are_remarked() {
    let far = reckon("day", &[("place", "44.67 S 167.92 E")]).unwrap();
    assert!(remarked(&far, "hours from the sun's time"));
    let near = reckon("day", &[ALP]).unwrap();
    assert!(!remarked(&near, "hours from the sun's time"));
}

#[test]
fn a_golden_hour_of_ones_own_is_read() {
    for text in ["-6 to 6", "-6..6", "-6, 6"] {
        let typed = [
            ALP,
            ("golden", text),
            ("zone", "+01:00"),
            ("date", "2024-06-21"),
        ];
        let answer = reckon("day", &typed).unwrap();
        let row = &answer.table.unwrap().rows[3];
        assert_eq!(row[1].to_string(), "03:55", "{text}");
    }
    for text in ["6 to -6", "golden", "-40 to 6", "1"] {
        let why = reckon("day", &[ALP, ("golden", text)]).unwrap_err();
        assert_eq!(why.key, Some("golden"), "{text}");
    }
}

#[test]
fn tables_of_light_are_set_beside_the_times_of_the_day() {
    let typed = [
        ALP,
        ("date", "2024-06-21"),
        ("zone", "Europe/Zurich"),
        ("time", "21:35"),
    ];
    let answer = reckon("twilight", &typed).unwrap();
    assert_eq!(said(&answer, "it is"), "golden hour");
    assert_eq!(said(&answer, "sky just after sunset"), "EV 9 to 11");
    assert_eq!(said(&answer, "sunset"), "21:24");
    // The night begins after midnight.
    assert_eq!(said(&answer, "night"), "00:14");
    let table = answer.table.unwrap();
    let row = |name: &str| {
        let mut rows = table.rows.iter();
        let row = rows.find(|row| row[0].to_string() == name).unwrap();
        row.iter().map(Amount::to_string).collect::<Vec<_>>()
    };
    assert_eq!(row("sky at sunset")[1..4], ["21:24", "21:24", "EV 12"]);
    // 400 lx and C 250: log2(400 x 100 / 250) = 7.32.
    assert_eq!(row("clear sunset, on the ground")[3], "EV 7.32");
    assert_eq!(
        row("full sun from the front")[1..4],
        ["07:34", "19:24", "EV 15"]
    );
}

#[test]
fn a_day_without_night_or_without_sun_still_answers() {
    for (place, date) in [
        ("70 N 25 E", "2025-06-21"),
        ("70 N 25 E", "2025-12-21"),
        ("90 N 0 E", "2025-03-20"),
        ("60 N 25 E", "2025-06-21"),
    ] {
        let typed = [("place", place), ("date", date)];
        let evening = [&typed[..], &[("time", "23:00")]].concat();
        for (word, typed) in [("day", &typed[..]), ("twilight", &evening)] {
            let answer = reckon(word, typed).unwrap();
            let json = serde_json::to_string(&answer).unwrap();
            assert!(!json.contains("NaN") && !json.contains("null"), "{json}");
        }
    }
}

#[test]
fn odd_answers_at_a_good_place_are_questions_back_and_never_a_panic() {
    let reference = Reference::built_in().unwrap();
    let now = DateTime::parse_from_rfc3339("2026-10-25T02:30:00+02:00").unwrap();
    let zone = TimeZone::parse("Europe/Oslo").unwrap();
    let desk = Desk::new(&reference, &NoKit, now).in_zone(zone);
    for word in ["sun", "day", "twilight"] {
        let recipe = named(word).unwrap();
        for ask in recipe.asks.iter().filter(|ask| ask.key != "place") {
            for odd in [
                "",
                "0",
                "-1",
                "f/0",
                "1e309",
                "∞",
                "90",
                "2999-12-31",
                "02:30",
                "W",
            ] {
                for place in ["90 N 0 E", "90 S 180 W", "0 0"] {
                    let typed = [("place", place), ("facing", "N"), (ask.key, odd)];
                    let typed: BTreeMap<String, String> = typed
                        .into_iter()
                        .map(|(key, text)| (key.to_owned(), text.to_owned()))
                        .collect();
                    match (recipe.answer)(&Given::new(recipe.asks, &typed, &desk)) {
                        Err(problem) => assert!(!problem.to_string().is_empty()),
                        Ok(answer) => {
                            let json = serde_json::to_string(&answer).unwrap();
                            assert!(!json.contains("NaN") && !json.contains("inf"), "{json}");
                        }
                    }
                }
            }
        }
    }
}
