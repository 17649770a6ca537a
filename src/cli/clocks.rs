//! `bench`: what is being counted, how much is left and what comes next; then what waits.

use clap::Command;
use serde_json::{Value, json};

use super::answer::Answer;
use super::open::Desk;
use super::table::Table;
use super::trouble::Trouble;
use crate::logbook::Life;
use crate::logbook::counting::words::next_in_words;
use crate::logbook::counting::{self, Ahead, Counting, ahead};

/// `bench`
pub(super) fn command() -> Command {
    Command::new("bench").about("Show every clock that runs: what is left, and what comes next")
}

/// Shows the clocks.
pub(super) fn bench(desk: &mut Desk<'_>) -> Result<Answer, Trouble> {
    desk.with_logbook(|open| {
        let now = open.world.now();
        let lives = open.store.on_the_bench()?;
        let mut table = Table::new(&["", "step", "time", "next"]);
        let (mut clocks, mut waiting) = (Vec::new(), Vec::new());
        for life in &lives {
            let next = ahead::of(life, open.reference, &*open.store);
            match counting::of(life, open.reference, &*open.store, now) {
                Some(counting) => {
                    table.row([
                        counting.reference.clone(),
                        counting.step_in_words(),
                        counting.time_in_words(),
                        counting.act_in_words(),
                    ]);
                    clocks.push(clock_document(&counting));
                }
                None => {
                    table.row([
                        life.reference.clone(),
                        String::new(),
                        String::new(),
                        next_in_words("next", next.first()),
                    ]);
                    waiting.push(waiting_document(life, next.first()));
                }
            }
        }
        let mut answer = Answer::default();
        if lives.is_empty() {
            answer.line("nothing stands on the bench: a run begins with notchbook log develop");
        } else {
            answer.words = table.lines();
        }
        Ok(answer.with("clocks", clocks).with("waiting", waiting))
    })
}

fn clock_document(counting: &Counting) -> Value {
    let place = counting
        .place
        .map(|(at, all)| json!({"step": at, "of": all}));
    let cue = counting
        .next_cue()
        .map(|cue| json!({"at": cue.at, "words": cue.words}));
    json!({
        "reference": counting.reference,
        "kind": counting.thing.kind.name(),
        "step": counting.label,
        "place": place,
        "given": counting.given,
        "planned": counting.planned,
        "left": counting.left(),
        "over": counting.over(),
        "paused": counting.paused,
        "light": counting.light.map(|light| light.word()),
        "temperature": counting.temperature,
        "cue": cue,
        "next": counting.next.as_ref().map(next_document),
    })
}

fn next_document(next: &Ahead) -> Value {
    json!({
        "step": next.id,
        "label": next.label,
        "time": next.time,
        "rests": next.rests,
        "light": next.light.map(|light| light.word()),
    })
}

fn waiting_document(life: &Life, next: Option<&Ahead>) -> Value {
    json!({
        "reference": life.reference,
        "kind": life.thing.kind.name(),
        "next": next.map(next_document),
    })
}
