//! `lives`: what may happen to each kind of thing, in which state. Drawn from the tables that judge
//! every entry, so it cannot be out of date.

use clap::builder::PossibleValuesParser;
use clap::{Arg, ArgMatches, Command};
use serde_json::json;

use super::answer::Answer;
use super::table::Table;
use crate::logbook::ThingKind;
use crate::logbook::life::table_in_words;

/// `lives`
pub(super) fn command() -> Command {
    let kinds = ThingKind::ALL.map(ThingKind::name);
    Command::new("lives")
        .about("Show what may happen to a kind of thing, in which state, and where it leads")
        .arg(
            Arg::new("kind")
                .value_name("KIND")
                .value_parser(PossibleValuesParser::new(kinds))
                .help("Only this kind, such as sheet"),
        )
}

/// Shows the tables.
pub(super) fn lives(matches: &ArgMatches) -> Answer {
    let wanted = matches
        .get_one::<String>("kind")
        .and_then(|name| ThingKind::named(name));
    let mut answer = Answer::default();
    let mut documents = serde_json::Map::new();
    for kind in ThingKind::ALL {
        if wanted.is_some_and(|wanted| wanted != kind) {
            continue;
        }
        let mut table = Table::new(&["a", "that is", "may be", "and then is"]);
        let mut rows = Vec::new();
        for (from, deed, to) in table_in_words(kind) {
            table.row([
                kind.name().to_owned(),
                from.to_owned(),
                format!("{} ({})", deed.name(), deed.word()),
                to.to_owned(),
            ]);
            rows.push(json!({"from": from, "kind": deed.name(), "word": deed.word(), "to": to}));
        }
        answer.line(table.lines());
        documents.insert(kind.name().to_owned(), rows.into());
    }
    answer.with("lives", documents)
}
