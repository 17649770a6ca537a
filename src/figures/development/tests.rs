//! What the figures of development say, and what they refuse to say.

use std::collections::BTreeMap;

use chrono::{DateTime, NaiveDate};

use super::{ASKS, Reckoned, Situation, reckon};
use crate::craft::development::agitation::Agitation;
use crate::craft::development::contrast::Expansion;
use crate::craft::{Celsius, Concern, Dilution, FilmSpeed, Seconds, Standing};
use crate::figures::{
    Answer, CameraRecord, Desk, Findings, Given, Kit, LensRecord, NoKit, OwnDevelopment, Problem,
    named,
};
use crate::reference::Reference;

fn ask(word: &str, typed: &[(&str, &str)]) -> Result<Answer, Problem> {
    ask_with(word, typed, &NoKit)
}

fn ask_with(word: &str, typed: &[(&str, &str)], kit: &dyn Kit) -> Result<Answer, Problem> {
    let reference = Reference::built_in().unwrap();
    let now = DateTime::parse_from_rfc3339("2026-03-04T16:02:00+01:00").unwrap();
    let desk = Desk::new(&reference, kit, now);
    let typed: BTreeMap<String, String> = typed
        .iter()
        .map(|(key, text)| ((*key).to_owned(), (*text).to_owned()))
        .collect();
    let recipe = named(word).unwrap();
    (recipe.answer)(&Given::new(recipe.asks, &typed, &desk))
}

fn first(answer: &Answer) -> String {
    answer.results[0].amount.to_string()
}

#[test]
fn a_time_between_two_columns_names_both_rows() {
    let answer = ask(
        "develop",
        &[
            ("film", "FP4+"),
            ("developer", "ddx"),
            ("temperature", "22 C"),
        ],
    )
    .unwrap();
    assert_eq!(first(&answer), "8 min 55 s");
    let steps: Vec<&str> = answer.steps.iter().map(|it| it.name.as_ref()).collect();
    assert_eq!(steps[0], "told at 20.0 C (68 F)");
    assert_eq!(steps[1], "told at 23.89 C (75 F)");
    assert_eq!(
        answer.results[0].grounds.as_ref().unwrap().standing,
        Standing::Published
    );
    // The dilution is from memory, and so the answer as a whole is.
    assert_eq!(answer.standing(), Standing::Remembered);
}

#[test]
fn the_box_speed_is_meant_and_another_can_be_asked_for() {
    let at = |speed: &[(&str, &str)]| {
        let mut typed = vec![("film", "HP5 Plus"), ("developer", "DD-X")];
        typed.extend(speed);
        ask("develop", &typed)
    };
    assert_eq!(first(&at(&[]).unwrap()), "9 min");
    assert_eq!(first(&at(&[("speed", "3200")]).unwrap()), "20 min");
    let why = at(&[("speed", "6400")]).unwrap_err().to_string();
    assert!(why.contains("there is 400, 800, 1600, 3200"), "{why}");
}

#[test]
fn what_is_left_open_is_asked_and_not_guessed() {
    let typed = [("film", "HP5 Plus"), ("developer", "ID-11")];
    let why = ask("develop", &typed).unwrap_err();
    assert_eq!(why.key, Some("dilution"));
    assert!(why.says.contains("stock, 1+1, 1+3"), "{why}");
    let typed = [
        ("film", "T-MAX 100"),
        ("developer", "XTOL"),
        ("dilution", "stock"),
    ];
    let why = ask("develop", &typed).unwrap_err();
    assert_eq!(why.key, Some("size"));
}

#[test]
fn nothing_is_told_beyond_a_table_and_an_estimate_says_that_it_is_one() {
    let typed = [
        ("film", "FP4+"),
        ("developer", "DD-X"),
        ("temperature", "18 C"),
    ];
    let why = ask("develop", &typed).unwrap_err();
    assert_eq!(why.key, Some("temperature"));
    assert!(why.says.contains("ask for an estimate"), "{why}");
    let mut typed = typed.to_vec();
    typed.push(("estimate", "yes"));
    let answer = ask("develop", &typed).unwrap();
    assert!(
        answer
            .remarks
            .iter()
            .any(|it| it.concern == Concern::Beyond)
    );
    assert_eq!(
        answer.results[0].grounds.as_ref().unwrap().standing,
        Standing::Usual
    );
}

