//! Platinum and palladium, developed out and printed out.

use super::*;

#[test]
fn gottlieb_1995_solutions() {
    // A. Gottlieb, J. Am. Inst. for Conservation 34(1), 1995, pp. 11-32.
    let pt = book("platinum-palladium");
    let gottlieb = "Gottlieb";
    for (bath, of, wanted) in [
        ("ferric oxalate, A", "ferric oxalate", 24.8),
        ("ferric oxalate, A", "oxalic acid", 1.7),
        (
            "ferric oxalate with chlorate, B",
            "potassium chlorate",
            0.46,
        ),
        ("chlorate apart", "potassium chlorate", 3.0),
        ("palladium, C", "palladium chloride dihydrate", 9.5),
        ("palladium, C", "sodium chloride", 8.3),
    ] {
        let found = pt.strength("coat", bath, gottlieb, of);
        assert_eq!(found, (wanted, wanted), "{bath}, {of}");
    }
    // Fe(III) to metal after Pizzighelli and Huebl 1886, quoted there.
    pt.says(
        "coat",
        "iron per metal",
        "Gottlieb 1995",
        1.8,
        3.0,
        "mol/mol",
    );
    // The manual quoted there: 22 drops of the solution with chlorate.
    let what = "drops, standard for low-contrast negatives";
    pt.says("coat", what, "Gottlieb 1995", 22.0, 22.0, "drops");
}

#[test]
fn gottlieb_1995_palladium_holds_more_than_two_chlorides_to_one_palladium() {
    // Derived from the published 9.5 g PdCl2 dihydrate and 8.3 g NaCl with IUPAC molar masses: 3.19
    // mol/mol, more than the 2 that dissolve it.
    for id in ["platinum-palladium", "palladium"] {
        let pt = book(id);
        let name = if id == "palladium" {
            "palladium"
        } else {
            "palladium, C"
        };
        let bath = pt.bath("coat", name, "Gottlieb");
        let molar = |of: &str| {
            let found = bath.holds.iter().find(|one| one.of == of).expect(of);
            found.molar().expect("a formula").0
        };
        let ratio = molar("sodium chloride") / molar("palladium chloride dihydrate");
        near(ratio, 3.19, 0.02);
    }
}

#[test]
fn duchochois_1891_coating_and_drying() {
    // P. C. Duchochois, Photographic Reproduction Processes, 1891, pp. 72-75, after Pizzighelli and
    // Huebl: 20 g ferric oxalate in 100, oxalic acid 6 to 8 % of its weight, 0.4 parts of chlorate;
    // 12 parts of platinum to 11 of iron; 12-15 min from coating to dry at 30-40 C.
    let pt = book("platinum-palladium");
    let iron = pt.part_holds("metric", "a", "ferric oxalate").percent();
    assert_eq!(iron, Some((20.0, 20.0)));
    let acid = pt
        .part_holds("metric", "a", "oxalic acid")
        .percent()
        .expect("a number");
    near(acid.0, 0.06 * 20.0, 1e-9);
    near(acid.1, 0.08 * 20.0, 1e-9);
    let chlorate = pt.part_holds("metric", "b", "potassium chlorate").percent();
    assert_eq!(chlorate, Some((0.4, 0.4)));
    let mix = pt.mix("metric");
    assert_eq!((mix.parts[0].share, mix.parts[1].share), (12.0, 11.0));
    let weak = pt
        .contrast("metric")
        .named("weak negatives")
        .expect("a row");
    let shares: Vec<f64> = weak.shares.iter().map(|(_, share)| *share).collect();
    assert_eq!(
        shares.iter().sum::<f64>(),
        25.0,
        "12, 11 with chlorate, 2 of water"
    );
    pt.says("dry-coating", "time", "Duchochois", 12.0, 15.0, "min");
    pt.says("dry-coating", "temperature", "Duchochois", 30.0, 40.0, "C");
}

