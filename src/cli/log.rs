//! `notchbook log`: everything that can be logged, one word each.

use clap::{Arg, ArgAction, ArgMatches, Command};

use super::answer::Answer;
use super::open::{Desk, Open};
use super::receipt::{caution_lines, receipt, rehearsal};
use super::trouble::{BadFlag, Trouble};
use super::words::{beside_flags, fill, log_words, typed, word};
use crate::logbook::draft::{self, Drafted, FIGURE_PREFIX, HAPPENED};
use crate::logbook::{
    Deed, Draft, Field, Kind, Life, Names, Thing, ThingId, ThingKind, tidy_reference,
};
use crate::store::{NewAct, write_down};

/// How the end of a run is called while the run has no reference yet.
const THIS_RUN: &str = "this run";

/// The flags of `develop` that say how the run ended: flag and field. What `develop` has a flag for
/// itself, the sheets, is the same at the end.
fn end_flags() -> impl Iterator<Item = (String, &'static Field)> {
    let fields = Kind::RunEnded.fields().iter();
    fields
        .filter(|field| Some(field.key.as_ref()) != Kind::RunEnded.about())
        .map(|field| (field.label.replace(' ', "-"), field))
        .filter(|(flag, _)| {
            let own = Kind::RunBegun.fields();
            own.iter().all(|field| field.flag() != *flag)
        })
}

/// The command with a subcommand for every log word.
pub(super) fn command() -> Command {
    Command::new("log")
        .about("Log something that happened")
        .long_about(
            "Log something that happened.\n\nWhat stands without a flag is what the entry is about: \
             \"notchbook log expose h7a --time 1/8\". References may be typed short: s42 is S-0042, \
             h7a is H-07 A. The logbook refuses what cannot come next and says what can.",
        )
        .subcommand_required(true)
        .arg_required_else_help(true)
        .subcommand_value_name("WORD")
        .subcommand_help_heading("Words")
        .disable_help_subcommand(true)
        .subcommands(log_words().map(|kind| match kind {
            Kind::RunBegun => with_end(word(kind)),
            _ => word(kind),
        }))
}

fn with_end(command: Command) -> Command {
    let command = command
        .arg(
            Arg::new("done")
                .long("done")
                .action(ArgAction::SetTrue)
                .help("The run is over: log its end in the same act"),
        )
        .arg(
            Arg::new("ended")
                .long("ended")
                .value_name("TIME")
                .allow_hyphen_values(true)
                .requires("done")
                .help("When it ended, if not --when and the time given later"),
        );
    end_flags().fold(command, |command, (flag, field)| {
        command.arg(
            Arg::new(flag.clone())
                .long(flag)
                .value_name("FIGURE")
                .requires("done")
                .help(format!("With --done: {}", field.hint)),
        )
    })
}

/// Logs what was typed.
pub(super) fn run(desk: &mut Desk<'_>, matches: &ArgMatches) -> Result<Answer, Trouble> {
    let Some((kind, flags)) = matches
        .subcommand()
        .and_then(|(name, flags)| Some((Kind::worded(name)?, flags)))
    else {
        return Err(Trouble::Usage(
            "say what happened: notchbook log --help".to_owned(),
        ));
    };
    desk.with_logbook(|mut open| {
        let mut draft = Draft::new(kind);
        fill(&mut draft, flags)?;
        let mut remarks = Vec::new();
        if flags.get_flag("like-last") {
            match like_last(&open, &draft)? {
                Some(filled) => draft = filled,
                None => remarks.push("there is no similar entry yet to take over from".to_owned()),
            }
        }
        let mut drafted = Vec::new();
        for draft in each_strip(&draft, &mut open) {
            drafted.push(read(&draft, &mut open)?);
        }
        if kind == Kind::RunBegun && flags.get_flag("done") {
            let end = end_of_run(&drafted, flags, &mut open)?;
            drafted.push(end);
        }
        remarks.extend(unasked_figures(&draft, &open));
        let cautions = caution_lines(
            drafted.iter().map(|one| &one.deed),
            &*open.store,
            open.reference,
        );
        let answer = if flags.get_flag("dry-run") {
            rehearse(&mut open, drafted)?
        } else {
            write(&mut open, drafted)?
        };
        Ok(answer
            .preceded("cautions", cautions)
            .preceded("remarks", remarks))
    })
}

/// Reads a draft, or says beside which flags it cannot be read.
fn read(draft: &Draft, open: &mut Open<'_>) -> Result<Drafted, Trouble> {
    let (now, zone) = (open.world.now(), open.world.zone());
    let names: &dyn Names = &*open.store;
    draft
        .read(&mut draft::Desk {
            names,
            reference: open.reference,
            now,
            zone,
            ids: &mut || open.world.fresh_id(),
        })
        .map_err(|problems| beside_flags(draft, &problems, names))
}

/// A draft as several, where it holds the readings of several strips.
fn each_strip(draft: &Draft, open: &mut Open<'_>) -> Vec<Draft> {
    let (now, zone) = (open.world.now(), open.world.zone());
    draft.each_strip(&draft::Desk {
        names: &*open.store,
        reference: open.reference,
        now,
        zone,
        ids: &mut || open.world.fresh_id(),
    })
}

