//! Negatives: their densities in each light, what is wrong with them, their scans.

use super::*;
use crate::logbook::follows::Weight;
use crate::logbook::{Channel, Harm};
use crate::reference::Standing;

#[test]
fn each_light_keeps_its_own_densities_and_the_last_ones_count() {
    let mut room = Darkroom::with_negatives();
    for (channel, high) in [
        ("visual", "1.40"),
        ("ultraviolet", "1.85"),
        ("visual", "1.42"),
    ] {
        let typed = [
            ("sheet", "s1"),
            ("low", "0.30"),
            ("high", high),
            ("channel", channel),
            ("patches", "III 0.35, VII 1.21"),
        ];
        room.log(Kind::Measured, &typed);
    }
    let life = room.life("s1");
    let sheet = life.sheet().expect("a sheet");
    let read: Vec<(Option<Channel>, f64)> = sheet
        .measured
        .iter()
        .map(|one| (one.channel, one.high.value()))
        .collect();
    let wanted = [
        (Some(Channel::Ultraviolet), 1.85),
        (Some(Channel::Visual), 1.42),
    ];
    assert_eq!(read, wanted);
    assert_eq!(sheet.densities.map(|one| one.high.value()), Some(1.42));
    let beside = room.follows(
        Kind::Measured,
        &[("sheet", "s1"), ("patches", "III 0.35, VII 1.21")],
    );
    let before = beside.iter().filter(|line| line.label == "before").count();
    assert_eq!(before, 2);
    // Four zones of 0.301 each bring 0.86.
    let gradient = beside.iter().find(|line| line.label == "gradient");
    let said = gradient.map(|line| line.value.as_str());
    assert_eq!(said, Some("III to VII: 0.86 / (4 x 0.301) = 0.71"));
}

#[test]
fn a_stained_negative_is_to_be_read_in_the_light_it_is_printed_with() {
    let mut room = Darkroom::with_a_shelf();
    let pyro = [("name", "Pyrocat-HD"), ("purpose", "developer")];
    room.log(Kind::BathMixed, &pyro);
    room.log(Kind::Loaded, &[("side", "h1a"), ("film_box", "f1")]);
    room.log(Kind::Exposed, &[("side", "h1a")]);
    room.log(Kind::RunBegun, &[("sheets", "s1"), ("developer", "b3")]);
    room.log(Kind::RunEnded, &[("run", "r1")]);
    let warned = |channel| {
        let lines = room.follows(Kind::Measured, &[("sheet", "s1"), ("channel", channel)]);
        lines
            .iter()
            .any(|line| line.weight == Weight::Warning && line.value.contains("stains"))
    };
    assert!(warned(""));
    assert!(warned("visual"));
    assert!(!warned("ultraviolet"));
}

#[test]
fn a_fault_is_called_by_its_name_with_its_causes_beside_it() {
    let mut room = Darkroom::with_negatives();
    let lines = room.follows(Kind::FaultSeen, &[("sheet", "s1"), ("fault", "bubbles")]);
    let looks = lines.iter().find(|line| line.label == "looks");
    assert_eq!(
        looks.and_then(|line| line.standing),
        Some(Standing::Published)
    );
    assert!(lines.iter().any(|line| line.label == "may be"));
    let said = |label: &str| {
        lines
            .iter()
            .find(|line| line.label == label)
            .map(|line| line.value.as_str())
    };
    assert_eq!(said("it was in"), Some("H-01 A"));
    assert_eq!(said("developed in"), Some("R-0001"));
    room.log(
        Kind::FaultSeen,
        &[
            ("sheet", "s1"),
            ("fault", "bubbles"),
            ("place", "in the sky"),
            ("harm", "can"),
        ],
    );
    room.log(
        Kind::FaultSeen,
        &[("sheet", "s1"), ("fault", "a hair of the cat")],
    );
    let life = room.life("s1");
    let faults = &life.sheet().expect("a sheet").faults;
    assert_eq!(faults[0].fault, "air bells");
    assert_eq!(faults[0].harm, Some(Harm::Mends));
    assert_eq!(faults[1].fault, "a hair of the cat", "an own word is kept");
}

#[test]
fn a_negative_that_is_seen_to_be_fogged_is_fogged_and_is_not_printed() {
    let mut room = Darkroom::with_negatives();
    let why = [("sheet", "s1"), ("reason", "the lamp of the hall came in")];
    room.log(Kind::Fogged, &why);
    assert_eq!(room.state("s1"), "fogged");
    room.log(Kind::FaultSeen, &[("sheet", "s1"), ("fault", "fog")]);
    let print = [("negatives", "s1"), ("process", "cyanotype")];
    assert!(room.refusal(Kind::PrintBegun, &print).can_be_overridden());
}

#[test]
fn a_scan_is_kept_with_its_path_until_another_is_made() {
    let mut room = Darkroom::with_negatives();
    let filed = [
        ("sheet", "s1"),
        ("file_place", "binder 1"),
        ("scan", "scans/a.tif"),
    ];
    room.log(Kind::Filed, &filed);
    room.log(
        Kind::Scanned,
        &[
            ("sheet", "s1"),
            ("scan", "scans/b.tif"),
            ("resolution", "2400"),
        ],
    );
    room.log(Kind::Filed, &[("sheet", "s1"), ("file_place", "binder 2")]);
    let life = room.life("s1");
    assert_eq!(
        life.sheet().expect("a sheet").scan.as_deref(),
        Some("scans/b.tif")
    );
}
