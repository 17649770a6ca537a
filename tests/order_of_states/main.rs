//! The order of states: random acts at the real domain and at a reference model.
//!
//! A sequence begins on one of several benches (an empty shelf, film in the holders, a print half
//! done) and goes on with ten to twenty acts drawn by dice. Each is proposed to the domain and
//! put to the [`model`], which was written a second time from what the work means; both must say the
//! same, fill in the same and end in the same states. After each act that is taken, every life must
//! be what a fold of all entries makes of it, and what a life offers must be what it takes.
//!
//! The ordinary run plays 20,000 sequences from a fixed seed. `ORDER_SEQUENCES=200000` plays as many
//! from a fresh one.

mod acts;
mod agreement;
mod benches;
mod coverage;
mod deeds;
mod dice;
#[path = "../../src/logbook/tests/ledger.rs"]
mod ledger;
mod model;
mod offers;
mod steps;
mod world;

use std::cell::RefCell;
use std::thread;

use chrono::TimeDelta;
use notchbook::logbook::{Deed, Entry, Kind, Refusal, Thing, propose};
use notchbook::reference::Reference;
use proptest::prelude::*;
use proptest::test_runner::{Config, RngAlgorithm, TestError, TestRng, TestRunner};

use uuid::Uuid;

use benches::Bench;
use coverage::{Coverage, OBJECTIONS, REFUSALS};
use dice::Dice;

/// How many sequences the ordinary run plays.
const SEQUENCES: u32 = 20_000;
/// How many numbers one act may draw.
const NUMBERS: usize = 24;
/// How many threads play; each has its own seed, so that the run is the same everywhere.
const TABLES: u8 = 4;

type Numbers = [u16; NUMBERS];

#[test]
fn the_domain_and_the_model_take_and_refuse_the_same() {
    let asked: Option<u32> = std::env::var("ORDER_SEQUENCES")
        .ok()
        .and_then(|text| text.parse().ok());
    let each = asked.unwrap_or(SEQUENCES).div_ceil(u32::from(TABLES));
    let tables: Vec<_> = (0..TABLES)
        .map(|table| {
            let seed = match asked {
                None => [table + 7; 32],
                Some(_) => fresh_seed(),
            };
            let rng = TestRng::from_seed(RngAlgorithm::ChaCha, &seed);
            thread::spawn(move || play_many(each, rng))
        })
        .collect();
    let mut coverage = Coverage::default();
    for table in tables {
        match table.join().expect("no table falls over") {
            Ok(met) => coverage.add(met),
            Err(failure) => panic!("{failure}"),
        }
    }
    check_coverage(&coverage);
}

fn fresh_seed() -> [u8; 32] {
    let mut seed = [0; 32];
    seed[..16].copy_from_slice(Uuid::now_v7().as_bytes());
    seed[16..].copy_from_slice(Uuid::now_v7().as_bytes());
    seed
}

fn play_many(sequences: u32, rng: TestRng) -> Result<Coverage, String> {
    let reference = Reference::built_in().expect("the built-in reference");
    let benches = benches::all(&reference);
    let config = Config {
        cases: sequences,
        failure_persistence: None,
        max_shrink_iters: 1_500,
        ..Config::default()
    };
    let coverage = RefCell::new(Coverage::default());
    let sequence = (
        any::<prop::sample::Index>(),
        prop::collection::vec(any::<Numbers>(), 10..=20),
    );
    let played = TestRunner::new_with_rng(config, rng).run(&sequence, |(bench, numbers)| {
        let mut bench = bench.get(&benches).clone();
        bench
            .play(&numbers, &mut coverage.borrow_mut())
            .map_err(TestCaseError::fail)
    });
    match played {
        Ok(()) => Ok(coverage.into_inner()),
        Err(TestError::Fail(why, (bench, numbers))) => Err(format!(
            "{why}\nafter\n{}",
            told(bench.get(&benches), &numbers)
        )),
        Err(TestError::Abort(why)) => Err(why.to_string()),
    }
}

