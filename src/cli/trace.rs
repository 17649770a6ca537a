//! `trace` and `search`: where something came from, what came of it, and where a word was said.

use clap::{Arg, ArgAction, ArgMatches, Command};

use super::answer::Answer;
use super::cells::moment;
use super::open::Desk;
use super::show::{life_document, reference_arg, thing_called};
use super::table::Table;
use super::trouble::Trouble;
use super::words::typed;
use crate::export::shown_line;
use crate::store::rows::TraceStep;

/// `trace`
pub(super) fn trace_command() -> Command {
    Command::new("trace")
        .about("Trace a thing back to everything behind it, or forward with --down")
        .arg(reference_arg())
        .arg(
            Arg::new("down")
                .long("down")
                .action(ArgAction::SetTrue)
                .help("What came of it instead"),
        )
}

/// `search`
pub(super) fn search_command() -> Command {
    Command::new("search")
        .about("Find entries by their words, newest first")
        .arg(
            Arg::new("text")
                .value_name("TEXT")
                .num_args(1..)
                .required(true)
                .help("Words, or their beginnings, that must all be in the entry"),
        )
        .arg(
            Arg::new("limit")
                .long("limit")
                .value_name("NUMBER")
                .value_parser(clap::value_parser!(u32).range(1..=100_000))
                .default_value("50")
                .help("How many entries at most"),
        )
        .arg(
            Arg::new("after")
                .long("after")
                .value_name("ENTRY")
                .help("Go on after this entry: the next page"),
        )
}

/// Traces a thing.
pub(super) fn trace(desk: &mut Desk<'_>, matches: &ArgMatches) -> Result<Answer, Trouble> {
    let down = matches.get_flag("down");
    desk.with_logbook(|open| {
        let life = thing_called(&open, matches)?;
        let steps = if down {
            open.store.trace_down(life.thing.id, open.reference)?
        } else {
            open.store.trace_up(life.thing.id, open.reference)?
        };
        let mut answer = Answer::default();
        for step in &steps {
            answer.words.push_str(&told(step));
        }
        if steps.len() <= 1 {
            answer.line(if down {
                "nothing came of it yet"
            } else {
                "nothing is behind it"
            });
        }
        let steps =
            serde_json::to_value(&steps).map_err(|error| Trouble::Other(error.to_string()))?;
        Ok(answer
            .with("thing", life_document(&life))
            .with("way", if down { "down" } else { "up" })
            .with("steps", steps))
    })
}

fn told(step: &TraceStep) -> String {
    let depth = usize::try_from(step.depth).unwrap_or(usize::MAX).min(64);
    let gap = "  ".repeat(depth);
    let role = if step.role.is_empty() {
        step.thing.kind.name()
    } else {
        &step.role
    };
    let again = if step.repeated { " (told above)" } else { "" };
    let mut text = format!(
        "{gap}{role} {}  {}{again}\n",
        shown_line(&step.reference),
        shown_line(&step.summary)
    );
    for fact in &step.facts {
        let line = format!(
            "{gap}    {}  {}: {}",
            moment(fact.happened),
            fact.label,
            fact.value
        );
        text.push_str(&shown_line(&line));
        text.push('\n');
    }
    text
}

/// Searches the entries.
pub(super) fn search(desk: &mut Desk<'_>, matches: &ArgMatches) -> Result<Answer, Trouble> {
    let text = typed(matches, "text").unwrap_or_default();
    let limit = matches
        .get_one::<u32>("limit")
        .and_then(|limit| usize::try_from(*limit).ok())
        .unwrap_or(50);
    let before = match typed(matches, "after") {
        None => None,
        Some(entry) => Some(super::mend::entry_number(&entry)?),
    };
    desk.with_logbook(|open| {
        let mut hits = open
            .store
            .search(&text, before, limit + 1, open.reference)?;
        let more = hits.len() > limit;
        hits.truncate(limit);
        let mut table = Table::new(&["entry", "when", "what", "about", "says", ""]);
        for hit in &hits {
            let things: Vec<&str> = hit
                .things
                .iter()
                .map(|one| one.reference.as_str())
                .collect();
            let note = hit.note.as_ref().map(|note| format!("; {note}"));
            table.row([
                format!("#{}", hit.row),
                moment(hit.happened),
                hit.kind.name().to_owned(),
                things.join(" "),
                format!("{}{}", hit.headline, note.unwrap_or_default()),
                if hit.struck { "struck" } else { "" }.to_owned(),
            ]);
        }
        let mut answer = Answer::default();
        let next = hits.last().filter(|_| more).map(|hit| hit.row);
        if hits.is_empty() {
            answer.line(format!("no entry says \"{text}\""));
        } else {
            answer.words = table.lines();
        }
        if let Some(next) = next {
            answer.line(format!("more: the same with --after {next}"));
        }
        let hits =
            serde_json::to_value(&hits).map_err(|error| Trouble::Other(error.to_string()))?;
        Ok(answer.with("hits", hits).with("next", next))
    })
}
