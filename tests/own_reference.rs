//! The user's own additions to the reference: what they replace, and what a bad file costs.

use std::fs;
use std::path::Path;
use std::sync::LazyLock;

use notchbook::reference::{
    Fault, LightKind, Origin, PracticeSubject, Purpose, Reference, ReferenceError, Standing,
};
use proptest::prelude::*;
use tempfile::TempDir;

const SALT: &str = r#"
id = "salt"
name = "Salted paper"
short = "salt"
summary = "Silver chloride in paper, printed out."
light = "ultraviolet"
cautions = ["silver-nitrate"]

[[step]]
id = "coat"
label = "silver"
work = "coat"
figure = [{ key = "volume", label = "silver", kind = "volume", hint = "2 ml" }]
usual = [{ what = "silver nitrate", from = 12, unit = "%" }]

[[step]]
id = "expose"
label = "print out"
work = "expose"
after = ["coat"]

[[step]]
id = "fix"
label = "fix"
work = "fix"
after = ["expose"]
bath = "fixer"
"#;

fn folder(files: &[(&str, &str)]) -> TempDir {
    let folder = TempDir::new().expect("a temporary folder");
    for (name, text) in files {
        write(folder.path(), name, text.as_bytes());
    }
    folder
}

fn write(folder: &Path, name: &str, bytes: &[u8]) {
    let path = folder.join(name);
    fs::create_dir_all(path.parent().expect("a file in a folder")).expect("its folder");
    fs::write(path, bytes).expect("a file");
}

fn load(folder: &Path) -> (Reference, Vec<ReferenceError>) {
    static BUILT_IN: LazyLock<Reference> =
        LazyLock::new(|| Reference::built_in().expect("built in"));
    BUILT_IN.clone().with_folder(folder)
}

/// The one problem with one process file.
fn problem_with(process: &str) -> ReferenceError {
    let folder = folder(&[("processes/mine.toml", process)]);
    let (reference, mut problems) = load(folder.path());
    assert_eq!(reference.processes().len(), 6, "the built-in ones stay");
    assert_eq!(problems.len(), 1, "{problems:?}");
    let problem = problems.remove(0);
    assert!(problem.file().ends_with("mine.toml"), "{problem}");
    assert!(problem.to_string().contains("mine.toml"), "{problem}");
    problem
}

fn fault_with(process: &str) -> (usize, Fault) {
    let problem = problem_with(process);
    let line = problem.line().expect("a line");
    let fault = problem.fault().expect("a fault in the content").clone();
    (line, fault)
}

#[test]
fn a_folder_that_is_not_there_adds_nothing_and_is_no_problem() {
    let (reference, problems) = load(Path::new("/nowhere/at/all"));
    assert!(problems.is_empty(), "{problems:?}");
    assert_eq!(reference.processes().len(), 6);
}

#[test]
fn an_own_process_is_added_with_its_figures_as_own() {
    let folder = folder(&[("processes/salt.toml", SALT)]);
    let (reference, problems) = load(folder.path());
    assert!(problems.is_empty(), "{problems:?}");
    let salt = reference.process("salt").expect("added");
    assert_eq!(
        salt.origin,
        Origin::Own(folder.path().join("processes/salt.toml"))
    );
    let usual = &salt.step("coat").expect("its step").usual[0];
    assert_eq!(usual.standing, Standing::Own);
    assert_eq!(usual.value(), "12 %");
    assert!(salt.is_complete(&["coat", "expose", "fix"]));
    assert_eq!(reference.processes().len(), 7);
}

#[test]
fn an_own_process_takes_the_place_of_the_built_in_one_with_its_id() {
    let own = SALT.replace("id = \"salt\"", "id = \"cyanotype\"");
    let folder = folder(&[("processes/blue.toml", &own)]);
    let (reference, problems) = load(folder.path());
    assert!(problems.is_empty(), "{problems:?}");
    assert_eq!(reference.processes().len(), 6);
    assert_eq!(
        reference
            .process("cyanotype")
            .map(|process| process.name.as_str()),
        Some("Salted paper")
    );
    assert_eq!(reference.processes()[4].id, "cyanotype", "in its old place");
}

