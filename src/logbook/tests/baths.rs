//! Baths: the area that went through them, their age, and what is refused when they are worn.

use super::*;
use crate::craft::Area;
use crate::logbook::life::{BathLife, Happening};

/// Two sheets of 8x10 and four of 4x5, all exposed.
fn exposed() -> Darkroom {
    let mut room = Darkroom::with_a_shelf();
    room.log(Kind::HolderAdded, &[("size", "4x5"), ("sides", "4")]);
    for (side, film_box) in [
        ("h1a", "f1"),
        ("h1b", "f1"),
        ("h4 1", "f2"),
        ("h4 2", "f2"),
        ("h4 3", "f2"),
        ("h4 4", "f2"),
    ] {
        room.log(Kind::Loaded, &[("side", side), ("film_box", film_box)]);
        room.log(Kind::Exposed, &[("side", side)]);
    }
    room
}

fn bath(room: &Darkroom, reference: &str) -> BathLife {
    room.life(reference).bath().expect("a bath").clone()
}

fn mixed(room: &mut Darkroom, typed: &[(&str, &str)]) {
    let mut all = vec![("name", "soft"), ("purpose", "developer")];
    all.extend_from_slice(typed);
    room.log(Kind::BathMixed, &all);
}

#[test]
fn what_goes_through_a_bath_is_added_up_by_area() {
    let mut room = exposed();
    mixed(&mut room, &[("capacity", "6 4x5")]);
    room.log(Kind::RunBegun, &[("sheets", "s1"), ("developer", "b3")]);
    let one = bath(&room, "b3");
    assert_eq!((one.uses, one.area), (1, Area::parse("1 of 8x10").unwrap()));
    assert_eq!(one.wear().left().as_deref(), Some("2 of 6 4x5 in left"));
    room.log(Kind::RunBegun, &[("sheets", "s3 s4"), ("developer", "b3")]);
    assert_eq!(bath(&room, "b3").area.value(), 120.0);
    assert!(bath(&room, "b3").wear().is_exhausted());
    assert!(!room.life("b3").possible().contains(&Kind::RunBegun));
    let more = [("sheets", "s5"), ("developer", "b3")];
    let refusal = room.refusal(Kind::RunBegun, &more).to_string();
    assert!(
        refusal.starts_with("B-0003 is good for 6 of 4x5 in and has had 6, so that 1 more"),
        "{refusal}"
    );
}

#[test]
fn a_large_sheet_is_refused_where_a_small_one_still_goes() {
    let mut room = exposed();
    mixed(&mut room, &[("capacity", "100 sq in")]);
    room.log(Kind::RunBegun, &[("sheets", "s1"), ("developer", "b3")]);
    let large = [("sheets", "s2"), ("developer", "b3")];
    let refusal = room.refusal(Kind::RunBegun, &large);
    assert!(refusal.can_be_overridden());
    assert!(refusal.to_string().contains("80 sq in more"), "{refusal}");
    room.log(Kind::RunBegun, &[("sheets", "s3"), ("developer", "b3")]);
}

#[test]
fn the_area_follows_when_the_sheets_of_a_run_are_amended() {
    let mut room = exposed();
    mixed(&mut room, &[]);
    let run = room.log(Kind::RunBegun, &[("sheets", "s1 s3"), ("developer", "b3")]);
    assert_eq!(bath(&room, "b3").area.value(), 100.0);
    room.amend(run, &[("sheets", "s3 s4")]);
    assert_eq!(bath(&room, "b3").area.value(), 40.0);
    room.amend(run, &[("time", "9 min")]);
    assert_eq!(bath(&room, "b3").area.value(), 40.0);
}

#[test]
fn an_entry_without_an_area_counts_by_sheets_as_before() {
    let mut room = exposed();
    mixed(&mut room, &[("capacity", "3 8x10")]);
    let typed = [("sheets", "s3 s4"), ("developer", "b3")];
    let drafted = room.read(Kind::RunBegun, &typed).expect("it can be read");
    let entry = room.entry(drafted);
    let mut life = room.life("b3");
    let happening = Happening {
        entry: entry.id,
        deed: &entry.deed,
        happened: entry.happened,
        order: entry.order_at(entry.happened),
        over: None,
    };
    // Nothing completed it, so it is as an older version wrote it.
    life.step(&happening, &room.reference).expect("it fits");
    let left = life.bath().expect("a bath").wear().left();
    assert_eq!(left.as_deref(), Some("1 of 3 8x10 in left"));
    let refused = life.step(&happening, &room.reference);
    assert!(refused.is_err(), "two more are too many");
}

