//! Own coverages and own papers under filters.

use super::{folder, load};
use notchbook::reference::Standing;

#[test]
fn own_coverages_stand_beside_those_that_were_told() {
    let coverages = "[[coverage]]\nid = \"mine\"\nname = \"gampi, brush\"\narea = 80\ndrops = 30\n";
    let folder = folder(&[("coverage.toml", coverages)]);
    let (reference, problems) = load(folder.path());
    assert!(problems.is_empty(), "{problems:?}");
    let mine = reference.coverages().last().expect("it was added");
    assert_eq!((mine.id.as_str(), mine.standing), ("mine", Standing::Own));
    assert!(mine.from_drops && (mine.ml - 1.5).abs() < 1e-9);
}

#[test]
fn own_ranges_of_filters_replace_those_that_were_told() {
    let papers = r#"
[[filtered]]
paper = "multigrade-iv-rc"
name = "Multigrade IV RC, my head"
filters = [
  { filter = "0", range = 150, speed = 160 },
  { filter = "2.5", range = 100 },
  { filter = "5", range = 50 },
]
"#;
    let folder = folder(&[("paper_grades.toml", papers)]);
    let (reference, problems) = load(folder.path());
    assert!(problems.is_empty(), "{problems:?}");
    let paper = reference.filtered_paper("multigrade-iv-rc").expect("there");
    assert_eq!(paper.ranges.standing, Standing::Own);
    assert_eq!(paper.filters.len(), 3);
    assert_eq!(reference.grades().len(), 7, "the grades are still there");
}

#[test]
fn own_bounds_of_grades_replace_all_of_them() {
    let grades = "[[grade]]\ngrade = 2\nfrom = 1.0\nto = 1.2\n";
    let folder = folder(&[("paper_grades.toml", grades)]);
    let (reference, problems) = load(folder.path());
    assert!(problems.is_empty(), "{problems:?}");
    assert_eq!(reference.grades().len(), 1);
}

#[test]
fn what_no_filter_and_no_coverage_can_be_is_refused_with_its_line() {
    let filter = |rows: &str| {
        (
            "paper_grades.toml",
            format!("[[filtered]]\nname = \"x\"\nfilters = [{rows}]\n"),
        )
    };
    let coverage = |rest: &str| {
        (
            "coverage.toml",
            format!("[[coverage]]\nid = \"x\"\nname = \"x\"\narea = 80\n{rest}\n"),
        )
    };
    for ((file, text), says) in [
        (
            filter("{ filter = \"9\", range = 90 }"),
            "no filter from 00 to 5",
        ),
        (
            filter("{ filter = \"1\", range = 130 }"),
            "two filters at least",
        ),
        (
            filter("{ filter = \"1\", range = 90 }, { filter = \"2\", range = 110 }"),
            "a shorter range",
        ),
        (filter("{ filter = \"1\", range = 1 }"), "ISO(R)"),
        (coverage(""), "ml or drops"),
        (coverage("ml = 1\ndrops = 20"), "ml or drops"),
        (coverage("ml = 0"), "more than nothing"),
    ] {
        let folder = folder(&[(file, &text)]);
        let (_, problems) = load(folder.path());
        let why = problems.first().expect("it is refused").to_string();
        assert!(why.contains(says) && why.contains("line "), "{why}");
    }
}
