//! `show`, `entry` and `next`: one thing with its story, one entry with all its figures, and what
//! can come next.

use clap::{Arg, ArgMatches, Command};
use serde_json::{Value, json};

use super::answer::Answer;
use super::cells::moment;
use super::facts::{facts, in_words};
use super::mend::{entry_number, no_such_entry};
use super::open::{Desk, Open};
use super::table::{Table, labelled};
use super::trouble::Trouble;
use super::words::typed;
use crate::logbook::{FieldKind, Kind, Life, Names, Thing, ThingKind, tidy_reference};
use crate::reference::Need;
use crate::store::rows::Line;

/// The words of a reference, which need no quotes: `H-07 A` is two.
pub(super) fn reference_arg() -> Arg {
    Arg::new("reference")
        .value_name("REFERENCE")
        .num_args(1..)
        .required(true)
        .help("Such as S-0042 or s42, H-07 A or h7a")
}

/// `show`
pub(super) fn show_command() -> Command {
    Command::new("show")
        .about("Show one thing: its state, what is known of it, every entry, what can come next")
        .arg(reference_arg())
}

/// `entry`
pub(super) fn entry_command() -> Command {
    Command::new("entry")
        .about("Show one entry with all its figures")
        .arg(
            Arg::new("entry")
                .value_name("ENTRY")
                .required(true)
                .help("The number of the entry: 57 or #57"),
        )
}

/// `next`
pub(super) fn next_command() -> Command {
    Command::new("next")
        .about("Say what can be logged next of one thing")
        .arg(reference_arg())
}

/// The thing that is called so.
pub(super) fn thing_called(open: &Open<'_>, matches: &ArgMatches) -> Result<Life, Trouble> {
    let typed = typed(matches, "reference").unwrap_or_default();
    let reference = tidy_reference(&typed);
    open.store
        .find(&ThingKind::ALL, &reference)
        .and_then(|thing| open.store.life_of(thing.id))
        .ok_or_else(|| {
            Trouble::NotFound(format!(
                "nothing in this logbook is called \"{typed}\": \"notchbook list\" shows what there is, \"notchbook search\" finds it by its words"
            ))
        })
}

/// A thing as a JSON object.
pub(super) fn life_document(life: &Life) -> Value {
    json!({
        "kind": life.thing.kind,
        "id": life.thing.id,
        "reference": life.reference,
        "state": life.state_word(),
        "since": life.since,
        "born": life.born,
        "in_doubt": life.side().is_some_and(|side| side.doubt.is_some()),
    })
}

/// Shows one thing.
pub(super) fn show(desk: &mut Desk<'_>, matches: &ArgMatches) -> Result<Answer, Trouble> {
    desk.with_logbook(|open| {
        let life = thing_called(&open, matches)?;
        let names: &dyn Names = &*open.store;
        let known = facts(&life, names, open.reference);
        let lines = open.store.timeline(life.thing.id, open.reference)?;
        let coming = next_acts(&life, names, &open);
        let mut answer = Answer::default();
        answer.line(format!("{}  {}", life.reference, life.thing.kind));
        let mut pairs = vec![("state".to_owned(), in_words(&life))];
        if let Some(since) = life.since {
            pairs.push(("since".to_owned(), moment(since)));
        }
        pairs.extend(known.clone());
        answer.words.push_str(&labelled(2, &pairs));
        answer.line("\nentries");
        answer.words.push_str(&timeline(&lines));
        if !coming.is_empty() {
            answer.line("\nnext");
            answer.words.push_str(&next_table(&coming));
        }
        let facts: serde_json::Map<String, Value> = {
            let mut map = serde_json::Map::new();
            for (label, value) in known {
                // A sheet exposed twice has two of some.
                match map.get_mut(&label) {
                    Some(Value::Array(several)) => several.push(value.into()),
                    Some(one) => *one = json!([one.clone(), value]),
                    None => {
                        map.insert(label, value.into());
                    }
                }
            }
            map
        };
        let entries = serde_json::to_value(&lines).map_err(other)?;
        Ok(answer
            .with("thing", life_document(&life))
            .with("facts", facts)
            .with("entries", entries)
            .with("next", next_document(&coming)))
    })
}

