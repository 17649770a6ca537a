//! The flags of the log words, made from the fields of each deed, and read back into a draft.
//!
//! Nothing here knows any deed by name: flags, their help and the words that may stand without a
//! flag all follow from [`Kind::fields`](crate::logbook::Kind::fields). Every value is taken as it
//! is typed; what it means is for the draft to say, so that all problems are told at once.

use std::borrow::Cow;

use clap::{Arg, ArgAction, ArgMatches, Command};

use super::trouble::{BadFlag, Trouble};
use crate::logbook::draft::{FIGURE_PREFIX, HAPPENED, NOTE, OVER};
use crate::logbook::{
    Draft, Field, FieldKind, FieldProblem, Kind, Names, Need, ThingKind, tidy_reference,
};

/// The id of the words that stand without a flag.
const WORDS: &str = "words";
/// The flag that names a file with readings.
pub(super) const READINGS_FILE: &str = "readings-file";
/// Flags every log word has.
const COMMON: &[&str] = &[
    "when",
    "note",
    "override",
    "like-last",
    "dry-run",
    "figure",
    "help",
    "json",
    "logbook",
    "read-only",
];

/// What the words without a flag are for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Plain {
    /// All of them are the value of this field.
    All(&'static str),
    /// The last of several is the value of the second field, what is before it of the first.
    Last(&'static str, &'static str),
    /// The first is the value of the first field, what follows of the second.
    Rest(&'static str, &'static str),
}

/// The kinds that have a log word: all but strikes and amendments, which are about entries.
pub(super) fn log_words() -> impl Iterator<Item = Kind> {
    let kinds = Kind::ALL.iter().copied();
    kinds.filter(|kind| !kind.fields().is_empty())
}

fn key_of(field: &'static Field) -> &'static str {
    match &field.key {
        Cow::Borrowed(key) => key,
        Cow::Owned(key) => key,
    }
}

fn plain_words(kind: Kind) -> Option<Plain> {
    let musts = || {
        let fields = kind.fields().iter();
        fields.filter(|field| field.need == Need::Must)
    };
    let about = kind.about().or_else(|| musts().next().map(key_of))?;
    let mut others = musts().filter(|field| field.key != about);
    Some(match (others.next(), others.next()) {
        (Some(second), None) => match second.kind {
            FieldKind::Choice(_) | FieldKind::Step | FieldKind::Count => {
                Plain::Last(about, key_of(second))
            }
            FieldKind::Text if is_single(kind, about) => Plain::Rest(about, key_of(second)),
            _ => Plain::All(about),
        },
        _ => Plain::All(about),
    })
}

/// Whether a field takes one reference in one word.
fn is_single(kind: Kind, key: &str) -> bool {
    field(kind, key).is_some_and(|field| {
        matches!(field.kind, FieldKind::AnyOf(_) | FieldKind::Thing(_))
            && field.kind != FieldKind::Thing(ThingKind::Side)
    })
}

fn field(kind: Kind, key: &str) -> Option<&'static Field> {
    kind.fields().iter().find(|field| field.key == key)
}

