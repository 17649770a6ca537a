//! Prints: the steps of their process, their finish, and where they are.

use super::*;

/// P-0001, a cyanotype of S-0001, washed and dry.
fn dry() -> Darkroom {
    let mut room = Darkroom::with_negatives();
    room.log(
        Kind::PrintBegun,
        &[("negatives", "s1"), ("process", "cyanotype")],
    );
    for step in ["coat", "dry-coating", "expose", "develop", "wash", "dry"] {
        assert_eq!(room.state("p1"), "in process", "before {step}");
        room.log(Kind::PrintStep, &[("print", "p1"), ("step", step)]);
    }
    assert_eq!(room.state("p1"), "dry");
    room
}

fn do_it(room: &mut Darkroom, kinds: &[Kind]) {
    for kind in kinds {
        let more: &[(&str, &str)] = match kind {
            Kind::Mounted => &[("board", "4-ply")],
            Kind::Matted => &[("outer", "16x20"), ("window", "8x10")],
            Kind::Framed => &[("frame", "ash")],
            _ => &[],
        };
        let typed: Vec<(&str, &str)> = [("print", "p1")].iter().chain(more).copied().collect();
        room.log(*kind, &typed);
    }
}

#[test]
fn a_dry_print_that_is_toned_has_to_be_washed_and_dried_again() {
    let mut room = dry();
    room.log(Kind::Pressed, &[("print", "p1")]);
    room.log(Kind::PrintStep, &[("print", "p1"), ("step", "spot")]);
    assert_eq!(room.state("p1"), "pressed", "spotting leaves it as it is");
    room.log(Kind::PrintStep, &[("print", "p1"), ("step", "tone")]);
    assert_eq!(room.state("p1"), "in process");
    room.refusal(Kind::Pressed, &[("print", "p1")]);
    for step in ["wash", "dry"] {
        room.log(Kind::PrintStep, &[("print", "p1"), ("step", step)]);
    }
    assert_eq!(room.state("p1"), "dry");
}

#[test]
fn a_mounted_print_is_spotted_and_goes_into_no_bath() {
    let mut room = dry();
    do_it(&mut room, &[Kind::Mounted]);
    room.log(Kind::PrintStep, &[("print", "p1"), ("step", "spot")]);
    assert_eq!(room.state("p1"), "mounted");
    let life = room.life("p1");
    let print = life.print().expect("a print");
    let process = room.reference.process(&print.process).expect("built in");
    let next: Vec<&str> = print
        .next_steps(process)
        .iter()
        .map(|step| step.id.as_str())
        .collect();
    assert_eq!(next, ["spot"]);
    let refusal = room.refusal(Kind::PrintStep, &[("print", "p1"), ("step", "tone")]);
    assert!(
        refusal
            .to_string()
            .starts_with("P-0001 has been mounted since"),
        "{refusal}"
    );
}

#[test]
fn a_print_comes_out_of_its_frame_as_it_went_in() {
    for finish in [
        &[Kind::Matted][..],
        &[Kind::Mounted],
        &[Kind::Mounted, Kind::Matted],
    ] {
        let mut room = dry();
        do_it(&mut room, finish);
        let before = room.state("p1");
        do_it(&mut room, &[Kind::Framed, Kind::Unframed]);
        assert_eq!(room.state("p1"), before, "{finish:?}");
    }
}

#[test]
fn a_print_that_is_away_is_left_alone_until_it_comes_back() {
    let mut room = dry();
    let refusal = room.refusal(
        Kind::Placed,
        &[("print", "p1"), ("whereabouts", "returned")],
    );
    assert!(!refusal.can_be_overridden(), "{refusal}");
    room.log(
        Kind::Placed,
        &[
            ("print", "p1"),
            ("whereabouts", "lent"),
            ("place", "town hall"),
        ],
    );
    let refusal = room.refusal(Kind::Pressed, &[("print", "p1")]);
    assert!(
        refusal.to_string().contains("(lent, town hall)"),
        "{refusal}"
    );
    room.log(
        Kind::Placed,
        &[("print", "p1"), ("whereabouts", "returned")],
    );
    room.log(Kind::Pressed, &[("print", "p1")]);
}