/// The acts of a sequence, for whoever has to find out what is wrong.
fn told(bench: &Bench<'_>, sequence: &[Numbers]) -> String {
    let mut bench = bench.clone();
    let mut lines = Vec::new();
    let failed = bench.play_acts(sequence, &mut Coverage::default(), |act, outcome| {
        for entry in act {
            let over = if entry.over.is_some() {
                " (override)"
            } else {
                ""
            };
            lines.push(format!("{}{over}: {:?}", entry.happened, entry.deed));
        }
        lines.push(outcome.map_or("  taken".to_owned(), |refusal| {
            format!("  refused: {refusal}")
        }));
    });
    lines.extend(failed.err());
    lines.join("\n")
}

impl Bench<'_> {
    fn play(&mut self, sequence: &[Numbers], coverage: &mut Coverage) -> Result<(), String> {
        coverage.sequences += 1;
        self.play_acts(sequence, coverage, |_, _| {})?;
        let numbers = sequence.last().map_or(&[][..], |numbers| &numbers[..]);
        self.try_offers(&mut Dice::new(numbers), coverage)
    }

    fn play_acts(
        &mut self,
        sequence: &[Numbers],
        coverage: &mut Coverage,
        mut told: impl FnMut(&[Entry], Option<&Refusal>),
    ) -> Result<(), String> {
        for numbers in sequence {
            let mut act = self.next_act(numbers);
            let mut refused = self.put(&act, coverage)?;
            told(&act, refused.as_ref());
            // What a reason would make possible is often logged with one.
            if refused.is_some_and(|refusal| refusal.can_be_overridden())
                && numbers[NUMBERS - 1] % 2 == 1
            {
                for entry in &mut act {
                    entry.id = self.ids.entry();
                    entry.over = Some(deeds::reason());
                }
                refused = self.put(&act, coverage)?;
                coverage.overridden += u64::from(refused.is_none());
                told(&act, refused.as_ref());
            }
        }
        Ok(())
    }

    fn next_act(&mut self, numbers: &Numbers) -> Vec<Entry> {
        let mut dice = Dice::new(&numbers[..NUMBERS - 1]);
        self.now += TimeDelta::minutes(2 + dice.below(90) as i64);
        acts::act(&mut dice, &mut self.ids, &self.model, self.now)
    }

    /// Puts an act to both. Hands back the refusal if both refuse it.
    ///
    /// # Errors
    /// Anything of which they do not say the same.
    fn put(&mut self, act: &[Entry], coverage: &mut Coverage) -> Result<Option<Refusal>, String> {
        coverage.acts += 1;
        let before = self.model.entries.len();
        // Of an act with several entries, some may have been taken before one is refused.
        let world = (act.len() > 1).then(|| self.model.now.clone());
        let judged: Result<Vec<Entry>, _> =
            act.iter().map(|entry| self.model.take(entry)).collect();
        let written = self.ledger.write(act.to_vec(), self.model.reference);
        let (filled, verdict) = match (judged, written) {
            (Ok(filled), Ok(verdict)) => (filled, verdict),
            (Err(_), Err(refusal)) => {
                self.model.entries.truncate(before);
                if let Some(world) = world {
                    self.model.now = world;
                }
                coverage.refuse(&refusal);
                if let [only] = act {
                    *coverage.refused.entry(only.kind()).or_default() += 1;
                }
                return Ok(Some(refusal));
            }
            (Ok(_), Err(refusal)) => {
                return Err(format!("the domain alone refuses: {refusal}\nby {act:#?}"));
            }
            (Err(no), Ok(_)) => {
                return Err(format!("the model alone refuses: {}\nby {act:#?}", no.0));
            }
        };
        for (filled, taken) in filled.iter().zip(&verdict.entries) {
            let meant = as_looked_up(&filled.deed, &taken.deed);
            if meant != taken.deed {
                return Err(format!("filled in {:?}\nbut meant {meant:?}", taken.deed));
            }
            *coverage.accepted.entry(taken.kind()).or_default() += 1;
            coverage.taken += 1;
            coverage.late += u64::from(taken.happened < taken.written);
        }
        if let Some(astray) = self.ledger.first_astray(self.model.reference) {
            return Err(format!("a life is astray: {astray}"));
        }
        match agreement::first_difference(&self.ledger, &self.model.now) {
            Some(difference) => Err(difference),
            None => Ok(None),
        }
    }

    /// For one thing, drawn by dice: whatever its life offers is taken, and nothing else is.
    fn try_offers(&mut self, dice: &mut Dice<'_>, coverage: &mut Coverage) -> Result<(), String> {
        let world = self.model.now.clone();
        let things: Vec<Thing> = self.ledger.lives.values().map(|life| life.thing).collect();
        let Some(thing) = dice.one_of(&things) else {
            return Ok(());
        };
        let life = &self.ledger.lives[&thing.id];
        if life.is_new() {
            return Ok(());
        }
        let possible = life.possible();
        let called = life.reference.clone();
        self.now += TimeDelta::minutes(15);
        for kind in Kind::ALL {
            let Some(deed) = offers::deed_about(thing, *kind, &world, &mut self.ids) else {
                continue;
            };
            let entry = acts::entry(&mut self.ids, deed, self.now, self.now, None);
            let written = propose(&self.ledger, vec![entry], self.model.reference);
            match (possible.contains(kind), written) {
                (true, Ok(_)) => coverage.offered += 1,
                (false, Err(_)) => coverage.not_offered += 1,
                (true, Err(refusal)) => {
                    return Err(format!("{called} offers {kind}, but: {refusal}"));
                }
                (false, Ok(_)) => {
                    return Err(format!("{called} takes {kind}, but offers {possible:?}"));
                }
            }
        }
        Ok(())
    }
}

