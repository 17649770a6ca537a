//! Lens, camera and film as the figures of focus find them.

use std::collections::BTreeMap;

use chrono::DateTime;

use super::*;
use crate::figures::{Chapter, Desk, Findings, Kit, all, named};
use crate::reference::{Reference, Standing};
use proptest::prelude::*;

/// What a hand may type, to the point and beside it.
const TYPED: [&str; 24] = [
    "keep",
    "keep",
    "keep",
    "keep",
    "keep",
    "",
    "0",
    "1",
    "-5",
    "90",
    "150 mm",
    "3 m",
    "infinity",
    "f/22",
    "4x5",
    "36x24 mm",
    "rise 20 tilt 5",
    "999 m",
    "0.0000001",
    "1/4",
    "100",
    "89.9",
    "L-02",
    "C-01",
];

/// One telephoto lens and one small camera, invented.
struct Bag;

impl Kit for Bag {
    fn lens(&self, reference: &str) -> Option<LensRecord> {
        let mm = |value| Millimetres::new(value).ok();
        (reference == "L-02").then(|| LensRecord {
            reference: "L-02".to_owned(),
            focal_length: mm(360.0),
            smallest: Aperture::parse("f/32").ok(),
            image_circle: mm(210.0),
            pupil_ratio: Some(0.6),
            flange: mm(250.0),
            ..LensRecord::default()
        })
    }

    fn camera(&self, reference: &str) -> Option<CameraRecord> {
        (reference == "C-01").then(|| CameraRecord {
            reference: "C-01".to_owned(),
            size: Size::parse("4x5").ok(),
            shortest_draw: Millimetres::new(80.0).ok(),
            longest_draw: Millimetres::new(300.0).ok(),
            ..CameraRecord::default()
        })
    }

    fn findings(&self) -> Findings {
        Findings::default()
    }
}

fn asked(word: &str, typed: &[(&str, &str)]) -> Result<Answer, Problem> {
    let reference = Reference::built_in().unwrap();
    let now = DateTime::parse_from_rfc3339("2026-03-04T16:02:00+01:00").unwrap();
    let desk = Desk::new(&reference, &Bag, now);
    let recipe = named(word).unwrap();
    let typed: BTreeMap<String, String> = typed
        .iter()
        .map(|(key, text)| ((*key).to_owned(), (*text).to_owned()))
        .collect();
    (recipe.answer)(&Given::new(recipe.asks, &typed, &desk))
}

fn result(answer: &Answer, name: &str) -> String {
    let line = answer.results.iter().find(|line| line.name == name);
    line.map_or_else(|| "nothing".to_owned(), |line| line.amount.to_string())
}

#[test]
fn a_lens_of_the_logbook_stands_in_and_says_so() {
    let answer = asked("focus", &[("lens", "L-02"), ("distance", "4 m")]).unwrap();
    assert_eq!(result(&answer, "draw on the rail"), "285.6 mm");
    let step = answer.steps.first().unwrap();
    assert_eq!(step.grounds, Some(Grounds::own("lens L-02")));
    let typed = [
        ("lens", "L-02"),
        ("focal_length", "150"),
        ("distance", "4 m"),
    ];
    let answer = asked("focus", &typed).unwrap();
    assert_eq!(result(&answer, "beyond infinity"), "5.8 mm");
}

#[test]
fn a_bellows_that_ends_before_is_a_warning() {
    let typed = [("lens", "L-02"), ("camera", "C-01"), ("distance", "2 m")];
    let answer = asked("focus", &typed).unwrap();
    let warning = answer
        .remarks
        .iter()
        .find(|it| it.concern == Concern::Warning);
    assert!(warning.unwrap().words.contains("C-01 ends 29 mm short"));
    let typed = [
        ("focal_length", "65"),
        ("camera", "C-01"),
        ("distance", "2 m"),
    ];
    let answer = asked("focus", &typed).unwrap();
    assert!(
        answer
            .remarks
            .iter()
            .any(|it| it.words.contains("13 mm too long"))
    );
    let nearest = asked("focus", &[("lens", "L-02"), ("camera", "C-01")]).unwrap();
    assert_eq!(result(&nearest, "magnification"), "0.1389");
}

#[test]
fn a_lens_that_does_not_close_so_far_is_a_warning() {
    let typed = [("travel", "9 mm"), ("circle", "0.1"), ("lens", "L-02")];
    let answer = asked("spread", &typed).unwrap();
    assert_eq!(result(&answer, "at least"), "f/45");
    assert!(
        answer
            .remarks
            .iter()
            .any(|it| it.words.contains("closes only to f/32"))
    );
}

