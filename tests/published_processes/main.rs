//! The figures in `assets/` against the texts they were read in.
//!
//! Each check states the number and, beside it, its source. What is only remembered must be marked
//! so; what the texts do not give must not be there. The last checks hold known misprints and
//! conflicts between texts: both sides stay, neither is merged.

use notchbook::craft::solutions::molar;
use notchbook::reference::{
    Contrast, Mix, Process, Purpose, Reference, Solution, Standing, Substance, Usual,
};

mod colloids;
mod iron_and_silver;
mod platinum;

fn reference() -> Reference {
    Reference::built_in().expect("built in")
}

/// Whether two numbers are the same within a tolerance.
#[track_caller]
fn near(is: f64, wanted: f64, within: f64) {
    assert!((is - wanted).abs() <= within, "{is}, not {wanted}");
}

/// A grain and the fluid ounces of the UK and the US, in grams and millilitres; exact.
const GRAIN: f64 = 0.064_798_91;
const UK_OUNCE: f64 = 28.413_062_5;
const US_OUNCE: f64 = 29.573_529_562_5;

/// The percentages that so many grains in so many ounces are, by US and by UK ounces.
fn grains(grains: f64, ounces: f64) -> (f64, f64) {
    let grams = grains * GRAIN * 100.0 / ounces;
    (grams / US_OUNCE, grams / UK_OUNCE)
}

/// A built-in process with its usual figures at hand.
struct Book(Process);

fn book(id: &str) -> Book {
    Book(reference().process(id).expect(id).clone())
}

impl Book {
    /// The figures of one thing in one step that come from one source.
    fn all(&self, step: &str, what: &str, source: &str) -> Vec<&Usual> {
        let step = self.0.step(step).expect(step);
        let figures = step.usual.iter().filter(|usual| usual.what == what);
        figures
            .filter(|usual| usual.source.contains(source))
            .collect()
    }

    /// The one published range of a thing in a step from a source, with its unit.
    #[track_caller]
    fn published(&self, step: &str, what: &str, source: &str) -> (f64, f64, String) {
        let found = self.all(step, what, source);
        assert_eq!(found.len(), 1, "{step}, {what}, {source}: {found:?}");
        assert_eq!(found[0].standing, Standing::Published, "{:?}", found[0]);
        let (from, to) = found[0].range.expect("a number");
        (from, to, found[0].unit.clone())
    }

    #[track_caller]
    fn mix(&self, id: &str) -> &Mix {
        self.0.mix(id).expect(id)
    }

    #[track_caller]
    fn contrast(&self, id: &str) -> &Contrast {
        self.0.contrast(id).expect(id)
    }

    /// A substance in a part of a mix.
    #[track_caller]
    fn part_holds(&self, mix: &str, part: &str, of: &str) -> &Substance {
        let part = self.mix(mix).part(part).expect(part);
        part.holds.iter().find(|one| one.of == of).expect(of)
    }

    /// The one bath of a step with this name from this source.
    #[track_caller]
    fn bath(&self, step: &str, name: &str, source: &str) -> &Solution {
        let step = self.0.step(step).expect(step);
        let named = step.solutions.iter().filter(|one| one.name == name);
        let found: Vec<&Solution> = named.filter(|one| one.source.contains(source)).collect();
        assert_eq!(found.len(), 1, "{name}, {source}: {found:?}");
        found[0]
    }

    /// A published strength in a bath of a step.
    #[track_caller]
    fn strength(&self, step: &str, bath: &str, source: &str, of: &str) -> (f64, f64) {
        let bath = self.bath(step, bath, source);
        let found = bath.holds.iter().find(|one| one.of == of).expect(of);
        assert_eq!(found.standing, Standing::Published, "{found:?}");
        found.strength.expect("a number")
    }

