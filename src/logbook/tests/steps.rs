//! Steps by the clock: what is logged of them, and what a clock makes of it.

use super::*;
use crate::logbook::counting::{self, Counting, Hand};
use crate::logbook::life::StepTaken;

/// S-0001 in run R-0001: a tray, ten minutes at 20 C in FP4 Plus and DD-X, which a table tells of.
fn in_a_tray() -> Darkroom {
    let mut room = Darkroom::with_a_shelf();
    room.log(
        Kind::BathMixed,
        &[
            ("name", "Ilfotec DD-X"),
            ("purpose", "developer"),
            ("dilution", "1+4"),
        ],
    );
    room.log(
        Kind::BathMixed,
        &[("name", "weak acid"), ("purpose", "stop")],
    );
    room.log(Kind::Loaded, &[("side", "h1a"), ("film_box", "f1")]);
    room.log(Kind::Exposed, &[("side", "h1a")]);
    room.at("10:00");
    room.log(
        Kind::RunBegun,
        &[
            ("sheets", "h1a"),
            ("developer", "b3"),
            ("stop", "b4"),
            ("fixer", "b2"),
            ("time", "10 min"),
            ("temperature", "20 C"),
            ("vessel", "tray"),
            ("agitation", "turn the sheet every 30 s"),
        ],
    );
    room
}

impl Darkroom {
    fn clock(&self, of: &str) -> Counting {
        self.clock_in(of, 0)
    }

    fn clock_in(&self, of: &str, seconds: i64) -> Counting {
        let at = self.now + TimeDelta::seconds(seconds);
        counting::of(&self.life(of), &self.reference, &self.ledger, at)
            .expect("a step is under way")
    }

    fn begins(&mut self, of: &str, step: Option<&str>) -> EntryId {
        let draft = counting::ahead::draft(&self.life(of), step, &self.reference, &self.ledger);
        let drafted = self.read_draft(&draft).expect("it can be read");
        self.write(vec![drafted]).expect("it can begin")[0]
    }

    fn step_of(&self, run: &str, at: usize) -> StepTaken {
        let life = self.life(run);
        counting::steps_of(&life).expect("steps").all()[at].clone()
    }
}

#[test]
fn a_sequence_is_gone_through_and_every_real_time_is_kept() {
    let mut room = in_a_tray();
    room.at("10:05");
    room.begins("r1", None);
    let clock = room.clock_in("r1", 0);
    assert_eq!(clock.label, "presoak");
    assert_eq!(clock.place, Some((1, 9)));
    assert_eq!(clock.given, 60.0, "an entry takes a minute here");
    assert_eq!(clock.left(), Some(60.0));
    assert_eq!(
        clock.next.as_ref().expect("a next step").in_words(),
        "develop, 10 min"
    );
    room.at("10:08").begins("r1", None);
    let soak = room.step_of("r1", 0);
    assert_eq!(soak.given.expect("it has ended").value(), 180.0);
    room.at("10:18").begins("r1", None);
    room.at("10:19");
    room.log(Kind::StepEnded, &[("thing", "r1"), ("time", "45 s")]);
    assert_eq!(room.step_of("r1", 1).given.expect("given").value(), 600.0);
    assert_eq!(room.step_of("r1", 2).given.expect("given").value(), 45.0);
    room.at("10:20").begins("r1", Some("wash"));
    room.at("10:49");
    room.log(Kind::RunEnded, &[("run", "r1")]);
    let wash = room.step_of("r1", 3);
    assert_eq!(wash.planned.expect("without a wash aid").value(), 1800.0);
    assert_eq!(wash.given.expect("the run ended").value(), 1740.0);
    assert!(counting::of(&room.life("r1"), &room.reference, &room.ledger, room.now).is_none());
}

#[test]
fn a_pause_and_more_time_move_the_end() {
    let mut room = in_a_tray();
    room.at("10:10").begins("r1", Some("develop"));
    room.at("10:14");
    room.log(Kind::StepChanged, &[("thing", "r1"), ("change", "pause")]);
    assert_eq!(room.clock_in("r1", 500).given, 240.0);
    assert!(room.clock("r1").until_change().is_none());
    room.at("10:17");
    room.log(Kind::StepChanged, &[("thing", "r1"), ("change", "go")]);
    room.at("10:20");
    room.log(
        Kind::StepChanged,
        &[("thing", "r1"), ("change", "more"), ("more", "30 s")],
    );
    room.at("10:22");
    let clock = room.clock("r1");
    assert_eq!(clock.given, 9.0 * 60.0);
    assert_eq!(clock.left(), Some(90.0));
    assert_eq!(clock.shown(), (None, 90));
    let late = room.clock_in("r1", 100);
    assert_eq!((late.over(), late.shown()), (10.0, (Some('+'), 10)));
    assert!(late.hand().is_none());
}

