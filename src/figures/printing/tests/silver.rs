//! Silver gelatin.

use super::{reckon, refused, says, told};
use crate::craft::Concern;

#[test]
fn a_time_is_carried_over_with_the_stops_of_each_change() {
    let typed = [
        ("time", "10 s"),
        ("from", "8x10"),
        ("to", "16x20"),
        ("negative", "4x5"),
        ("aperture", "f/8"),
        ("to_aperture", "f/11"),
        ("filter", "2"),
        ("to_filter", "4"),
        ("density", "1.10"),
        ("to_density", "1.40"),
    ];
    let answer = reckon("reprint", &typed).unwrap();
    let seconds = 10.0 * 2.0_f64.powi(2) * 25.0 / 9.0 * 10_f64.powf(0.3);
    let clock = format!(
        "{}:{:02}",
        (seconds / 60.0) as u32,
        (seconds % 60.0).round() as u32
    );
    assert_eq!(told(&answer, "time"), clock);
    let names: Vec<&str> = answer.steps.iter().map(|step| step.name.as_ref()).collect();
    assert_eq!(
        names,
        ["negative density", "enlargement", "aperture", "filter"]
    );
    let by_paper = [
        ("time", "15 s"),
        ("filter", "3"),
        ("to_filter", "4"),
        ("paper", "MGIV RC"),
    ];
    let answer = reckon("reprint", &by_paper).unwrap();
    assert_eq!(told(&answer, "time"), "30 s");
    assert_eq!(answer.standing(), crate::craft::Standing::Remembered);
    let half = [
        ("time", "15 s"),
        ("filter", "2.5"),
        ("to_filter", "4"),
        ("paper", "MGIV RC"),
    ];
    assert!(refused("reprint", &half).contains("under that filter is not told"));
    for (typed, needed) in [
        (vec![("to", "4x")], "enlargement"),
        (vec![("from", "2x")], "to"),
        (vec![("from", "8x10"), ("to", "16x20")], "negative"),
        (
            vec![("filter", "9"), ("to_filter", "2")],
            "a filter from 00 to 5",
        ),
        (vec![], "nothing changes"),
    ] {
        let mut typed = typed;
        typed.push(("time", "10 s"));
        let why = refused("reprint", &typed);
        assert!(why.contains(needed), "{why}");
    }
}

#[test]
fn dry_down_is_typed_in_percent_or_in_stops() {
    let percent = reckon("reprint", &[("time", "20 s"), ("dry_down", "10 %")]).unwrap();
    assert_eq!(told(&percent, "time"), "18 s");
    let stops = reckon("reprint", &[("time", "20 s"), ("dry_down", "1/4 stop")]).unwrap();
    assert_eq!(told(&stops, "time"), "16.8 s");
    assert!(reckon("reprint", &[("time", "20 s"), ("dry_down", "80")]).is_err());
}

#[test]
fn a_negative_gets_its_grade_and_its_filter() {
    let typed = [("thin", "0.35"), ("dense", "1.40"), ("paper", "MGIV RC")];
    let answer = reckon("paper-grade", &typed).unwrap();
    assert_eq!(told(&answer, "grade"), "2");
    assert_eq!(told(&answer, "filter"), "2.25");
    let hard = reckon("paper-grade", &[("range", "0.30"), ("paper", "MGIV RC")]).unwrap();
    assert_eq!(told(&hard, "filter"), "");
    assert_eq!(
        hard.remarks
            .iter()
            .filter(|it| it.concern == Concern::Beyond)
            .count(),
        2
    );
    let condenser = [("range", "1.00"), ("head", "condenser")];
    assert_eq!(
        told(
            &reckon("paper-grade", &condenser).unwrap(),
            "log exposure range"
        ),
        "1.3"
    );
    assert!(
        refused("paper-grade", &[("range", "1"), ("paper", "elixir")])
            .contains("paper_grades.toml")
    );
    let wrong = [("thin", "1.40"), ("dense", "0.35")];
    assert!(refused("paper-grade", &wrong).contains("thin parts"));
}

#[test]
fn parts_of_a_print_are_told_in_seconds() {
    let answer = reckon(
        "burn",
        &[("time", "20 s"), ("parts", "sky +2/3, face -1/2")],
    )
    .unwrap();
    assert_eq!(told(&answer, "sky, burn"), "11.7 s");
    assert_eq!(told(&answer, "face, hold back"), "5.9 s");
    let split = [
        ("time", "12 s"),
        ("hard", "8 s"),
        ("parts", "sky soft +1, rock hard +1"),
    ];
    let answer = reckon("burn", &split).unwrap();
    assert_eq!(told(&answer, "sky, burn"), "12 s");
    assert_eq!(told(&answer, "rock, burn"), "8 s");
    assert_eq!(answer.table.unwrap().heads.len(), 5);
}

#[test]
fn two_filters_move_together_or_against_each_other() {
    let together = [("soft", "12 s"), ("hard", "8 s"), ("stops", "1")];
    let answer = reckon("split", &together).unwrap();
    assert_eq!(
        (told(&answer, "soft"), told(&answer, "hard")),
        ("24 s".into(), "16 s".into())
    );
    assert!(!says(&answer, "contrast"));
    let against = [("soft", "12 s"), ("hard", "8 s"), ("hard_stops", "+1/4")];
    assert!(says(&reckon("split", &against).unwrap(), "more contrast"));
}

#[test]
fn a_contact_print_goes_by_light_height_or_paper_speed() {
    let height = [("time", "6 s"), ("height", "60 cm"), ("to_height", "90 cm")];
    assert_eq!(told(&reckon("contact", &height).unwrap(), "time"), "13.5 s");
    let lux = [("time", "6 s"), ("lux", "4 lx"), ("to_lux", "2 lx")];
    assert_eq!(told(&reckon("contact", &lux).unwrap(), "time"), "12 s");
    let first = [("speed", "200"), ("to_lux", "2.5"), ("density", "0.3")];
    assert_eq!(
        told(&reckon("contact", &first).unwrap(), "first time"),
        "4 s"
    );
    let twice = [
        ("time", "6 s"),
        ("lux", "4"),
        ("to_lux", "2"),
        ("height", "60 cm"),
        ("to_height", "90 cm"),
    ];
    assert!(refused("contact", &twice).contains("give one of them"));
    let alone = reckon("safelight", &[("clean", "7 min")]).unwrap();
    assert_eq!(told(&alone, "safe"), "at least 7 min");
}