/// The command of a log word.
pub(super) fn word(kind: Kind) -> Command {
    let mut command = Command::new(kind.word()).about(sentence(kind));
    if let Some(plain) = plain_words(kind) {
        command = command.arg(plain_arg(kind, plain));
    }
    for field in kind.fields() {
        command = command.arg(flag(kind, field));
    }
    command = command
        .arg(
            Arg::new("when")
                .long("when")
                .value_name("TIME")
                .allow_hyphen_values(true)
                .help("When it happened, if not now: 16:02, yesterday 16:02, 4 mar 16:02, -20m"),
        )
        .arg(
            Arg::new("override")
                .long("override")
                .value_name("REASON")
                .help("Log it against the usual order, and why"),
        )
        .arg(
            Arg::new("like-last")
                .long("like-last")
                .action(ArgAction::SetTrue)
                .help("Take over from the last similar entry what usually stays the same"),
        )
        .arg(
            Arg::new("dry-run")
                .long("dry-run")
                .action(ArgAction::SetTrue)
                .help("Only say what would be logged, or why not"),
        );
    if kind.fields().iter().any(|field| field.carried) {
        command = command.after_help("* usually the same as last time: --like-last takes it over");
    }
    if !takes_note(kind) {
        command = command.arg(
            Arg::new("note")
                .long("note")
                .value_name("TEXT")
                .help("Whatever else is worth remembering"),
        );
    }
    if kind == Kind::StripRead {
        command = command.arg(
            Arg::new(READINGS_FILE)
                .long(READINGS_FILE)
                .value_name("FILE")
                .help("A CSV file with the readings; a column for each of several strips, t5.5 t8"),
        );
    }
    if kind == Kind::PrintStep {
        command = command.arg(
            Arg::new("figure")
                .long("figure")
                .value_name("KEY=VALUE")
                .action(ArgAction::Append)
                .help("A figure the step asks for, such as drops-a=20; \"notchbook processes\" lists them"),
        );
    }
    command
}

/// Whether a field of the kind is a note already.
fn takes_note(kind: Kind) -> bool {
    kind.fields().iter().any(|field| field.label == "note")
}

fn sentence(kind: Kind) -> String {
    capital(kind.title())
}

/// A text with a capital at its beginning, as help is written.
pub(super) fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| {
        first.to_uppercase().chain(letters).collect()
    })
}

fn plain_arg(kind: Kind, plain: Plain) -> Arg {
    let name = |key: &str| {
        let label = field(kind, key).map_or(key, |field| field.label.as_ref());
        label.to_uppercase().replace(' ', "-")
    };
    let about = |key: &str| field(kind, key).map_or("", |field| field.hint.as_ref());
    let (name, help) = match plain {
        Plain::All(key) => (name(key), format!("Such as {}", about(key))),
        Plain::Last(first, second) | Plain::Rest(first, second) => (
            format!("{} {}", name(first), name(second)),
            format!("Such as {}, then {}", about(first), about(second)),
        ),
    };
    Arg::new(WORDS).value_name(name).num_args(0..).help(help)
}

fn flag(kind: Kind, field: &'static Field) -> Arg {
    let key = key_of(field);
    let mut arg = Arg::new(key)
        .long(field.flag())
        .value_name(value_name(field.kind))
        .help(help(field));
    if let Some(alias) = alias(kind, field) {
        arg = arg.visible_alias(alias);
    }
    match field.kind {
        FieldKind::Things(_) | FieldKind::RunSheets => arg.action(ArgAction::Append),
        FieldKind::YesNo => arg
            .num_args(0..=1)
            .require_equals(true)
            .default_missing_value("yes"),
        _ => arg.allow_negative_numbers(true),
    }
}

fn help(field: &Field) -> String {
    let needed = match (field.need, field.carried) {
        (Need::Must, true) => " (needed) *",
        (Need::Must, false) => " (needed)",
        (Need::May, true) => " *",
        (Need::May, false) => "",
    };
    let choice = match field.kind {
        FieldKind::Choice(words) => format!("; one of {}", words.join(", ")),
        _ => String::new(),
    };
    format!("{}: {}{choice}{needed}", field.label, field.hint)
}

/// The label of a field as a second name of its flag, where it is one plain word.
fn alias(kind: Kind, field: &Field) -> Option<String> {
    let label = field.label.as_ref();
    let plain = label.chars().all(|c| c.is_ascii_lowercase());
    let is_note = label == "note" && takes_note(kind);
    let taken = (COMMON.contains(&label) && !is_note)
        || kind.fields().iter().any(|other| other.flag() == label)
        || kind
            .fields()
            .iter()
            .filter(|other| other.label == label)
            .count()
            > 1;
    (plain && !taken).then(|| label.to_owned())
}