#[test]
fn pizzighelli_and_huebl_in_ounces() {
    // Photo handbook, ch. XXIV: A has 120 grains of ferric oxalate and 8 of oxalic acid in an ounce,
    // B 2 grains of chlorate in an ounce of A, the platinum 240 grains in 3.5 oz. Percentages derived
    // by both ounces.
    let pt = book("platinum-palladium");
    for (part, of, (us, uk)) in [
        ("a", "ferric oxalate", grains(120.0, 1.0)),
        ("a", "oxalic acid", grains(8.0, 1.0)),
        ("b", "potassium chlorate", grains(2.0, 1.0)),
        ("platinum", "potassium chloroplatinite", grains(240.0, 3.5)),
    ] {
        let held = pt.part_holds("english", part, of);
        let (least, most) = held.percent().expect("a number");
        near(least, us, us * 0.005);
        near(most, uk, uk * 0.005);
        assert_eq!(held.standing, Standing::Published);
    }
    // The chlorate of the UK ounce is the 0.46 g in 100 ml that Gottlieb 1995 prints.
    let (_, uk) = grains(2.0, 1.0);
    near(uk, 0.46, 0.01);
}

#[test]
fn iron_to_platinum_of_the_soft_mix_lies_where_its_authors_put_it() {
    // Derived from Photo handbook, ch. XXIV, mix C: 240 grains of chloroplatinite with 2.75 oz of A
    // give Fe(III):Pt = 2.36, within the 1.8-3.0 of Pizzighelli and Huebl 1886 (in Gottlieb 1995).
    let pt = book("platinum-palladium");
    let soft = pt.contrast("english").named("C, soft").expect("a row");
    let share = |key: &str| {
        let found = soft.shares.iter().find(|(part, _)| part == key);
        found.expect(key).1
    };
    let iron = pt
        .part_holds("english", "a", "ferric oxalate")
        .molar()
        .expect("a formula");
    let platinum = pt.part_holds("english", "platinum", "potassium chloroplatinite");
    let platinum = platinum.molar().expect("a formula");
    let ratio = 2.0 * iron.1 * share("a") / (platinum.1 * share("platinum"));
    near(ratio, 2.36, 0.05);
    let (least, most, _) = pt.published("coat", "iron per metal", "Gottlieb");
    assert!(ratio > least && ratio < most, "{ratio}");
}

#[test]
fn coating_rules_of_mathias_rudiak_and_schneider() {
    let pt = book("platinum-palladium");
    // J. D. Mathias, Optimized Formulas for Metal Solutions: usual strength 27 %.
    let usual = pt.strength(
        "coat",
        "ferric oxalate, usual strength",
        "Mathias",
        "ferric oxalate",
    );
    assert_eq!(usual, (27.0, 27.0));
    // W. Schneider: 6.75 g of ferric oxalate and 0.5 g of oxalic acid in 25 ml of 1.2 % chlorate.
    let schneider = |of: &str| {
        pt.strength("coat", "ferric oxalate with chlorate, B", "Schneider", of)
            .0
    };
    near(schneider("ferric oxalate") * 0.25, 6.75, 1e-9);
    near(schneider("oxalic acid") * 0.25, 0.5, 1e-9);
    near(schneider("potassium chlorate") * 0.25, 0.30, 1e-9);
    // J. D. Mathias, Coating Efficiency: brush at most 15 % of the shortest side.
    let brush = "brush width, of the shortest side";
    pt.says("coat", brush, "Mathias", 15.0, 15.0, "%");
    // J. Rudiak: 20 drops to the ml; 1 ml for 20 sq in.
    pt.says("coat", "drops per ml", "Rudiak", 20.0, 20.0, "drops/ml");
    pt.says("coat", "sensitizer per 20 sq in", "Rudiak", 1.0, 1.0, "ml");
    // W. Schneider: one third platinum.
    let share = "platinum share for colour";
    pt.says("coat", share, "Schneider", 33.3, 33.3, "%");
}