#[test]
fn own_films_and_papers_replace_and_add() {
    let films = r#"
[[film]]
name = "FP4 Plus"
speed = 80
note = "my index"

[[film]]
name = "Quarry Ortho"
kind = "orthochromatic"
speed = 6
"#;
    let papers = "[[paper]]\nname = \"Mill End\"\nkind = \"cotton-unbuffered\"\n";
    let folder = folder(&[("films.toml", films), ("papers.toml", papers)]);
    let (reference, problems) = load(folder.path());
    assert!(problems.is_empty(), "{problems:?}");
    let fp4 = reference.film("fp4+").expect("still there");
    assert_eq!((fp4.speed, fp4.standing), (Some(80), Standing::Own));
    assert_eq!(
        reference.film("quarry").map(|film| film.id.as_str()),
        Some("quarry-ortho")
    );
    assert!(reference.paper("mill end").is_some());
}

#[test]
fn own_filters_replace_and_add_and_go_before_print() {
    let filters = r#"
[[filter]]
id = "red-25"
name = "red 25"
also = ["25"]
takes = [
  { films = ["T-MAX 100"], light = "daylight", factor = 6 },
  { stops = "2 2/3", source = "a leaflet in the filter's box" },
]

[[filter]]
name = "amber"
takes = [{ factor = 3 }]
"#;
    let folder = folder(&[("filters.toml", filters)]);
    let (reference, problems) = load(folder.path());
    assert!(problems.is_empty(), "{problems:?}");
    let red = reference.filter("25").expect("still there");
    let (_, taken) = reference.taken(red, Some("T-MAX 100"), LightKind::Daylight)[0];
    assert_eq!(taken.factor, Some((6.0, None)));
    assert_eq!(taken.grounds.standing, Standing::Own);
    // What was found on one film does not speak for another.
    let (_, taken) = reference.taken(red, Some("FP4"), LightKind::Daylight)[0];
    assert_eq!(taken.grounds.standing, Standing::Published);
    assert!(reference.filter("amber").is_some());
    assert!(reference.filter("orange").is_some());
}

#[test]
fn own_laws_of_long_exposures_replace_and_add_and_their_films_keep_theirs() {
    let films = "[[film]]\nid = \"hp5-plus\"\nname = \"HP5 Plus\"\nspeed = 250\n";
    let laws = r#"
[[law]]
id = "ilford-hp5-plus"
name = "my tests of HP5"
films = ["HP5+"]
none_to = "1 s"
rows = [
  { at = "10 s", time = "16 s", development = "N-1/2" },
  { at = "100 s", time = "4 min", standing = "remembered" },
]

[[law]]
id = "slipway"
name = "slipway rule"
bands = [{ from = "1 s", factor = 2 }, { over = "10 s", open = "+2" }]
ends = "1 min"
"#;
    let folder = folder(&[("films.toml", films), ("reciprocity.toml", laws)]);
    let (reference, problems) = load(folder.path());
    assert!(problems.is_empty(), "{problems:?}");
    let hp5 = reference.film("hp5").expect("still there");
    assert_eq!(hp5.speed, Some(250));
    let laws: Vec<_> = reference.laws_of(hp5).collect();
    assert_eq!(laws.len(), 2, "the other one stays");
    let mine = laws.iter().find(|law| law.name == "my tests of HP5");
    let mine = mine.expect("in the place of the maker's");
    assert_eq!(mine.law.grounds.standing, Standing::Own);
    assert!(reference.laws_of_any_film().any(|law| law.id == "slipway"));
}