const fn value_name(kind: FieldKind) -> &'static str {
    match kind {
        FieldKind::Text => "TEXT",
        FieldKind::Count => "NUMBER",
        FieldKind::Duration => "DURATION",
        FieldKind::Durations => "DURATIONS",
        FieldKind::Aperture => "APERTURE",
        FieldKind::Speed => "SPEED",
        FieldKind::Length => "LENGTH",
        FieldKind::Magnification => "MAGNIFICATION",
        FieldKind::Number => "NUMBER",
        FieldKind::Size => "SIZE",
        FieldKind::Temperature => "TEMPERATURE",
        FieldKind::Volume => "VOLUME",
        FieldKind::Density => "DENSITY",
        FieldKind::Densities | FieldKind::Readings => "DENSITIES",
        FieldKind::Tablet => "TABLET",
        FieldKind::LogExposure => "LOG-EXPOSURE",
        FieldKind::Dilution => "DILUTION",
        FieldKind::Capacity => "CAPACITY",
        FieldKind::Keeping => "DAYS",
        FieldKind::Formula => "FORMULA",
        FieldKind::Date => "DAY",
        FieldKind::Stops => "STOPS",
        FieldKind::Ev => "EV",
        FieldKind::Coordinates => "PLACE",
        FieldKind::Zone => "TIME-ZONE",
        FieldKind::Choice(_) => "WORD",
        FieldKind::YesNo => "YES-OR-NO",
        FieldKind::Thing(_) | FieldKind::AnyOf(_) | FieldKind::Reference(_) => "REFERENCE",
        FieldKind::Things(_) | FieldKind::RunSheets => "REFERENCES",
        FieldKind::Film => "FILM",
        FieldKind::Developer => "DEVELOPER",
        FieldKind::Contrast | FieldKind::Development => "CONTRAST",
        FieldKind::Paper => "PAPER",
        FieldKind::Process => "PROCESS",
        FieldKind::Sequence => "SEQUENCE",
        FieldKind::Step => "STEP",
        FieldKind::Patches => "PATCHES",
        FieldKind::Fault => "FAULT",
        FieldKind::Cause => "CAUSE",
    }
}

/// Puts what was typed into a draft.
pub(super) fn fill(draft: &mut Draft, matches: &ArgMatches) -> Result<(), Trouble> {
    let kind = draft.kind;
    for field in kind.fields() {
        if let Some(text) = typed(matches, key_of(field)) {
            draft.set(&field.key, text);
        }
    }
    // A word without anything it is about, such as the constants of the meter, has only flags.
    let words = plain_words(kind).and_then(|_| matches.get_many::<String>(WORDS));
    let words: Vec<&str> = words
        .map(|words| words.map(String::as_str).collect())
        .unwrap_or_default();
    if !words.is_empty() {
        for (key, text) in sort_words(kind, &words, matches)? {
            draft.set(key, text);
        }
    }
    for (flag, key) in [("when", HAPPENED), ("override", OVER), ("note", NOTE)] {
        if let Some(text) = typed(matches, flag) {
            draft.set(key, text);
        }
    }
    if let Some(reason) = typed(matches, "override")
        && reason.trim().is_empty()
    {
        return Err(Trouble::Unreadable(vec![BadFlag {
            flag: "--override".to_owned(),
            problem: "say why the usual order does not hold here".to_owned(),
        }]));
    }
    if kind == Kind::StripRead
        && let Some(path) = typed(matches, READINGS_FILE)
    {
        if !draft.get("readings").trim().is_empty() {
            return Err(Trouble::Usage(
                "--readings and --readings-file are both given: give one".to_owned(),
            ));
        }
        let readings = crate::export::readings_of(std::path::Path::new(&path));
        draft.set(
            "readings",
            readings.map_err(|why| Trouble::File(why.to_string()))?,
        );
    }
    if let Ok(Some(figures)) = matches.try_get_many::<String>("figure") {
        for figure in figures {
            let (key, value) = key_and_value(figure)?;
            draft.set(&format!("{FIGURE_PREFIX}{}", bare(key)), value);
        }
    }
    Ok(())
}