#[test]
fn class_example_has_as_many_drops_of_iron_as_of_metal() {
    // D. Gregory: A and B together equal C; 10, 10, 20 for 11x14, and 5, 15, 20.
    let pt = book("platinum-palladium");
    let mix = pt.mix("class");
    assert_eq!(
        mix.area.map(|area| area.to_string()),
        Some("11x14 in".to_owned())
    );
    assert_eq!(mix.total(), 40.0);
    for row in &pt.contrast("class").rows {
        let shares: Vec<f64> = row.shares.iter().map(|(_, share)| *share).collect();
        assert_eq!(shares[0] + shares[1], shares[2], "{row:?}");
        assert_eq!(row.standing, Standing::Published);
    }
    assert_eq!(mix.fraction("c"), Some(0.5));
}

#[test]
fn supplier_drop_charts_stay_remembered() {
    // Not confirmed in a text: the 22 against 24 drops also break the published rule A + B = C.
    let pt = book("platinum-palladium");
    for (size, all) in [("4x5", 12.0), ("5x7", 23.0), ("8x10", 46.0)] {
        let id = format!("chart-{size}");
        let mix = pt.mix(&id);
        assert_eq!(mix.standing, Standing::Remembered, "{size}");
        assert_eq!(mix.total(), all, "{size}");
        let contrast = pt.contrast(&id);
        assert_eq!(contrast.rows.len(), 5, "{size}");
        for row in &contrast.rows {
            assert_eq!(row.standing, Standing::Remembered, "{size}");
            let total: f64 = row.shares.iter().map(|(_, share)| share).sum();
            assert_eq!(total, all, "{size}: {row:?}");
        }
    }
}

#[test]
fn platinum_clearing_times() {
    let pt = book("platinum-palladium");
    let mut shortest = 0.0;
    let mut longest = 0.0;
    for bath in ["clear-1", "clear-2", "clear-3"] {
        // The Book of Photography: hydrochloric acid 1:60, three baths of 3 min.
        pt.says(bath, "time", "Book of Photography", 3.0, 3.0, "min");
        // Practical Photography, par. 534-556: three to four baths of 7-10 min.
        pt.says(bath, "time", "Practical Photography", 7.0, 10.0, "min");
        shortest += pt.published(bath, "time", "Book of Photography").0;
        longest += pt.published(bath, "time", "Practical Photography").1;
    }
    assert_eq!(shortest, 9.0, "3 x 3 min");
    // With the fourth bath of the same text, which is the third step logged again.
    assert_eq!(longest + 10.0, 40.0, "4 x 10 min");
    assert!(pt.0.step("clear-3").expect("third").repeat);
    // The same acid is 1:60 in two texts and 0.3 % in J. Rudiak's: 10 ml of 30 % in a litre, which by
    // the density of the acid, 1.15 g/ml, is 3.45 g.
    let name = "hydrochloric acid 0.3 %";
    let weak = pt.strength("clear-1", name, "Rudiak", "hydrochloric acid");
    assert_eq!(weak, (0.3, 0.3));
    near(10.0 * 1.15 * 0.30, 3.45, 1e-9);
    let name = "hydrochloric acid 1:60";
    let strong = "strong hydrochloric acid";
    let (least, most) = pt.strength("clear-1", name, "Book of Photography", strong);
    near(least, 1000.0 / 61.0, 0.05);
    near(most, 1000.0 / 60.0, 0.05);
    // EDTA has no text.
    let edta = pt.bath("clear-1", "EDTA", "");
    assert_eq!(edta.standing, Standing::Remembered);
}

