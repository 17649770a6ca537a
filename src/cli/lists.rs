//! `list` and `rack`: what there is, as tables.

use clap::builder::PossibleValue;
use clap::{Arg, ArgMatches, Command};
use serde::Serialize;
use serde_json::Value;

use super::answer::Answer;
use super::cells::{Listed, day, side_line};
use super::open::{Desk, Open};
use super::table::Table;
use super::trouble::Trouble;
use super::words::typed;
use crate::logbook::{Names, ThingKind, tidy_reference};
use crate::store::rows::{HolderRow, PAGE, PrintQuery, SheetQuery};

const WHAT: &[(&str, ThingKind)] = &[
    ("sheets", ThingKind::Sheet),
    ("prints", ThingKind::Print),
    ("holders", ThingKind::Holder),
    ("boxes", ThingKind::Box),
    ("papers", ThingKind::Paper),
    ("baths", ThingKind::Bath),
    ("runs", ThingKind::Run),
    ("sets", ThingKind::Set),
    ("lenses", ThingKind::Lens),
    ("cameras", ThingKind::Camera),
    ("findings", ThingKind::Finding),
];

/// `list`
pub(super) fn list_command() -> Command {
    let values = WHAT
        .iter()
        .map(|(plural, kind)| PossibleValue::new(*plural).alias(kind.name()));
    Command::new("list")
        .about("List what is in the logbook, newest first")
        .arg(
            Arg::new("what")
                .value_name("WHAT")
                .required(true)
                .value_parser(values.collect::<Vec<_>>())
                .help("What to list"),
        )
        .arg(
            Arg::new("find")
                .long("find")
                .value_name("TEXT")
                .help("Only rows that say all these words"),
        )
        .arg(
            Arg::new("limit")
                .long("limit")
                .value_name("NUMBER")
                .value_parser(clap::value_parser!(u32).range(1..=100_000))
                .help(format!("How many rows at most [usually {PAGE}]")),
        )
        .arg(
            Arg::new("after")
                .long("after")
                .value_name("REFERENCE")
                .help("Go on after this row: the next page"),
        )
}

/// `rack`
pub(super) fn rack_command() -> Command {
    Command::new("rack").about("Show every holder side: what is in it and what its slide shows")
}

/// One page of a list.
struct Page {
    table: Table,
    rows: Vec<Value>,
    references: Vec<String>,
}

fn page<R: Listed + Serialize>(rows: &[R]) -> Result<Page, Trouble> {
    let mut table = Table::new(R::HEADS);
    let mut values = Vec::with_capacity(rows.len());
    for row in rows {
        table.row(row.cells());
        let value = serde_json::to_value(row).map_err(|error| Trouble::Other(error.to_string()))?;
        values.push(value);
    }
    Ok(Page {
        table,
        rows: values,
        references: rows.iter().map(|row| row.reference().to_owned()).collect(),
    })
}

/// The rows of a short list that are asked for: found, behind a reference, one more than fits.
fn some<R: Listed>(rows: Vec<R>, find: &str, after: Option<&str>, limit: usize) -> Vec<R> {
    let words: Vec<String> = find.split_whitespace().map(str::to_lowercase).collect();
    let start = after
        .and_then(|after| rows.iter().position(|row| row.reference() == after))
        .map_or(0, |at| at + 1);
    let says_all = |row: &R| {
        let said = row.cells().join("\n").to_lowercase();
        words.iter().all(|word| said.contains(word))
    };
    let rows = rows.into_iter().skip(start);
    rows.filter(says_all).take(limit + 1).collect()
}