#[test]
fn a_law_that_cannot_be_is_refused_by_name() {
    for (says, form) in [
        ("between 1 and 3", "power = 0.5"),
        ("between 1 and 3", "power = nan"),
        ("give one of", ""),
        ("give one of", "power = 1.3\nnone_to = \"1 s\""),
        ("shortens", "rows = [{ at = \"10 s\", time = \"5 s\" }]"),
        ("a time", "rows = [{ at = \"-1\", time = \"5 s\" }]"),
        (
            "time and a factor",
            "rows = [{ at = \"1 s\", time = \"5 s\", factor = 5 }]",
        ),
        ("30 days", "rows = [{ at = \"1 s\", factor = 1e300 }]"),
        (
            "order of time",
            "rows = [{ at = \"9 s\", factor = 2 }, { at = \"3 s\", factor = 9 }]",
        ),
        ("from or over", "bands = [{ factor = 2 }]"),
        ("factor or a lens", "bands = [{ from = \"1 s\" }]"),
        (
            "less than the one",
            "bands = [{ from = \"1 s\", factor = 0.5 }]",
        ),
    ] {
        let law = format!("[[law]]\nid = \"odd\"\nname = \"odd\"\n{form}\n");
        let folder = folder(&[("reciprocity.toml", &law)]);
        let (reference, problems) = load(folder.path());
        assert_eq!(problems.len(), 1, "{form}: {problems:?}");
        let sentence = problems[0].to_string();
        assert!(
            sentence.contains("\"odd\"") && sentence.contains(says),
            "{form}: {sentence}"
        );
        assert!(!reference.laws().is_empty(), "the built-in ones stay");
    }
}

#[test]
fn own_holders_and_habits_take_the_place_of_built_in_ones() {
    let formats = r#"
[[format]]
id = "4x5"
width = 4
height = 5
image = { mm = [95, 121] }
holder = { depth_in = 0.195, tolerance_in = 0.003 }
"#;
    let habits = r#"
[[practice]]
id = "film-base"
subject = "base"
figure = { what = "film base", from = 0.18, unit = "mm" }
"#;
    let folder = folder(&[("formats.toml", formats), ("practice.toml", habits)]);
    let (reference, problems) = load(folder.path());
    assert!(problems.is_empty(), "{problems:?}");
    let format = reference.format("4x5").expect("still there");
    let picture = format.picture();
    assert_eq!((picture.width_mm, picture.height_mm), (95.0, 121.0));
    assert_eq!(picture.grounds.standing, Standing::Own);
    let depth = format.holder.as_ref().expect("own depth");
    assert_eq!((depth.depth_in, depth.standing), (0.195, Standing::Own));
    let base = reference.practices(PracticeSubject::Base).next();
    assert_eq!(base.map(|it| it.figure.standing), Some(Standing::Own));
}

#[test]
fn own_cautions_can_be_named_by_own_processes() {
    let hazards = r#"
[[caution]]
id = "ladder"
title = "Ladder"
kind = "situation"
words = "The drying line hangs high: stand on something that stands."
"#;
    let process = SALT.replace("[\"silver-nitrate\"]", "[\"silver-nitrate\", \"ladder\"]");
    let folder = folder(&[("hazards.toml", hazards), ("processes/salt.toml", &process)]);
    let (reference, problems) = load(folder.path());
    assert!(problems.is_empty(), "{problems:?}");
    let cautions = reference.process("salt").expect("added").cautions.clone();
    let titles: Vec<&str> = reference
        .cautions_of(&cautions)
        .map(|c| c.title.as_str())
        .collect();
    assert_eq!(titles, ["Silver nitrate", "Ladder"]);
    assert!(
        reference.closing().starts_with("Follow"),
        "kept from the built-in file"
    );
}