fn other(error: serde_json::Error) -> Trouble {
    Trouble::Other(error.to_string())
}

/// The entries of a thing, one or more lines each. In front of the number stands a mark: `x` for
/// struck, `~` for amended, `!` for logged against the order.
fn timeline(lines: &[Line]) -> String {
    let mut table = Table::new(&["", "entry", "when", "", "", ""]);
    for line in lines {
        let mark = match line {
            _ if line.struck.is_some() => "x",
            _ if !line.amended.is_empty() => "~",
            _ if line.over.is_some() => "!",
            _ => "",
        };
        let things: Vec<&str> = line
            .things
            .iter()
            .map(|named| named.reference.as_str())
            .filter(|reference| !line.telling.headline.contains(reference))
            .collect();
        let about = line
            .about
            .map(|row| format!("#{row}: "))
            .unwrap_or_default();
        table.row([
            mark.to_owned(),
            format!("#{}", line.row),
            moment(line.happened),
            line.kind.name().to_owned(),
            format!("{about}{}", line.telling.headline),
            things.join(" "),
        ]);
        for remark in remarks(line) {
            table.row([
                String::new(),
                String::new(),
                String::new(),
                String::new(),
                remark,
            ]);
        }
    }
    // What each column is can be seen.
    table.body()
}

/// What else there is to say about an entry, a line each.
fn remarks(line: &Line) -> Vec<String> {
    let mut remarks = Vec::new();
    if let Some(struck) = &line.struck {
        remarks.push(format!(
            "struck on {}: {}",
            moment(struck.written),
            struck.reason
        ));
    }
    for amended in &line.amended {
        remarks.push(format!(
            "amended on {}: {}",
            moment(amended.written),
            amended.reason
        ));
    }
    if let Some(was) = &line.was {
        remarks.push(format!("before: {}", was.headline));
    }
    if line.elsewhere {
        remarks.push("amended to be about something else".to_owned());
    }
    if let Some(over) = &line.over {
        remarks.push(format!("against the order: {over}"));
    }
    if let Some(note) = &line.note {
        remarks.push(format!("note: {note}"));
    }
    if let Some(outcome) = &line.outcome {
        // One line for what became of it, one for each step on the way.
        let mut parts = outcome.split("; ");
        remarks.extend(parts.next().map(|fate| format!("then: {fate}")));
        remarks.extend(parts.map(|step| format!("      {step}")));
    }
    if line.late {
        remarks.push(format!("written late, on {}", moment(line.written)));
    }
    remarks
}

/// Shows one entry.
pub(super) fn entry(desk: &mut Desk<'_>, matches: &ArgMatches) -> Result<Answer, Trouble> {
    let row = entry_number(&typed(matches, "entry").unwrap_or_default())?;
    desk.with_logbook(|open| {
        let line = open.store.entry_line(row, open.reference)?;
        let line = line.ok_or_else(|| no_such_entry(row))?;
        let mut answer = Answer::default();
        answer.line(format!(
            "#{row}  {}  {}",
            line.kind.name(),
            line.telling.headline
        ));
        let mut pairs = vec![
            ("happened".to_owned(), moment(line.happened)),
            ("written".to_owned(), moment(line.written)),
        ];
        if let Some(about) = line.about {
            pairs.push(("about entry".to_owned(), format!("#{about}")));
        }
        pairs.extend(line.telling.details.iter().cloned());
        pairs.extend(line.telling.steps.iter().cloned());
        let things: Vec<&str> = line
            .things
            .iter()
            .map(|one| one.reference.as_str())
            .collect();
        pairs.push(("touches".to_owned(), things.join(", ")));
        answer.words.push_str(&labelled(2, &pairs));
        for remark in remarks(&line) {
            answer.line(format!("  {remark}"));
        }
        if let Some(was) = &line.was {
            answer.line("  it said before");
            answer.words.push_str(&labelled(4, &was.details));
        }
        let value = serde_json::to_value(&line).map_err(other)?;
        Ok(answer.with("entry", value))
    })
}