#[test]
fn the_next_cue_is_told_and_passed_once() {
    let mut room = in_a_tray();
    room.at("10:10").begins("r1", Some("develop"));
    room.at("10:10");
    let clock = room.clock_in("r1", 10);
    let Some(Hand::Rests(cue)) = clock.hand() else {
        panic!("{:?}", clock.hand());
    };
    assert_eq!((cue.at, cue.words.as_str()), (30.0, "turn the sheet"));
    assert_eq!(clock.until_change(), Some(1.0));
    let passed = room.clock_in("r1", 31).passed_since(29.5);
    assert!(passed.cue && passed.second && !passed.end);
    assert!(!room.clock_in("r1", 32).passed_since(31.0).cue);
    let end = room.clock_in("r1", 600).passed_since(599.0);
    assert!(end.end && !end.cue, "the end is no cue");
}

#[test]
fn a_warmer_developer_takes_less_time_by_the_table_of_the_film() {
    let mut room = in_a_tray();
    room.at("10:10").begins("r1", Some("develop"));
    room.at("10:14");
    let typed = [
        ("thing", "r1"),
        ("change", "temperature"),
        ("temperature", "22 C"),
    ];
    let drafted = room
        .read(Kind::StepChanged, &typed)
        .expect("it can be read");
    let Deed::StepChanged(changed) = &drafted.deed else {
        panic!("another deed");
    };
    // Ten minutes at 20 C (68 F), eight at 75 F: 8 min 55 s at 22 C, of which six tenths are left.
    let ratio = 0.8_f64.powf(2.0 / (35.0 / 9.0));
    let whole = changed.time.expect("it is reckoned").value();
    assert!((whole - (240.0 + 360.0 * ratio)).abs() <= 0.5, "{whole}");
    assert!(changed.steps.len() >= 3);
    room.write(vec![drafted]).expect("it is taken");
    room.at("10:16");
    let clock = room.clock("r1");
    assert!((clock.left().expect("planned") - (whole - 360.0)).abs() < 1e-9);
    let again = [
        ("thing", "r1"),
        ("change", "temperature"),
        ("temperature", "20 C"),
    ];
    let Deed::StepChanged(back) = room.read(Kind::StepChanged, &again).expect("read").deed else {
        panic!("another deed");
    };
    let rest = (whole - 360.0) / ratio;
    let back = back.time.expect("it is reckoned").value();
    assert!((back - 360.0 - rest).abs() <= 1.0, "{back}");
}

#[test]
fn a_temperature_no_estimate_goes_to_is_only_noted() {
    let mut room = in_a_tray();
    room.at("10:10").begins("r1", Some("develop"));
    let typed = [
        ("thing", "r1"),
        ("change", "temperature"),
        ("temperature", "38 C"),
    ];
    let Deed::StepChanged(changed) = room.read(Kind::StepChanged, &typed).expect("read").deed
    else {
        panic!("another deed");
    };
    assert_eq!(changed.time, None);
    room.log(Kind::StepChanged, &typed);
    assert_eq!(room.clock("r1").planned, Some(600.0));
}

#[test]
fn several_sequences_are_counted_beside_each_other() {
    let mut room = in_a_tray();
    room.log(Kind::Loaded, &[("side", "h2a"), ("film_box", "f1")]);
    room.log(Kind::Exposed, &[("side", "h2a")]);
    room.log(
        Kind::RunBegun,
        &[("sheets", "h2a"), ("vessel", "drum"), ("time", "6 min")],
    );
    room.at("10:10").begins("r1", Some("develop"));
    room.at("10:12").begins("r2", Some("develop"));
    room.at("10:13");
    let (one, other) = (room.clock("r1"), room.clock("r2"));
    assert_eq!((one.given, other.given), (180.0, 60.0));
    assert_eq!(other.left(), Some(300.0));
    assert_eq!(
        other.hand(),
        Some(Hand::Moves(None)),
        "a drum turns all the time"
    );
    assert_eq!(one.place, Some((2, 9)));
}

#[test]
fn a_moment_before_the_beginning_shows_the_beginning() {
    let mut room = in_a_tray();
    room.at("10:10").begins("r1", Some("develop"));
    room.at("09:00");
    let clock = room.clock("r1");
    assert_eq!((clock.given, clock.left()), (0.0, Some(600.0)));
    assert_eq!(clock.shown(), (None, 600));
}

