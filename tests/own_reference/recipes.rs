//! Recipes, contrast, scales, keeping and capacity of one's own processes, and what is wrong with them.

use notchbook::reference::{Fault, Process, Role, Standing};

use super::{BUILT_IN, folder, load};

/// A process that leaves nothing out, with a key and a value in each line that may be damaged.
const FULL: &str = r#"
id = "plum"
name = "Plum print"
short = "plum"
summary = "An invented process."
light = "ultraviolet"
scale = [
  { of = "with citrate", from = 1.4, to = 1.6 },
]
keeping = [
  { what = "coated paper", from = 2, to = 3, unit = "days" },
  { what = "iron", note = "Until it turns." },
]
capacity = [
  { what = "rinse", from = 6, unit = "8x10", per = "1 l" },
]

[[mix]]
id = "mine"
name = "my mix"
step = "coat"
measure = "drops"
area = "8x10"
part = [
  { key = "a", label = "A", role = "iron", share = 12, figure = "drops-a", holds = [{ of = "ferric oxalate", formula = "Fe2C6O12.6H2O", from = 24, unit = "%" }] },
  { key = "b", role = "silver", share = 6, holds = [{ of = "silver nitrate", formula = "AgNO3", from = 100, unit = "g/l" }] },
]

[[contrast]]
id = "citrate"
label = "citrate in the developer"
step = "develop"
figure = "citrate"
unit = "g/l"
mix = "mine"
row = [
  { at = 5, from = 1.6 },
  { at = 10, from = 1.4, exposure = 1.5 },
  { name = "for fog", shares = { a = 9, b = 6 } },
]

[[step]]
id = "coat"
label = "coat"
work = "coat"
figure = [{ key = "drops-a", label = "A", kind = "drops" }]

[[step]]
id = "develop"
label = "develop"
work = "develop"
after = ["coat"]
solution = [
  { name = "citrate", holds = [{ of = "sodium citrate", from = 20, unit = "%" }] },
  { name = "stop", formula = "sb-8" },
]
figure = [{ key = "citrate", label = "citrate", kind = "text" }]
"#;

fn read(text: &str) -> Process {
    let folder = folder(&[("processes/plum.toml", text)]);
    let (reference, problems) = load(folder.path());
    assert!(problems.is_empty(), "{problems:?}");
    reference.process("plum").expect("added").clone()
}

/// What is wrong with the process after one line was changed, in words.
fn wrong(from: &str, to: &str) -> (Fault, String) {
    assert!(FULL.contains(from), "{from}");
    let text = FULL.replacen(from, to, 1);
    let folder = folder(&[("processes/plum.toml", &text)]);
    let (reference, problems) = load(folder.path());
    assert_eq!(reference.processes().len(), BUILT_IN, "{to}");
    assert_eq!(problems.len(), 1, "{to}: {problems:?}");
    let line = problems[0].line().expect("a line");
    let place = FULL.find(from).expect("it stands there");
    let wanted = 1 + FULL[..place].matches('\n').count();
    // A fault is named at its line, or at the head of its record.
    assert!(
        line <= wanted && line + 8 > wanted,
        "{to}: line {line}, not {wanted}"
    );
    let fault = problems[0].fault().expect("a fault in the content").clone();
    (fault, problems[0].to_string())
}