#[test]
fn one_bad_file_is_named_and_the_others_are_read() {
    let folder = folder(&[
        (
            "films.toml",
            "[[film]]\nname = \"Quarry Ortho\"\nspeed = \"six\"\n",
        ),
        ("processes/a.toml", "id = \"a\"\nname = "),
        ("processes/salt.toml", SALT),
        ("processes/notes.txt", "not a process"),
    ]);
    let (reference, problems) = load(folder.path());
    assert!(reference.process("salt").is_some());
    assert!(reference.film("fp4").is_some());
    assert_eq!(problems.len(), 2, "{problems:?}");
    assert!(problems[0].file().ends_with("films.toml"));
    assert_eq!(problems[0].line(), Some(3));
    assert!(problems[1].file().ends_with("a.toml"));
    assert_eq!(problems[1].line(), Some(2));
}

#[test]
fn the_same_process_in_two_own_files_is_a_problem() {
    let folder = folder(&[("processes/a.toml", SALT), ("processes/b.toml", SALT)]);
    let (_, problems) = load(folder.path());
    assert_eq!(problems.len(), 1, "{problems:?}");
    let sentence = problems[0].to_string();
    assert!(
        sentence.contains("b.toml") && sentence.contains("a.toml"),
        "{sentence}"
    );
}

#[test]
fn an_unknown_key_names_file_and_line() {
    let problem = problem_with(&SALT.replace("bath = \"fixer\"", "bathe = \"fixer\""));
    assert_eq!(problem.line(), Some(27));
    let sentence = problem.to_string();
    assert!(sentence.contains("bathe"), "{sentence}");
    assert!(sentence.contains("line 27"), "{sentence}");
}

#[test]
fn relations_to_steps_that_are_not_there_are_refused() {
    let (line, fault) = fault_with(&SALT.replace("[\"expose\"]", "[\"exposed\"]"));
    assert_eq!(line, 26);
    let wanted = Fault::UnknownStep {
        step: "fix".into(),
        relation: "after",
        other: "exposed".into(),
    };
    assert_eq!(fault, wanted);
    for relation in ["not_after", "reopens"] {
        let text = SALT.replace("bath =", &format!("{relation} = [\"steam\"]\nbath ="));
        let (_, fault) = fault_with(&text);
        assert!(matches!(fault, Fault::UnknownStep { .. }), "{fault:?}");
    }
}

#[test]
fn steps_that_wait_for_each_other_are_refused() {
    let circle = SALT.replace("after = [\"coat\"]", "after = [\"fix\"]");
    let (_, fault) = fault_with(&circle);
    assert!(matches!(fault, Fault::NotAbove { .. }), "{fault:?}");
    let itself = SALT.replace("after = [\"coat\"]", "after = [\"expose\"]");
    let (_, fault) = fault_with(&itself);
    assert!(matches!(fault, Fault::NotAbove { .. }), "{fault:?}");
}

#[test]
fn a_process_that_cannot_be_worked_is_refused() {
    let never = SALT.replace("bath = \"fixer\"", "not_after = [\"coat\"]");
    let (_, fault) = fault_with(&never);
    assert!(matches!(fault, Fault::NeverPossible { .. }), "{fault:?}");

    let late = SALT.replace("after = [\"expose\"]", "not_after = [\"expose\"]");
    let (_, fault) = fault_with(&late);
    assert!(matches!(fault, Fault::NoStraightRun { .. }), "{fault:?}");

    let endless = SALT.replace("bath = \"fixer\"", "reopens = [\"expose\"]");
    let (_, fault) = fault_with(&endless);
    assert!(matches!(fault, Fault::NoStraightRun { .. }), "{fault:?}");

    let optional = SALT.replace(
        "work = \"expose\"",
        "work = \"expose\"\nneed = \"optional\"",
    );
    let (_, fault) = fault_with(&optional);
    assert!(matches!(fault, Fault::NeedsOptional { .. }), "{fault:?}");

    let head = SALT.split("[[step]]").next().expect("a head");
    let (_, fault) = fault_with(head);
    assert_eq!(fault, Fault::NothingRequired);
}

