//! Recipes, tables of contrast and baths of the built-in processes, walked through.

use super::*;

/// Words of a substance, and the caution that its step has to name.
const DANGEROUS: &[(&str, &str)] = &[
    ("ferric oxalate", "ferric-oxalate"),
    ("ammonium ferric oxalate", "ammonium-ferric-oxalate"),
    ("oxalic acid", "oxalic-acid"),
    ("potassium oxalate", "potassium-oxalate"),
    ("potassium chloroplatinite", "platinum-salts"),
    ("ammonium chloroplatinite", "platinum-salts"),
    ("sodium chloroplatinate", "chloroplatinate"),
    ("palladium chloride", "palladium-chloride"),
    ("palladium chloride dihydrate", "palladium-chloride"),
    ("sodium chloropalladite", "palladium-chloride"),
    ("potassium chlorate", "potassium-chlorate"),
    ("silver nitrate", "silver-nitrate"),
    ("gold chloride", "gold-chloride"),
    ("gold chloride", "gold-and-ammonia"),
    ("ferric ammonium citrate", "ferric-ammonium-citrate"),
    ("potassium ferricyanide", "potassium-ferricyanide"),
    ("potassium ferricyanide", "ferricyanide-and-acid"),
    ("potassium dichromate", "potassium-dichromate"),
    ("ammonium dichromate", "ammonium-dichromate"),
    ("hydrochloric acid", "hydrochloric-acid"),
    ("hydrochloric acid", "acid-into-water"),
    ("strong hydrochloric acid", "hydrochloric-acid"),
    ("strong hydrochloric acid", "acid-into-water"),
    ("citric acid", "citric-acid"),
    ("tartaric acid", "tartaric-acid"),
    ("glacial acetic acid", "acetic-acid"),
    ("acetic acid 28 %", "acetic-acid"),
    ("EDTA", "edta"),
    ("disodium EDTA", "edta"),
    ("tetrasodium EDTA", "edta"),
    ("lithium chloride", "lithium-chloride"),
    ("ammonia", "ammonia"),
    ("ammonia", "gold-and-ammonia"),
    ("borax", "borax"),
    ("sodium carbonate", "sodium-carbonate"),
    ("hypo", "fixer"),
    ("potassium metabisulfite", "sulfite-and-acid"),
    ("sodium dithionite", "dithionite"),
];

/// Substances of which no text that was read says that they hurt.
const HARMLESS: &[&str] = &[
    "sodium chloride",
    "ammonium chloride",
    "salt",
    "sodium citrate",
    "citrate",
    "potassium phosphate",
    "sodium phosphate",
    "sodium acetate",
    "sodium sulfite",
    "Rochelle salt",
    "gelatin",
    "gum arabic",
    "soap",
    "sugar",
    "dry colour",
    "alum",
];

/// All substances that a step of a process has to do with.
fn substances<'a>(process: &'a Process, step: &'a Step) -> Vec<&'a Substance> {
    let mixes = process.mixes().iter().filter(|mix| mix.step == step.id);
    let parts = mixes.flat_map(|mix| &mix.parts);
    let of_mixes = parts.flat_map(|part| &part.holds);
    let of_baths = step.solutions.iter().flat_map(|bath| &bath.holds);
    of_mixes.chain(of_baths).collect()
}

#[test]
fn each_step_with_a_dangerous_substance_names_its_caution() {
    let reference = reference();
    let mut met = Vec::new();
    for process in reference.processes() {
        for step in &process.steps {
            for substance in substances(process, step) {
                let of = substance.of.as_str();
                let cautions = DANGEROUS.iter().filter(|(name, _)| *name == of);
                let mut known = HARMLESS.contains(&of);
                for (_, caution) in cautions {
                    known = true;
                    let named = step.cautions.iter().any(|id| id == caution);
                    assert!(named, "{}, {}: {of} without {caution}", process.id, step.id);
                    met.push(of);
                }
                assert!(
                    known,
                    "{}, {}: {of} is in neither list",
                    process.id, step.id
                );
            }
        }
    }
    for (name, _) in DANGEROUS {
        assert!(met.contains(name), "{name} is in no step");
    }
}