#[test]
fn an_own_process_brings_its_recipes_and_tables() {
    let plum = read(FULL);
    let mix = plum.mix("mine").expect("its mix");
    assert_eq!((mix.total(), mix.fraction("b")), (18.0, Some(1.0 / 3.0)));
    assert_eq!(mix.shares(), "A 12 : b 6 drops for 8x10 in");
    assert_eq!(mix.standing, Standing::Own);
    let iron = mix.part("a").expect("iron");
    assert_eq!(
        (iron.role, iron.figure.as_deref()),
        (Role::Iron, Some("drops-a"))
    );
    assert_eq!(iron.contents(), "ferric oxalate 24 %");
    let silver = &mix.part("b").expect("silver").holds[0];
    assert_eq!(
        silver.percent(),
        Some((10.0, 10.0)),
        "grams in a litre are a tenth in 100 ml"
    );
    let molar = silver.molar().expect("a formula").0;
    assert!((molar - 0.5887).abs() < 0.001, "{molar}");
    let contrast = plum.contrast("citrate").expect("its control");
    let points: Vec<_> = contrast.points().collect();
    assert_eq!(points, [(5.0, (1.6, 1.6)), (10.0, (1.4, 1.4))]);
    assert_eq!(contrast.rows[1].value(&contrast.unit), "10 g/l");
    assert_eq!(contrast.rows[1].gives(), "scale 1.4; exposure x1.5");
    assert_eq!(
        contrast.named("for fog").expect("a row").gives(),
        "a 9 : b 6"
    );
    assert_eq!(plum.scales()[0].range, (1.4, 1.6));
    assert_eq!(plum.keeping()[0].hours(), Some((48.0, 72.0)));
    assert_eq!(plum.keeping()[1].to_string(), "Until it turns.");
    assert_eq!(plum.capacities()[0].per_litre(), (6.0, 6.0));
    let develop = plum.step("develop").expect("its step");
    assert_eq!(develop.solutions[0].contents(), "sodium citrate 20 %");
    assert_eq!(develop.solutions[1].formula.as_deref(), Some("sb-8"));
}

#[test]
fn all_of_it_may_be_left_out() {
    let head = FULL.split("scale = [").next().expect("a head");
    let steps = FULL.find("[[step]]").expect("steps");
    let plain = format!("{head}{}", &FULL[steps..]);
    let cut = plain.find("solution = [").expect("baths");
    let figures = plain.rfind("figure = [").expect("figures");
    let plum = read(&format!("{}{}", &plain[..cut], &plain[figures..]));
    assert!(plum.mixes().is_empty() && plum.contrasts().is_empty() && plum.scales().is_empty());
    assert!(plum.keeping().is_empty() && plum.capacities().is_empty());
    assert!(plum.step("develop").expect("its step").solutions.is_empty());
}

#[test]
fn what_a_recipe_names_has_to_be_there() {
    for (from, to, key) in [
        ("step = \"coat\"", "step = \"coats\"", "step"),
        ("step = \"develop\"", "step = \"developer\"", "step"),
        ("figure = \"drops-a\"", "figure = \"drops\"", "figure"),
        ("figure = \"citrate\"", "figure = \"citron\"", "figure"),
        ("mix = \"mine\"", "mix = \"yours\"", "mix"),
    ] {
        let (fault, sentence) = wrong(from, to);
        match fault {
            Fault::NotThere { key: named, .. } => assert_eq!(named, key, "{to}"),
            other => panic!("{to}: {other:?}"),
        }
        let name = to.split('"').nth(1).expect("a name");
        assert!(sentence.contains(name), "{sentence}");
    }
    let (fault, _) = wrong("formula = \"sb-8\"", "formula = \"sb-0\"");
    assert!(matches!(fault, Fault::UnknownFormula { .. }), "{fault:?}");
    let (fault, _) = wrong("shares = { a = 9", "shares = { c = 9");
    assert!(matches!(fault, Fault::BadContrast { .. }), "{fault:?}");
}

