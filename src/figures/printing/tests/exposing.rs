//! Tablets, strips, lamps, sun and air.

use super::{reckon, refused, says, told};

#[test]
fn a_tablet_gives_time_and_scale_and_a_time_for_the_negative() {
    let typed = [
        ("time", "10 min"),
        ("black", "3"),
        ("tone", "12"),
        ("to", "1"),
        ("thinnest", "0.35"),
    ];
    let answer = reckon("printing-time", &typed).unwrap();
    assert_eq!(told(&answer, "exposure scale"), "1.5");
    assert!(told(&answer, "standard printing time").starts_with("5 min"));
    assert!(told(&answer, "for this negative").starts_with("10 min"));
    let both = [
        ("time", "10 min"),
        ("black", "3"),
        ("white", "13"),
        ("tone", "12"),
    ];
    assert!(refused("printing-time", &both).contains("give one of them"));
    for (key, text) in [
        ("black", "0"),
        ("black", "three"),
        ("white", "2"),
        ("to", "40"),
    ] {
        let mut typed = vec![("time", "10 min"), ("black", "3")];
        typed.retain(|it| it.0 != key);
        typed.push((key, text));
        assert!(reckon("printing-time", &typed).is_err(), "{key} {text}");
    }
}

#[test]
fn a_strip_is_counted_or_reaches_a_time() {
    let counted = reckon(
        "strip",
        &[("first", "8 s"), ("step", "1/3"), ("strips", "7")],
    )
    .unwrap();
    let reached = reckon(
        "strip",
        &[("first", "8 s"), ("step", "1/3"), ("last", "32 s")],
    )
    .unwrap();
    assert_eq!(counted.table, reached.table);
    let long = reckon("strip", &[("first", "4 min"), ("strips", "10")]).unwrap();
    let rows = long.table.unwrap().rows;
    assert_eq!(rows[5][2].to_string(), "12:42");
    let typed = [
        ("first", "8 s"),
        ("covering", "separate"),
        ("step", "1/2"),
        ("strips", "5"),
    ];
    let separate = reckon("strip", &typed).unwrap().table.unwrap();
    assert!(separate.rows.iter().all(|row| row[2] == row[3]));
    for odd in [
        ("strips", "1"),
        ("strips", "2.5"),
        ("step", "0"),
        ("last", "8 s"),
    ] {
        assert!(
            reckon("strip", &[("first", "8 s"), odd]).is_err(),
            "{odd:?}"
        );
    }
}

#[test]
fn what_burns_stands_before_every_time_under_a_lamp() {
    for (word, typed) in [
        ("lamp", vec![("time", "8 min"), ("output", "80")]),
        (
            "sun-time",
            vec![("time", "10 min"), ("from", "6"), ("to", "12")],
        ),
        (
            "integrator",
            vec![("counted", "120"), ("in_time", "6 min"), ("time", "10 min")],
        ),
        ("lamp-limit", vec![("irradiance", "10")]),
    ] {
        let answer = reckon(word, &typed).unwrap();
        assert!(
            answer.remarks[0].words.starts_with("Ultraviolet light"),
            "{word}"
        );
    }
    let sun = reckon(
        "sun-time",
        &[("time", "10 min"), ("from", "6"), ("to", "12")],
    )
    .unwrap();
    assert_eq!(told(&sun, "first guess"), "5 min");
    assert!(says(&sun, "an estimate"));
}

#[test]
fn what_changed_about_a_lamp_can_be_several_things() {
    let typed = [
        ("time", "8 min"),
        ("from", "60 cm"),
        ("to", "90 cm"),
        ("wide", "10 cm"),
        ("output", "90"),
        ("here", "4 min"),
        ("there", "2 min"),
    ];
    let answer = reckon("lamp", &typed).unwrap();
    assert_eq!(told(&answer, "time"), "10 min");
    let bank = [
        ("time", "8 min"),
        ("from", "8 cm"),
        ("to", "16 cm"),
        ("wide", "32 cm"),
    ];
    assert!(refused("lamp", &bank).contains("make a strip"));
    assert!(refused("lamp", &[("time", "8 min")]).contains("give what changed"));
}

#[test]
fn humidity_is_told_for_dichromate_and_declined_for_iron() {
    let typed = [("time", "4 min"), ("from", "40"), ("to", "70")];
    assert_eq!(told(&reckon("humidity", &typed).unwrap(), "time"), "2 min");
    let iron = [
        ("coating", "iron"),
        ("time", "4 min"),
        ("from", "40"),
        ("to", "70"),
    ];
    assert!(refused("humidity", &iron).contains("no number is told"));
    let kept = [("kept_from", "20"), ("kept_to", "30")];
    assert_eq!(told(&reckon("humidity", &kept).unwrap(), "goes off"), "x3");
}