#[test]
fn a_film_without_a_table_gets_a_sentence() {
    let why = ask("develop", &[("film", "Ortho Plus"), ("developer", "D-76")]).unwrap_err();
    assert!(why.says.contains("no time is told"), "{why}");
    let why = ask("develop", &[("film", "FP4+"), ("developer", "tea")]).unwrap_err();
    assert!(why.says.contains("no developer tea"), "{why}");
}

#[test]
fn a_table_for_rotary_tubes_is_not_shortened_again() {
    let rotary = [
        ("film", "T-MAX 100"),
        ("developer", "D-76"),
        ("agitation", "continuous"),
    ];
    assert_eq!(first(&ask("develop", &rotary).unwrap()), "6 min 30 s");
    let tank = [
        ("film", "T-MAX 100"),
        ("developer", "D-76"),
        ("agitation", "intermittent"),
    ];
    assert_eq!(ask("develop", &tank).unwrap_err().key, Some("agitation"));
    let shortened = [
        ("film", "FP4+"),
        ("developer", "DD-X"),
        ("agitation", "continuous"),
    ];
    let answer = ask("develop", &shortened).unwrap();
    assert_eq!(first(&answer), "8 min 30 s");
    assert!(
        answer
            .remarks
            .iter()
            .any(|it| it.words.contains("does not say"))
    );
}

#[test]
fn two_known_times_need_no_general_law() {
    let known = [("time", "10:00"), ("at", "68F"), ("to", "22 C")];
    let general = ask("temperature", &known).unwrap();
    assert!(
        general
            .remarks
            .iter()
            .any(|it| it.concern == Concern::Beyond)
    );
    let mut both = known.to_vec();
    both.extend([("other_time", "8:00"), ("other_at", "75F")]);
    let between = ask("temperature", &both).unwrap();
    assert_eq!(first(&between), "8 min 55 s");
    assert!(between.remarks.is_empty());
    both.push(("ten_degrees", "2"));
    assert_eq!(
        ask("temperature", &both).unwrap_err().key,
        Some("ten_degrees")
    );
}

#[test]
fn a_way_of_printing_brings_its_own_range() {
    let answer = ask("gradient", &[("process", "silver-gelatin-contact")]).unwrap();
    assert_eq!(first(&answer), "0.58");
    let answer = ask("gradient", &[("process", "cyanotype"), ("by", "N-1")]).unwrap();
    assert!(answer.results.iter().any(|it| it.name == "from"));
    let why = ask(
        "gradient",
        &[("density_range", "1.05"), ("stops", "1"), ("flare", "0.4")],
    );
    assert!(why.unwrap_err().says.contains("leaves nothing"));
}

#[test]
fn every_developer_can_be_listed_and_named() {
    let all = ask("developers", &[]).unwrap();
    let rows = all.table.unwrap().rows;
    assert!(rows.len() >= 9);
    let one = ask("developers", &[("developer", "rodinal")]).unwrap();
    assert!(one.remarks.iter().any(|it| it.concern == Concern::Warning));
}

/// Records with these developing times and nothing else.
struct Found(Vec<OwnDevelopment>);

impl Kit for Found {
    fn lens(&self, _reference: &str) -> Option<LensRecord> {
        None
    }
    fn camera(&self, _reference: &str) -> Option<CameraRecord> {
        None
    }
    fn findings(&self) -> Findings {
        Findings {
            developments: self.0.clone(),
            ..Findings::default()
        }
    }
}

/// A time of one's own for FP4 in DD-X 1+4, found on a day in March.
fn own(time: &str, at: &str, contrast: &str, day: u32) -> OwnDevelopment {
    OwnDevelopment {
        film: "FP4".to_owned(),
        developer: "DD-X".to_owned(),
        dilution: Some(Dilution::parse("1+4").unwrap()),
        temperature: Celsius::parse(at).unwrap(),
        time: Seconds::parse(time).unwrap(),
        agitation: Some(Agitation::Intermittent),
        speed: None,
        contrast: Expansion::parse(contrast).unwrap(),
        gradient: None,
        on: NaiveDate::from_ymd_opt(2026, 3, day).unwrap(),
    }
}

fn with_own(own: Vec<OwnDevelopment>, typed: &[(&str, &str)]) -> Result<Answer, Problem> {
    let mut all = vec![("film", "FP4+"), ("developer", "DD-X")];
    all.extend(typed);
    ask_with("develop", &all, &Found(own))
}