    /// The exposure scales with their standing.
    fn scales(&self) -> Vec<(f64, f64, Standing)> {
        let scales = self.0.scales().iter();
        scales
            .map(|scale| (scale.range.0, scale.range.1, scale.standing))
            .collect()
    }

    #[track_caller]
    fn says(&self, step: &str, what: &str, source: &str, from: f64, to: f64, unit: &str) {
        let found = self.published(step, what, source);
        assert_eq!(
            found,
            (from, to, unit.to_owned()),
            "{step}, {what}, {source}"
        );
    }
}

#[test]
fn silver_gelatin_processing_times() {
    for id in ["silver-gelatin-contact", "silver-gelatin-enlarged"] {
        let silver = book(id);
        // US Army SS0509: develop 1.5-2 min at 70-74 F, drain 15 s, stop 60 s, drum 180 F.
        silver.says("develop", "time", "SS0509", 1.5, 2.0, "min");
        silver.says("develop", "temperature", "SS0509", 70.0, 74.0, "F");
        silver.says("develop", "drain", "SS0509", 15.0, 15.0, "s");
        silver.says("stop", "time", "SS0509", 60.0, 60.0, "s");
        // R. Hicks and F. Schultz: fibre 2-3 min at 20 C.
        silver.says("develop", "time", "Hicks", 2.0, 3.0, "min");
        // analogue-photography.org: two baths of 3-5 min; acid hardening 5-10; RC at most 2.
        let source = "analogue-photography.org";
        silver.says("fix-1", "time, first of two baths", source, 3.0, 5.0, "min");
        silver.says(
            "fix-2",
            "time, second of two baths",
            source,
            3.0,
            5.0,
            "min",
        );
        silver.says("fix-1", "time, acid hardening", source, 5.0, 10.0, "min");
        silver.says("fix-1", "time, at most", source, 2.0, 2.0, "min");
        // Anchell 2008, p. 107, second-hand: 60 s in one strong bath.
        silver.says("fix-1", "time, one strong bath", "Anchell", 60.0, 60.0, "s");
        // Ilford's sequence at second hand: 5 min wash, 10 min aid, 5 min wash, 20 min together.
        let ilford = "darkside.photography";
        let first = silver.published("first-wash", "time", ilford).0;
        let aid = silver.published("wash-aid", "time", ilford).0;
        let last = silver
            .published("wash", "time, after a short fix and a wash aid", ilford)
            .0;
        assert_eq!((first, aid, last), (5.0, 10.0, 5.0));
        assert_eq!(first + aid + last, 20.0);
    }
}

#[test]
fn toning_times() {
    let silver = book("silver-gelatin-enlarged");
    // Amateur Photographer: selenium 1+20 or weaker, 2 min.
    let what = "selenium 1+20 or weaker, for depth and keeping";
    silver.says("tone", what, "Amateur Photographer", 2.0, 2.0, "min");
    // L. Erlick 2000: 1+5, 10 min. Kodak T-1a: 12-15 min. Kodak T-21: 5-20 min.
    silver.says(
        "tone",
        "selenium 1+5, warm-tone fibre paper",
        "Erlick",
        10.0,
        10.0,
        "min",
    );
    silver.says("tone", "hypo-alum T-1a", "T-1a", 12.0, 15.0, "min");
    silver.says("tone", "gold T-21", "T-21", 5.0, 20.0, "min");
}

#[test]
fn fixer_capacities_of_different_texts_are_kept_apart() {
    let reference = reference();
    let fixer = reference.bath(Purpose::Fixer).expect("fixer");
    let of = |what: &str| {
        let found = fixer.capacities().find(|usual| usual.what == what);
        let usual = found.expect(what);
        (usual.range.expect("a number").0, usual.standing)
    };
    // Anchell 2008, p. 108: 20 and 25. analogue-photography.org: 50. US Navy 14209: 200 to the US
    // gallon, which is 52.8 to the litre and 2.6 times the first: not to be merged.
    assert_eq!(
        of("capacity, acid, unknown maker"),
        (20.0, Standing::Published)
    );
    assert_eq!(
        of("capacity, alkaline, unknown maker"),
        (25.0, Standing::Published)
    );
    assert_eq!(
        of("capacity, first of two baths"),
        (50.0, Standing::Published)
    );
    let navy = of("capacity, one bath");
    assert_eq!(navy.1, Standing::Published);
    assert!((navy.0 - 200.0 / 3.785_411_784).abs() < 0.05, "{navy:?}");
    assert_eq!(
        of("capacity for film, rapid fixer 1+4"),
        (24.0, Standing::Remembered)
    );
}

