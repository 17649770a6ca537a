//! Which step of a process may follow which, written down a second time from what the relations in a
//! process file mean.

use notchbook::reference::{Need, Process, Step};

/// What is to be said of a step after those done.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Says {
    /// It may follow.
    Fine,
    /// The process has no such step.
    Unknown,
    /// It is out of its order, which a reason can make good.
    OutOfOrder,
}

fn named<'a>(process: &'a Process, id: &str) -> Option<&'a Step> {
    process.steps.iter().find(|step| step.id == id)
}

/// The steps that stand done, each with the place where it was last done: what a later step reopens
/// stands no longer.
fn standing<'a>(process: &'a Process, done: &[String]) -> Vec<(usize, &'a Step)> {
    let mut standing: Vec<(usize, &Step)> = Vec::new();
    for (place, id) in done.iter().enumerate() {
        if let Some(step) = named(process, id) {
            standing.retain(|(_, was)| !step.reopens.contains(&was.id) && was.id != step.id);
            standing.push((place, step));
        }
    }
    standing
}

pub(crate) fn may_follow(process: &Process, done: &[String], id: &str) -> Says {
    let Some(step) = named(process, id) else {
        return Says::Unknown;
    };
    let standing = standing(process, done);
    let stands = |id: &String| standing.iter().any(|(_, step)| step.id == *id);
    let too_late = step.not_after.iter().any(stands);
    let once_more = stands(&step.id) && !step.repeat;
    let waits = !step.after.iter().all(stands);
    if too_late || once_more || waits {
        Says::OutOfOrder
    } else {
        Says::Fine
    }
}

/// Whether `early` has to be done, directly or by way of others, before `late`.
fn leads_to(process: &Process, early: &str, late: &Step) -> bool {
    late.after.iter().any(|id| {
        id == early || named(process, id).is_some_and(|step| leads_to(process, early, step))
    })
}

/// Whether nothing is left to do: each required step stands done, or was passed over by one behind
/// it, and has not been reopened since.
pub(crate) fn is_complete(process: &Process, done: &[String]) -> bool {
    let standing = standing(process, done);
    let reopened_from = |id: &String, place: usize| {
        done[place..]
            .iter()
            .any(|was| named(process, was).is_some_and(|step| step.reopens.contains(id)))
    };
    process
        .steps
        .iter()
        .filter(|step| step.need == Need::Required)
        .all(|step| {
            standing.iter().any(|(place, behind)| {
                behind.id == step.id
                    || (leads_to(process, &step.id, behind) && !reopened_from(&step.id, *place))
            })
        })
}
