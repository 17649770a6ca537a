//! The built-in reference, walked through.

use std::sync::LazyLock;

use proptest::prelude::*;

use super::*;

mod recipes;

fn reference() -> Reference {
    static BUILT_IN: LazyLock<Reference> =
        LazyLock::new(|| Reference::built_in().expect("the built-in reference is checked here"));
    BUILT_IN.clone()
}

/// Ids of the required steps in order.
fn straight(process: &Process) -> Vec<&str> {
    process.required().map(|step| step.id.as_str()).collect()
}

#[test]
fn every_built_in_file_can_be_read() {
    let reference = reference();
    let ids: Vec<&str> = reference
        .processes()
        .iter()
        .map(|p| p.id.as_str())
        .collect();
    let wanted = [
        "silver-gelatin-contact",
        "silver-gelatin-enlarged",
        "platinum-palladium",
        "palladium",
        "print-out-platinum-palladium",
        "kallitype",
        "van-dyke",
        "cyanotype",
        "new-cyanotype",
        "salted-paper",
        "albumen",
        "gum-bichromate",
        "carbon-transfer",
    ];
    assert_eq!(ids, wanted);
    assert!(reference.films().len() >= 20);
    assert!(reference.formats().len() >= 10);
    assert!(reference.papers().len() >= 10);
    assert!(reference.cautions().len() >= 30);
    assert!(
        reference
            .closing()
            .starts_with("Follow the supplier's safety data sheet")
    );
}

#[test]
fn a_straight_run_through_the_required_steps_finishes_every_print() {
    for process in reference().processes() {
        let mut done: Vec<&str> = Vec::new();
        for step in straight(process) {
            assert!(!process.is_complete(&done), "{}: {done:?}", process.id);
            let turn = process.next(&done).first().map(|step| step.id.clone());
            assert_eq!(turn.as_deref(), Some(step), "{}: {done:?}", process.id);
            assert_eq!(process.may_follow(&done, step), Ok(()), "{}", process.id);
            done.push(step);
        }
        assert!(process.is_complete(&done), "{}", process.id);
    }
}

/// Ids of all steps that come before a step, near and far.
fn comes_after(process: &Process, step: &str) -> Vec<String> {
    let near = &process.step(step).expect("a step of it").after;
    let far = near.iter().flat_map(|id| comes_after(process, id));
    near.iter().cloned().chain(far).collect()
}

#[test]
fn every_required_step_out_of_order_is_refused() {
    let mut free = Vec::new();
    for process in reference().processes() {
        let steps = straight(process);
        for taken in 0..steps.len() {
            let (done, ahead) = steps.split_at(taken);
            for later in ahead.iter().skip(1) {
                let before = comes_after(process, later);
                let first = ahead.iter().find(|id| before.iter().any(|it| it == **id));
                match (first, process.may_follow(done, later)) {
                    (Some(wanted), Err(StepProblem::Missing { first, .. })) => {
                        assert_eq!(first, *wanted, "{}: {later} after {done:?}", process.id);
                    }
                    (None, Ok(())) => free.push((process.id.clone(), (*later).to_owned())),
                    (_, other) => panic!("{}: {later} after {done:?}: {other:?}", process.id),
                }
            }
        }
    }
    // The transfer paper of a carbon print is soaked while the tissue dries or is exposed.
    free.dedup();
    assert_eq!(
        free,
        [("carbon-transfer".to_owned(), "soak-support".to_owned())]
    );
}

#[test]
fn a_step_that_is_done_once_is_refused_the_second_time() {
    let mut seen = 0;
    for process in reference().processes() {
        let mut done: Vec<&str> = Vec::new();
        for step in process.required() {
            done.push(&step.id);
            let again = process.may_follow(&done, &step.id);
            if step.repeat {
                assert_eq!(again, Ok(()), "{}: {}", process.id, step.id);
            } else {
                seen += 1;
                let step = step.id.clone();
                assert_eq!(again, Err(StepProblem::Repeated { step }), "{}", process.id);
            }
        }
    }
    assert!(seen > 10, "few steps are done once only: {seen}");
}