#[test]
fn film_speeds() {
    let reference = reference();
    for (film, speed, source) in [
        ("FP4 Plus", 125, "Ilford"),
        ("HP5 Plus", 400, "DD-X"),
        ("Delta 100", 100, "DD-X"),
        ("T-MAX 100", 100, "F-4016"),
        ("T-MAX 400", 400, "F-4043"),
        ("Tri-X 320", 320, "F-4017"),
        ("Tri-X 400", 400, "F-4017"),
    ] {
        let found = reference.film(film).expect(film);
        assert_eq!(found.speed, Some(speed), "{film}");
        assert_eq!(found.standing, Standing::Published, "{film}");
        assert!(found.source.contains(source), "{film}: {}", found.source);
    }
    for film in ["Fomapan 100", "Ortho Plus", "CHS 100 II", "Velvia 50"] {
        let found = reference.film(film).expect(film);
        assert_eq!(found.standing, Standing::Remembered, "{film}");
    }
}

#[test]
fn film_formats_and_holder_depths() {
    let reference = reference();
    // ANSI/PIMA IT3.108-1998 at second hand: 0.197 +/- 0.007, 0.228 +/- 0.010, 0.260 +/- 0.016 in.
    for (format, depth, tolerance) in [
        ("4x5", 0.197, 0.007),
        ("5x7", 0.228, 0.010),
        ("8x10", 0.260, 0.016),
    ] {
        let found = reference.format(format).expect(format);
        let holder = found.holder.as_ref().expect("a depth");
        assert!((holder.depth_in - depth).abs() < 1e-9, "{format}");
        assert!(
            (holder.tolerance_in.unwrap() - tolerance).abs() < 1e-9,
            "{format}"
        );
        assert!(holder.source.contains("second-hand"), "{format}");
    }
    // Exact: an inch is 25.4 mm.
    let inches = reference.format("8x10").expect("8x10").nominal_mm();
    assert!((inches.0 - 203.2).abs() < 1e-9 && (inches.1 - 254.0).abs() < 1e-9);
    // The depth of an 11x14 holder was not found and is not there.
    let large = reference.format("11x14").expect("11x14");
    assert!(large.holder.is_none());
    assert_eq!(
        large.cut.as_ref().map(|cut| cut.standing),
        Some(Standing::Remembered)
    );
}

#[test]
fn paper_exposure_ranges_by_filter() {
    // Ilford's sheet for Multigrade IV RC De Luxe at second hand: ISO(R) by filter.
    let reference = reference();
    let paper = reference.paper("MGIV RC").expect("listed");
    for (filter, range) in [
        ("00", 180.0),
        ("0", 160.0),
        ("1", 130.0),
        ("2", 110.0),
        ("3", 90.0),
        ("4", 60.0),
        ("5", 40.0),
    ] {
        let what = format!("ISO(R), filter {filter}");
        let usual = paper
            .usual
            .iter()
            .find(|usual| usual.what == what)
            .expect(&what);
        assert_eq!(usual.range, Some((range, range)), "{what}");
        assert!(usual.source.contains("second-hand"), "{what}");
    }
    // Arches Platine: 310 g/m2.
    let platine = reference.paper("Platine").expect("listed");
    assert_eq!(platine.usual[0].value(), "310 g/m2");
}
