//! Exposures: one to a sheet unless said otherwise, with tools that are there.

use super::*;
use crate::logbook::follows::what_follows;
use crate::logbook::reckoning::{Outcome, reckoned};

fn loaded() -> Darkroom {
    let mut room = Darkroom::with_a_shelf();
    room.at("16:00");
    room.log(Kind::Loaded, &[("side", "h1b"), ("film_box", "f1")]);
    room
}

#[test]
fn a_second_exposure_has_to_be_meant() {
    let mut room = loaded();
    room.at("16:02");
    room.log(Kind::Exposed, &[("side", "h1b")]);
    let refusal = room.refusal(Kind::Exposed, &[("side", "h1b")]);
    let said = "H-01 B was already exposed on 4 Mar 2026 at 16:02";
    assert!(refusal.to_string().starts_with(said), "{refusal}");
    assert!(refusal.can_be_overridden());
    room.log(Kind::Exposed, &[("side", "h1b"), ("again", "yes")]);
    let sheet = room.life("s1").sheet().cloned().expect("a sheet");
    assert_eq!(sheet.exposures.len(), 2);
    assert_eq!(room.life("s1").overrides, 0, "it was meant");
    let since = room.life("h1b").side().and_then(|side| side.exposed);
    assert_eq!(
        since,
        Some(sheet.exposures[0].at),
        "waiting since the first"
    );
}

#[test]
fn a_second_exposure_by_mistake_is_kept_with_its_reason() {
    let mut room = loaded();
    room.log(Kind::Exposed, &[("side", "h1b")]);
    room.log(
        Kind::Exposed,
        &[("side", "h1b"), ("over", "the slide was not turned")],
    );
    assert_eq!(room.life("h1b").overrides, 1);
    let last = room
        .ledger
        .entries
        .last()
        .and_then(|entry| entry.over.clone());
    assert_eq!(last.as_deref(), Some("the slide was not turned"));
}

#[test]
fn an_exposure_says_the_sheet_that_is_in_the_side() {
    let mut room = loaded();
    room.log(Kind::Exposed, &[("side", "h1b")]);
    let Some(Deed::Exposed(exposed)) = room.ledger.entries.last().map(|entry| entry.deed.clone())
    else {
        panic!("another deed");
    };
    assert_eq!(exposed.sheet, Some(room.life("s1").thing.id));
}

#[test]
fn nothing_is_exposed_with_a_lens_out_of_use_without_a_reason() {
    let mut room = loaded();
    room.log(
        Kind::Retired,
        &[("thing", "l1"), ("reason", "shutter stuck")],
    );
    let typed = [("side", "h1b"), ("lens", "l1")];
    let refusal = room.refusal(Kind::Exposed, &typed);
    assert!(
        refusal
            .to_string()
            .starts_with("L-01 has been out of use since"),
        "{refusal}"
    );
    assert_eq!(room.state("h1b"), "loaded", "nothing of it counts");
    room.log(
        Kind::Exposed,
        &[
            ("side", "h1b"),
            ("lens", "l1"),
            ("over", "cap used as shutter"),
        ],
    );
    assert_eq!(room.state("l1"), "out of use");
    assert_eq!(room.life("l1").lens().expect("a lens").exposures, 1);
    assert_eq!(room.life("l1").overrides, 1);
    assert_eq!(
        room.life("h1b").overrides,
        0,
        "the side had nothing against it"
    );
}

#[test]
fn a_lens_that_came_later_is_amended_to_have_come_earlier() {
    let mut room = loaded();
    room.at("18:00");
    let came = room.log(Kind::LensAdded, &[("name", "300 mm")]);
    let late = [("side", "h1b"), ("lens", "l2"), ("happened", "17:00")];
    let refusal = room.refusal(Kind::Exposed, &late);
    assert!(
        refusal
            .to_string()
            .contains("it came in on 4 Mar 2026 at 18:00"),
        "{refusal}"
    );
    room.amend(came, &[("happened", "09:00")]);
    room.log(Kind::Exposed, &late);
    assert_eq!(room.life("l2").lens().expect("a lens").exposures, 1);
}

#[test]
fn an_exposure_is_made_on_a_sheet() {
    let mut room = loaded();
    let nothing = room.write_deed(Deed::Exposed(crate::logbook::Exposed::default()));
    assert!(matches!(nothing, Err(Refusal::Nonsense(_))), "{nothing:?}");
    let refusal = room.refusal(Kind::Exposed, &[("side", "h1a")]);
    assert!(
        refusal
            .to_string()
            .starts_with("H-01 A has been empty since"),
        "{refusal}"
    );
    assert!(!refusal.can_be_overridden());
}

#[test]
fn a_sheet_loaded_once_more_after_its_exposure_is_still_exposed() {
    let mut room = loaded();
    room.log(Kind::Exposed, &[("side", "h1b")]);
    room.log(Kind::Unloaded, &[("side", "h1b")]);
    let again = [("side", "h2a"), ("film_box", "f1"), ("sheet", "s1")];
    room.refusal(Kind::Loaded, &again);
    let mut meant = again.to_vec();
    meant.push(("over", "for a second exposure of the moon"));
    room.log(Kind::Loaded, &meant);
    assert_eq!(room.state("s1"), "exposed");
    let left = room.life("f1").film_box().expect("a box").left;
    room.log(Kind::Unloaded, &[("side", "h2a")]);
    assert_eq!(
        room.state("s1"),
        "held exposed",
        "it is not among unexposed film"
    );
    assert_eq!(room.life("f1").film_box().expect("a box").left, left);
}

#[test]
fn a_sheet_is_loaded_again_from_the_box_it_went_back_to() {
    let mut room = loaded();
    room.log(
        Kind::BoxAdded,
        &[("film", "HP5 Plus"), ("size", "8x10"), ("sheets", "5")],
    );
    room.log(Kind::Unloaded, &[("side", "h1b")]);
    let wrong = [("side", "h1b"), ("film_box", "f3"), ("sheet", "s1")];
    let refusal = room.refusal(Kind::Loaded, &wrong);
    assert!(
        refusal
            .to_string()
            .starts_with("S-0001 went back into F-01"),
        "{refusal}"
    );
    room.log(
        Kind::Loaded,
        &[("side", "h1b"), ("film_box", "f1"), ("sheet", "s1")],
    );
    assert_eq!(room.sheet_in("h1b").as_deref(), Some("S-0001"));
}

#[test]
fn what_stands_beside_an_exposure_is_the_reckoning_that_was_handed_in_and_no_second_one() {
    let room = loaded();
    let draft = |aperture: &str| {
        let mut draft = Draft::new(Kind::Exposed);
        for (key, text) in [("side", "h1b"), ("readings", "V 10"), ("speed", "100")] {
            draft.set(key, text);
        }
        draft.set("aperture", aperture);
        draft
    };
    let mut no_ids = Uuid::nil;
    let desk = room.desk(&mut no_ids);
    let given = |reckoned: &Outcome| {
        let lines = what_follows(&draft("f/16"), &desk, None, reckoned);
        let mut given = lines.into_iter().filter(|line| line.label == "give");
        given.next().map(|line| line.value)
    };
    let other = reckoned(&draft("f/8"), &desk);
    assert_eq!(given(&other).as_deref(), Some("1/15 s  f/8"));
    assert_eq!(given(&Ok(None)), None);
}
