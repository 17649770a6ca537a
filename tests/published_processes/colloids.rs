//! Gum bichromate and carbon transfer.

use notchbook::craft::Celsius;

use super::*;

#[test]
fn gum_recipes() {
    let gum = book("gum-bichromate");
    // E. J. Wall: potassium dichromate, 1 oz to 9 oz of water; equal volumes.
    let held = gum.part_holds("equal-volumes", "dichromate", "potassium dichromate");
    let (us, uk) = held.percent().expect("a number");
    near(us, 28.3495 / (9.0 * US_OUNCE) * 100.0, 0.1);
    near(uk, 28.3495 / (9.0 * UK_OUNCE) * 100.0, 0.1);
    assert_eq!(gum.mix("equal-volumes").fraction("dichromate"), Some(0.5));
    // E. J. Wall: tube colour 1 to mucilage 4; of that 1 to 1-1.5 of saturated ammonium dichromate
    // for a harder print, 1 to 2 for a flatter and faster one.
    for row in &gum.contrast("dichromate").rows {
        let [pigment, mucilage, dichromate] = row.shares.as_slice() else {
            panic!("three parts: {row:?}");
        };
        assert_eq!((pigment.1, mucilage.1), (1.0, 4.0));
        assert_eq!(Some(dichromate.1 / 5.0), row.at);
        assert_eq!(row.name.contains("flatter"), row.at == Some(2.0));
    }
    // The three-colour process: 3 g and 2 g to 25 ml, 30 g and 15 g to 1000 ml.
    let ammonium = "ammonium dichromate";
    let mixed = "dichromate for three-colour gum";
    let floated = "dichromate, floated 5 min on the back";
    let grams = |bath: &str, of: &str| gum.strength("coat", bath, "three-color", of).0;
    near(grams(mixed, ammonium) * 0.25, 3.0, 1e-9);
    near(grams(mixed, "citric acid") * 0.25, 2.0, 1e-9);
    near(grams(floated, ammonium) * 10.0, 30.0, 1e-9);
    near(grams(floated, "citric acid") * 10.0, 15.0, 1e-9);
    // No text for what is usual today, nor for the scale of a layer.
    assert_eq!(gum.mix("modern").standing, Standing::Remembered);
    assert_eq!(gum.scales(), [(0.6, 1.0, Standing::Remembered)]);
}

#[test]
fn gum_exposure_and_keeping() {
    let gum = book("gum-bichromate");
    // SWPP glossary: half a minute to two minutes of daylight.
    gum.says("expose", "time, daylight", "SWPP", 0.5, 2.0, "min");
    // Kosar 1965, as summarised by C. Z. Anderson (second-hand): 3 days, 70 on ice; three times for
    // 10 C, so nine for 20 C (derived).
    let keeps: Vec<_> = gum.0.keeping().iter().filter_map(|it| it.hours()).collect();
    assert_eq!(keeps, [(72.0, 72.0), (1680.0, 1680.0)]);
    let dark = gum
        .0
        .usual
        .iter()
        .find(|it| it.what == "in the dark, each 10 C");
    let times = dark.and_then(|it| it.range).expect("a number").0;
    assert_eq!(times.powi(2), 9.0);
    assert!(dark.is_some_and(|it| it.source.contains("second-hand")));
}

#[test]
fn carbon_sensitizing_baths() {
    let carbon = book("carbon-transfer");
    // E. J. Wall: 1 oz in 20 oz; Swan about 2.5 %; The American Carbon Manual, p. 78: 3 oz in 35 oz,
    // 8.6 %; Duchochois 1891: 2 % for black and white.
    let of = "potassium dichromate";
    let bath = |name: &str, source: &str| carbon.strength("coat", name, source, of);
    near(bath("Wall", "Wall").1, 5.0, 0.1);
    near(
        bath("Wall", "Wall").0,
        28.3495 / (20.0 * US_OUNCE) * 100.0,
        0.05,
    );
    assert_eq!(bath("Swan", "p. 20"), (2.5, 2.5));
    let manual = bath("American Carbon Manual", "p. 78").1;
    near(manual, 3.0 / 35.0 * 100.0, 0.1);
    assert_eq!(bath("black and white", "Duchochois"), (2.0, 2.0));
    // At most 12 sheets in 30 oz, which are 13.5 in a litre (derived).
    let [capacity] = carbon.0.capacities() else {
        panic!("one capacity");
    };
    assert_eq!(capacity.amount, (12.0, 12.0));
    near(capacity.per.value(), 30.0 * US_OUNCE, 0.1);
    near(capacity.per_litre().0, 13.5, 0.05);
    // Best on its first and second day, a fortnight at most.
    let keeps: Vec<_> = carbon
        .0
        .keeping()
        .iter()
        .filter_map(|it| it.hours())
        .collect();
    assert_eq!(keeps, [(24.0, 48.0), (336.0, 336.0)]);
}

#[test]
fn carbon_transfer_and_development() {
    let carbon = book("carbon-transfer");
    // The Barnet Book: 15 s to a minute in cold water, 12-15 min under pressure.
    carbon.says("transfer", "time", "Barnet", 15.0, 60.0, "s");
    carbon.says("press", "time", "Barnet", 12.0, 15.0, "min");
    // Sinclair: thin paper 5 min, thick 30 min.
    carbon.says(
        "soak-support",
        "time, thin paper",
        "Sinclair",
        5.0,
        5.0,
        "min",
    );
    carbon.says(
        "soak-support",
        "time, thick paper",
        "Sinclair",
        30.0,
        30.0,
        "min",
    );
    // Photo handbook, ch. XXVI, and The American Carbon Manual: 100-110 F lift the tissue, 150 F at
    // most, which are 37.8-43.3 C and 65.6 C.
    let (from, to, unit) = carbon.published("develop", "temperature, to lift the tissue", "XXVI");
    let (_, most, _) = carbon.published(
        "develop",
        "temperature for over-exposed prints, up to",
        "American Carbon Manual",
    );
    assert_eq!(unit, "F");
    for (fahrenheit, celsius) in [(from, 37.8), (to, 43.3), (most, 65.6)] {
        let read = Celsius::parse(&format!("{fahrenheit}F")).expect("a temperature");
        near(read.value(), celsius, 0.1);
    }
    // 5 % of alum for 5 min.
    assert_eq!(
        carbon.strength("clear", "alum", "Barnet", "alum"),
        (5.0, 5.0)
    );
    carbon.says("clear", "time", "Barnet", 5.0, 5.0, "min");
}

#[test]
fn carbon_contrast_claims_no_direction_that_was_not_read() {
    // S. King, The carbon transfer process, part 2: negatives of 0.9 to 2.7 by the strength of the
    // dichromate. Which strength goes with which range was read in no text, so no table says it.
    let carbon = book("carbon-transfer");
    assert_eq!(carbon.scales(), [(0.9, 2.7, Standing::Published)]);
    for contrast in carbon.0.contrasts() {
        assert_eq!(contrast.points().count(), 0, "{}", contrast.id);
    }
    // Duchochois 1891, pp. 92-93: fresh tissue for weak negatives, older for strong ones.
    let age = carbon.contrast("age");
    assert!(age.source.contains("Duchochois"));
    assert!(
        age.named("fresh")
            .is_some_and(|row| row.note.contains("weak"))
    );
}