/// What the model filled in, with what is only for looking things up: all that a word about an entry
/// touches, and what a sheet that is loaded again is called.
fn as_looked_up(filled: &Deed, taken: &Deed) -> Deed {
    let mut deed = filled.clone();
    match (&mut deed, taken) {
        (Deed::Struck(mine), Deed::Struck(theirs)) => mine.touches.clone_from(&theirs.touches),
        (Deed::Amended(mine), Deed::Amended(theirs)) => {
            mine.touches.clone_from(&theirs.touches);
            *mine.deed = as_looked_up(&mine.deed, &theirs.deed);
        }
        // What the clock counted is checked where clocks are.
        (Deed::StepEnded(mine), Deed::StepEnded(theirs)) => mine.time = theirs.time,
        (Deed::Loaded(mine), Deed::Loaded(theirs)) if mine.again => {
            mine.reference.clone_from(&theirs.reference);
        }
        _ => {}
    }
    deed
}

fn check_coverage(coverage: &Coverage) {
    println!(
        "{} sequences, {} acts, {} entries taken ({} late), {} refusals of later entries, \
         {} taken by override, {} offers tried, {} not offered and refused",
        coverage.sequences,
        coverage.acts,
        coverage.taken,
        coverage.late,
        coverage.resting,
        coverage.overridden,
        coverage.offered,
        coverage.not_offered,
    );
    println!("refusals {:?}", coverage.refusals);
    println!("objections {:?}", coverage.objections);
    let mut thin = Vec::new();
    for kind in Kind::ALL {
        let accepted = coverage.accepted.get(kind).copied().unwrap_or(0);
        let refused = coverage.refused.get(kind).copied().unwrap_or(0);
        println!("{kind}: {accepted} accepted, {refused} refused");
        if accepted < 200 || refused < 40 {
            thin.push(format!("{kind}: {accepted} accepted, {refused} refused"));
        }
    }
    for name in REFUSALS {
        if !coverage.refusals.contains_key(name) {
            thin.push(format!("never refused with {name}"));
        }
    }
    for name in OBJECTIONS {
        let count = coverage.objections.get(name).copied().unwrap_or(0);
        if count < 10 {
            thin.push(format!("objected with {name} {count} times"));
        }
    }
    let enough = coverage.late > 1_000 && coverage.resting > 1_000 && coverage.overridden > 1_000;
    assert!(thin.is_empty() && enough, "too little was met: {thin:#?}");
    assert!(
        coverage.taken * 10 > coverage.acts * 4,
        "a good share of the acts is taken"
    );
}