#[test]
fn every_relation_of_every_step_is_kept() {
    for process in reference().processes() {
        let all: Vec<&str> = process.steps.iter().map(|step| step.id.as_str()).collect();
        for step in &process.steps {
            for needs in &step.after {
                let without: Vec<&str> = all.iter().copied().filter(|id| id != needs).collect();
                let without: Vec<&str> = without
                    .into_iter()
                    .filter(|id| !step.not_after.iter().any(|late| late == id))
                    .filter(|id| *id != step.id)
                    .collect();
                assert!(
                    matches!(
                        process.may_follow(&without, &step.id),
                        Err(StepProblem::Missing { .. })
                    ),
                    "{}: {} without {needs}",
                    process.id,
                    step.id
                );
            }
            for late in &step.not_after {
                let by = late.clone();
                assert_eq!(
                    process.may_follow(&[late], &step.id),
                    Err(StepProblem::Forbidden {
                        step: step.id.clone(),
                        by
                    }),
                    "{}",
                    process.id
                );
            }
        }
    }
}

#[test]
fn coating_after_the_exposure_is_too_late_in_every_coated_process() {
    for process in reference().processes() {
        let Some(coat) = process.step("coat") else {
            assert_ne!(process.light, Light::Ultraviolet, "{}", process.id);
            continue;
        };
        assert_eq!(coat.work, Work::Coat);
        assert_eq!(coat.need, Need::Required);
        let refused = process.may_follow(&["coat", "dry-coating", "expose"], "coat");
        let sentence = refused.expect_err("too late").to_string();
        assert!(sentence.contains("too late once \"expose\""), "{sentence}");
    }
}

#[test]
fn a_second_coat_has_to_dry_before_the_exposure() {
    let reference = reference();
    let process = reference.process("platinum-palladium").expect("built in");
    let wet = ["coat", "dry-coating", "coat"];
    assert_eq!(
        process.may_follow(&wet, "expose"),
        Err(StepProblem::Missing {
            step: "expose".into(),
            needs: "dry-coating".into(),
            first: "dry-coating".into(),
        })
    );
    let dry = ["coat", "dry-coating", "coat", "dry-coating"];
    assert_eq!(process.may_follow(&dry, "expose"), Ok(()));
}

#[test]
fn a_further_layer_brings_drying_exposing_and_developing_back() {
    let reference = reference();
    let process = reference.process("gum-bichromate").expect("built in");
    let layer = ["coat", "dry-coating", "expose", "develop", "dry"];
    let mut done = layer.to_vec();
    assert!(process.is_complete(&done));
    for _ in 0..3 {
        assert_eq!(process.may_follow(&done, "coat-again"), Ok(()));
        done.push("coat-again");
        assert!(!process.is_complete(&done));
        // Neither a layer over one that was not developed, nor one developed before it had light.
        for early in ["coat-again", "expose", "develop", "dry"] {
            let refused = process.may_follow(&done, early);
            assert!(
                matches!(refused, Err(StepProblem::Missing { .. })),
                "{early}"
            );
        }
        for step in ["dry-coating", "expose", "develop", "dry"] {
            assert_eq!(process.next(&done)[0].id, step, "{done:?}");
            done.push(step);
            if step == "develop" {
                let refused = process.may_follow(&done, "expose");
                assert!(matches!(refused, Err(StepProblem::Forbidden { .. })));
            }
        }
        assert!(process.is_complete(&done));
    }
    // The first layer is never coated again once it had its light.
    let refused = process.may_follow(&done, "coat");
    assert!(matches!(refused, Err(StepProblem::Forbidden { .. })));
}

#[test]
fn only_layers_lift_what_made_a_step_too_late() {
    // A step that comes too late stays too late, unless a layer begins anew.
    for process in reference().processes() {
        let reopened = process.steps.iter().flat_map(|step| &step.reopens);
        let late: Vec<&String> = process
            .steps
            .iter()
            .flat_map(|step| &step.not_after)
            .collect();
        let lifted = reopened.filter(|id| late.contains(id)).count();
        assert_eq!(lifted > 0, process.id == "gum-bichromate", "{}", process.id);
    }
}

#[test]
fn carbon_is_transferred_to_a_paper_that_was_soaked() {
    let reference = reference();
    let process = reference.process("carbon-transfer").expect("built in");
    let done = ["coat", "dry-coating", "expose"];
    let refused = process.may_follow(&done, "transfer").expect_err("no paper");
    assert!(refused.to_string().contains("soak-support"), "{refused}");
    let done = ["soak-support", "coat", "dry-coating", "expose"];
    assert_eq!(process.may_follow(&done, "transfer"), Ok(()));
    assert_eq!(
        process.step("transfer").map(|step| step.work),
        Some(Work::Transfer)
    );
}

