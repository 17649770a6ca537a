//! `notchbook reckon`: every figure there is, one word each, drawn from the table of figures.
//!
//! Flags, their help and the example of each figure follow from its recipe, so a figure that is added
//! there is a command already. Every value is taken as it is typed; what it means is for the figure to
//! say. A figure needs no logbook; where there is one, it is read for what the user owns and measured.

use std::collections::BTreeMap;
use std::ffi::OsString;

use chrono::{DateTime, FixedOffset};
use clap::builder::{PossibleValue, TypedValueParser};
use clap::{Arg, ArgMatches, Command};
use serde_json::{Value, json};

use super::answer::Answer;
use super::open::Desk;
use super::table::labelled;
use super::trouble::{BadFlag, Trouble};
use super::words::{capital, typed};
use crate::figures::{self, Ask, Book, Chapter, Given, NoKit, Problem, Recipe};
use crate::reference::Reference;

mod told;

/// What was typed, by key.
type Typed = BTreeMap<String, String>;

/// The command with a subcommand for every figure.
pub(super) fn command() -> Command {
    Command::new("reckon")
        .about("Reckon a figure: from the meter to the shutter, focus, depth, the sun")
        .long_about(
            "Reckon a figure: from the meter to the shutter, focus, depth, the sun.\n\nWithout a word \
             all figures are listed. Each says with --help what it needs, with an example that works. \
             The answer shows how it came about, and what every number rests on: published, usual, \
             remembered, or your own. No logbook is needed; where there is one, your own lenses and \
             measurements are found in it.",
        )
        .subcommand_value_name("FIGURE")
        .subcommand_help_heading("Figures")
        .disable_help_subcommand(true)
        .subcommands(figures::all().map(one))
}

/// The command of one figure.
fn one(recipe: &'static Recipe) -> Command {
    let command = Command::new(recipe.word)
        .about(capital(recipe.title))
        .long_about(format!("{}\n\n{}", capital(recipe.title), recipe.about))
        .after_help(format!("Example:\n  {}", example_line(recipe)));
    recipe.asks.iter().map(flag).fold(command, Command::arg)
}

fn flag(ask: &'static Ask) -> Arg {
    let arg = Arg::new(ask.key)
        .long(ask.flag())
        .value_name(value_name(ask.book))
        .allow_hyphen_values(true)
        .help(capital(ask.hint));
    match ask.book {
        Book::Choice(words) => arg.value_parser(Offered(words)),
        _ => arg,
    }
}

const fn value_name(book: Book) -> &'static str {
    match book {
        Book::None => "VALUE",
        Book::Choice(_) => "WORD",
        Book::Films => "FILM",
        Book::Developers => "DEVELOPER",
        Book::Filters => "FILTER",
        Book::Formats => "FORMAT",
        Book::Scenes => "SCENE",
        Book::Lenses => "LENS",
        Book::Cameras => "CAMERA",
        Book::Places => "PLACE",
    }
}

/// Words that are offered in the help and in completions. Which of them was meant is for the figure to
/// say, as in a pane: the beginning of a word is enough there.
#[derive(Clone, Copy)]
struct Offered(&'static [&'static str]);

impl TypedValueParser for Offered {
    type Value = String;

    fn parse_ref(
        &self,
        command: &Command,
        arg: Option<&Arg>,
        value: &std::ffi::OsStr,
    ) -> Result<String, clap::Error> {
        clap::builder::StringValueParser::new().parse_ref(command, arg, value)
    }

    fn possible_values(&self) -> Option<Box<dyn Iterator<Item = PossibleValue> + '_>> {
        Some(Box::new(
            self.0.iter().map(|word| PossibleValue::new(*word)),
        ))
    }
}

/// The example of a figure as it is typed into a shell.
fn example_line(recipe: &Recipe) -> String {
    let flags = recipe.example.iter().map(|(key, text)| {
        let ask = recipe.asks.iter().find(|ask| ask.key == *key);
        let flag = ask.map_or_else(|| (*key).to_owned(), Ask::flag);
        format!(" --{flag} {}", quoted(text))
    });
    let flags: String = flags.collect();
    format!("notchbook reckon {}{flags}", recipe.word)
}