#[test]
fn platinum_exposure_development_and_wash() {
    let pt = book("platinum-palladium");
    // J. Pearce, technical note: 10-30 min under tubes; 40 C for a warm tone.
    pt.says("expose", "time", "Pearce", 10.0, 30.0, "min");
    pt.says("develop", "temperature", "Pearce", 40.0, 40.0, "C");
    // Practical Photography, par. 534-556: half a minute.
    pt.says("develop", "time", "Practical Photography", 0.5, 0.5, "min");
    // Photo handbook, Platinotype (continued): 1 oz and 1/2 oz in 10 oz, about 10 and 5 %.
    let cold = |of: &str| {
        pt.strength("develop", "cold developer", "Photo handbook", of)
            .0
    };
    assert_eq!(
        (cold("potassium oxalate"), cold("potassium phosphate")),
        (10.0, 5.0)
    );
    // The Book of Photography: 15 min wash. The usual 60-90 min have no source.
    pt.says("wash", "time", "Book of Photography", 15.0, 15.0, "min");
    let unsourced = pt.all("wash", "time", "common practice");
    assert_eq!(unsourced.len(), 1);
    assert_eq!(unsourced[0].range, Some((60.0, 90.0)));
    assert_eq!(unsourced[0].standing, Standing::Usual);
    // The scale of the mixes of A and B has no text either.
    assert_eq!(pt.scales(), [(1.3, 2.1, Standing::Remembered)]);
}

#[test]
fn king_palladium_contrast_by_dichromate() {
    // S. King, forum post: ml of 5 % potassium dichromate in a litre of developer, exposure scale.
    let table = [
        (1.0, 1.80),
        (2.0, 1.65),
        (4.0, 1.50),
        (8.0, 1.36),
        (16.0, 1.26),
        (32.0, 1.10),
    ];
    let pd = book("palladium");
    let contrast = pd.contrast("dichromate");
    assert!(contrast.source.contains("King"));
    assert_eq!(
        (contrast.unit.as_str(), contrast.figure.as_deref()),
        ("ml", Some("dichromate"))
    );
    let points: Vec<_> = contrast.points().collect();
    let wanted = table.map(|(ml, scale)| (ml, (scale, scale)));
    assert_eq!(points, wanted);
    assert!(
        points.is_sorted_by(|one, next| one.1.0 > next.1.0),
        "shorter with more of it"
    );
    assert!(
        contrast
            .rows
            .iter()
            .all(|row| row.standing == Standing::Published)
    );
    // What the scale of the process says are the ends of the table.
    assert_eq!(pd.scales()[0], (1.10, 1.80, Standing::Published));
    // Derived: a least-squares line through the table is 1.789 - 0.1374 log2(ml).
    let steps: Vec<f64> = table.iter().map(|(ml, _)| f64::log2(*ml)).collect();
    let (mean_x, mean_y) = (2.5, table.iter().map(|row| row.1).sum::<f64>() / 6.0);
    let pairs = || steps.iter().zip(table.iter().map(|row| row.1));
    let slope = pairs()
        .map(|(x, y)| (x - mean_x) * (y - mean_y))
        .sum::<f64>()
        / steps.iter().map(|x| (x - mean_x).powi(2)).sum::<f64>();
    near(slope, -0.1374, 0.0001);
    near(mean_y - slope * mean_x, 1.789, 0.001);
}

#[test]
fn king_coats_an_8x10_with_three_millilitres_of_each() {
    // S. King, forum post: 3 ml of metal and 3 ml of ferric oxalate for an 8x10 in two coats; that is
    // 450 mg of chloropalladite and 810 mg of ferric oxalate (derived).
    let pd = book("palladium");
    let mix = pd.mix("double-coat");
    assert_eq!(mix.total(), 6.0);
    assert_eq!(
        mix.area.map(|area| area.to_string()),
        Some("8x10 in".to_owned())
    );
    let grams = |part: &str, of: &str| {
        let percent = pd
            .part_holds("double-coat", part, of)
            .percent()
            .expect("a number")
            .0;
        percent / 100.0 * mix.part(part).expect(part).share
    };
    near(grams("metal", "sodium chloropalladite"), 0.450, 1e-9);
    near(grams("iron", "ferric oxalate"), 0.810, 1e-9);
    // Derived: 15 % of Na2PdCl4 is 51 mmol in 100 ml.
    let molar = pd
        .part_holds("double-coat", "metal", "sodium chloropalladite")
        .molar();
    near(molar.expect("a formula").0, 0.510, 0.001);
}