#[test]
fn a_print_goes_through_a_bath_with_the_size_of_its_paper() {
    let mut room = Darkroom::with_negatives();
    room.log(
        Kind::PaperAdded,
        &[("name", "Plain Rag"), ("size", "11x14"), ("sheets", "9")],
    );
    mixed(
        &mut room,
        &[("purpose", "clearing"), ("capacity", "2 11x14")],
    );
    for size in ["", "8x10"] {
        let begun = [
            ("negatives", "s1"),
            ("process", "cyanotype"),
            ("paper", "q1"),
            ("size", size),
        ];
        room.log(Kind::PrintBegun, &begun);
    }
    for (print, area) in [("p1", 154.0), ("p2", 234.0)] {
        let typed = [
            ("print", print),
            ("step", "develop"),
            ("baths", "b3"),
            ("over", "a trial"),
        ];
        room.log(Kind::PrintStep, &typed);
        assert_eq!(bath(&room, "b3").area.value(), area);
    }
}

#[test]
fn a_bath_past_its_keeping_is_refused_with_its_last_day() {
    let mut room = exposed();
    mixed(&mut room, &[("keeps", "2 days")]);
    mixed(&mut room, &[("keeps", "2026-03-01"), ("stock", "")]);
    let typed = [("sheets", "s1"), ("developer", "b4")];
    let refusal = room.refusal(Kind::RunBegun, &typed);
    let says = "B-0004 was good until 1 Mar 2026 and not longer";
    assert!(refusal.to_string().starts_with(says), "{refusal}");
    assert!(refusal.can_be_overridden());
    let drawn = [
        ("name", "working"),
        ("purpose", "developer"),
        ("stock", "b4"),
    ];
    assert!(
        room.refusal(Kind::BathMixed, &drawn)
            .to_string()
            .starts_with(says)
    );
    room.now += TimeDelta::days(2);
    room.log(Kind::RunBegun, &[("sheets", "s1"), ("developer", "b3")]);
    room.now += TimeDelta::days(1);
    let typed = [("sheets", "s2"), ("developer", "b3")];
    assert!(
        room.refusal(Kind::RunBegun, &typed)
            .to_string()
            .contains("6 Mar 2026")
    );
    let over = [
        typed[0],
        typed[1],
        ("over", "the test strip was as dense as ever"),
    ];
    room.log(Kind::RunBegun, &over);
    assert_eq!(room.life("b3").overrides, 1);
}

#[test]
fn a_run_that_takes_more_stock_than_the_developer_holds_is_refused_with_the_numbers() {
    let mut room = exposed();
    let weak = [
        ("volume", "800 ml"),
        ("dilution", "1+3"),
        ("least", "250 ml"),
    ];
    mixed(&mut room, &weak);
    let two = [("sheets", "s1 s3"), ("developer", "b3")];
    let refusal = room.refusal(Kind::RunBegun, &two).to_string();
    assert!(
        refusal
            .starts_with("B-0003 holds 200 ml of stock, and so much film takes at least 312.5 ml"),
        "{refusal}"
    );
    room.log(
        Kind::RunBegun,
        &[("sheets", "s3 s4 s5"), ("developer", "b3")],
    );
    // As a fixer its stock is no matter.
    room.log(Kind::RunBegun, &[("sheets", "s1 s2"), ("fixer", "b3")]);
}

#[test]
fn replenishing_begins_to_count_anew_and_keeps_the_total() {
    let mut room = exposed();
    mixed(&mut room, &[("capacity", "2")]);
    room.log(Kind::RunBegun, &[("sheets", "s1 s2"), ("developer", "b3")]);
    room.log(
        Kind::BathReplenished,
        &[("bath", "b3"), ("volume", "70 ml")],
    );
    room.log(Kind::RunBegun, &[("sheets", "s3"), ("developer", "b3")]);
    let life = bath(&room, "b3");
    assert_eq!((life.uses, life.total_uses), (1, 3));
    assert_eq!((life.area.value(), life.total_area.value()), (20.0, 180.0));
}

#[test]
fn beside_the_pane_it_is_warned_before_it_is_refused() {
    let mut room = exposed();
    mixed(&mut room, &[("capacity", "5 4x5"), ("keeps", "1 day")]);
    room.log(Kind::RunBegun, &[("sheets", "s1"), ("developer", "b3")]);
    let lines = room.follows(Kind::RunBegun, &[("sheets", "s3 s4"), ("developer", "b3")]);
    let says = |words: &str| {
        let found = lines.iter().find(|line| line.value.contains(words));
        assert!(found.is_some(), "{words}: {lines:#?}");
    };
    says("1 of 5 4x5 in left");
    says("B-0003: nearly exhausted, 4 of 5 4x5 in");
    says("B-0003: too much for it, 6 of 5 4x5 in after this");
    says("B-0003: keeps 2 days more");
}