fn brings(answer: &Answer) -> Vec<(String, String)> {
    let steps = answer.steps.iter();
    let steps = steps.filter_map(|it| Some((it.name.to_string(), it.brings.as_ref()?.to_string())));
    steps.collect()
}

#[test]
fn an_own_time_goes_before_the_table_and_says_its_date() {
    let answer = with_own(vec![own("8:00", "20 C", "N", 2)], &[]).unwrap();
    assert_eq!(first(&answer), "8 min");
    let grounds = answer.results[0].grounds.as_ref().unwrap();
    assert_eq!(grounds.standing, Standing::Own);
    assert_eq!(grounds.source, "own time, found 2 Mar 2026");
    assert_eq!(answer.steps[0].name, "own at 20.0 C (68 F)");
    // What the text says stands beside it.
    let other = answer.results.iter().find(|it| it.name.starts_with("or, "));
    assert_eq!(other.unwrap().amount.to_string(), "10 min");
    assert_eq!(other.unwrap().name, "or, Ilford");
}

#[test]
fn the_latest_of_two_own_times_stands() {
    let found = vec![own("8:00", "20 C", "N", 2), own("8:30", "20 C", "N", 9)];
    assert_eq!(first(&with_own(found, &[]).unwrap()), "8 min 30 s");
}

#[test]
fn an_own_time_at_one_temperature_is_carried_by_the_slope_of_the_table() {
    let answer = with_own(
        vec![own("8:00", "20 C", "N", 2)],
        &[("temperature", "22 C")],
    )
    .unwrap();
    // 8 min x 8.917 / 10, as the table goes from 20 to 22 C.
    assert_eq!(first(&answer), "7 min 8 s");
    assert!(
        answer
            .remarks
            .iter()
            .any(|it| it.concern == Concern::Beyond)
    );
    // Where no table covers it, nothing is told.
    let why = with_own(
        vec![own("8:00", "20 C", "N", 2)],
        &[("temperature", "17 C")],
    )
    .unwrap_err();
    assert_eq!(why.key, Some("temperature"));
}

#[test]
fn an_own_time_for_the_contrast_asked_for_needs_no_percentages() {
    let found = || vec![own("8:00", "20 C", "N", 2), own("6:30", "20 C", "N-1", 3)];
    let answer = with_own(found(), &[("contrast", "N-1")]).unwrap();
    assert_eq!(first(&answer), "6 min 30 s");
    assert_eq!(answer.standing(), Standing::Own);
    // Between two of them the logarithm of the time runs straight: sqrt(8 x 6.5).
    let answer = with_own(found(), &[("contrast", "N-1/2")]).unwrap();
    assert_eq!(first(&answer), "7 min 13 s");
    // Beyond them the rule of percentages goes on from N.
    let answer = with_own(found(), &[("contrast", "N+1")]).unwrap();
    assert_eq!(first(&answer), "10 min 36 s");
    assert_eq!(answer.standing(), Standing::Usual);
}

#[test]
fn each_step_says_what_it_brings_and_what_that_rests_on() {
    let typed = [
        ("temperature", "22 C"),
        ("agitation", "continuous"),
        ("contrast", "less, N-1; -10 %"),
    ];
    let answer = with_own(Vec::new(), &typed).unwrap();
    let wanted = [
        ("agitated all the time", "7 min 34.7 s"),
        ("N-1", "6 min 3.8 s"),
        ("long exposure", "5 min 27.4 s"),
    ];
    let wanted = wanted.map(|(name, time)| (name.to_owned(), time.to_owned()));
    assert_eq!(brings(&answer), wanted);
    assert_eq!(first(&answer), "5 min 27 s");
    let standing = |name: &str| {
        let step = answer.steps.iter().find(|it| it.name == name);
        step.unwrap().grounds.as_ref().map(|it| it.standing)
    };
    assert_eq!(standing("N-1"), Some(Standing::Usual));
    assert_eq!(standing("told at 20.0 C (68 F)"), Some(Standing::Published));
}

#[test]
fn flat_grain_takes_half_of_the_percentages() {
    let at = |film: &str| {
        let typed = [("film", film), ("developer", "DD-X"), ("contrast", "N+1")];
        first(&ask("develop", &typed).unwrap())
    };
    // 12 min x 1.1625 and 10 min x 1.325.
    assert_eq!(at("Delta 100"), "13 min 57 s");
    assert_eq!(at("FP4 Plus"), "13 min 15 s");
}