/// What was typed for one flag, several values joined.
pub(super) fn typed(matches: &ArgMatches, id: &str) -> Option<String> {
    let values: Vec<&str> = matches
        .try_get_many::<String>(id)
        .ok()??
        .map(String::as_str)
        .collect();
    Some(values.join(" "))
}

/// Splits `key=value`.
pub(super) fn key_and_value(text: &str) -> Result<(&str, &str), Trouble> {
    text.split_once('=')
        .map(|(key, value)| (key.trim(), value.trim()))
        .filter(|(key, _)| !key.is_empty())
        .ok_or_else(|| {
            Trouble::Usage(format!(
                "\"{text}\" is not of the form key=value, such as time=8s"
            ))
        })
}

fn bare(key: &str) -> &str {
    key.strip_prefix(FIGURE_PREFIX).unwrap_or(key)
}

fn sort_words(
    kind: Kind,
    words: &[&str],
    matches: &ArgMatches,
) -> Result<Vec<(&'static str, String)>, Trouble> {
    let given = |key: &str| typed(matches, key).is_some();
    let all = words.join(" ");
    let sorted = match (plain_words(kind), words) {
        (Some(Plain::Last(first, second)), [before @ .., last])
            if !before.is_empty() && !given(second) && may_be(kind, second, last) =>
        {
            vec![(first, before.join(" ")), (second, (*last).to_owned())]
        }
        (Some(Plain::Rest(first, second)), [before, rest @ ..])
            if !rest.is_empty() && !given(second) =>
        {
            vec![(first, (*before).to_owned()), (second, rest.join(" "))]
        }
        (Some(Plain::All(key) | Plain::Last(key, _) | Plain::Rest(key, _)), _) => vec![(key, all)],
        (None, _) => Vec::new(),
    };
    match sorted.iter().find(|(key, _)| given(key)) {
        None => Ok(sorted),
        Some((key, text)) => Err(Trouble::Usage(format!(
            "--{} is given, and \"{text}\" as well: give it once",
            field(kind, key).map_or_else(|| (*key).to_owned(), Field::flag)
        ))),
    }
}

/// Whether a word can be the value of a field at all. A side may be typed with a space in it, and
/// its second half is no choice.
fn may_be(kind: Kind, key: &str, word: &str) -> bool {
    match field(kind, key).map(|field| field.kind) {
        Some(FieldKind::Choice(words)) => {
            let word = word.to_lowercase();
            word.len() > 1 && words.iter().any(|choice| choice.starts_with(&word))
        }
        Some(FieldKind::Count) => word.parse::<u64>().is_ok(),
        _ => true,
    }
}

/// What cannot be read, beside the flags it was typed with.
pub(super) fn beside_flags(draft: &Draft, problems: &[FieldProblem], names: &dyn Names) -> Trouble {
    if let [only] = problems
        && names_nothing(draft, only, names)
    {
        return Trouble::NotFound(format!(
            "{}: \"notchbook list\" shows what there is",
            only.problem
        ));
    }
    let flags = problems.iter().map(|problem| BadFlag {
        flag: flag_of(draft.kind, &problem.key),
        problem: problem.problem.clone(),
    });
    Trouble::Unreadable(flags.collect())
}

fn flag_of(kind: Kind, key: &str) -> String {
    match key {
        HAPPENED => "--when".to_owned(),
        OVER => "--override".to_owned(),
        NOTE => "--note".to_owned(),
        "" => kind.word().to_owned(),
        _ => match key.strip_prefix(FIGURE_PREFIX) {
            Some(figure) => format!("--figure {figure}"),
            None => format!("--{}", key.replace('_', "-")),
        },
    }
}

