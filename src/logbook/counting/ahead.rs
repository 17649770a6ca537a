//! What comes next for a run or a print, with the plan for it.

use super::{develops, sequence_of, steps_of};
use crate::craft::Seconds;
use crate::logbook::life::{Life, PrintLife, RunLife};
use crate::logbook::{Draft, Kind, Names, ThingId};
use crate::reference::{Need, Purpose, Reference, RoomLight, SequenceStep, Standing, Takes, Usual};

/// A step that is still to come.
#[derive(Debug, Clone, PartialEq)]
pub struct Ahead {
    /// Its id in the sequence or process.
    pub id: String,
    /// Its name, in lower case.
    pub label: String,
    /// How long it is planned to be.
    pub time: Option<Seconds>,
    /// What the plan rests on: `published`, or words such as `twice the clearing time`.
    pub rests: String,
    /// Whether it can be left out without a second thought.
    pub need: Need,
    /// The light it is done in, if that is known.
    pub light: Option<RoomLight>,
}

impl Ahead {
    /// `stop, 30 s`.
    pub fn in_words(&self) -> String {
        match self.time {
            Some(time) => format!("{}, {time}", self.label),
            None => self.label.clone(),
        }
    }
}

/// Every step that is still to come, in the order of work; none for a thing that is not timed.
pub fn of(life: &Life, reference: &Reference, names: &dyn Names) -> Vec<Ahead> {
    match (life.run(), life.print()) {
        (Some(run), _) if run.ended.is_none() => of_run(run, reference, names),
        (_, Some(print)) => of_print(print, reference),
        _ => Vec::new(),
    }
}

fn of_run(run: &RunLife, reference: &Reference, names: &dyn Names) -> Vec<Ahead> {
    let Some(sequence) = sequence_of(run, reference) else {
        return Vec::new();
    };
    // Whatever was done outside the sequence, one goes on behind the last step of it.
    let done = run.steps.all().iter().rev();
    let last = done
        .filter_map(|taken| sequence.step_named(&taken.step))
        .find_map(|step| sequence.place_of(&step.id));
    let steps = sequence.steps.iter().skip(last.unwrap_or(0));
    steps.map(|step| planned(step, run, names)).collect()
}

fn planned(step: &SequenceStep, run: &RunLife, names: &dyn Names) -> Ahead {
    let was_done = |id: &String| run.steps.all().iter().any(|taken| taken.step == *id);
    let least = |usual: &Option<Usual>| {
        let usual = usual.as_ref()?;
        let (from, _) = usual.seconds()?;
        Some((Seconds::new(from).ok()?, usual.standing.word().to_owned()))
    };
    let plan = match step.takes {
        Some(Takes::Run) => run
            .time
            .map(|time| (time, "planned for the run".to_owned())),
        Some(Takes::Clearing) => twice_cleared(step, run, names).or_else(|| least(&step.time)),
        None => match &step.helped_by {
            Some(helper) if !was_done(helper) => {
                least(&step.unhelped).or_else(|| least(&step.time))
            }
            _ => least(&step.time),
        },
    };
    let (time, rests) = plan.unzip();
    Ahead {
        id: step.id.clone(),
        label: step.label.clone(),
        time,
        rests: rests.unwrap_or_default(),
        need: step.need,
        light: Some(step.light),
    }
}

/// So many times as film took to clear in the fixer of the run when that was tried last.
fn twice_cleared(
    step: &SequenceStep,
    run: &RunLife,
    names: &dyn Names,
) -> Option<(Seconds, String)> {
    let (times, _) = step.clearing.as_ref()?.range?;
    let fixer = names.life_of(bath_for(run, step.bath?, names)?)?;
    let cleared = fixer.bath()?.clearings.last()?.time;
    let time = Seconds::new(cleared.value() * times).ok()?;
    Some((time, format!("{times} times the clearing time, {cleared}")))
}

fn of_print(print: &PrintLife, reference: &Reference) -> Vec<Ahead> {
    let Some(process) = reference.process(&print.process) else {
        return Vec::new();
    };
    // The one under way counts as done already.
    let under_way = print.timed.current().map(|taken| taken.step.as_str());
    let mut done = print.done();
    done.extend(under_way);
    let next = process.next(&done).into_iter();
    let fits = next.filter(|step| print.next_steps(process).contains(step) || under_way.is_some());
    fits.map(|step| {
        let told = step.usual.iter().filter(|usual| usual.what == "time");
        let best = told
            .filter_map(|usual| Some((usual.seconds()?.0, usual.standing)))
            .min_by_key(|(_, standing)| *standing != Standing::Published);
        let time = best.and_then(|(from, _)| Seconds::new(from).ok());
        Ahead {
            id: step.id.clone(),
            label: step.label.clone(),
            time,
            rests: best.map_or_else(String::new, |(_, standing)| standing.word().to_owned()),
            need: step.need,
            light: None,
        }
    })
    .collect()
}

/// A draft that begins the step with this id, or the next one, with all that is known of it.
pub fn draft(life: &Life, step: Option<&str>, reference: &Reference, names: &dyn Names) -> Draft {
    let mut draft = Draft::new(Kind::StepBegun).about(&life.reference);
    // A step that was done already can be done again.
    let again = |id: &str| {
        let run = life.run()?;
        let sequence = sequence_of(run, reference)?;
        sequence
            .step_named(id)
            .map(|step| planned(step, run, names))
    };
    let mut all = of(life, reference, names).into_iter();
    let chosen = match step {
        Some(id) => all.find(|ahead| ahead.id == id).or_else(|| again(id)),
        None => all.next(),
    };
    let Some(next) = chosen else {
        draft.set("step", step.unwrap_or_default());
        return draft;
    };
    draft.set("step", next.id.clone());
    if let Some(time) = next.time {
        draft.set("time", time.to_string());
    }
    let Some(run) = life.run() else {
        return draft;
    };
    let sequence = sequence_of(run, reference);
    let Some(step) = sequence.and_then(|sequence| sequence.step(&next.id)) else {
        return draft;
    };
    if let Some(bath) = step.bath.and_then(|purpose| bath_for(run, purpose, names)) {
        draft.set("bath", names.reference_of(bath));
    }
    if develops(Some(step), &next.id) {
        if let Some(temperature) = run.temperature {
            draft.set("temperature", temperature.to_string());
        }
        if let Some(agitation) = &run.agitation {
            draft.set("agitation", agitation.clone());
        }
    }
    draft
}

/// The first bath of a run with a purpose.
fn bath_for(run: &RunLife, purpose: Purpose, names: &dyn Names) -> Option<ThingId> {
    let is_for = |bath: &&ThingId| {
        let life = names.life_of(**bath);
        let own = life.as_ref().and_then(|life| life.bath()?.purpose);
        own.is_some_and(|own| own.word() == purpose.word())
    };
    run.baths.iter().find(is_for).copied()
}

/// Whether steps of a thing can be timed now: a run under way, a print on its way or with a step that is
/// being counted.
pub fn can_be_timed(life: &Life) -> bool {
    life.possible().contains(&Kind::StepBegun)
        || steps_of(life).is_some_and(|steps| steps.current().is_some())
}