#[test]
fn a_gradient_is_developed_for_by_own_gradients_else_as_a_change_of_contrast() {
    let of = |time: &str, gradient: f64| OwnDevelopment {
        gradient: Some(gradient),
        ..own(time, "20 C", "N", 2)
    };
    let found = vec![of("7:00", 0.50), of("10:00", 0.70)];
    let answer = with_own(found, &[("contrast", "gradient 0.60")]).unwrap();
    // sqrt(7 x 10) min.
    assert_eq!(first(&answer), "8 min 22 s");
    assert_eq!(answer.standing(), Standing::Own);
    let answer = with_own(Vec::new(), &[("contrast", "gradient 0.70")]).unwrap();
    assert_eq!(first(&answer), "13 min 15 s");
    assert_eq!(answer.standing(), Standing::Remembered);
    let why = with_own(Vec::new(), &[("contrast", "gradient 1.4")]).unwrap_err();
    assert!(why.says.contains("beyond what N-2 to N+2"), "{why}");
    let why = with_own(Vec::new(), &[("contrast", "gradient 0.7; N+1")]).unwrap_err();
    assert!(why.says.contains("says all of it"), "{why}");
}

#[test]
fn a_way_of_printing_asks_for_the_contrast_of_its_range() {
    let answer = with_own(Vec::new(), &[("contrast", "silver-gelatin-contact")]).unwrap();
    // A range of 1.05 for the average subject is what N is counted for.
    assert_eq!(first(&answer), "10 min");
    let longer = with_own(Vec::new(), &[("contrast", "cyanotype; N-1")]).unwrap();
    let steps: Vec<&str> = longer.steps.iter().map(|it| it.name.as_ref()).collect();
    assert!(steps.contains(&"range left to the film"), "{steps:?}");
    let why = with_own(Vec::new(), &[("contrast", "tea")]).unwrap_err();
    assert_eq!(why.key, Some("contrast"));
    assert!(why.says.contains("no way of printing tea"), "{why}");
}

#[test]
fn film_and_developer_that_nobody_publishes_need_an_own_time() {
    let plain = OwnDevelopment {
        film: "Plain Pan".to_owned(),
        developer: "metol, fresh".to_owned(),
        ..own("9:00", "20 C", "N", 2)
    };
    let typed = [("film", "plain pan"), ("developer", "Metol, fresh")];
    let answer = ask_with("develop", &typed, &Found(vec![plain])).unwrap();
    assert_eq!(first(&answer), "9 min");
    let why = ask("develop", &typed).unwrap_err();
    assert!(why.says.contains("log your own time"), "{why}");
}

#[test]
fn a_time_for_a_tank_is_looked_for_where_the_first_table_is_for_a_tube() {
    let tank = OwnDevelopment {
        agitation: Some(Agitation::Continuous),
        ..own("8:00", "20 C", "N", 2)
    };
    let answer = with_own(vec![tank], &[("agitation", "intermittent")]).unwrap();
    assert_eq!(
        first(&answer),
        "10 min",
        "the table says nothing against a tank"
    );
}

#[test]
fn what_the_logbook_knows_is_taken_where_something_is_told_for_it() {
    let at = |speed: u32, developer: &str, film: &str| {
        let reference = Reference::built_in().unwrap();
        let now = DateTime::parse_from_rfc3339("2026-03-04T16:02:00+01:00").unwrap();
        let desk = Desk::new(&reference, &NoKit, now);
        let typed = [("film", film), ("developer", developer)];
        let typed = typed.map(|(key, text)| (key.to_owned(), text.to_owned()));
        let typed = BTreeMap::from(typed);
        let situation = Situation {
            exposed_at: FilmSpeed::new(speed).ok(),
            sheets: true,
            ..Situation::typed(Given::new(ASKS, &typed, &desk))
        };
        reckon(&situation).unwrap()
    };
    let warned = |reckoned: &Reckoned, words: &str| {
        let remarks = &reckoned.answer.remarks;
        remarks.iter().any(|it| it.words.contains(words))
    };
    let pushed = at(800, "DD-X", "HP5");
    assert_eq!(pushed.time.to_string(), "10 min");
    assert!(warned(
        &pushed,
        "pushed: exposed at 800, +1 stop over the 400"
    ));
    let personal = at(250, "DD-X", "HP5");
    assert_eq!(personal.time.to_string(), "9 min");
    assert!(warned(&personal, "nothing is told for an index of 250"));
    let rolls = at(100, "D-76", "T-MAX 100");
    assert!(warned(&rolls, "told for rolls and not for sheets"));
}