#[test]
fn ids_names_and_figures_are_checked() {
    for (from, to) in [
        ("id = \"salt\"", "id = \"Salt Print\""),
        ("id = \"salt\"", "id = \"\""),
        ("id = \"fix\"", "id = \"fix--1\""),
        ("key = \"volume\"", "key = \"Volume\""),
    ] {
        let (_, fault) = fault_with(&SALT.replace(from, to));
        assert!(matches!(fault, Fault::BadId { .. }), "{to}: {fault:?}");
    }
    let (_, fault) = fault_with(&SALT.replace("id = \"fix\"", "id = \"coat\""));
    assert!(
        matches!(fault, Fault::Twice { what: "step", .. }),
        "{fault:?}"
    );
    let (_, fault) = fault_with(&SALT.replace("name = \"Salted paper\"", "name = \"  \""));
    assert_eq!(fault, Fault::Empty { key: "name" });
    let (_, fault) =
        fault_with(&SALT.replace("short = \"salt\"", "short = \"salted paper print\""));
    assert!(matches!(fault, Fault::TooLong { .. }), "{fault:?}");
    for range in [
        "to = 12",
        "from = 12, to = 3",
        "from = nan",
        "from = 1, to = inf",
    ] {
        let (_, fault) = fault_with(&SALT.replace("from = 12", range));
        assert!(
            matches!(fault, Fault::BadRange { .. }),
            "{range}: {fault:?}"
        );
    }
    let (_, fault) = fault_with(&SALT.replace("from = 12, ", ""));
    assert!(matches!(fault, Fault::SaysNothing { .. }), "{fault:?}");
    let published = SALT.replace("unit = \"%\"", "unit = \"%\", standing = \"published\"");
    let (_, fault) = fault_with(&published);
    assert!(matches!(fault, Fault::NoSource { .. }), "{fault:?}");
    let (line, fault) = fault_with(&SALT.replace("\"silver-nitrate\"", "\"silver\""));
    assert_eq!(
        (line, fault),
        (
            7,
            Fault::UnknownCaution {
                id: "silver".into()
            }
        )
    );
}

#[test]
fn hostile_files_are_named_and_do_no_harm() {
    let deep = format!("id = {}1{}", "[".repeat(100_000), "]".repeat(100_000));
    let wide = format!("id = \"{}\"", "a".repeat(500_000));
    let cases: [(&str, Vec<u8>); 9] = [
        ("empty", Vec::new()),
        ("only a mark", vec![0xef, 0xbb, 0xbf]),
        ("not text", vec![b'i', b'd', b'\n', 0xff, 0xfe, 0x00]),
        ("nul", b"id = \"a\0b\"".to_vec()),
        ("escape", b"id = \"a\"\n\x1b[31m = 1\n".to_vec()),
        ("deep", deep.into_bytes()),
        ("wide", wide.into_bytes()),
        ("large", vec![b'\n'; 1_000_001]),
        ("wrong shape", b"step = 3\n".to_vec()),
    ];
    for (name, bytes) in cases {
        let folder = TempDir::new().expect("a temporary folder");
        write(folder.path(), "processes/odd.toml", &bytes);
        let (reference, problems) = load(folder.path());
        assert_eq!(reference.processes().len(), 6, "{name}");
        assert_eq!(problems.len(), 1, "{name}: {problems:?}");
        assert!(problems[0].file().ends_with("odd.toml"), "{name}");
        let sentence = problems[0].to_string();
        assert!(sentence.contains("odd.toml"), "{name}: {sentence}");
        assert!(sentence.len() < 2_000, "{name}: {} bytes", sentence.len());
    }
    let folder = folder(&[]);
    write(folder.path(), "films.toml", b"# first\n# second \xff\n");
    let (_, problems) = load(folder.path());
    assert!(
        matches!(problems[..], [ReferenceError::NotText { line: 2, .. }]),
        "{problems:?}"
    );
}