#[test]
fn a_reason_for_a_print_that_is_away_leads_where_the_table_leads() {
    let mut room = dry();
    do_it(&mut room, &[Kind::Mounted]);
    room.log(Kind::Placed, &[("print", "p1"), ("whereabouts", "lent")]);
    room.log(
        Kind::Pressed,
        &[("print", "p1"), ("over", "flattened at the borrower's")],
    );
    assert_eq!(
        room.state("p1"),
        "mounted",
        "pressing leaves a mounted print mounted"
    );
}

#[test]
fn a_step_out_of_its_order_says_what_comes_first_and_yields_to_a_reason() {
    let mut room = Darkroom::with_negatives();
    room.log(
        Kind::PrintBegun,
        &[("negatives", "s1"), ("process", "cyanotype")],
    );
    let refusal = room.refusal(Kind::PrintStep, &[("print", "p1"), ("step", "expose")]);
    assert!(
        refusal.to_string().contains("log \"coat\" first"),
        "{refusal}"
    );
    room.log(Kind::PrintStep, &[("print", "p1"), ("step", "coat")]);
    room.log(
        Kind::PrintStep,
        &[
            ("print", "p1"),
            ("step", "expose"),
            ("over", "printed while damp"),
        ],
    );
    assert_eq!(room.life("p1").overrides, 1);
    assert_eq!(
        room.life("p1").print().expect("a print").done(),
        ["coat", "expose"]
    );
}

#[test]
fn a_print_has_a_negative_and_its_paper() {
    let mut room = Darkroom::with_negatives();
    let none = room.problem(
        Kind::PrintBegun,
        &[("negatives", ","), ("process", "cyanotype")],
    );
    assert_eq!(
        none,
        "negatives: a print is made from a negative: name the sheet"
    );
    room.log(
        Kind::PaperAdded,
        &[("name", "Plain Rag"), ("size", "11x14"), ("sheets", "1")],
    );
    let typed = [
        ("negatives", "s1 s2"),
        ("process", "cyanotype"),
        ("paper", "q1"),
    ];
    room.log(Kind::PrintBegun, &typed);
    assert!(!room.life("q1").possible().contains(&Kind::PrintBegun));
    room.refusal(Kind::PrintBegun, &typed);
    let drafted = room.read(Kind::PrintBegun, &typed[..2]);
    let mut drafted = drafted.expect("it can be read");
    if let Deed::PrintBegun(begun) = &mut drafted.deed {
        begun.paper_sheets = 0;
    }
    assert!(matches!(
        room.write(vec![drafted.clone()]),
        Err(Refusal::Nonsense(_))
    ));
    if let Deed::PrintBegun(begun) = &mut drafted.deed {
        begun.paper_sheets = 1;
        begun.negatives.push(begun.negatives[0]);
    }
    assert!(matches!(
        room.write(vec![drafted]),
        Err(Refusal::Nonsense(_))
    ));
}

#[test]
fn figures_that_contradict_each_other_are_told_beside_their_field() {
    let mut room = dry();
    let turned = room.problem(
        Kind::Measured,
        &[("sheet", "s1"), ("low", "1.86"), ("high", "0.31")],
    );
    assert!(
        turned.starts_with("high: the densest is not denser"),
        "{turned}"
    );
    let mat = room.problem(
        Kind::Matted,
        &[("print", "p1"), ("outer", "8x10"), ("window", "11x14")],
    );
    assert!(
        mat.starts_with("window: the window is not smaller"),
        "{mat}"
    );
}

#[test]
fn companions_are_linked_once() {
    let mut room = Darkroom::with_negatives();
    let pair = [("sheets", "s1 s2"), ("bond", "development")];
    room.log(Kind::Companions, &pair);
    assert!(!room.life("s1").possible().contains(&Kind::Companions));
    let refusal = room.refusal(Kind::Companions, &pair);
    let said = "S-0001 is linked with its companions in G-0001 already";
    assert!(refusal.to_string().starts_with(said), "{refusal}");
    room.log(
        Kind::Companions,
        &[
            ("sheets", "s1 s2"),
            ("bond", "effect"),
            ("over", "that too"),
        ],
    );
    let newest = room.ledger.thing(ThingKind::Set, "G-0002");
    assert_eq!(room.life("s1").sheet().expect("a sheet").set, newest);
    let alone = room.problem(Kind::Companions, &[("sheets", "s1"), ("bond", "spare")]);
    assert!(
        alone.starts_with("sheets: companions are two sheets or more"),
        "{alone}"
    );
}
