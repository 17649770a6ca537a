//! What stands beside the deeds at the clock: what others give, what is left, the time reckoned anew.

use super::{Follow, Weight};
use crate::craft::{Concern, Seconds};
use crate::logbook::cautions::of_timed;
use crate::logbook::counting::{self, drift, sequence_of};
use crate::logbook::draft::Desk;
use crate::logbook::{Change, Draft, StepBegun};
use crate::reference::{SequenceStep, Usual};

fn told(label: &str, usual: &Usual) -> Follow {
    Follow {
        standing: Some(usual.standing),
        source: usual.source.clone(),
        note: usual.note.clone(),
        ..Follow::fact(label, usual.value())
    }
}

pub(super) fn beginning(draft: &Draft, desk: &Desk<'_>) -> Vec<Follow> {
    let Some(life) = drift::life_at(draft, desk.names) else {
        return Vec::new();
    };
    let begun = StepBegun {
        thing: life.thing,
        step: draft.get("step").trim().to_owned(),
        time: None,
        bath: None,
        temperature: None,
        agitation: None,
        uses: None,
        area: None,
    };
    let sequence = life.run().and_then(|run| sequence_of(run, desk.reference));
    let step = sequence.and_then(|sequence| sequence.step_named(&begun.step));
    let begun = StepBegun {
        step: step.map_or(begun.step, |step| step.id.clone()),
        ..begun
    };
    let mut lines: Vec<Follow> = of_timed(&begun, desk.names, desk.reference)
        .into_iter()
        .map(Follow::caution)
        .collect();
    if !lines.is_empty() {
        lines.push(Follow::weighed(Weight::Caution, desk.reference.closing()));
    }
    if let Some(counting) = counting::of(&life, desk.reference, desk.names, desk.now) {
        let given = in_words(counting.given);
        lines.push(Follow::act(format!(
            "{} ends with it, {given}",
            counting.label
        )));
    }
    if let Some(step) = step {
        lines.extend(of_sequence(step, draft, desk));
    }
    lines
}

fn of_sequence(step: &SequenceStep, draft: &Draft, desk: &Desk<'_>) -> Vec<Follow> {
    let mut lines = vec![Follow::fact("light", step.light.in_words())];
    let figures = [
        ("time", &step.time),
        ("time", &step.unhelped),
        ("clearing times", &step.clearing),
        ("near the developer", &step.near),
        ("pour out", &step.pour),
    ];
    lines.extend(
        figures
            .into_iter()
            .filter_map(|(label, usual)| Some(told(label, usual.as_ref()?))),
    );
    let typed = draft.get("agitation").trim();
    let scheme = match typed {
        "" => step.agitation.as_deref(),
        typed => Some(typed),
    };
    if let Some(scheme) = scheme.and_then(|id| desk.reference.agitation_scheme(id)) {
        lines.push(told("agitation", &scheme.figure));
    }
    if !step.note.is_empty() {
        lines.push(Follow::weighed(Weight::Also, step.note.clone()));
    }
    lines
}

pub(super) fn changing(draft: &Draft, desk: &Desk<'_>) -> Vec<Follow> {
    let mut lines = so_far(draft, desk);
    match drift::reckoned(draft, desk) {
        Ok(None) => {}
        Ok(Some(drifted)) => {
            for step in &drifted.figure.steps {
                let grounds = step.grounds.as_ref();
                lines.push(Follow {
                    standing: grounds.map(|grounds| grounds.standing),
                    source: grounds.map_or_else(String::new, |it| it.source.to_string()),
                    note: step.working.clone(),
                    ..Follow::fact(&step.name, step.amount.to_string())
                });
            }
            lines.push(Follow {
                standing: Some(drifted.figure.grounds.standing),
                source: drifted.figure.grounds.source.to_string(),
                ..Follow::result("in all", drifted.whole.to_string())
            });
            let warned = drifted.figure.remarks.iter();
            let warned = warned.filter(|remark| remark.concern != Concern::Note);
            lines.extend(warned.map(|remark| Follow::warning(remark.words.clone())));
        }
        Err(why) => lines.push(Follow::warning(why)),
    }
    if drift::change_of(draft) == Some(Change::MoreTime)
        && let Some(life) = drift::life_at(draft, desk.names)
        && let Some(counting) = counting::of(&life, desk.reference, desk.names, desk.now)
        && let Ok(more) = Seconds::parse(draft.get("more"))
    {
        let so_far = counting.planned.unwrap_or(counting.given);
        lines.push(Follow::result("in all", in_words(so_far + more.value())));
    }
    lines
}

pub(super) fn ending(draft: &Draft, desk: &Desk<'_>) -> Vec<Follow> {
    let mut lines = so_far(draft, desk);
    let next = drift::life_at(draft, desk.names)
        .and_then(|life| counting::of(&life, desk.reference, desk.names, desk.now)?.next);
    if let Some(next) = next {
        lines.push(Follow::fact("then", next.in_words()));
    }
    lines
}

/// How far the step is that is under way.
fn so_far(draft: &Draft, desk: &Desk<'_>) -> Vec<Follow> {
    let Some(life) = drift::life_at(draft, desk.names) else {
        return Vec::new();
    };
    let Some(counting) = counting::of(&life, desk.reference, desk.names, desk.now) else {
        return vec![Follow::warning(format!(
            "no step of {} is being counted",
            life.reference
        ))];
    };
    let mut lines = vec![
        Follow::fact("step", counting.label.clone()),
        Follow::fact("given", in_words(counting.given)),
    ];
    if let Some(planned) = counting.planned {
        lines.push(Follow::fact("planned", in_words(planned)));
    }
    if let Some(temperature) = counting.temperature {
        lines.push(Follow::fact("read last", temperature.to_string()));
    }
    lines
}

/// Seconds as people read them, to the second.
fn in_words(seconds: f64) -> String {
    Seconds::new(seconds.round()).map_or_else(|_| "0 s".to_owned(), |time| time.to_string())
}