#[test]
fn the_least_stock_of_a_known_developer_is_told_of_where_none_was_logged() {
    let mut room = exposed();
    mixed(&mut room, &[("name", "D-76"), ("volume", "250 ml")]);
    let lines = room.follows(Kind::RunBegun, &[("sheets", "s1 s2"), ("developer", "b3")]);
    let warned = lines
        .iter()
        .find(|line| line.value.contains("at least 500 ml of D-76"));
    let warned = warned.unwrap_or_else(|| panic!("{lines:#?}"));
    assert_eq!(
        warned.standing,
        Some(crate::reference::Standing::Remembered)
    );
}

fn fixers(room: &mut Darkroom, behind: &str) {
    let typed = [
        ("name", "rapid fixer"),
        ("purpose", "fixer"),
        ("volume", "1 l"),
        ("capacity", "20 8x10"),
        ("behind", behind),
    ];
    room.log(Kind::BathMixed, &typed);
}

#[test]
fn a_part_that_is_poured_off_takes_its_share_and_its_age_with_it() {
    let mut room = exposed();
    fixers(&mut room, "");
    room.log(Kind::RunBegun, &[("sheets", "s1 s3 s4"), ("fixer", "b3")]);
    room.log(Kind::BathSplit, &[("bath", "b3"), ("volume", "400 ml")]);
    let (rest, part) = (bath(&room, "b3"), bath(&room, "b4"));
    assert_eq!(part.area.and(rest.area).value(), 120.0);
    assert_eq!(part.area.value(), 48.0);
    assert_eq!((part.uses, rest.uses), (1, 2));
    assert_eq!(part.mixed, rest.mixed);
    let left = |one: &BathLife| one.wear().left();
    assert_eq!(left(&part).as_deref(), Some("7.4 of 8 8x10 in left"));
    assert_eq!(left(&rest).as_deref(), Some("11.1 of 12 8x10 in left"));
    assert_eq!(
        rest.volume.map(|it| it.to_string()).as_deref(),
        Some("600 ml")
    );
    assert_eq!((room.state("b3"), room.state("b4")), ("in use", "in use"));
    let much = [("bath", "b3"), ("volume", "600 ml")];
    let refusal = room.refusal(Kind::BathSplit, &much);
    assert!(!refusal.can_be_overridden());
    assert!(
        refusal
            .to_string()
            .starts_with("B-0003 holds 600 ml, so that 600 ml"),
        "{refusal}"
    );
    let unknown = [("bath", "b2"), ("volume", "100 ml")];
    let refusal = room.refusal(Kind::BathSplit, &unknown).to_string();
    assert!(
        refusal.starts_with("how much there is of B-0002 is not"),
        "{refusal}"
    );
}

#[test]
fn a_fixer_in_which_film_clears_twice_as_slowly_is_refused() {
    let mut room = exposed();
    fixers(&mut room, "");
    let test = |room: &mut Darkroom, time: &str, film: &str| {
        room.log(
            Kind::ClearingTested,
            &[("bath", "b3"), ("time", time), ("film", film)],
        );
    };
    test(&mut room, "30 s", "FP4 Plus");
    test(&mut room, "46 s", "fp4 plus");
    // A film that was not timed when it was fresh says nothing.
    room.log(Kind::RunBegun, &[("sheets", "s1"), ("fixer", "b3")]);
    test(&mut room, "3 min", "T-Max 100");
    let lines = room.follows(Kind::RunBegun, &[("sheets", "s2"), ("fixer", "b3")]);
    assert!(
        lines
            .iter()
            .any(|line| line.value.contains("it nears its end")),
        "{lines:#?}"
    );
    room.log(Kind::RunBegun, &[("sheets", "s2"), ("fixer", "b3")]);
    test(&mut room, "60 s", "FP4 Plus");
    let more = [("sheets", "s3"), ("fixer", "b3")];
    let refusal = room.refusal(Kind::RunBegun, &more);
    assert!(
        refusal
            .to_string()
            .starts_with("film took 30 s to clear in B-0003 when it was fresh and takes 1 min now"),
        "{refusal}"
    );
    assert!(refusal.can_be_overridden());
    assert!(!room.life("b3").possible().contains(&Kind::RunBegun));
}