#[test]
fn a_recipe_that_cannot_be_reckoned_with_is_refused() {
    for (from, to) in [
        ("share = 12", "share = -1"),
        ("share = 12", "share = nan"),
        ("from = 24", "from = 0"),
        ("per = \"1 l\"", "per = \"0 l\""),
        ("from = 6", "from = 0"),
        ("from = 2, to", "from = 0, to"),
    ] {
        let (fault, _) = wrong(from, to);
        let fits = matches!(fault, Fault::NotPositive { .. } | Fault::Shape { .. });
        assert!(fits, "{to}: {fault:?}");
    }
    let (fault, _) = wrong("area = \"8x10\"", "");
    assert!(matches!(fault, Fault::BadMix { .. }), "{fault:?}");
    let (fault, _) = wrong("measure = \"drops\"", "measure = \"parts\"");
    assert!(matches!(fault, Fault::BadMix { .. }), "{fault:?}");
    let (fault, _) = wrong("area = \"8x10\"", "area = \"8 by\"");
    assert!(matches!(fault, Fault::Shape { .. }), "{fault:?}");
    let (fault, _) = wrong("from = 24, unit = \"%\"", "from = 24");
    assert!(matches!(fault, Fault::NoUnit { .. }), "{fault:?}");
    let (fault, _) = wrong("to = 3, unit = \"days\"", "to = 3");
    assert!(matches!(fault, Fault::NoUnit { .. }), "{fault:?}");
    let (fault, sentence) = wrong("Fe2C6O12.6H2O", "Fx2C6");
    assert!(matches!(fault, Fault::Shape { .. }), "{fault:?}");
    assert!(sentence.contains("Fx"), "{sentence}");
    let (fault, _) = wrong("key = \"b\"", "key = \"a\"");
    assert!(
        matches!(fault, Fault::Twice { what: "part", .. }),
        "{fault:?}"
    );
    let (fault, _) = wrong("note = \"Until it turns.\"", "note = \"\"");
    assert!(matches!(fault, Fault::SaysNothing { .. }), "{fault:?}");
    let (fault, _) = wrong(", formula = \"sb-8\"", "");
    assert!(matches!(fault, Fault::EmptyBath { .. }), "{fault:?}");
}

#[test]
fn a_table_of_contrast_rises_and_says_something() {
    for (from, to) in [
        ("{ at = 10,", "{ at = 5,"),
        ("{ at = 10,", "{ at = -1,"),
        ("{ at = 5,", "{ "),
        ("exposure = 1.5", "exposure = 0"),
        ("shares = { a = 9", "shares = { a = \"9\""),
        ("shares = { a = 9", "shares = { a = -9"),
        (", shares = { a = 9, b = 6 }", ""),
    ] {
        let (fault, sentence) = wrong(from, to);
        assert!(
            matches!(fault, Fault::BadContrast { .. }),
            "{to}: {fault:?}"
        );
        assert!(sentence.contains("citrate"), "{sentence}");
    }
    for (from, to) in [
        ("from = 1.4, exposure", "from = 4.5, exposure"),
        ("from = 1.4, exposure", "from = 0, exposure"),
        ("from = 1.4, to = 1.6", "from = -1, to = 1.6"),
    ] {
        let (fault, _) = wrong(from, to);
        assert!(matches!(fault, Fault::NoScale { .. }), "{to}: {fault:?}");
    }
    let (fault, _) = wrong("from = 1.4, to = 1.6", "from = 1.7, to = 1.6");
    assert!(matches!(fault, Fault::BadRange { .. }), "{fault:?}");
}

#[test]
fn unknown_keys_are_refused_wherever_they_stand() {
    for (from, to) in [
        ("measure =", "measured = 1\nmeasure ="),
        ("role = \"iron\"", "role = \"iron\", rolle = 1"),
        ("formula = \"AgNO3\"", "formular = \"AgNO3\""),
        ("role = \"silver\"", "role = \"gold\""),
        ("unit = \"g/l\" }", "unit = \"oz\" }"),
        ("unit = \"days\"", "unit = \"moons\""),
        ("{ at = 5,", "{ att = 5,"),
        ("per = \"1 l\"", "per = \"1 l\", perr = 1"),
        ("of = \"with citrate\"", "off = \"with citrate\""),
    ] {
        let (fault, _) = wrong(from, to);
        assert!(matches!(fault, Fault::Shape { .. }), "{to}: {fault:?}");
    }
}