#[test]
fn a_folder_in_the_place_of_a_file_is_named() {
    let folder = folder(&[("films.toml/inside", "")]);
    let (reference, problems) = load(folder.path());
    assert!(reference.film("fp4").is_some());
    assert!(
        matches!(problems[..], [ReferenceError::Unreadable { .. }]),
        "{problems:?}"
    );
    assert!(problems[0].to_string().contains("films.toml"));
}

#[test]
fn own_baths_replace_the_record_of_their_purpose() {
    let baths = r#"
[[bath]]
purpose = "fixer"
title = "fixer of the house"
usual = [{ what = "capacity", from = 18, unit = "8x10 per l" }]
"#;
    let folder = folder(&[("baths.toml", baths)]);
    let (reference, problems) = load(folder.path());
    assert!(problems.is_empty(), "{problems:?}");
    let fixer = reference.bath(Purpose::Fixer).expect("still one");
    assert_eq!(fixer.title, "fixer of the house");
    let capacities: Vec<String> = fixer.capacities().map(ToString::to_string).collect();
    assert_eq!(capacities, ["capacity: 18 8x10 per l (own)"]);
    assert_eq!(
        reference.baths().len(),
        Purpose::ALL.len(),
        "every purpose once"
    );
}

/// A built-in file to be damaged.
const BLUE: &str = include_str!("../assets/processes/cyanotype.toml");

proptest! {
    #![proptest_config(ProptestConfig::with_cases(200))]

    /// Whatever bytes change in a file, it is either refused by name or gives a process that can be
    /// worked from its first step to a finished print.
    #[test]
    fn a_damaged_file_is_refused_by_name_or_can_be_worked(
        damage in prop::collection::vec((0..BLUE.len(), any::<u8>(), 0..3_u8), 1..6)
    ) {
        let mut bytes = BLUE.as_bytes().to_vec();
        for (place, byte, how) in damage {
            let place = place.min(bytes.len().saturating_sub(1));
            match how {
                0 => bytes[place] = byte,
                1 => bytes.insert(place, byte),
                _ => drop(bytes.drain(place..(place + usize::from(byte)).min(bytes.len()))),
            }
        }
        let folder = TempDir::new().expect("a temporary folder");
        write(folder.path(), "processes/damaged.toml", &bytes);
        let (reference, problems) = load(folder.path());
        match &problems[..] {
            [] => {
                let damaged = reference.processes().iter().find(|process| process.origin.is_own());
                let damaged = damaged.expect("read, as nothing was refused");
                let mut done: Vec<&str> = Vec::new();
                for step in damaged.required() {
                    prop_assert_eq!(damaged.may_follow(&done, &step.id), Ok(()));
                    done.push(&step.id);
                }
                prop_assert!(damaged.is_complete(&done));
            }
            [one] => {
                prop_assert!(one.to_string().contains("damaged.toml"));
                prop_assert_eq!(reference.processes().len(), 6);
            }
            many => prop_assert!(false, "{:?}", many),
        }
    }
}

#[test]
fn own_light_takes_the_place_of_a_scene_and_adds_others() {
    let light = r#"
[[scene]]
id = "open-shade"
name = "open shade in the valley"
from = 10.5

[[scene]]
id = "barn"
name = "the barn, doors open"
group = "inside"
from = 6
to = 7

[[turn]]
id = "side"
name = "side light"
stops = -0.5
"#;
    let folder = folder(&[("light.toml", light)]);
    let (reference, problems) = load(folder.path());
    assert!(problems.is_empty(), "{problems:?}");
    let shade = reference.scene("open-shade").expect("still there");
    assert_eq!(shade.standing, Standing::Own);
    assert_eq!(shade.name, "open shade in the valley");
    assert!(reference.scene("the barn").is_some());
    assert!(reference.scene("snow").is_some());
    let side = reference.turn("side").expect("still there");
    assert!((side.value.value() + 0.5).abs() < 1e-12);
}