#[test]
fn two_fixing_baths_are_changed_three_times_and_then_thrown_away() {
    let mut room = exposed();
    fixers(&mut room, "");
    fixers(&mut room, "b3");
    for change in 1..=3 {
        let (first, second, next) = (change + 2, change + 3, change + 4);
        let lines = room.follows(Kind::BathsRotated, &[("first", &format!("b{first}"))]);
        assert!(
            lines.iter().any(|line| line.label == "two baths"),
            "{lines:#?}"
        );
        fixers(&mut room, "");
        let typed = [("first", format!("b{first}")), ("next", format!("b{next}"))];
        let typed = typed.each_ref().map(|(key, text)| (*key, text.as_str()));
        room.log(Kind::BathsRotated, &typed);
        assert_eq!(room.state(&format!("b{first}")), "thrown away");
        let now = bath(&room, &format!("b{second}"));
        assert_eq!((now.first, now.changes), (None, change));
        assert_eq!(now.second, Some(room.life(&format!("b{next}")).thing.id));
        assert!(bath(&room, &format!("b{next}")).first.is_some());
    }
    let refusal = room.refusal(Kind::BathsRotated, &[("first", "b6")]);
    assert!(
        refusal
            .to_string()
            .starts_with("B-0006 and its second have been changed 3 times"),
        "{refusal}"
    );
    assert!(refusal.can_be_overridden());
    let alone = room.refusal(Kind::BathsRotated, &[("first", "b2")]);
    assert!(
        alone
            .to_string()
            .starts_with("no second bath stands behind B-0002"),
        "{alone}"
    );
    assert!(!alone.can_be_overridden());
}

#[test]
fn what_is_taken_out_for_a_replenisher_is_taken_from_the_volume() {
    let mut room = exposed();
    fixers(&mut room, "");
    let typed = [("bath", "b3"), ("volume", "150 ml"), ("bleed", "100 ml")];
    room.log(Kind::BathReplenished, &typed);
    let volume = |room: &Darkroom| bath(room, "b3").volume.map(|it| it.value());
    assert_eq!(volume(&room), Some(1050.0));
    room.log(
        Kind::BathReplenished,
        &[("bath", "b3"), ("volume", "70 ml")],
    );
    assert_eq!(volume(&room), Some(1050.0), "the level was restored");
    let much = [("bath", "b3"), ("bleed", "2 l")];
    assert!(
        room.refusal(Kind::BathReplenished, &much)
            .to_string()
            .contains("cannot be poured off")
    );
}

#[test]
fn beside_the_mixing_stand_the_cautions_then_the_weighing_in_its_order() {
    let room = Darkroom::new();
    let typed = [
        ("name", "D-72"),
        ("purpose", "developer"),
        ("formula", "D-72"),
        ("volume", "500 ml"),
        ("have", "carbonate monohydrate"),
    ];
    let lines = room.follows(Kind::BathMixed, &typed);
    let at = |label: &str| {
        let found = lines.iter().position(|line| line.label == label);
        found.unwrap_or_else(|| panic!("{label}: {lines:#?}"))
    };
    assert!(at("Powders") < at("begin with water"));
    assert!(at("begin with water") < at("as warm as"));
    assert!(at("as warm as") < at("metol"));
    assert!(at("metol") < at("sodium sulfite, anhydrous"));
    let carbonate = &lines[at("sodium carbonate, monohydrate")];
    assert_eq!(carbonate.value, "39.49 g");
    assert_eq!(lines[at("made up to")].value, "500 ml");
}

#[test]
fn a_concentrate_is_thinned_and_what_is_told_of_a_fixer_is_shown_and_offered() {
    let room = Darkroom::new();
    let typed = [
        ("name", "rapid fixer"),
        ("purpose", "fixer"),
        ("dilution", "1+4"),
        ("volume", "1 l"),
    ];
    let lines = room.follows(Kind::BathMixed, &typed);
    assert!(
        lines.iter().any(|line| line.value == "200 ml"),
        "{lines:#?}"
    );
    let told = lines
        .iter()
        .find(|line| line.label.starts_with("keeping, working strength"));
    let told = told.unwrap_or_else(|| panic!("{lines:#?}"));
    assert_eq!(told.standing, Some(crate::reference::Standing::Published));
    let mut ids = Uuid::nil;
    let desk = room.desk(&mut ids);
    let draft = draft(Kind::BathMixed, &typed);
    let offered = |key: &str| crate::logbook::follows::offers(key, &draft, &desk);
    let acid = (
        "20 8x10".to_owned(),
        "acid, unknown maker (published)".to_owned(),
    );
    assert!(
        offered("capacity").contains(&acid),
        "{:?}",
        offered("capacity")
    );
    assert!(offered("keeps").iter().any(|(text, _)| text == "60 days"));
    assert_eq!(offered("formula")[0].1, "fixer (remembered)");
    let drafted = draft
        .read(&mut room.desk(&mut Uuid::nil))
        .expect("it can be read");
    let Deed::BathMixed(mixed) = drafted.deed else {
        panic!("another deed");
    };
    assert_eq!(
        (mixed.capacity, mixed.keeps),
        (None, None),
        "nothing is taken by itself"
    );
}
