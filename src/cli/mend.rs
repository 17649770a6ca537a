//! `undo`, `strike` and `amend`: later words about earlier entries. Nothing is ever taken away; the
//! old line stays legible with its reason.

use clap::{Arg, ArgAction, ArgMatches, Command};

use super::answer::Answer;
use super::log::{rehearse, write};
use super::open::{Desk, Open};
use super::trouble::{BadFlag, Trouble};
use super::words::{key_and_value, typed};
use crate::logbook::draft::{self, Drafted, FIGURE_PREFIX};
use crate::logbook::{Amended, Deed, Draft, EntryId, Field, FieldProblem, Names, Struck, amended};

fn entry_arg() -> Arg {
    Arg::new("entry")
        .value_name("ENTRY")
        .required(true)
        .help("The number of the entry: 57 or #57")
}

fn why(required: bool) -> Arg {
    Arg::new("why")
        .long("why")
        .value_name("REASON")
        .required(required)
        .help("The reason, which is kept with it")
}

fn dry_run() -> Arg {
    Arg::new("dry-run")
        .long("dry-run")
        .action(ArgAction::SetTrue)
        .help("Only say what would be logged, or why not")
}

/// `undo`
pub(super) fn undo_command() -> Command {
    Command::new("undo")
        .about("Strike the newest act on this machine")
        .arg(why(false).default_value("undone"))
        .arg(dry_run())
}

/// `strike`
pub(super) fn strike_command() -> Command {
    Command::new("strike")
        .about("Cross an entry out; it stays legible")
        .long_about(
            "Cross an entry out; it stays legible, with the reason. To bring a struck entry back, \
             strike the strike.",
        )
        .arg(entry_arg())
        .arg(why(true))
        .arg(dry_run())
}

/// `amend`
pub(super) fn amend_command() -> Command {
    Command::new("amend")
        .about("Replace figures of an entry; the old ones stay legible")
        .long_about(
            "Replace figures of an entry; the old ones stay legible, with the reason.\n\n\
             Each change is written as key=value, with the name of the flag it was logged with; \
             nothing behind the = takes the figure out:\n\n  \
             notchbook amend 57 time=8s aperture=f/22+1/3 filter= --why \"misread the shutter\"",
        )
        .arg(entry_arg())
        .arg(
            Arg::new("change")
                .value_name("KEY=VALUE")
                .num_args(0..)
                .help("What it should have said"),
        )
        .arg(
            Arg::new("when")
                .long("when")
                .value_name("TIME")
                .allow_hyphen_values(true)
                .help("When it really happened"),
        )
        .arg(
            Arg::new("override")
                .long("override")
                .value_name("REASON")
                .help("Let it stand against the usual order, and why"),
        )
        .arg(why(true))
        .arg(dry_run())
}

/// Reads the number of an entry.
pub(super) fn entry_number(typed: &str) -> Result<i64, Trouble> {
    let digits = typed.trim();
    let digits = digits.strip_prefix('#').unwrap_or(digits);
    digits.parse().map_err(|_| {
        Trouble::Unreadable(vec![BadFlag {
            flag: "ENTRY".to_owned(),
            problem: format!("\"{typed}\" is not the number of an entry: write 57 or #57"),
        }])
    })
}

/// No entry has that number.
pub(super) fn no_such_entry(row: i64) -> Trouble {
    Trouble::NotFound(format!(
        "there is no entry #{row} in this logbook: \"notchbook show REFERENCE\" and \"notchbook search TEXT\" show the numbers"
    ))
}

/// Strikes the newest act.
pub(super) fn undo(desk: &mut Desk<'_>, matches: &ArgMatches) -> Result<Answer, Trouble> {
    desk.with_logbook(|mut open| {
        let Some(last) = open.store.last_act(open.reference)? else {
            return Err(Trouble::NotFound(
                "there is nothing to undo: this machine has logged nothing that still counts"
                    .to_owned(),
            ));
        };
        let reason = typed(matches, "why").unwrap_or_default();
        // What rests on an earlier entry of the act goes first.
        let entries = last.entries.iter().rev().map(|one| one.entry);
        let drafted = strikes(entries, &reason, &open);
        finish(&mut open, drafted, matches)
    })
}

/// Strikes one entry.
pub(super) fn strike(desk: &mut Desk<'_>, matches: &ArgMatches) -> Result<Answer, Trouble> {
    let row = entry_number(&typed(matches, "entry").unwrap_or_default())?;
    desk.with_logbook(|mut open| {
        let entry = open.store.entry_by_row(row)?;
        let entry = entry.ok_or_else(|| no_such_entry(row))?;
        let reason = typed(matches, "why").unwrap_or_default();
        let drafted = strikes(std::iter::once(entry.id), &reason, &open);
        finish(&mut open, drafted, matches)
    })
}