#[test]
fn salted_and_albumen_prints_are_toned_before_they_are_fixed() {
    let reference = reference();
    for id in ["salted-paper", "albumen"] {
        let process = reference.process(id).expect("built in");
        let done = ["coat", "dry-coating", "expose", "rinse"];
        assert_eq!(process.may_follow(&done, "tone"), Ok(()), "{id}");
        let done = ["coat", "dry-coating", "expose", "rinse", "fix-1"];
        let refused = process.may_follow(&done, "tone");
        assert!(
            matches!(refused, Err(StepProblem::Forbidden { .. })),
            "{id}"
        );
    }
    // Salt lies in the paper before the silver does.
    let process = reference.process("salted-paper").expect("built in");
    assert!(process.may_follow(&["coat"], "salt").is_err());
}

#[test]
fn a_finished_print_that_is_toned_has_to_be_washed_and_dried_again() {
    let reference = reference();
    let process = reference
        .process("silver-gelatin-enlarged")
        .expect("built in");
    let mut done = vec!["expose", "develop", "stop", "fix-1", "wash", "dry"];
    assert!(process.is_complete(&done));
    done.push("tone");
    let open: Vec<&str> = process
        .outstanding(&done)
        .iter()
        .map(|step| step.id.as_str())
        .collect();
    assert_eq!(open, ["wash", "dry"]);
    assert!(process.may_follow(&done, "dry").is_err());
    done.extend(["wash", "dry"]);
    assert!(process.is_complete(&done));
}

#[test]
fn a_step_passed_over_by_an_override_does_not_keep_a_print_unfinished_for_ever() {
    let reference = reference();
    let process = reference.process("platinum-palladium").expect("built in");
    let open = |done: &[&str]| -> Vec<String> {
        let steps = process.outstanding(done);
        steps.iter().map(|step| step.id.clone()).collect()
    };
    // Exposed while wet, cleared in one bath only: both logged against the order.
    let done = ["coat", "expose", "develop", "clear-1", "wash", "dry"];
    assert!(open(&done).is_empty());
    assert!(process.is_complete(&done));
    assert_eq!(open(&done[..5]), ["dry"]);
    // What was reopened since is to do again, although a step behind it was done before.
    let again = [
        "coat", "expose", "develop", "clear-1", "wash", "dry", "spot", "clear-3",
    ];
    assert_eq!(open(&again), ["wash", "dry"]);
}

#[test]
fn what_comes_next_begins_with_the_step_whose_turn_it_is() {
    let reference = reference();
    let process = reference
        .process("silver-gelatin-enlarged")
        .expect("built in");
    let next = |done: &[&str]| -> Vec<String> {
        let steps = process.next(done);
        steps.iter().map(|step| step.id.clone()).collect()
    };
    assert_eq!(next(&[]), ["expose"]);
    assert_eq!(next(&["expose"]), ["develop", "expose"]);
    assert_eq!(next(&["expose", "develop"]), ["fix-1", "stop", "rinse"]);
    let fixed = next(&["expose", "develop", "stop", "fix-1"]);
    assert_eq!(fixed.first().map(String::as_str), Some("wash"));
    assert!(!fixed.contains(&"stop".to_owned()), "{fixed:?}");
}

#[test]
fn a_step_the_process_does_not_know_is_named_with_those_it_knows() {
    let reference = reference();
    let process = reference.process("cyanotype").expect("built in");
    let none: [&str; 0] = [];
    let sentence = process
        .may_follow(&none, "fix")
        .expect_err("cyanotypes are not fixed")
        .to_string();
    assert!(sentence.starts_with("no step \"fix\" in Cyanotype: its steps are "));
    assert!(sentence.contains("expose"), "{sentence}");
    // A step that a newer file of the process no longer has does not stand in the way.
    assert_eq!(
        process.may_follow(&["steam", "coat"], "dry-coating"),
        Ok(())
    );
}

