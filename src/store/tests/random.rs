//! Sessions that nobody planned rebuild to themselves too.

use super::rebuilding::stock;
use super::{Darkroom, assert_same};
use crate::logbook::draft::{HAPPENED, OVER};
use crate::logbook::history::is_remark;
use crate::logbook::{Deed, Kind, Refusal};
use crate::store::AppendError;

/// Numbers that look random and are the same every time.
pub(super) struct Dice(pub(super) u64);

impl Dice {
    pub(super) fn below(&mut self, end: u64) -> u64 {
        // A xorshift generator by Marsaglia.
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        self.0 % end
    }

    fn one<'a>(&mut self, from: &[&'a str]) -> &'a str {
        from[usize::try_from(self.below(from.len() as u64)).expect("small")]
    }
}

/// Something that may or may not be taken.
fn attempt(room: &mut Darkroom, dice: &mut Dice) -> Result<(), AppendError> {
    const SIDES: &[&str] = &["h1a", "h1b", "h2a", "h2b", "h30 1", "h30 2"];
    const SHEETS: &[&str] = &["s1", "s2", "s3", "s4", "s5"];
    let entries = u64::try_from(room.count("SELECT max(row) FROM entry")).expect("a number");
    let some_row = i64::try_from(dice.below(entries) + 1).expect("a number");
    let side = dice.one(SIDES);
    let sheet = dice.one(SHEETS);
    let mut typed = Vec::new();
    if dice.below(4) == 0 {
        typed.push((HAPPENED, dice.one(&["-3m", "-20m", "-1h", "-2h"])));
    }
    if dice.below(6) == 0 {
        typed.push((OVER, "it was so"));
    }
    let known = |room: &Darkroom, sheet: &str| {
        let reference = crate::logbook::tidy_reference(sheet);
        room.count(&format!(
            "SELECT count(*) FROM sheet WHERE reference = '{reference}'"
        )) > 0
    };
    let kind = match dice.below(14) {
        0..=2 => {
            typed.extend([("side", side), ("film_box", dice.one(&["f1", "f2"]))]);
            Kind::Loaded
        }
        3..=5 => {
            typed.extend([
                ("side", side),
                ("lens", dice.one(&["l1", "l2"])),
                ("time", "6s"),
            ]);
            if dice.below(3) == 0 {
                typed.push(("again", "yes"));
            }
            Kind::Exposed
        }
        6 => {
            typed.push(("side", side));
            Kind::Unloaded
        }
        7 => {
            typed.extend([("side", side), ("shows", dice.one(&["bright", "dark"]))]);
            Kind::SlideSeen
        }
        8 if known(room, sheet) => {
            typed.extend([("sheets", sheet), ("developer", "b2"), ("fixer", "b3")]);
            Kind::RunBegun
        }
        9 if known(room, sheet) => {
            typed.extend([("sheet", sheet), ("reason", "light leak")]);
            Kind::Fogged
        }
        10 => {
            typed.extend([("bath", "b2"), ("volume", "70 ml")]);
            Kind::BathReplenished
        }
        11 if !is_remark(&room.deed(some_row)) => {
            let typed = amendment(room, some_row, side, dice);
            return match room.said_anew(some_row, &typed) {
                Ok(amended) => room.remark(Deed::Amended(amended)).map(|_| ()),
                Err(_) => Err(Refusal::NoReason.into()),
            };
        }
        12 | 13 => return room.try_strike(some_row).map(|_| ()),
        _ => {
            typed.extend([("thing", "f1"), ("sheets", "25")]);
            Kind::Counted
        }
    };
    // What was struck cannot be named.
    match room.read(kind, &typed) {
        Ok(drafted) => room.write(vec![drafted]).map(|_| ()),
        Err(_) => Err(Refusal::NoReason.into()),
    }
}

fn amendment<'a>(
    room: &Darkroom,
    row: i64,
    side: &'a str,
    dice: &mut Dice,
) -> Vec<(&'static str, &'a str)> {
    let kind = room.text(&format!("SELECT kind FROM entry WHERE row = {row}"));
    let mut typed = Vec::new();
    if dice.below(3) == 0 {
        typed.push((HAPPENED, "-10m"));
    }
    match kind.as_str() {
        "loaded" | "exposed" | "unloaded" | "slide-seen" => typed.push(("side", side)),
        "run-begun" => typed.push(("vessel", "drum")),
        _ => {}
    }
    typed
}

#[test]
fn random_sessions_rebuild_to_themselves() {
    let mut taken = 0;
    for seed in 1..=12 {
        let mut room = Darkroom::new();
        stock(&mut room);
        let mut dice = Dice(seed * 0x9E37_79B9);
        for _ in 0..120 {
            match attempt(&mut room, &mut dice) {
                Ok(()) => taken += 1,
                Err(AppendError::Refused(_)) => {}
                Err(AppendError::Store(problem)) => panic!("seed {seed}: {problem}"),
            }
        }
        let checked = room.store.check(&room.reference).expect("a check");
        assert_eq!(checked.findings, Vec::new(), "seed {seed}");
        let before = room.everything();
        room.store
            .rebuild(&room.reference, &mut |_, _| {})
            .expect("rebuilt");
        assert_same(&room.everything(), &before);
    }
    assert!(taken > 300, "only {taken} were taken, which tries little");
}