fn strikes(entries: impl Iterator<Item = EntryId>, reason: &str, open: &Open<'_>) -> Vec<Drafted> {
    let happened = open.world.now();
    let struck = entries.map(|entry| Drafted {
        deed: Deed::Struck(Struck {
            entry,
            reason: reason.to_owned(),
            touches: Vec::new(),
        }),
        happened,
        over: None,
        note: None,
    });
    struck.collect()
}

fn finish(
    open: &mut Open<'_>,
    drafted: Vec<Drafted>,
    matches: &ArgMatches,
) -> Result<Answer, Trouble> {
    if matches.get_flag("dry-run") {
        rehearse(open, drafted)
    } else {
        write(open, drafted)
    }
}

/// Replaces figures of an entry.
pub(super) fn amend(desk: &mut Desk<'_>, matches: &ArgMatches) -> Result<Answer, Trouble> {
    let row = entry_number(&typed(matches, "entry").unwrap_or_default())?;
    let changes: Vec<(&str, &str)> = matches
        .get_many::<String>("change")
        .unwrap_or_default()
        .map(|change| key_and_value(change))
        .collect::<Result<_, _>>()?;
    let when = typed(matches, "when");
    if changes.is_empty() && when.is_none() {
        return Err(Trouble::Usage(
            "say what it should have been: notchbook amend 57 time=8s --why \"misread the shutter\""
                .to_owned(),
        ));
    }
    desk.with_logbook(|mut open| {
        let entry = open.store.entry_by_row(row)?;
        let entry = entry.ok_or_else(|| no_such_entry(row))?;
        let settled = open.store.as_it_counts(entry.id)?;
        let settled = settled.ok_or_else(|| no_such_entry(row))?;
        let now_counts = settled.deed;
        // The last amendment is the one that counts, so it says again what an earlier one said.
        let said_before = (settled.happened != entry.happened).then_some(settled.happened);
        let names: &dyn Names = &*open.store;
        let mut draft = Draft::of(&now_counts, names);
        let fields = draft.fields(names, open.reference);
        let mut unknown = Vec::new();
        for (key, value) in &changes {
            match key_for(&fields, key) {
                Some(found) => draft.set(&found, *value),
                None => unknown.push(no_such_key(&now_counts, &fields, key)),
            }
        }
        if !unknown.is_empty() {
            return Err(Trouble::Unreadable(unknown));
        }
        if let Some(when) = &when {
            draft.set(draft::HAPPENED, when.clone());
        }
        let (now, zone) = (open.world.now(), open.world.zone());
        let mut ids = || open.world.fresh_id();
        let mut reading = draft::Desk {
            names,
            reference: open.reference,
            now,
            zone,
            ids: &mut ids,
        };
        let happened = match when {
            None => None,
            Some(_) => Some(
                draft
                    .read(&mut reading)
                    .map_err(|problems| beside_keys(&problems))?
                    .happened,
            ),
        };
        let deed = amended(&now_counts, &draft, &mut reading)
            .map_err(|problems| beside_keys(&problems))?;
        let drafted = vec![Drafted {
            deed: Deed::Amended(Amended {
                entry: entry.id,
                deed: Box::new(deed),
                happened: happened.or(said_before),
                reason: typed(matches, "why").unwrap_or_default(),
                touches: Vec::new(),
            }),
            happened: now,
            over: typed(matches, "override"),
            note: None,
        }];
        finish(&mut open, drafted, matches)
    })
}

/// The key of the field that is meant by its key, its flag or its label.
fn key_for(fields: &[Field], typed: &str) -> Option<String> {
    let typed = typed.trim_start_matches('-');
    let dashed = |text: &str| text.replace([' ', '_'], "-");
    let found = fields
        .iter()
        .find(|field| dashed(bare(field)) == dashed(typed))
        .or_else(|| {
            fields
                .iter()
                .find(|field| dashed(&field.label) == dashed(typed))
        })?;
    Some(found.key.to_string())
}

fn bare(field: &Field) -> &str {
    let key = field.key.as_ref();
    key.strip_prefix(FIGURE_PREFIX).unwrap_or(key)
}

fn no_such_key(deed: &Deed, fields: &[Field], typed: &str) -> BadFlag {
    let known: Vec<String> = fields
        .iter()
        .map(|field| bare(field).replace('_', "-"))
        .collect();
    BadFlag {
        flag: format!("{typed}="),
        problem: if known.is_empty() {
            format!("a \"{}\" entry is struck, not amended", deed.kind())
        } else {
            format!(
                "a \"{}\" entry has no \"{typed}\": {}",
                deed.kind(),
                known.join(", ")
            )
        },
    }
}

fn beside_keys(problems: &[FieldProblem]) -> Trouble {
    let flags = problems.iter().map(|problem| {
        let key = problem.key.as_str();
        let key = key.strip_prefix(FIGURE_PREFIX).unwrap_or(key);
        BadFlag {
            flag: match key {
                draft::HAPPENED => "--when".to_owned(),
                _ => format!("{}=", key.replace('_', "-")),
            },
            problem: problem.problem.clone(),
        }
    });
    Trouble::Unreadable(flags.collect())
}
