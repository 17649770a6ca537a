//! Areas, coverage, parts in drops.

use notchbook::craft::Millimetres;
use notchbook::craft::printing::coating::{Field, coated, coverage_of, volume};
use notchbook::craft::printing::mixing::{count_out, read_parts};
use notchbook::craft::printing::strength::moved;
use notchbook::reference::Reference;

use super::{near, size};

fn area(negative: &str, margin: &str) -> f64 {
    let margin = Millimetres::parse(margin).unwrap_or_else(|why| panic!("{why}"));
    let figure = coated(size(negative), Field::Margin(margin));
    figure.unwrap_or_else(|why| panic!("{why}")).value.area
}

fn ml(area: f64, coverage: f64) -> f64 {
    let figure = volume(area, coverage);
    figure.unwrap_or_else(|why| panic!("{why}")).value
}

/// J. Rudiak, platinotype pages (published): 1 ml for 20 square inches. Volumes derived from it, exact; drops at
/// his 20 to the millilitre.
#[test]
fn a_millilitre_for_twenty_square_inches() {
    for (sheet, expected, drops) in [("5x7", 1.75, 35.0), ("4x5", 1.0, 20.0), ("8x10", 4.0, 80.0)] {
        let ml = ml(area(sheet, "0"), 20.0);
        near(ml, expected, 1e-9);
        near(ml * 20.0, drops, 1e-9);
    }
}

/// `(w + 2m)(h + 2m)` with the same coverage (derived), within 0.01: 8x10 with a quarter and with half
/// an inch all round.
#[test]
fn margins_are_coated_too() {
    near(area("8x10", "1/4 in"), 89.25, 0.001);
    near(ml(area("8x10", "1/4 in"), 20.0), 4.46, 0.01);
    near(area("8x10", "1/2 in"), 99.0, 0.001);
    near(ml(area("8x10", "1/2 in"), 20.0), 4.95, 0.01);
    near(area("8x10", "1/4 in") / 80.0, 1.116, 0.001);
    near(area("8x10", "1/2 in") / 80.0, 1.2375, 0.001);
}

/// J. D. Mathias, Coating Efficiency, 1999/2000 (published): a brush of not more than 15 % of the shortest side.
/// Widths derived, within 0.01 in.
#[test]
fn a_brush_is_narrower_than_a_seventh_of_the_side() {
    for (sheet, inches) in [("8x10", 1.2), ("4x5", 0.6), ("11x14", 1.65)] {
        let field = Field::Margin(Millimetres::new(0.0).unwrap());
        let widest = coated(size(sheet), field).unwrap().value.widest_brush();
        near(widest / 25.4, inches, 0.01);
    }
}

/// Published coverages stand side by side and none is taken for the others: P. Mumford, alt-photo-process
/// list, 1996, 0.36 ml for 4x5 (published), about a third of what J. Rudiak's rule gives; S. King (published), 6 ml
/// for 8x10 in two coats; the Encyclopedic Dictionary of Photography, 90 minims for 10x8 (published), which are
/// 5.33 ml if British and 5.55 ml if American (derived), within 0.01.
#[test]
fn published_coverages_differ_by_several_times() {
    let reference = Reference::built_in().unwrap();
    let of = |id: &str| {
        let found = reference.coverages().iter().find(|it| it.id == id);
        found.unwrap_or_else(|| panic!("{id}")).per_ml()
    };
    near(of("rudiak"), 20.0, 1e-9);
    near(of("mumford"), coverage_of(20.0, 0.36).unwrap(), 1e-9);
    assert!(of("mumford") / of("rudiak") > 2.5);
    near(of("king-double"), 80.0 / 6.0, 1e-9);
    near(80.0 / of("pizzighelli"), 90.0 * 0.059_193_9, 0.01);
    near(90.0 * 0.061_611_5, 5.55, 0.01);
}

/// S. King (published): 3 ml of metal and 3 ml of ferric oxalate for 8x10. The salts in it derived: 450 mg of
/// sodium chloropalladite at 15 %, 810 mg of ferric oxalate at 27 %; exact.
#[test]
fn equal_parts_of_metal_and_iron() {
    let parts = read_parts("palladium 1, iron 1", 20.0).unwrap();
    let mix = count_out(&parts, 6.0).unwrap().value;
    near(mix.portions[0].wanted * 15.0 / 100.0, 0.450, 1e-9);
    near(mix.portions[1].wanted * 27.0 / 100.0, 0.810, 1e-9);
    assert_eq!(mix.drops(), 120);
}

/// D. Gregory, class transcript (published): 10 A, 10 B and 20 C make 40 drops; 5, 15 and 20 too; 3 A to 4 B to
/// 7 C. The last counted out into 40 drops (derived): 9, 11 and 20, exact, and A 5 % more than its share.
#[test]
fn the_worked_example_of_a_class_comes_out_in_whole_drops() {
    for (text, drops) in [
        ("A 10, B 10, C 20", [10, 10, 20]),
        ("A 5, B 15, C 20", [5, 15, 20]),
        ("A 3, B 4, C 7", [9, 11, 20]),
    ] {
        let parts = read_parts(text, 20.0).unwrap();
        let mix = count_out(&parts, 2.0).unwrap().value;
        let counted: Vec<u32> = mix.portions.iter().map(|it| it.drops).collect();
        assert_eq!(counted, drops, "{text}");
    }
    let parts = read_parts("A 3, B 4, C 7", 20.0).unwrap();
    let mix = count_out(&parts, 2.0).unwrap().value;
    near(mix.portions[0].error, 5.0, 1e-9);
}

/// P. Mumford, alt-photo-process list, 1996 (published): 1 drop-percent of peroxide for 0.36 ml is 7.5 for 2.7 ml,
/// the ratio being kept; exact.
#[test]
fn drop_percent_is_kept_in_proportion() {
    near(
        moved(1.0, 1.0, 1.0, 2.7 / 0.36).unwrap().value.drop_percent,
        7.5,
        1e-9,
    );
    near(moved(1.0, 5.0, 2.5, 1.0).unwrap().value.drops, 2.0, 1e-9);
}