#[test]
fn strong_acids_of_formulas_are_warned_of_in_their_step_too() {
    let reference = reference();
    let mut warned = 0;
    for process in reference.processes() {
        for step in &process.steps {
            for bath in &step.solutions {
                let Some(id) = &bath.formula else { continue };
                let formula = reference.formula(id).expect("checked on reading");
                let chemicals = formula.ingredients.iter();
                let chemicals = chemicals.filter_map(|it| reference.chemical(&it.chemical));
                for caution in chemicals.flat_map(|it| &it.cautions) {
                    if ["acetic-acid", "hydrochloric-acid"].contains(&caution.as_str()) {
                        let named = step.cautions.contains(caution);
                        assert!(named, "{}, {}: {id}, {caution}", process.id, step.id);
                        warned += 1;
                    }
                }
            }
        }
    }
    assert!(warned >= 2, "{warned}");
}

#[test]
fn wherever_ultraviolet_light_prints_eyes_and_skin_are_warned_of() {
    for process in reference().processes() {
        let ultraviolet = process.light == Light::Ultraviolet;
        for step in process
            .steps
            .iter()
            .filter(|step| step.work == Work::Expose)
        {
            let named = step.cautions.iter().any(|id| id == "ultraviolet");
            assert_eq!(named, ultraviolet, "{}", process.id);
        }
        let named = process.cautions.iter().any(|id| id == "ultraviolet");
        assert_eq!(named, ultraviolet, "{}", process.id);
        assert!(process.cautions.iter().any(|id| id == "waste") || process.id == "cyanotype");
    }
}

#[test]
fn every_process_says_what_it_is_mixed_of_and_how_long_a_negative_it_wants() {
    for process in reference().processes() {
        let id = &process.id;
        let bought = process.light != Light::Ultraviolet;
        if let Some(coat) = process.step("coat") {
            let mixed = process.mixes().iter().any(|mix| mix.step == coat.id);
            assert!(mixed || !coat.solutions.is_empty(), "{id}");
        } else {
            assert!(bought, "{id}");
        }
        // No text gives the scale of what masks itself; it is said in words.
        let said = process
            .usual
            .iter()
            .any(|usual| usual.what == "exposure scale");
        assert!(!process.scales().is_empty() || said, "{id}");
        let fixed_or_cleared = process.steps.iter().any(|step| {
            matches!(step.work, Work::Fix | Work::Clear | Work::Develop) && step.bath.is_some()
        });
        assert!(fixed_or_cleared, "{id}");
    }
}

#[test]
fn shares_and_scales_of_a_contrast_fit_its_mix() {
    let mut rows = 0;
    for process in reference().processes() {
        for contrast in process.contrasts() {
            let mix = contrast.mix.as_deref().and_then(|id| process.mix(id));
            for row in &contrast.rows {
                rows += 1;
                assert!(!row.gives().is_empty(), "{}: {row:?}", contrast.id);
                assert!(!row.value(&contrast.unit).is_empty(), "{}", contrast.id);
                if row.shares.is_empty() {
                    continue;
                }
                let mix = mix.expect("shares belong to a mix");
                let total: f64 = row.shares.iter().map(|(_, share)| share).sum();
                assert!(total > 0.0, "{}: {row:?}", contrast.id);
                // A row says the share of every part, except of water that it does without.
                for part in mix.parts.iter().filter(|part| part.role != Role::Water) {
                    let said = row.shares.iter().any(|(key, _)| *key == part.key);
                    assert!(said, "{}: {} in {row:?}", contrast.id, part.key);
                }
            }
            // The table lies within what the process says of its scales.
            for (_, (least, most)) in contrast.points() {
                let scales = process.scales().iter();
                let holds = scales.map(|scale| scale.range);
                let inside = |(from, to): (f64, f64)| from <= least && most <= to;
                assert!(holds.into_iter().any(inside), "{}: {least}", process.id);
            }
        }
    }
    assert!(rows > 80, "{rows}");
}