/// Whether all that is wrong is a reference that nothing in the logbook has.
fn names_nothing(draft: &Draft, problem: &FieldProblem, names: &dyn Names) -> bool {
    let typed = draft.get(&problem.key).trim();
    let known = |word: &str| {
        let reference = tidy_reference(word);
        names.find(&ThingKind::ALL, &reference).is_some()
    };
    match field(draft.kind, &problem.key).map(|field| field.kind) {
        Some(FieldKind::Thing(_) | FieldKind::AnyOf(_)) => !typed.is_empty() && !known(typed),
        Some(FieldKind::Things(_) | FieldKind::RunSheets) => {
            let words = typed.split([' ', ',', ';', '+']);
            let mut words = words.filter(|word| !word.is_empty());
            !known(typed) && words.any(|word| !known(word))
        }
        _ => false,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn filled(words: &[&str]) -> Draft {
        let command = Command::new("log").subcommands(log_words().map(word));
        let matches = command
            .try_get_matches_from(std::iter::once(&"log").chain(words))
            .expect("it is a command");
        let (name, flags) = matches.subcommand().expect("a word");
        let mut draft = Draft::new(Kind::worded(name).expect("a kind"));
        fill(&mut draft, flags).expect("it can be taken");
        draft
    }

    #[test]
    fn every_log_word_is_a_sound_command() {
        for kind in log_words() {
            word(kind).debug_assert();
        }
        assert_eq!(log_words().count(), Kind::ALL.len() - 2);
    }

    #[test]
    fn words_without_a_flag_go_where_they_belong() {
        let draft = filled(&["expose", "H-07", "A", "--time", "1/8"]);
        assert_eq!((draft.get("side"), draft.get("time")), ("H-07 A", "1/8"));
        let draft = filled(&["see-slide", "h7", "a", "dark"]);
        assert_eq!((draft.get("side"), draft.get("shows")), ("h7 a", "dark"));
        let draft = filled(&["see-slide", "h7", "b", "--shows", "dark"]);
        assert_eq!((draft.get("side"), draft.get("shows")), ("h7 b", "dark"));
        let draft = filled(&["develop", "s42", "s43", "--time", "11m30"]);
        assert_eq!(draft.get("sheets"), "s42 s43");
        let draft = filled(&["note", "s42", "a", "dark", "line"]);
        assert_eq!(
            (draft.get("thing"), draft.get("text")),
            ("s42", "a dark line")
        );
        let draft = filled(&["count", "f3", "14"]);
        assert_eq!((draft.get("thing"), draft.get("sheets")), ("f3", "14"));
        let draft = filled(&["add-box", "FP4", "Plus", "--size", "8x10"]);
        assert_eq!(draft.get("film"), "FP4 Plus");
        let draft = filled(&["add-holder", "8", "x", "10", "2"]);
        assert_eq!((draft.get("size"), draft.get("sides")), ("8 x 10", "2"));
        let draft = filled(&["mix", "pyro", "two", "parts", "developer"]);
        assert_eq!(
            (draft.get("name"), draft.get("purpose")),
            ("pyro two parts", "developer")
        );
        let draft = filled(&["step", "p31", "coat", "--figure", "drops-a=20"]);
        assert_eq!(
            (
                draft.get("print"),
                draft.get("step"),
                draft.get("figures.drops-a")
            ),
            ("p31", "coat", "20")
        );
    }

    #[test]
    fn labels_are_second_names_of_flags() {
        let draft = filled(&["load", "h7a", "--box", "f3", "--when", "-20m"]);
        assert_eq!((draft.get("film_box"), draft.get(HAPPENED)), ("f3", "-20m"));
        assert_eq!(filled(&["expose", "h7a", "--again"]).get("again"), "yes");
        assert_eq!(filled(&["expose", "h7a", "--again=no"]).get("again"), "no");
        assert_eq!(
            filled(&["fog", "s42", "--why", "a leak"]).get("reason"),
            "a leak"
        );
    }
}
