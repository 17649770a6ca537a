//! Own developers and times.

use super::*;

#[test]
fn own_times_are_added_and_go_before_what_was_published() {
    let developers = r#"
[[developer]]
id = "own-mix"
name = "Own mix"

[[times]]
id = "own-tests"
agitation = "intermittent"
rows = [
  { developer = "own-mix", film = "fp4-plus", at = { 20C = "11:00" } },
  { developer = "ilfotec-dd-x", film = "fp4-plus", dilution = "1+4", at = { 20C = "8:30", 24C = "6:30" } },
]
"#;
    let folder = folder(&[("developers.toml", developers)]);
    let (reference, problems) = load(folder.path());
    assert!(problems.is_empty(), "{problems:?}");
    assert!(reference.developer("own mix").is_some());
    assert!(
        reference.developer("xtol").is_some(),
        "kept from the built-in file"
    );
    let table = reference.times().last().expect("added");
    assert_eq!(table.grounds.standing, Standing::Own);
    assert!(table.origin.is_own());
}

#[test]
fn a_table_of_times_that_cannot_be_is_left_out_and_reported() {
    let developers = r#"
[[times]]
id = "own-tests"
rows = [{ developer = "d-76", film = "fp4-plus", at = { 20C = "8:30", 24C = "9:30" } }]
"#;
    let folder = folder(&[("developers.toml", developers)]);
    let (reference, problems) = load(folder.path());
    assert_eq!(problems.len(), 1);
    assert!(problems[0].to_string().contains("never needs longer"));
    assert!(reference.times().iter().all(|table| !table.origin.is_own()));
}
