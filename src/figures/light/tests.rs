//! Figures of light as they are asked for by name.

use std::collections::BTreeMap;

use chrono::{DateTime, NaiveDate};

use crate::craft::{Aperture, ExposureValue, Standing};
use crate::figures::{
    Answer, CameraRecord, Desk, Findings, Given, Kit, LensRecord, NoKit, OwnMeter, OwnScene,
    Problem, named,
};
use crate::reference::Reference;

/// A lens that closes to f/32, a meter of one's own, and one scene found.
struct Bag;

fn day() -> NaiveDate {
    NaiveDate::from_ymd_opt(2026, 2, 11).unwrap()
}

impl Kit for Bag {
    fn lens(&self, reference: &str) -> Option<LensRecord> {
        (reference == "L-02").then(|| LensRecord {
            widest: Aperture::parse("f/6.8").ok(),
            smallest: Aperture::parse("f/32").ok(),
            ..LensRecord::default()
        })
    }
    fn camera(&self, _: &str) -> Option<CameraRecord> {
        None
    }
    fn findings(&self) -> Findings {
        let scene = |value: f64| OwnScene {
            scene: "Open shade".to_owned(),
            value: ExposureValue::new(value).unwrap(),
            on: day(),
        };
        Findings {
            scenes: vec![scene(11.0), scene(10.5)],
            meter: Some(OwnMeter {
                reflected: Some(14.0),
                incident: None,
                on: day(),
            }),
            ..Findings::default()
        }
    }
}

fn asked(kit: &dyn Kit, word: &str, typed: &[(&str, &str)]) -> Result<Answer, Problem> {
    let reference = Reference::on_demand();
    let now = DateTime::parse_from_rfc3339("2026-03-04T16:02:00+01:00").unwrap();
    let desk = Desk::new(&reference, kit, now);
    let typed: BTreeMap<String, String> = typed
        .iter()
        .map(|(key, text)| ((*key).to_owned(), (*text).to_owned()))
        .collect();
    let recipe = named(word).unwrap_or_else(|| panic!("no {word}"));
    (recipe.answer)(&Given::new(recipe.asks, &typed, &desk))
}

fn told(word: &str, typed: &[(&str, &str)]) -> Answer {
    asked(&NoKit, word, typed).unwrap_or_else(|why| panic!("{word}: {why}"))
}

fn refused(word: &str, typed: &[(&str, &str)]) -> String {
    match asked(&NoKit, word, typed) {
        Ok(answer) => panic!("{word} {typed:?}: {:?}", answer.results),
        Err(why) => why.to_string(),
    }
}

fn result(answer: &Answer, name: &str) -> String {
    let mut results = answer.results.iter();
    results
        .find(|line| line.name == name)
        .unwrap_or_else(|| panic!("no {name}: {:?}", answer.results))
        .amount
        .to_string()
}

#[test]
fn three_readings_become_a_setting_a_range_and_a_development() {
    let answer = told(
        "zones",
        &[
            ("readings", "shadow III 8.7, bark V 10.3, sky VIII 13.9"),
            ("speed", "400"),
            ("aperture", "f/22"),
        ],
    );
    assert_eq!(
        result(&answer, "exposure value to set, at ISO 400"),
        "EV 12.7"
    );
    assert_eq!(result(&answer, "to set"), "1/15 s");
    assert_eq!(result(&answer, "range of the readings"), "+5.2 stops");
    assert_eq!(
        result(&answer, "development"),
        "develop a little less, N-0.2"
    );
    let rows = answer.table.unwrap().rows;
    let sky: Vec<String> = rows[2].iter().map(ToString::to_string).collect();
    assert_eq!(sky[..4], ["sky", "EV 13.9", "VIII", "VIII+0.2"]);
}

#[test]
fn the_film_gives_its_speed_where_none_is_typed() {
    let answer = told("zones", &[("readings", "12"), ("film", "FP4")]);
    assert_eq!(
        result(&answer, "exposure value to set, at ISO 125"),
        "EV 12.32"
    );
    let why = refused("zones", &[("readings", "12"), ("film", "no such film")]);
    assert!(why.starts_with("film: the speed of"), "{why}");
}

#[test]
fn a_time_that_is_wanted_finds_its_aperture() {
    let answer = told("zones", &[("readings", "12"), ("time", "1/15")]);
    assert_eq!(result(&answer, "aperture at 1/15 s"), "f/16");
}

#[test]
fn long_times_are_said_to_want_more_and_short_ones_are_not() {
    let long = |readings| {
        let asked = told("zones", &[("readings", readings), ("aperture", "f/22")]);
        asked
            .remarks
            .iter()
            .any(|one| one.words.contains("reciprocity"))
    };
    assert!(long("III 6, VIII 11"));
    assert!(!long("III 12, VIII 17"));
}

#[test]
fn what_the_user_found_goes_before_every_table() {
    let answer = asked(&Bag, "scene", &[("scene", "open shade")]).unwrap();
    assert_eq!(result(&answer, "light, at ISO 100"), "EV 10.5");
    assert_eq!(answer.grounds.standing, Standing::Own);
    assert!(answer.grounds.source.contains("2026-02-11"));
    let answer = told("scene", &[("scene", "open shade")]);
    assert_eq!(result(&answer, "light, at ISO 100"), "EV 12");
    let list = asked(&Bag, "scene", &[]).unwrap().table.unwrap();
    assert_eq!(list.rows[0][1].to_string(), "EV 10.5");
    assert!(list.rows.len() > 45);
}