#[test]
fn refusals_say_what_to_log_first() {
    let reference = reference();
    let process = reference.process("platinum-palladium").expect("built in");
    let sentence = |done: &[&str], step: &str| {
        let refused = process.may_follow(done, step);
        refused.expect_err("out of order").to_string()
    };
    assert_eq!(
        sentence(&["coat"], "expose"),
        "\"expose\" comes after \"dry-coating\", which is not done yet: log \"dry-coating\" first"
    );
    assert_eq!(
        sentence(&["coat"], "wash"),
        "\"wash\" comes after \"clear-3\", which is not done yet: log \"dry-coating\" first, then \
         on from there"
    );
    assert_eq!(
        sentence(&["coat", "dry-coating", "expose", "develop"], "develop"),
        "\"develop\" is done already and is done once only: amend that entry, or strike it"
    );
}

#[test]
fn films_are_found_as_people_write_them() {
    let reference = reference();
    for (typed, id, speed) in [
        ("FP4+", "fp4-plus", 125),
        ("fp4 plus", "fp4-plus", 125),
        ("Ilford HP5", "hp5-plus", 400),
        ("delta 100", "delta-100", 100),
        ("TMX", "t-max-100", 100),
        ("tmax 400", "t-max-400", 400),
        ("320txp", "tri-x-320", 320),
        ("foma 100", "fomapan-100", 100),
        ("ORTHO Plus", "ortho-plus", 80),
    ] {
        let film = reference.film(typed).expect(typed);
        assert_eq!((film.id.as_str(), film.speed), (id, Some(speed)), "{typed}");
    }
    assert!(reference.film("T-MAX").is_none(), "two films begin so");
}

#[test]
fn no_two_things_answer_to_one_name() {
    let reference = reference();
    for film in reference.films() {
        for name in film.names() {
            let found = reference.film(&name).map(|film| &film.id);
            assert_eq!(found, Some(&film.id), "{name}");
        }
    }
    for paper in reference.papers() {
        for name in paper.names() {
            let found = reference.paper(&name).map(|paper| &paper.id);
            assert_eq!(found, Some(&paper.id), "{name}");
        }
    }
    for process in reference.processes() {
        for name in process.names() {
            let found = reference.process_named(&name).map(|process| &process.id);
            assert_eq!(found, Some(&process.id), "{name}");
        }
    }
}

#[test]
fn formats_are_in_order_of_size_and_cut_smaller_than_their_name() {
    let reference = reference();
    let areas: Vec<f64> = reference
        .formats()
        .iter()
        .map(|format| format.nominal_mm())
        .map(|(width, height)| width * height)
        .collect();
    assert!(areas.is_sorted(), "{areas:?}");
    for format in reference.formats() {
        let (width, height) = format.nominal_mm();
        assert!(width <= height, "{}", format.id);
        if let Some(image) = &format.image {
            let (open_width, open_height) = (image.width_mm, image.height_mm);
            assert!(open_width <= open_height, "{}", format.id);
            assert!(open_width < width && open_height < height, "{}", format.id);
            if let Some(cut) = &format.cut {
                assert!(open_width < cut.width_mm, "{}", format.id);
                assert!(open_height < cut.height_mm, "{}", format.id);
            }
        }
        if let Some(cut) = &format.cut {
            assert!(
                cut.width_mm < width && cut.height_mm < height,
                "{}",
                format.id
            );
            assert!(
                width - cut.width_mm < 4.0 && height - cut.height_mm < 4.0,
                "{}",
                format.id
            );
        }
    }
    assert_eq!(
        reference.format("8 x 10").map(|f| f.id.as_str()),
        Some("8x10")
    );
}

#[test]
fn every_process_warns_of_what_it_uses() {
    let reference = reference();
    let warns = |process: &str, caution: &str| {
        let process = reference.process(process).expect("built in");
        assert!(process.all_cautions().contains(&caution), "{caution}");
    };
    for process in ["platinum-palladium", "palladium", "cyanotype", "van-dyke"] {
        warns(process, "ultraviolet");
    }
    warns("platinum-palladium", "platinum-salts");
    warns("platinum-palladium", "acid-into-water");
    warns("palladium", "chloroplatinate");
    warns("palladium", "potassium-dichromate");
    warns("cyanotype", "ferricyanide-and-acid");
    warns("van-dyke", "silver-nitrate");
    warns("silver-gelatin-enlarged", "selenium-toner");
    warns("silver-gelatin-contact", "gold-and-ammonia");
    for hazard in ["press-heat", "blades", "glass", "ultraviolet", "powders"] {
        assert!(reference.caution(hazard).is_some(), "{hazard}");
    }
}

