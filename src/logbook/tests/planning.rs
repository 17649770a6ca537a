//! Planning: which sheets can go together, in how many runs, and what they take of the shelf.

use super::*;
use crate::craft::Grounds;
use crate::figures;
use crate::logbook::OwnKit;
use crate::logbook::planning::{Bath, Group, Plan, Sheet, Wanted, developer_of, plan};

impl Darkroom {
    /// A box of 4x5 and holders for it, with as many exposed sheets as there are wishes.
    fn with_exposed(film: &str, wishes: &[&str]) -> Darkroom {
        let mut room = Darkroom::new();
        room.expose(film, wishes);
        room
    }

    fn expose(&mut self, film: &str, wishes: &[&str]) {
        self.log(
            Kind::BoxAdded,
            &[("film", film), ("size", "4x5"), ("sheets", "50")],
        );
        let boxes = self.lives_of(ThingKind::Box).len();
        let film_box = format!("f{boxes}");
        for wish in wishes {
            self.log(Kind::HolderAdded, &[("size", "4x5"), ("sides", "1")]);
            let holders = self.lives_of(ThingKind::Holder).len();
            let side = format!("h{holders}a");
            self.log(Kind::Loaded, &[("side", &side), ("film_box", &film_box)]);
            let mut typed = vec![("side", side.as_str())];
            if !wish.is_empty() {
                typed.push(("development", wish));
            }
            self.log(Kind::Exposed, &typed);
        }
    }

    fn lives_of(&self, kind: ThingKind) -> Vec<Life> {
        let lives = self.ledger.lives.values();
        lives
            .filter(|life| life.thing.kind == kind)
            .cloned()
            .collect()
    }

    fn plan_in(&self, vessel: &str, developer: &str) -> Plan {
        let mut lives = self.lives_of(ThingKind::Sheet);
        lives.sort_by_key(|life| life.thing.id);
        let sheets = lives
            .iter()
            .filter_map(|life| Sheet::of(life, &self.ledger, &self.reference))
            .collect();
        let shelf: Vec<Bath> = self
            .lives_of(ThingKind::Bath)
            .iter()
            .filter_map(Bath::of)
            .collect();
        let (vessel, vessel_on) = Wanted::vessel(vessel, &self.reference).expect("a vessel");
        let (developer, dilution) = Wanted::developer(developer, &shelf);
        let wanted = Wanted {
            vessel,
            vessel_on,
            developer,
            dilution,
            temperature: "20 C".to_owned(),
        };
        let kit = OwnKit::new(&self.ledger);
        plan(
            sheets,
            &shelf,
            wanted,
            &figures::Desk::new(&self.reference, &kit, self.now),
        )
    }
}

fn times(plan: &Plan) -> Vec<(usize, String)> {
    let time = |group: &Group| match &group.time {
        Ok(reckoned) => reckoned.time.to_string(),
        Err(why) => why.clone(),
    };
    plan.groups
        .iter()
        .map(|group| (group.sheets.len(), time(group)))
        .collect()
}

#[test]
fn sheets_are_grouped_by_film_and_wish_and_parted_into_runs() {
    let mut room = Darkroom::with_exposed("FP4 Plus", &["", "N-1", "", "", "", "N-1"]);
    room.expose("HP5 Plus", &[""]);
    let plan = room.plan_in("3 of 4x5, 1000 ml", "DD-X 1+4");
    let wanted = [
        (4, "10 min".to_owned()),
        (2, "8 min".to_owned()),
        (1, "9 min".to_owned()),
    ];
    assert_eq!(times(&plan), wanted);
    let runs: Vec<usize> = plan.groups.iter().map(|group| group.runs.len()).collect();
    assert_eq!((runs, plan.runs), (vec![2, 1, 1], 4));
    // Half an hour with 10 min of development: 2 x 30 + 28 + 29 min.
    let clock = plan.clock.expect("a time on the clock");
    assert_eq!(clock.value.value(), 60.0 * (60.0 + 28.0 + 29.0));
    assert_eq!(clock.steps[0].grounds, Some(Grounds::usual()));
}

#[test]
fn nearly_the_same_time_goes_together_and_says_so() {
    let room = Darkroom::with_exposed("FP4 Plus", &["", "", "N-0.1"]);
    let plan = room.plan_in("4 of 4x5, 1000 ml", "DD-X 1+4");
    assert_eq!(times(&plan), [(3, "10 min".to_owned())]);
    let note = &plan.groups[0].notes[0];
    assert_eq!(
        note,
        "S-0003 would have 9 min 48 s alone and goes along, +2 %"
    );
}

#[test]
fn what_cannot_be_planned_is_named_with_the_reason() {
    let mut room = Darkroom::with_exposed("FP4 Plus", &["pull it", ""]);
    room.log(Kind::SlideSeen, &[("side", "h2a"), ("shows", "bright")]);
    room.expose("Plain Pan", &[""]);
    let plan = room.plan_in("4 of 4x5, 1000 ml", "DD-X 1+4");
    assert_eq!(plan.left_out.len(), 1, "{:?}", plan.left_out);
    assert!(plan.left_out[0].1.contains("in doubt"));
    let times = times(&plan);
    assert!(
        times[0].1.contains("no change a rule goes with"),
        "{times:?}"
    );
    assert!(times[1].1.contains("no film Plain Pan"), "{times:?}");
    let small = room.plan_in("1 of 8x10, 1000 ml", "DD-X 1+4");
    assert_eq!(small.runs, 0);
    assert!(
        small.groups[0].notes[0].contains("takes no 4x5"),
        "{:?}",
        small.groups[0].notes
    );
    assert!(small.needs.is_empty() && small.clock.is_none());
}