#[test]
fn nothing_changes_or_ends_that_is_not_under_way() {
    let mut room = in_a_tray();
    let refusal = room.refusal(Kind::StepEnded, &[("thing", "r1")]);
    assert_eq!(
        refusal.to_string(),
        "no step of R-0001 is being counted: begin one (begin-step)"
    );
    assert!(!refusal.can_be_overridden());
    assert!(!room.life("r1").possible().contains(&Kind::StepEnded));
    room.begins("r1", None);
    let go_on = [("thing", "r1"), ("change", "go-on")];
    let refusal = room.refusal(Kind::StepChanged, &go_on).to_string();
    assert!(refusal.contains("goes on already"), "{refusal}");
    let pause = [("thing", "r1"), ("change", "pause")];
    room.log(Kind::StepChanged, &pause);
    let refusal = room.refusal(Kind::StepChanged, &pause).to_string();
    assert!(refusal.contains("stands still since"), "{refusal}");
    let problem = room.problem(
        Kind::StepChanged,
        &[("thing", "r1"), ("change", "more-time")],
    );
    assert!(
        problem.starts_with("more: say how much longer"),
        "{problem}"
    );
    let problem = room.problem(Kind::StepEnded, &[("thing", "s1")]);
    assert!(problem.starts_with("thing:"), "{problem}");
    room.log(Kind::RunEnded, &[("run", "r1")]);
    let refusal = room.refusal(Kind::StepBegun, &[("thing", "r1"), ("step", "wash")]);
    assert!(
        refusal.to_string().contains("no step of it can begin"),
        "{refusal}"
    );
    assert!(refusal.can_be_overridden());
}

#[test]
fn a_bath_the_run_did_not_name_is_counted_when_its_step_begins_and_once() {
    let mut room = in_a_tray();
    room.log(
        Kind::BathMixed,
        &[("name", "second fixer"), ("purpose", "fixer")],
    );
    assert_eq!(room.life("b2").bath().expect("a bath").uses, 1);
    room.begins("r1", Some("fix"));
    assert_eq!(
        room.life("b2").bath().expect("a bath").uses,
        1,
        "counted with the run"
    );
    for _ in 0..2 {
        room.log(
            Kind::StepBegun,
            &[("thing", "r1"), ("step", "fix"), ("bath", "b5")],
        );
    }
    assert_eq!(room.life("b5").bath().expect("a bath").uses, 1);
    assert_eq!(room.state("b5"), "in use");
}

#[test]
fn a_late_beginning_is_put_where_it_belongs() {
    let mut room = in_a_tray();
    room.at("10:10").begins("r1", Some("stop"));
    room.at("10:12");
    room.log(
        Kind::StepBegun,
        &[
            ("thing", "r1"),
            ("step", "develop"),
            ("time", "10 min"),
            ("happened", "10:01"),
        ],
    );
    let steps = [room.step_of("r1", 0), room.step_of("r1", 1)];
    assert_eq!(steps.map(|step| step.step), ["develop", "stop"]);
    assert_eq!(
        room.step_of("r1", 0).given.expect("it ended").value(),
        540.0
    );
}

#[test]
fn a_step_of_a_print_is_counted_and_ends_when_it_is_logged() {
    let mut room = Darkroom::with_negatives();
    room.log(
        Kind::PrintBegun,
        &[("negatives", "s1"), ("process", "cyanotype")],
    );
    let order = [("thing", "p1"), ("step", "wash")];
    assert!(room.refusal(Kind::StepBegun, &order).can_be_overridden());
    room.at("12:00").begins("p1", Some("coat"));
    let clock = room.clock("p1");
    assert_eq!(clock.label, "coat");
    assert_ne!(
        clock.next.as_ref().map(|next| next.id.as_str()),
        Some("coat")
    );
    room.at("12:05");
    room.log(Kind::PrintStep, &[("print", "p1"), ("step", "coat")]);
    assert!(counting::of(&room.life("p1"), &room.reference, &room.ledger, room.now).is_none());
    assert_eq!(
        room.step_of("p1", 0).given.expect("it ended").value(),
        300.0
    );
    assert!(counting::ahead::can_be_timed(&room.life("p1")));
}

#[test]
fn a_sequence_is_chosen_by_name_or_by_the_vessel() {
    let mut room = in_a_tray();
    let problem = room.problem(Kind::RunBegun, &[("sheets", "s1"), ("sequence", "bucket")]);
    assert!(problem.contains("tray, tank-hangers, rotary"), "{problem}");
    let run = room.life("r1");
    let run = run.run().expect("a run");
    assert_eq!(
        counting::sequence_of(run, &room.reference).expect("one").id,
        "tray"
    );
}

#[test]
fn the_fixer_is_given_twice_the_time_in_which_film_cleared_in_it() {
    let mut room = in_a_tray();
    let fix = |room: &Darkroom| {
        let ahead = counting::ahead::of(&room.life("r1"), &room.reference, &room.ledger);
        ahead.into_iter().find(|ahead| ahead.id == "fix")
    };
    let before = fix(&room).expect("it is still to come");
    assert_eq!(before.in_words(), "fix, 5 min");
    room.log(
        Kind::ClearingTested,
        &[("bath", "b2"), ("time", "45 s"), ("film", "FP4 Plus")],
    );
    let after = fix(&room).expect("it is still to come");
    assert_eq!(after.in_words(), "fix, 1 min 30 s");
    assert_eq!(after.rests, "2 times the clearing time, 45 s");
}