#[test]
fn every_caution_says_enough_and_no_figure_is_passed_off_as_own() {
    let reference = reference();
    for caution in reference.cautions() {
        assert!(caution.words.len() > 40, "{}", caution.id);
        assert!(caution.words.ends_with('.'), "{}", caution.id);
        assert_ne!(caution.standing, Standing::Own, "{}", caution.id);
    }
    let figures = reference.processes().iter().flat_map(|process| {
        process
            .usual
            .iter()
            .chain(process.steps.iter().flat_map(|s| &s.usual))
    });
    let mut published = 0;
    for usual in figures {
        assert_ne!(usual.standing, Standing::Own, "{usual}");
        assert!(!usual.source.is_empty(), "{usual}");
        published += usize::from(usual.standing == Standing::Published);
    }
    assert!(published > 100, "{published}");
}

#[test]
fn there_is_a_record_for_the_baths_of_every_purpose() {
    let reference = reference();
    for purpose in Purpose::ALL {
        assert!(reference.bath(*purpose).is_some(), "{purpose}");
    }
    let used = reference
        .processes()
        .iter()
        .flat_map(|process| &process.steps)
        .filter(|step| step.bath.is_none() && step.work == Work::Fix);
    assert_eq!(used.count(), 0, "a fixing step uses a fixer");
}

proptest! {
    /// Whatever was done in whatever order the rules allow, a print can still be finished, and the
    /// step offered first leads there.
    #[test]
    fn no_allowed_order_of_steps_leads_into_a_dead_end(
        process in any::<prop::sample::Index>(),
        choices in prop::collection::vec(any::<prop::sample::Index>(), 0..40),
    ) {
        let reference = reference();
        let process = process.get(reference.processes());
        let mut done: Vec<&str> = Vec::new();
        for choice in choices {
            let next = process.next(&done);
            prop_assert!(!next.is_empty(), "{:?}", done);
            done.push(&choice.get(&next).id);
        }
        for _ in 0..process.steps.len() {
            if process.is_complete(&done) {
                break;
            }
            done.push(&process.next(&done)[0].id);
        }
        prop_assert!(process.is_complete(&done), "{:?}", done);
    }

    /// Also after steps logged against the order, following what is still to do finishes the print
    /// without a further override.
    #[test]
    fn no_override_leads_into_a_dead_end(
        process in any::<prop::sample::Index>(),
        choices in prop::collection::vec(any::<prop::sample::Index>(), 0..12),
    ) {
        let reference = reference();
        let process = process.get(reference.processes());
        let mut done: Vec<&str> = Vec::new();
        for choice in choices {
            done.push(&choice.get(&process.steps).id);
        }
        for _ in 0..2 * process.steps.len() {
            let Some(first) = process.next(&done).into_iter().next() else {
                break;
            };
            if process.is_complete(&done) {
                break;
            }
            done.push(&first.id);
        }
        prop_assert!(process.is_complete(&done), "{:?}", done);
    }

    /// A list of steps that was not checked on the way in still gets an answer.
    #[test]
    fn any_list_of_steps_gets_an_answer(
        done in prop::collection::vec("[a-z0-9-]{0,9}|coat|expose|wash|dry|fix-1|tone", 0..12),
        step in "[a-z0-9-]{0,9}|coat|expose|wash|dry|fix-1|tone",
    ) {
        let reference = reference();
        for process in reference.processes() {
            let offered = process.next(&done).iter().any(|one| one.id == step);
            prop_assert_eq!(offered, process.may_follow(&done, &step).is_ok());
        }
    }
}

#[test]
fn what_is_read_when_it_is_asked_for_is_what_is_read_at_once() {
    let whole = Reference::built_in().expect("the built-in reference");
    for process in whole.processes() {
        let on_demand = Reference::on_demand();
        let alone = on_demand.process(&process.id);
        assert_eq!(
            format!("{alone:?}"),
            format!("{:?}", Some(process)),
            "{}",
            process.id
        );
        assert!(on_demand.whole.get().is_none(), "only this one was read");
    }
    let on_demand = Reference::on_demand();
    assert!(on_demand.process("no such process").is_none());
    assert_eq!(
        format!("{:?}", on_demand.whole()),
        format!("{:?}", whole.whole())
    );
}