#[test]
fn chloroplatinate_drops_are_given_without_a_table_of_ranges() {
    // I. Leake: one drop of 5 % can be enough for an 8x10; the 2012 notes take one of 2.5 %. No text
    // gives drops by negative range, so there is no such table.
    let pd = book("palladium");
    let what = "sodium chloroplatinate 5 %, 8x10";
    pd.says("coat", what, "Leake", 1.0, 1.0, "drops");
    let step = pd.0.step("coat").expect("coat");
    let numbered = step
        .usual
        .iter()
        .filter(|usual| usual.what.contains("chloroplatinate") && usual.range.is_some());
    assert_eq!(numbered.count(), 1);
    let brushed = pd.mix("brushed");
    assert_eq!(
        (brushed.total(), brushed.part("agent").expect("agent").share),
        (31.0, 1.0)
    );
    let tables =
        pd.0.contrasts()
            .iter()
            .filter(|it| it.label.contains("chloroplatinate"));
    assert_eq!(tables.count(), 0);
}

#[test]
fn print_out_platinum_and_palladium() {
    let pop = book("print-out-platinum-palladium");
    // M. Ware: equal volumes of iron and metal. The strengths have no text.
    let mix = pop.mix("equal-volumes");
    assert_eq!(
        (mix.fraction("iron"), mix.standing),
        (Some(0.5), Standing::Published)
    );
    for part in &mix.parts {
        for held in &part.holds {
            assert_eq!(held.standing, Standing::Remembered, "{held:?}");
        }
    }
    // M. Ware's set for 60 prints of 10x8, of which the remembered strengths make whole volumes: 30 g
    // of iron to 50 ml, 3 g of palladium chloride and 5 g of chloroplatinite to 25 ml each.
    let percent = |part: &str, of: &str| {
        let held = pop.part_holds("equal-volumes", part, of);
        held.percent().expect("a number").0
    };
    near(percent("iron", "ammonium ferric oxalate") * 0.5, 30.0, 1e-9);
    near(percent("palladium", "palladium chloride") * 0.25, 3.0, 1e-9);
    near(percent("palladium", "ammonium chloride") * 0.25, 1.8, 1e-9);
    near(
        percent("platinum", "ammonium chloroplatinite") * 0.25,
        5.0,
        1e-9,
    );
    // R. Sullivan 1998: 23 ml of 10 % palladium chloride in 25 ml, 2.3 g. Derived: two chlorides to
    // each palladium are 1.10 g of lithium chloride.
    let name = "palladium with lithium chloride";
    let (part, _) = pop.strength("coat", name, "Sullivan", "palladium chloride");
    near(part * 0.25, 2.3, 1e-9);
    let mass = |formula: &str| molar::mass(formula).expect(formula);
    near(2.0 * 2.3 / mass("PdCl2") * mass("LiCl"), 1.10, 0.02);
    // M. Ware, Iron(III) print-out: 70 % relative humidity.
    pop.says("humidify", "relative humidity", "Ware", 70.0, 70.0, "%");
    // About 90 minims for 10x8, of the UK or the US.
    let (uk, us, _) = pop.published("coat", "sensitizer for 10x8", "Encyclopedic");
    near(uk, 90.0 * UK_OUNCE / 480.0, 0.05);
    near(us, 90.0 * US_OUNCE / 480.0, 0.05);
    // No text gives its scale or the times of its baths.
    assert!(pop.scales().is_empty());
    for bath in ["clear-1", "clear-2", "clear-3"] {
        let times = pop.all(bath, "time", "");
        assert_eq!(times.len(), 1, "{bath}");
        assert_eq!(times[0].standing, Standing::Remembered, "{bath}");
        assert_eq!(times[0].range, Some((10.0, 10.0)), "{bath}");
    }
}