#[test]
fn the_camera_gives_the_format_and_the_circle_of_the_lens_its_room() {
    let answer = asked("coverage", &[("lens", "L-02"), ("camera", "C-01")]).unwrap();
    assert_eq!(result(&answer, "circle needed"), "153.7 mm");
    assert_eq!(result(&answer, "most rise"), "38.2 mm");
    let typed = [
        ("lens", "L-02"),
        ("camera", "C-01"),
        ("movements", "rise 60"),
    ];
    let answer = asked("coverage", &typed).unwrap();
    assert!(
        answer
            .remarks
            .iter()
            .any(|it| it.words.contains("a corner stays dark"))
    );
    let answer = asked("coverage", &[("format", "5x7"), ("image_circle", "210")]).unwrap();
    let names: Vec<_> = answer.steps.iter().map(|step| step.name.as_ref()).collect();
    assert!(names.contains(&"image area of 5x7"), "{names:?}");
    assert_eq!(answer.standing(), Standing::Remembered);
}

#[test]
fn the_pupil_ratio_of_the_lens_is_used() {
    let typed = [
        ("lens", "L-02"),
        ("aperture", "f/22"),
        ("distance", "1.5 m"),
        ("circle", "0.1"),
    ];
    let known = asked("depth", &typed).unwrap();
    let symmetrical = [typed.as_slice(), &[("pupil_ratio", "1")]].concat();
    let taken_as_one = asked("depth", &symmetrical).unwrap();
    assert_ne!(result(&known, "depth"), result(&taken_as_one, "depth"));
}

#[test]
fn what_the_logbook_does_not_hold_is_a_question_back() {
    let why = asked("focus", &[("lens", "L-09"), ("distance", "4 m")]).unwrap_err();
    assert_eq!(why.key, Some("lens"));
    let why = asked("hyperfocal", &[("focal_length", "150"), ("aperture", "22")]).unwrap_err();
    assert_eq!(why.key, Some("circle"));
    let why = asked("coverage", &[("format", "many")]).unwrap_err();
    assert!(why.says.contains("write 4x5"), "{why}");
    let two = [
        ("focal_length", "150"),
        ("distance", "4 m"),
        ("span", "5 m"),
    ];
    assert_eq!(asked("focus", &two).unwrap_err().key, Some("span"));
    let turned = [("format", "4x5"), ("movements", "tilt 5")];
    assert_eq!(
        asked("coverage", &turned).unwrap_err().key,
        Some("focal_length")
    );
}

/// Whether a number that is none has crept into a text.
fn no_number(text: &str) -> bool {
    text.contains("NaN") || text.replace("infinity", "").contains("inf ")
}

proptest! {
    #[test]
    fn whatever_is_typed_no_answer_holds_a_number_that_is_none(
        picks in proptest::collection::vec(0..TYPED.len(), 16), at in 0..40_usize,
    ) {
        let reference = Reference::on_demand();
        let now = DateTime::parse_from_rfc3339("2026-03-04T16:02:00+01:00").unwrap();
        let desk = Desk::new(&reference, &Bag, now);
        let recipes: Vec<_> = all().filter(|it| it.chapter == Chapter::Focus).collect();
        let recipe = recipes[at % recipes.len()];
        let mut typed: BTreeMap<String, String> = recipe
            .example
            .iter()
            .map(|(key, text)| ((*key).to_owned(), (*text).to_owned()))
            .collect();
        for (ask, pick) in recipe.asks.iter().zip(picks) {
            match TYPED[pick] {
                "keep" => {}
                text => { typed.insert(ask.key.to_owned(), text.to_owned()); }
            }
        }
        if let Ok(answer) = (recipe.answer)(&Given::new(recipe.asks, &typed, &desk)) {
            let results = answer.results.iter().map(|line| &line.amount);
            let steps = answer.steps.iter().map(|step| &step.amount);
            let rows = answer.table.iter().flat_map(|table| table.rows.iter().flatten());
            for amount in results.chain(steps).chain(rows) {
                let number = amount.plain().0.unwrap_or(0.0);
                prop_assert!(number.is_finite(), "{}: {typed:?}: {amount}", recipe.word);
            }
            let workings = answer.steps.iter().map(|step| &step.working);
            let remarks = answer.remarks.iter().map(|remark| &remark.words);
            for text in workings.chain(remarks) {
                prop_assert!(!no_number(text), "{}: {typed:?}: {text}", recipe.word);
            }
        }
    }
}