#[test]
fn solutions_are_held_against_the_shelf() {
    let mut room = Darkroom::with_exposed("FP4 Plus", &[""; 8]);
    let mix = |room: &mut Darkroom, name, purpose, dilution: &str, volume| {
        let mut typed = vec![("name", name), ("purpose", purpose), ("volume", volume)];
        if !dilution.is_empty() {
            typed.push(("dilution", dilution));
        }
        room.log(Kind::BathMixed, &typed);
    };
    mix(&mut room, "D-76", "developer", "", "400 ml");
    mix(&mut room, "rapid", "fixer", "1+4", "1000 ml");
    let plan = room.plan_in("tank, 4 of 4x5, 500 ml", "D-76 1+1");
    let need = |purpose: &str| {
        let mut needs = plan.needs.iter();
        needs
            .find(|need| need.purpose.word() == purpose)
            .expect("a need")
    };
    // Four 4x5 are one 8x10: 250 ml of stock, 500 ml at 1+1, twice; the shelf makes 800 ml.
    let developer = need("developer");
    assert_eq!(
        (developer.needed, developer.have, developer.lacks),
        (1000.0, 800.0, 200.0)
    );
    assert_eq!(developer.stock, Some(100.0));
    assert!(
        developer
            .steps
            .iter()
            .any(|step| step.name == "least stock for an 8x10")
    );
    let fixer = need("fixer");
    assert_eq!((fixer.needed, fixer.lacks), (500.0, 0.0));
    assert_eq!(need("stop").lacks, 500.0);
}

#[test]
fn more_area_than_the_vessel_holds_stock_for_is_warned_of() {
    let room = Darkroom::with_exposed("T-MAX 100", &[""; 4]);
    let plan = room.plan_in("tank, 4 of 4x5, 250 ml", "D-76 1+1");
    let developer = &plan.needs[0];
    assert_eq!(developer.needed, 500.0);
    assert!(
        developer
            .notes
            .iter()
            .any(|note| note.contains("does not hold stock enough"))
    );
}

#[test]
fn a_used_thinned_developer_and_an_unknown_volume_are_not_counted() {
    let mut room = Darkroom::with_exposed("FP4 Plus", &["", ""]);
    room.log(
        Kind::BathMixed,
        &[
            ("name", "DD-X"),
            ("purpose", "developer"),
            ("dilution", "1+4"),
            ("volume", "1 l"),
        ],
    );
    room.log(Kind::BathMixed, &[("name", "rapid"), ("purpose", "fixer")]);
    assert_eq!(
        room.plan_in("2 of 4x5, 500 ml", "DD-X 1+4").needs[0].lacks,
        0.0
    );
    room.log(Kind::RunBegun, &[("sheets", "s1"), ("developer", "b1")]);
    let plan = room.plan_in("2 of 4x5, 500 ml", "b1");
    let developer = &plan.needs[0];
    assert_eq!((developer.have, developer.lacks), (0.0, 500.0));
    assert!(
        developer
            .notes
            .iter()
            .any(|note| note.contains("thinned and was used"))
    );
    let fixer = &plan.needs[2];
    assert!(
        fixer
            .notes
            .iter()
            .any(|note| note.contains("is not counted: how much")),
        "{:?}",
        fixer.notes
    );
}

#[test]
fn the_developer_of_the_last_run_is_its_bath_while_that_stands_and_else_what_was_in_it() {
    let mut room = Darkroom::with_exposed("FP4 Plus", &["", ""]);
    let once = [
        ("name", "DD-X"),
        ("purpose", "developer"),
        ("dilution", "1+4"),
        ("volume", "500 ml"),
    ];
    room.log(Kind::BathMixed, &once);
    let run = room.read(Kind::RunBegun, &[("sheets", "s1"), ("developer", "b1")]);
    let Deed::RunBegun(run) = run.expect("it can be read").deed else {
        panic!("a run");
    };
    let developer = |room: &Darkroom| {
        let baths = room.lives_of(ThingKind::Bath);
        let shelf: Vec<Bath> = baths.iter().filter_map(Bath::of).collect();
        developer_of(&run, &shelf, &room.ledger)
    };
    assert_eq!(developer(&room).as_deref(), Some("B-0001"));
    room.log(Kind::Discarded, &[("thing", "b1"), ("reason", "one-shot")]);
    assert_eq!(developer(&room).as_deref(), Some("DD-X 1+4"));
}

#[test]
fn nothing_waits_and_nothing_is_needed() {
    let plan = Darkroom::with_a_shelf().plan_in("tray 8x10", "D-76");
    assert!(plan.groups.is_empty() && plan.needs.is_empty() && plan.clock.is_none());
    assert!(Wanted::vessel("bucket", &Darkroom::new().reference).is_err());
}
