//! `begin`: a new logbook, with holders and a first box of film if wished.

use clap::{Arg, ArgMatches, Command};

use super::answer::Answer;
use super::log::write;
use super::open::{Desk, Open};
use super::trouble::{BadFlag, Trouble};
use super::words::typed;
use crate::logbook::draft::{self, Drafted};
use crate::logbook::{Draft, FieldProblem, Kind, Life, Names, Thing, ThingId, ThingKind};
use crate::store::Store;

/// The most holders that are set up at once.
const MOST_HOLDERS: i64 = 200;

/// `begin`
pub(super) fn command() -> Command {
    let text = |id: &'static str, name: &'static str, help: &'static str| {
        Arg::new(id).long(id).value_name(name).help(help)
    };
    Command::new("begin")
        .about("Make a new logbook, with holders and a first box of film if wished")
        .long_about(
            "Make a new logbook, with holders and a first box of film if wished:\n\n  \
             notchbook begin --size 4x5,8x10 --holders 6 --film \"FP4 Plus\" --sheets 25 --box-size 8x10",
        )
        .arg(text("size", "SIZES", "The sizes you work in: 4x5,8x10"))
        .arg(
            Arg::new("holders")
                .long("holders")
                .value_name("NUMBER")
                .value_parser(clap::value_parser!(i64).range(0..=MOST_HOLDERS))
                .requires("size")
                .help("How many double holders of each size"),
        )
        .arg(text("film", "FILM", "The film of a first box: FP4 Plus"))
        .arg(text("sheets", "NUMBER", "How many sheets are in it: 25").requires("film"))
        .arg(text("box-size", "SIZE", "Their size, if not the first of --size").requires("film"))
        .arg(text("speed", "SPEED", "The speed it is exposed at: 80").requires("film"))
        .arg(text("emulsion", "TEXT", "The emulsion number on the box").requires("film"))
        .arg(text("expiry", "DAY", "The day to use it by: 2028-06-01").requires("film"))
}

/// A logbook in which there is nothing yet.
struct Nothing;

impl Names for Nothing {
    fn find(&self, _: &[ThingKind], _: &str) -> Option<Thing> {
        None
    }
    fn life_of(&self, _: ThingId) -> Option<Life> {
        None
    }
}

/// Makes the logbook.
pub(super) fn run(desk: &mut Desk<'_>, matches: &ArgMatches) -> Result<Answer, Trouble> {
    if desk.read_only {
        return Err(Trouble::Usage(
            "a new logbook cannot be read-only: leave --read-only out".to_owned(),
        ));
    }
    let (reference, warnings) = desk.places.reference();
    // Everything typed is read before a file is made.
    let (now, zone) = (desk.world.now(), desk.world.zone());
    let mut reading = draft::Desk {
        names: &Nothing,
        reference: &reference,
        now,
        zone,
        ids: &mut || desk.world.fresh_id(),
    };
    let drafted = first_entries(matches, &mut reading)?;
    let path = desk.places.logbook.clone();
    let mut store = Store::create(&path, desk.world)?;
    let mut answer = if drafted.is_empty() {
        Answer::default()
            .with("written", false)
            .with("entries", serde_json::json!([]))
    } else {
        let mut open = Open {
            store: &mut store,
            reference: &reference,
            world: desk.world,
        };
        write(&mut open, drafted)?
    };
    store.close()?;
    answer.words = format!("a new logbook is at {}\n{}", path.display(), answer.words);
    if answer.words.lines().count() == 1 {
        answer.line("next: notchbook log add-holder, notchbook log add-box, or notchbook alone");
    }
    Ok(answer
        .with("logbook", path.display().to_string())
        .preceded("warnings", warnings))
}

/// The holders and the box.
fn first_entries(
    matches: &ArgMatches,
    reading: &mut draft::Desk<'_>,
) -> Result<Vec<Drafted>, Trouble> {
    let sizes = typed(matches, "size").unwrap_or_default();
    let sizes: Vec<&str> = sizes
        .split(',')
        .map(str::trim)
        .filter(|size| !size.is_empty())
        .collect();
    let holders = matches.get_one::<i64>("holders").copied().unwrap_or(0);
    let mut drafted = Vec::new();
    let mut problems: Vec<BadFlag> = Vec::new();
    for size in &sizes {
        let mut draft = Draft::new(Kind::HolderAdded);
        draft.set("size", *size);
        draft.set("sides", "2");
        // One reading shows whether the size can be read, even if no holder is wanted.
        for at in 0..holders.max(1) {
            match draft.read(reading) {
                Ok(read) if at < holders => drafted.push(read),
                Ok(_) => {}
                Err(found) => {
                    problems.extend(found.iter().map(|problem| beside("size", problem)));
                    break;
                }
            }
        }
    }
    if let Some(film) = typed(matches, "film") {
        let mut draft = Draft::new(Kind::BoxAdded);
        draft.set("film", film);
        let size = typed(matches, "box-size")
            .or_else(|| sizes.first().map(|size| (*size).to_owned()))
            .unwrap_or_default();
        draft.set("size", size);
        for key in ["sheets", "speed", "emulsion", "expiry"] {
            if let Some(text) = typed(matches, key) {
                draft.set(key, text);
            }
        }
        match draft.read(reading) {
            Ok(read) => drafted.push(read),
            Err(found) => problems.extend(found.iter().map(|problem| {
                let flag = if problem.key == "size" {
                    "box-size"
                } else {
                    &problem.key
                };
                beside(flag, problem)
            })),
        }
    }
    if problems.is_empty() {
        Ok(drafted)
    } else {
        Err(Trouble::Unreadable(problems))
    }
}

fn beside(flag: &str, problem: &FieldProblem) -> BadFlag {
    BadFlag {
        flag: format!("--{flag}"),
        problem: problem.problem.clone(),
    }
}