/// A text as one word of a shell.
fn quoted(text: &str) -> String {
    let plain = |c: char| c.is_ascii_alphanumeric() || "-+./:,_@%=".contains(c);
    if !text.is_empty() && text.chars().all(plain) {
        return text.to_owned();
    }
    if text.contains(['$', '`', '\\', '!', '"']) {
        return format!("'{}'", text.replace('\'', r"'\''"));
    }
    format!("\"{text}\"")
}

/// The figure whose long help is asked for, if one is.
pub(super) fn helped(arguments: &[OsString]) -> Option<&'static Recipe> {
    let at = arguments.iter().position(|word| word == "reckon")?;
    let recipe = figures::named(arguments.get(at + 1)?.to_str()?)?;
    arguments
        .iter()
        .any(|word| word == "--help")
        .then_some(recipe)
}

/// The command line, the help of one figure showing what its example gives.
pub(super) fn with_output(
    command: Command,
    recipe: &'static Recipe,
    now: DateTime<FixedOffset>,
) -> Command {
    let reference = Reference::on_demand();
    let given: Typed = recipe.example.iter().copied().map(owned).collect();
    let desk = figures::Desk::new(&reference, &NoKit, now);
    let Ok(answer) = (recipe.answer)(&Given::new(recipe.asks, &given, &desk)) else {
        return command;
    };
    let output: String = told::words(&answer)
        .lines()
        .map(|line| format!("  {line}").trim_end().to_owned() + "\n")
        .collect();
    let help = format!("Example:\n  {}\n\n{output}", example_line(recipe));
    command.mut_subcommand("reckon", |reckon| {
        reckon.mut_subcommand(recipe.word, |one| one.after_long_help(help))
    })
}

fn owned((key, text): (&str, &str)) -> (String, String) {
    (key.to_owned(), text.to_owned())
}

/// Reckons what was asked for, or lists what can be.
pub(super) fn run(desk: &mut Desk<'_>, matches: &ArgMatches) -> Result<Answer, Trouble> {
    let Some((word, flags)) = matches.subcommand() else {
        return Ok(list());
    };
    let recipe = figures::named(word)
        .ok_or_else(|| Trouble::Usage(format!("there is no figure \"{word}\"")))?;
    let given: Typed = recipe
        .asks
        .iter()
        .filter_map(|ask| Some((ask.key.to_owned(), typed(flags, ask.key)?)))
        .collect();
    swallowed(recipe, &given)?;
    let (reference, mut warnings) = desk.places.reference();
    let (now, zone) = (desk.world.now(), desk.world.zone());
    let answer = desk.with_records(reference, &mut warnings, |reference, kit| {
        let desk = figures::Desk::new(reference, kit, now).in_zone(zone);
        (recipe.answer)(&Given::new(recipe.asks, &given, &desk))
            .map_err(|problem| trouble(recipe, problem, given.is_empty()))
    })?;
    Ok(told::answer(recipe, &given, &answer).preceded("warnings", warnings))
}

/// A value that is the next flag was forgotten.
fn swallowed(recipe: &Recipe, given: &Typed) -> Result<(), Trouble> {
    let is_flag = |text: &str| {
        let bare = text.strip_prefix("--");
        bare.is_some_and(|bare| recipe.asks.iter().any(|ask| ask.flag() == bare))
    };
    match given.iter().find(|(_, text)| is_flag(text)) {
        Some((key, text)) => Err(Trouble::Usage(format!(
            "--{} has no value: it is followed by {text}",
            key.replace('_', "-")
        ))),
        None => Ok(()),
    }
}

/// An answer in words, for commands that reckon with what the logbook holds.
pub(super) fn in_words(figure: &figures::Answer) -> String {
    told::words(figure)
}