/// Lists one kind of thing.
pub(super) fn list(desk: &mut Desk<'_>, matches: &ArgMatches) -> Result<Answer, Trouble> {
    let what = typed(matches, "what").unwrap_or_default();
    let Some((plural, kind)) = WHAT
        .iter()
        .find(|(plural, kind)| what == *plural || what == kind.name())
    else {
        return Err(Trouble::Usage(format!("\"{what}\" cannot be listed")));
    };
    let find = typed(matches, "find").unwrap_or_default();
    let limit = matches
        .get_one::<u32>("limit")
        .and_then(|limit| usize::try_from(*limit).ok())
        .unwrap_or(PAGE);
    desk.with_logbook(|open| {
        let after = match typed(matches, "after") {
            None => None,
            Some(typed) => Some(behind(&open, *kind, &typed)?),
        };
        let (before, after) = match &after {
            Some((id, reference)) => (Some(*id), Some(reference.as_str())),
            None => (None, None),
        };
        let store = &*open.store;
        let mut page = match kind {
            ThingKind::Sheet => page(&store.sheets(&SheetQuery {
                find: &find,
                before,
                limit: limit + 1,
                ..SheetQuery::default()
            })?)?,
            ThingKind::Print => page(&store.prints(&PrintQuery {
                find: &find,
                before,
                limit: limit + 1,
                ..PrintQuery::default()
            })?)?,
            ThingKind::Holder => page(&some(store.rack()?, &find, after, limit))?,
            ThingKind::Box => page(&some(store.boxes()?, &find, after, limit))?,
            ThingKind::Paper => page(&some(store.papers()?, &find, after, limit))?,
            ThingKind::Bath => page(&some(store.baths()?, &find, after, limit))?,
            ThingKind::Run => page(&some(store.runs()?, &find, after, limit))?,
            ThingKind::Set => page(&some(store.sets()?, &find, after, limit))?,
            ThingKind::Lens => page(&some(store.lenses()?, &find, after, limit))?,
            ThingKind::Finding => page(&some(store.found()?, &find, after, limit))?,
            _ => page(&some(store.cameras()?, &find, after, limit))?,
        };
        let more = page.rows.len() > limit;
        page.rows.truncate(limit);
        page.table.truncate(limit);
        let next = page.references.get(limit - 1).filter(|_| more).cloned();
        let mut answer = Answer::default();
        if page.rows.is_empty() {
            answer.line(if find.is_empty() && after.is_none() {
                format!("no {plural} yet")
            } else {
                format!("no {plural} like that")
            });
        } else {
            answer.words = page.table.lines();
        }
        if let Some(next) = &next {
            answer.line(format!(
                "more: notchbook list {plural} --after {next}{}",
                if find.is_empty() {
                    String::new()
                } else {
                    format!(" --find \"{find}\"")
                }
            ));
        }
        Ok(answer
            .with("what", *plural)
            .with("rows", page.rows)
            .with("next", next))
    })
}

fn behind(
    open: &Open<'_>,
    kind: ThingKind,
    typed: &str,
) -> Result<(crate::logbook::ThingId, String), Trouble> {
    let reference = tidy_reference(typed);
    match open.store.find(&[kind], &reference) {
        Some(thing) => Ok((thing.id, reference)),
        None => Err(Trouble::NotFound(format!(
            "--after: there is no {kind} called \"{typed}\" in this logbook"
        ))),
    }
}

/// Shows what every side holds.
pub(super) fn rack(desk: &mut Desk<'_>) -> Result<Answer, Trouble> {
    desk.with_logbook(|open| {
        let rack = open.store.rack()?;
        let counts = open.store.counts()?;
        let mut answer = Answer::default();
        if rack.is_empty() {
            answer.line("no holders yet: notchbook log add-holder 8x10 --sides 2");
        } else {
            answer.words = rack_table(&rack).lines();
            let states = counts
                .sides
                .iter()
                .map(|(state, many)| format!("{many} {state}"));
            let mut told: Vec<String> = states.collect();
            if counts.in_doubt > 0 {
                told.push(format!("{} IN DOUBT", counts.in_doubt));
            }
            if let Some(oldest) = counts.oldest_exposed {
                told.push(format!("the oldest exposed since {}", day(oldest)));
            }
            answer.line(told.join(", "));
        }
        let holders: Result<Vec<Value>, _> = rack.iter().map(serde_json::to_value).collect();
        let holders = holders.map_err(|error| Trouble::Other(error.to_string()))?;
        Ok(answer
            .with("holders", holders)
            .with("sides", serde_json::json!(counts.sides))
            .with("in_doubt", counts.in_doubt)
            .with("oldest_exposed", serde_json::json!(counts.oldest_exposed)))
    })
}

/// Two sides stand beside each other, as on the holder; more follow below.
fn rack_table(rack: &[HolderRow]) -> Table {
    let mut table = Table::new(&["holder", "size", "", ""]);
    for holder in rack {
        let size = holder.size.map(|size| size.to_string()).unwrap_or_default();
        let sides: Vec<String> = holder.sides.iter().map(side_line).collect();
        for (at, pair) in sides.chunks(2).enumerate() {
            let (name, size) = if at == 0 {
                (holder.reference.clone(), size.clone())
            } else {
                (String::new(), String::new())
            };
            let mut cells = vec![name, size];
            cells.extend(pair.iter().cloned());
            table.row(cells);
        }
    }
    table
}