#[test]
fn the_meter_of_ones_own_goes_before_the_usual_one_and_what_is_typed_before_it() {
    let with = |typed: &[(&str, &str)]| {
        let answer = asked(&Bag, "meter", typed).unwrap();
        let grounds = answer.results[1].grounds.clone();
        (
            result(&answer, "light, at ISO 100"),
            grounds.unwrap().source,
        )
    };
    let (own, from) = with(&[("reading", "14 cd/m2")]);
    assert_eq!(own, "EV 6.64");
    assert!(from.contains("own meter, 2026-02-11"), "{from}");
    let (typed, from) = with(&[("reading", "14 cd/m2"), ("k", "12.5")]);
    assert_eq!(typed, "EV 6.81");
    assert_eq!(from, "as given");
}

#[test]
fn a_dome_reads_by_its_own_constant() {
    let flat = told("meter", &[("reading", "3400 lx")]);
    let dome = told("meter", &[("reading", "3400 lx"), ("receptor", "dome")]);
    assert_eq!(result(&flat, "light, at ISO 100"), "EV 10.41");
    assert_eq!(result(&dome, "light, at ISO 100"), "EV 9.97");
}

#[test]
fn side_light_counts_in_direct_sun_only_and_against_the_sun_there_is_a_caution() {
    let side = told("scene", &[("scene", "sun"), ("side", "side")]);
    assert_eq!(result(&side, "light, at ISO 100"), "EV 14");
    let back = told("scene", &[("scene", "sun"), ("side", "back")]);
    assert_eq!(result(&back, "light, at ISO 100"), "EV 13");
    assert!(
        back.remarks
            .iter()
            .any(|one| one.words.contains("the sun blinds"))
    );
    let shade = told("scene", &[("scene", "open shade"), ("side", "side")]);
    assert_eq!(result(&shade, "light, at ISO 100"), "EV 12");
    assert!(shade.remarks[0].words.contains("direct sun only"));
}

#[test]
fn the_table_of_the_maker_comes_before_the_rule_for_its_film() {
    let answer = told("sunny", &[("film", "Tri-X 320"), ("light", "sun")]);
    assert_eq!(answer.results[0].name, "printed for the film, at 1/500 s");
    assert_eq!(answer.results[0].amount.to_string(), "f/11");
    assert_eq!(result(&answer, "by the rule, at 1/320 s"), "f/16");
    let why = refused("sunny", &[("speed", "100"), ("light", "backlit")]);
    assert!(why.contains("only tables for single films"), "{why}");
    assert!(refused("sunny", &[("light", "sun")]).contains("this is needed"));
}

#[test]
fn a_reckoned_aperture_goes_to_what_the_lens_has() {
    let round = |aperture| asked(&Bag, "round", &[("aperture", aperture), ("lens", "L-02")]);
    assert_eq!(result(&round("f/6.5").unwrap(), "aperture"), "f/6.8");
    let why = round("f/45").unwrap_err().to_string();
    assert!(why.contains("closes to f/32"), "{why}");
    let why = refused("round", &[("aperture", "f/16"), ("lens", "L-09")]);
    assert!(why.contains("there is no lens \"L-09\""), "{why}");
    assert!(refused("round", &[]).contains("an aperture or a time is needed"));
}

#[test]
fn what_is_missing_is_found_whichever_it_is() {
    let solve = |typed: &[(&str, &str)]| told("solve", typed);
    let light = solve(&[("aperture", "f/22"), ("time", "1/15"), ("speed", "400")]);
    assert_eq!(result(&light, "light, at ISO 100"), "EV 11");
    let film = solve(&[("light", "11"), ("aperture", "f/22"), ("time", "1/15")]);
    assert_eq!(result(&film, "film speed"), "400");
    let settings = solve(&[("light", "2560 lx"), ("speed", "400")]);
    assert_eq!(result(&settings, "exposure value to set"), "EV 12");
    assert_eq!(result(&settings, "at f/22"), "1/8 s");
    let why = refused("solve", &[("aperture", "f/22")]);
    assert!(why.starts_with("three of light"), "{why}");
}

#[test]
fn a_range_by_incident_readings_says_that_its_base_is_remembered() {
    let answer = told("range", &[("shadow", "10"), ("light", "13")]);
    assert_eq!(result(&answer, "development"), "develop less, N-1");
    assert_eq!(answer.grounds.standing, Standing::Remembered);
    let typed = [("shadow", "10"), ("light", "13"), ("base", "5")];
    assert_eq!(told("range", &typed).grounds.standing, Standing::Published);
    let base = answer.results.iter().find(|line| line.name == "base range");
    let grounds = base.unwrap().grounds.clone().unwrap();
    assert_eq!(grounds.standing, Standing::Remembered);
    assert!(refused("range", &[("shadow", "10"), ("light", "19")]).contains("outside the table"));
}