#[test]
fn every_number_of_a_recipe_rests_on_something() {
    let mut published = 0;
    let mut seen = |source: &str, standing: Standing| {
        assert_ne!(standing, Standing::Own);
        assert!(!source.is_empty());
        published += usize::from(standing == Standing::Published);
    };
    for process in reference().processes() {
        for scale in process.scales() {
            seen(&scale.source, scale.standing);
        }
        for one in process.keeping() {
            seen(&one.source, one.standing);
        }
        for one in process.capacities() {
            seen(&one.source, one.standing);
        }
        for mix in process.mixes() {
            seen(&mix.source, mix.standing);
        }
        for row in process.contrasts().iter().flat_map(|it| &it.rows) {
            seen(&row.source, row.standing);
        }
        for step in &process.steps {
            for substance in substances(process, step) {
                seen(&substance.source, substance.standing);
            }
        }
    }
    assert!(published > 150, "{published}");
}

#[test]
fn figures_of_paper_are_told_apart_where_silver_gelatin_needs_it() {
    // Fibre soaks the fixer up, a resin coat keeps it out: washing differs, and so do the times.
    let reference = reference();
    for id in ["silver-gelatin-contact", "silver-gelatin-enlarged"] {
        let process = reference.process(id).expect("built in");
        for (step, what) in [("fix-1", "time"), ("wash", "time"), ("dry", "dry-down")] {
            let usual = &process.step(step).expect(step).usual;
            for kind in [PaperKind::Fibre, PaperKind::ResinCoated] {
                let told = |it: &&Usual| it.what.starts_with(what) && it.paper == Some(kind);
                assert!(usual.iter().any(|it| told(&it)), "{id}, {step}, {kind}");
            }
        }
        let longest = |kind: PaperKind| {
            let wash = &process.step("wash").expect("a wash").usual;
            let of_kind = wash.iter().filter(|it| it.paper == Some(kind));
            let seconds = of_kind.filter_map(|it| it.seconds());
            seconds.map(|(_, most)| most).fold(0.0, f64::max)
        };
        assert_eq!(longest(PaperKind::ResinCoated), 120.0);
        assert_eq!(longest(PaperKind::Fibre), 5400.0);
    }
}

#[test]
fn limits_in_the_air_stand_in_the_cautions() {
    let reference = reference();
    let says = |id: &str, words: &str| {
        let caution = reference.caution(id).expect(id);
        assert!(caution.words.contains(words), "{id}: {}", caution.words);
    };
    // OSHA 29 CFR 1910.1026: 5 micrograms of chromium(VI) in a cubic metre, action at 2.5.
    says("potassium-dichromate", "5 micrograms");
    says("potassium-dichromate", "2.5");
    // NIOSH Pocket Guide, soluble platinum salts: 0.002 mg/m3.
    says("platinum-salts", "0.002 mg");
    // ICNIRP 2004 at second hand: 10 000 J/m2 of UV-A in 8 h, which 10 W/m2 give in 1000 s.
    says("ultraviolet", "1000 s");
    says("hydrochloric-acid", "acid to the water");
    says("silver-nitrate", "eye");
    says("gold-chloride", "ammonia");
}

#[test]
fn grades_of_silver_gelatin_are_those_of_the_papers() {
    let reference = reference();
    for id in ["silver-gelatin-contact", "silver-gelatin-enlarged"] {
        let process = reference.process(id).expect("built in");
        let table = process.contrast("grade").expect("its grades");
        for grade in reference.grades() {
            let row = table.named(&grade.grade.to_string());
            let scale = row.and_then(|row| row.scale);
            assert_eq!(scale, Some((grade.from, grade.to)), "{id}, {}", grade.grade);
        }
    }
}