/// Puts under what was typed what usually stays the same since the last similar entry.
fn like_last(open: &Open<'_>, typed: &Draft) -> Result<Option<Draft>, Trouble> {
    let names: &dyn Names = &*open.store;
    let about = typed.kind.about().and_then(|key| {
        let reference = tidy_reference(typed.get(key));
        names.find(&ThingKind::ALL, &reference)
    });
    let last = match about.map(|thing| thing.id) {
        // The figures of another step are not those of this one.
        Some(print) if typed.kind == Kind::PrintStep => {
            let life = names.life_of(print);
            let process = life
                .as_ref()
                .and_then(Life::print)
                .map(|print| &print.process);
            match process {
                Some(process) => open.store.last_step(process, typed.get("step").trim())?,
                None => None,
            }
        }
        about => open.store.last_similar(typed.kind, about)?,
    };
    let Some(last) = last else {
        return Ok(None);
    };
    let mut draft = Draft::after(&last, names);
    let own = typed.typed.iter();
    draft
        .typed
        .extend(own.map(|(key, text)| (key.clone(), text.clone())));
    Ok(Some(draft))
}

/// The end of a run that is logged together with its beginning.
fn end_of_run(
    begun: &[Drafted],
    flags: &ArgMatches,
    open: &mut Open<'_>,
) -> Result<Drafted, Trouble> {
    let mut draft = Draft::new(Kind::RunEnded).about(THIS_RUN);
    for (flag, field) in end_flags() {
        if let Some(text) = typed(flags, &flag) {
            draft.set(&field.key, text);
        }
    }
    if let Some(text) = typed(flags, "ended") {
        draft.set(HAPPENED, text);
    }
    let (now, zone) = (open.world.now(), open.world.zone());
    let names = WithRun {
        names: &*open.store,
        run: begun
            .iter()
            .find_map(|one| one.deed.creates().map(|(thing, _)| thing)),
    };
    let read = draft.read(&mut draft::Desk {
        names: &names,
        reference: open.reference,
        now,
        zone,
        ids: &mut || open.world.fresh_id(),
    });
    let mut end = read.map_err(|problems| {
        let flag_of = |key: &str| {
            end_flags()
                .find(|(_, field)| field.key == key)
                .map_or_else(|| "--ended".to_owned(), |(flag, _)| format!("--{flag}"))
        };
        let flags = problems.iter().map(|problem| BadFlag {
            flag: flag_of(&problem.key),
            problem: problem.problem.clone(),
        });
        Trouble::Unreadable(flags.collect())
    })?;
    if typed(flags, "ended").is_none()
        && let Some(begin) = begun.first()
    {
        end.happened = end_by_the_clock(begin, &end, flags);
    }
    Ok(end)
}

/// A run that began at a time that was said ended when its time was over, if that is not still to
/// come.
fn end_by_the_clock(
    begun: &Drafted,
    end: &Drafted,
    flags: &ArgMatches,
) -> chrono::DateTime<chrono::FixedOffset> {
    let planned = match &begun.deed {
        Deed::RunBegun(run) => run.time,
        _ => None,
    };
    let given = match &end.deed {
        Deed::RunEnded(ended) => ended.time.or(planned),
        _ => planned,
    };
    let over = given
        .filter(|_| typed(flags, "when").is_some())
        .and_then(|time| std::time::Duration::try_from_secs_f64(time.value()).ok())
        .and_then(|time| chrono::TimeDelta::from_std(time).ok())
        .and_then(|time| begun.happened.checked_add_signed(time));
    match over {
        Some(over) => over.min(end.happened.max(begun.happened)),
        None => end.happened.max(begun.happened),
    }
}

/// The names of a logbook with a run that is about to be logged.
struct WithRun<'a> {
    names: &'a dyn Names,
    run: Option<Thing>,
}

impl Names for WithRun<'_> {
    fn find(&self, kinds: &[ThingKind], reference: &str) -> Option<Thing> {
        if reference == tidy_reference(THIS_RUN) {
            return self.run;
        }
        self.names.find(kinds, reference)
    }

    fn life_of(&self, thing: ThingId) -> Option<Life> {
        self.names.life_of(thing)
    }
}

/// Says which figures of a step its process does not ask for: a slip of the pen, perhaps.
fn unasked_figures(draft: &Draft, open: &Open<'_>) -> Vec<String> {
    let asked: Vec<String> = draft
        .fields(&*open.store, open.reference)
        .iter()
        .filter_map(|field| field.key.strip_prefix(FIGURE_PREFIX).map(str::to_owned))
        .collect();
    let typed = draft
        .typed
        .keys()
        .filter_map(|key| key.strip_prefix(FIGURE_PREFIX));
    typed
        .filter(|key| !asked.iter().any(|known| known == key))
        .map(|key| {
            let known = if asked.is_empty() {
                "none".to_owned()
            } else {
                asked.join(", ")
            };
            format!("\"{key}\" is kept as it is written; the step asks for: {known}")
        })
        .collect()
}

/// Writes drafted entries as one act and gives the receipt.
pub(super) fn write(open: &mut Open<'_>, drafted: Vec<Drafted>) -> Result<Answer, Trouble> {
    let written = write_down(open.store, open.world, open.reference, drafted)?;
    receipt(open.store, open.reference, &written)
}

/// Judges drafted entries as one act, and writes nothing.
pub(super) fn rehearse(open: &mut Open<'_>, drafted: Vec<Drafted>) -> Result<Answer, Trouble> {
    let act = NewAct::now(open.world, drafted);
    let verdict = open.store.judge(act, open.reference)?;
    rehearsal(&verdict.entries, &verdict.lives, open.store, open.reference)
}