fn trouble(recipe: &Recipe, problem: Problem, nothing_typed: bool) -> Trouble {
    let mut says = problem.says;
    if nothing_typed {
        says.push_str(&format!(
            "; \"notchbook reckon {} --help\" shows an example",
            recipe.word
        ));
    }
    let ask = |key| recipe.asks.iter().find(|ask| ask.key == key);
    match problem.key.and_then(ask) {
        Some(ask) => Trouble::Unreadable(vec![BadFlag {
            flag: format!("--{}", ask.flag()),
            problem: says,
        }]),
        None => Trouble::Impossible(says),
    }
}

/// Every figure, chapter by chapter.
fn list() -> Answer {
    let mut answer = Answer::default();
    let mut documents = Vec::new();
    let longest = figures::all().map(|recipe| recipe.word.len()).max();
    let longest = longest.unwrap_or(0);
    for chapter in Chapter::ALL {
        let recipes: Vec<&Recipe> = figures::all()
            .filter(|recipe| recipe.chapter == *chapter)
            .collect();
        if recipes.is_empty() {
            continue;
        }
        if !answer.words.is_empty() {
            answer.line("");
        }
        answer.line(chapter.word());
        let pairs = recipes
            .iter()
            .map(|recipe| (format!("{:longest$}", recipe.word), recipe.title));
        let pairs: Vec<(String, &str)> = pairs.collect();
        answer.words.push_str(&labelled(2, &pairs));
        documents.extend(recipes.into_iter().map(document));
    }
    answer.line("\n\"notchbook reckon WORD --help\" says what a figure needs, with an example");
    answer.with("figures", documents)
}

/// A figure as a script finds it.
fn document(recipe: &Recipe) -> Value {
    let asks = recipe.asks.iter().map(|ask| {
        let choices = match ask.book {
            Book::Choice(words) => words,
            _ => &[],
        };
        json!({
            "flag": format!("--{}", ask.flag()),
            "label": ask.label,
            "hint": ask.hint,
            "choices": choices,
        })
    });
    json!({
        "word": recipe.word,
        "title": recipe.title,
        "chapter": recipe.chapter,
        "about": recipe.about,
        "asks": asks.collect::<Value>(),
        "example": example_line(recipe),
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_figure_is_a_sound_command() {
        command().debug_assert();
        assert_eq!(command().get_subcommands().count(), figures::all().count());
    }

    #[test]
    fn an_example_is_quoted_for_a_shell() {
        assert_eq!(quoted("f/22+1/3"), "f/22+1/3");
        assert_eq!(quoted("240 mm"), "\"240 mm\"");
        assert_eq!(quoted("13 1/2\""), "'13 1/2\"'");
        assert_eq!(quoted("a'b!"), r"'a'\''b!'");
    }

    #[test]
    fn a_flag_without_its_value_is_told() {
        let recipe = figures::named("bellows").unwrap();
        let given = Typed::from([("focal_length".to_owned(), "--draw".to_owned())]);
        let Err(Trouble::Usage(says)) = swallowed(recipe, &given) else {
            panic!("it was taken for a value");
        };
        assert_eq!(
            says,
            "--focal-length has no value: it is followed by --draw"
        );
    }

    #[test]
    fn the_long_help_of_a_figure_shows_what_its_example_gives() {
        let arguments = ["notchbook", "reckon", "bellows", "--help"].map(OsString::from);
        let recipe = helped(&arguments).unwrap();
        let now = DateTime::parse_from_rfc3339("2026-03-04T16:02:00+01:00").unwrap();
        let root = Command::new("notchbook").subcommand(command());
        let error = with_output(root, recipe, now)
            .try_get_matches_from(&arguments)
            .unwrap_err();
        let help = error.to_string();
        for part in ["more exposure", "+0.59 stop", "published"] {
            assert!(help.contains(part), "{part}\n{help}");
        }
        assert!(helped(&arguments[..3]).is_none());
    }
}
