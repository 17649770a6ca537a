//! The user's own additions to the reference: what they replace, and what a bad file costs.

use std::fs;
use std::path::Path;
use std::sync::LazyLock;

use notchbook::reference::{
    LightKind, PracticeSubject, Purpose, Reference, ReferenceError, Standing,
};
use tempfile::TempDir;

mod bad_files;
mod contrast;
mod developers;
mod processes;
mod recipes;

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

/// How many processes come with the program.
const BUILT_IN: usize = 13;

fn load(folder: &Path) -> (Reference, Vec<ReferenceError>) {
    static REFERENCE: LazyLock<Reference> =
        LazyLock::new(|| Reference::built_in().expect("built in"));
    REFERENCE.clone().with_folder(folder)
}

#[test]
fn a_folder_that_is_not_there_adds_nothing_and_is_no_problem() {
    let (reference, problems) = load(Path::new("/nowhere/at/all"));
    assert!(problems.is_empty(), "{problems:?}");
    assert_eq!(reference.processes().len(), BUILT_IN);
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