/// Something that can come next.
struct Coming {
    kind: Kind,
    /// The command that logs it, as far as it is known.
    command: String,
    /// What it is.
    title: String,
    /// For a step of a process: its id.
    step: Option<String>,
}

/// Says what can come next.
pub(super) fn next(desk: &mut Desk<'_>, matches: &ArgMatches) -> Result<Answer, Trouble> {
    desk.with_logbook(|open| {
        let life = thing_called(&open, matches)?;
        let coming = next_acts(&life, &*open.store, &open);
        let mut answer = Answer::default();
        answer.line(format!("{} is {}", life.reference, in_words(&life)));
        if coming.is_empty() {
            answer.line("nothing can be logged of it any more");
        }
        answer.words.push_str(&next_table(&coming));
        Ok(answer
            .with("thing", life_document(&life))
            .with("next", next_document(&coming)))
    })
}

fn next_table(coming: &[Coming]) -> String {
    let pairs: Vec<(&str, &str)> = coming
        .iter()
        .map(|one| (one.command.as_str(), one.title.as_str()))
        .collect();
    labelled(2, &pairs)
}

fn next_document(coming: &[Coming]) -> Value {
    let each = coming.iter().map(|one| {
        json!({
            "word": one.kind.word(),
            "kind": one.kind.name(),
            "title": one.title,
            "command": one.command,
            "step": one.step,
        })
    });
    each.collect()
}

fn next_acts(life: &Life, names: &dyn Names, open: &Open<'_>) -> Vec<Coming> {
    let mut coming = Vec::new();
    for kind in life.possible() {
        let about = subject(kind, life, names);
        let command = format!("notchbook log {} {}", kind.word(), quoted(&about));
        if kind != Kind::PrintStep {
            coming.push(Coming {
                kind,
                command: command.trim_end().to_owned(),
                title: kind.title().to_owned(),
                step: None,
            });
            continue;
        }
        let process = life
            .print()
            .and_then(|print| Some((print, open.reference.process(&print.process)?)));
        let Some((print, process)) = process else {
            continue;
        };
        for step in print.next_steps(process) {
            let may = if step.need == Need::Optional {
                ", if wished"
            } else {
                ""
            };
            coming.push(Coming {
                kind,
                command: format!("{command} {}", step.id),
                title: format!("{}{may}", step.label),
                step: Some(step.id.clone()),
            });
        }
    }
    coming
}

/// What the entry would be about: the thing itself, or the side or run it is in.
fn subject(kind: Kind, life: &Life, names: &dyn Names) -> String {
    let field = kind
        .about()
        .and_then(|key| kind.fields().iter().find(|field| field.key == key));
    let wanted = match field.map(|field| field.kind) {
        Some(FieldKind::Thing(kind) | FieldKind::Things(kind)) => Some(kind),
        Some(FieldKind::RunSheets) => Some(ThingKind::Sheet),
        _ => None,
    };
    let here: Thing = life.thing;
    let other = match (wanted, life.sheet(), life.side()) {
        (Some(wanted), _, _) if wanted == here.kind => None,
        (Some(ThingKind::Side), Some(sheet), _) => sheet.side,
        (Some(ThingKind::Run), Some(sheet), _) => sheet.run,
        (Some(ThingKind::Sheet), _, Some(side)) => side.sheet,
        (Some(_), _, _) => return String::new(),
        (None, _, _) => None,
    };
    // A side that can be lost or thrown away is one whose sheet can.
    let takes = |kind: ThingKind| {
        field.is_none_or(|field| match field.kind {
            FieldKind::AnyOf(kinds) => kinds.contains(&kind),
            _ => true,
        })
    };
    match other {
        Some(id) => names.reference_of(id),
        None if takes(here.kind) => life.reference.clone(),
        None => life
            .side()
            .and_then(|side| side.sheet)
            .map(|sheet| names.reference_of(sheet))
            .unwrap_or_default(),
    }
}

fn quoted(reference: &str) -> String {
    if reference.contains(' ') {
        format!("\"{reference}\"")
    } else {
        reference.to_owned()
    }
}
