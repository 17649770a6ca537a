//! The input of each field, with what can be offered to fill it, and the few words that stand behind
//! it.

use crate::logbook::draft::FIGURE_PREFIX;
use crate::logbook::follows::offers;
use crate::logbook::{
    Draft, Field, FieldKind, Kind, Life, Names, Need, Thing, ThingKind, tidy_reference,
};
use crate::reference::{Figure, FigureKind, Format, Process, Step};
use crate::store::rows::{BathRow, BoxRow, PaperRow, ToolRow};
use crate::tui::bench::Bench;
use crate::tui::widgets::choice::{Choice, Pick};
use crate::tui::widgets::field::{Field as Widget, Value};

/// A field of plain text.
pub(super) fn plain(key: &str, label: &str, empty: &str, draft: &Draft) -> Widget {
    Widget::text(key, label)
        .with_empty(empty)
        .with(draft.get(key))
}

/// The input for a field of a draft.
pub(super) fn widget(field: &Field, draft: &Draft, bench: &Bench) -> Widget {
    let key = field.key.as_ref();
    let widget = match picks(field, draft, bench) {
        Some(picks) => Widget::choice(key, field.label.as_ref(), picks),
        None => Widget::text(key, field.label.as_ref()),
    };
    let widget = widget
        .with_empty(field.hint.as_ref())
        .with(draft.get(key))
        .needed(field.need == Need::Must);
    if is_figure(field.kind) {
        widget.giving_way()
    } else {
        widget
    }
}

/// Whether a field holds a figure: one that was taken over is typed anew, not added to. Words and
/// names are often only mended, so they stay.
const fn is_figure(kind: FieldKind) -> bool {
    matches!(
        kind,
        FieldKind::Count
            | FieldKind::Duration
            | FieldKind::Durations
            | FieldKind::Aperture
            | FieldKind::Speed
            | FieldKind::Length
            | FieldKind::Magnification
            | FieldKind::Number
            | FieldKind::Stops
            | FieldKind::Ev
            | FieldKind::Size
            | FieldKind::Temperature
            | FieldKind::Volume
            | FieldKind::Density
            | FieldKind::Dilution
            | FieldKind::Capacity
            | FieldKind::Keeping
            | FieldKind::LogExposure
            | FieldKind::Contrast
            | FieldKind::Development
    )
}

/// What is offered for a field: closed for words the program knows, open for names.
fn picks(field: &Field, draft: &Draft, bench: &Bench) -> Option<Choice> {
    let words = |words: &[&str]| words.iter().map(|word| Pick::word(word)).collect();
    let lower: fn(&str) -> String = |text| text.trim().to_lowercase();
    let tidy: fn(&str) -> String = tidy_reference;
    match field.kind {
        FieldKind::Choice(choices) => Some(Choice::new(words(choices))),
        FieldKind::YesNo => Some(Choice::new(words(&["yes", "no"]))),
        FieldKind::Film => {
            let films = bench.reference.films().iter();
            let picks = films.map(|film| Pick::word(&film.name)).collect();
            Some(Choice::new(picks).open())
        }
        FieldKind::Size if takes_film(draft.kind, &field.key) => {
            let formats = bench.reference.formats().iter();
            Some(Choice::new(formats.filter_map(a_format).collect()).open())
        }
        FieldKind::Developer => {
            let developers = bench.reference.developers().iter();
            let picks = developers.map(|one| Pick::word(&one.name)).collect();
            Some(Choice::new(picks).open())
        }
        FieldKind::Paper => {
            let papers = bench.reference.papers().iter();
            let picks = papers.map(|paper| Pick::word(&paper.name)).collect();
            Some(Choice::new(picks).open())
        }
        FieldKind::Fault => {
            let faults = bench.reference.faults().iter();
            let picks = faults
                .map(|fault| Pick::new(&fault.name, format!("{}  {}", fault.name, fault.looks)));
            Some(Choice::new(picks.collect()).open())
        }
        FieldKind::Cause => {
            let fault = bench.reference.fault(draft.get("fault"))?;
            let picks = fault.causes.iter().map(|cause| Pick::word(cause));
            Some(Choice::new(picks.collect()).open())
        }
        FieldKind::Process => {
            let processes = bench.reference.processes().iter();
            let picks = processes.map(|one| Pick::new(&one.id, &one.name));
            Some(Choice::new(picks.collect()).found_by(lower))
        }
        FieldKind::Step => Some(Choice::new(steps(draft, bench)).found_by(lower)),
        FieldKind::Thing(kind) => {
            let picks = things(kind, field, draft, bench);
            (!picks.is_empty()).then(|| Choice::new(picks).found_by(tidy))
        }
        FieldKind::Things(ThingKind::Bath) => {
            let picks = things(ThingKind::Bath, field, draft, bench);
            (!picks.is_empty()).then(|| Choice::new(picks).found_by(tidy))
        }
        FieldKind::Formula | FieldKind::Capacity | FieldKind::Keeping | FieldKind::Volume
            if draft.kind == Kind::BathMixed =>
        {
            let told = bench.at_desk(|desk| offers(field.key.as_ref(), draft, desk));
            let picks = told
                .into_iter()
                .map(|(text, words)| labelled(&text, &words));
            let picks: Vec<Pick> = picks.collect();
            (!picks.is_empty()).then(|| Choice::new(picks).open())
        }
        FieldKind::Text => {
            let figure = figure(field, draft, bench)?;
            let picks: Vec<Pick> = figure.choices.iter().map(|word| Pick::word(word)).collect();
            (!picks.is_empty()).then(|| Choice::new(picks).open())
        }
        _ => None,
    }
}

/// Whether a field is the size of sheets of film.
fn takes_film(kind: Kind, key: &str) -> bool {
    let of_film = matches!(
        kind,
        Kind::BoxAdded | Kind::HolderAdded | Kind::CameraAdded | Kind::FormatFound
    );
    of_film && key == "size"
}

/// The size in the name of a format, behind the name where it has another one.
fn a_format(format: &Format) -> Option<Pick> {
    let size = format.size()?.to_string();
    Some(if size.starts_with(&format.name) {
        Pick::word(&size)
    } else {
        Pick::new(&size, format!("{}  {size}", format.name))
    })
}

/// The life of the print a step is about, and its process.
fn print_of<'b>(draft: &Draft, bench: &'b Bench) -> Option<(Life, &'b Process)> {
    let thing = bench
        .store
        .find(&[ThingKind::Print], &tidy_reference(draft.get("print")))?;
    let life = bench.life(thing)?;
    let process = bench.reference.process(&life.print()?.process)?;
    Some((life, process))
}

fn step_of<'b>(draft: &Draft, bench: &'b Bench) -> Option<&'b Step> {
    let (_, process) = print_of(draft, bench)?;
    process.step(draft.get("step").trim())
}

/// The figure of a step that a field asks for.
fn figure<'b>(field: &Field, draft: &Draft, bench: &'b Bench) -> Option<&'b Figure> {
    let key = field.key.strip_prefix(FIGURE_PREFIX)?;
    step_of(draft, bench)?.figure(key)
}

/// The steps of the print's process, those that can come now first.
fn steps(draft: &Draft, bench: &Bench) -> Vec<Pick> {
    let Some((life, process)) = print_of(draft, bench) else {
        return Vec::new();
    };
    let next = life.print().map(|print| print.next_steps(process));
    let next = next.unwrap_or_default();
    let rest = process
        .steps
        .iter()
        .filter(|step| next.iter().all(|other| other.id != step.id));
    next.iter()
        .copied()
        .chain(rest)
        .map(|step| {
            if step.id == step.label {
                Pick::word(&step.id)
            } else {
                Pick::new(&step.id, format!("{}  {}", step.id, step.label))
            }
        })
        .collect()
}

/// The things of a kind that can be named here, those at hand first, each with a few words on it.
fn things(kind: ThingKind, field: &Field, draft: &Draft, bench: &Bench) -> Vec<Pick> {
    let store = &bench.store;
    match kind {
        ThingKind::Box => {
            let rows = store.boxes().unwrap_or_default();
            let left = rows.into_iter().filter(|row| row.left > 0);
            left.map(|row| a_box(&row)).collect()
        }
        ThingKind::Lens => tools(store.lenses().unwrap_or_default()),
        ThingKind::Camera => tools(store.cameras().unwrap_or_default()),
        ThingKind::Paper => {
            let rows = store.papers().unwrap_or_default();
            let left = rows.into_iter().filter(|row| row.left > 0);
            left.map(|row| a_paper(&row)).collect()
        }
        ThingKind::Bath => baths(field, draft, bench),
        ThingKind::Run => {
            let running = store.runs_under_way().unwrap_or_default().into_iter();
            let pick = |row: crate::store::rows::RunRow| {
                let label = format!("{}  {}", row.reference, row.sheets.join(" "));
                Pick::new(row.reference, label)
            };
            running.map(pick).collect()
        }
        _ => Vec::new(),
    }
}

fn labelled(reference: &str, words: &str) -> Pick {
    Pick::new(reference, format!("{reference}  {words}"))
}

fn a_box(row: &BoxRow) -> Pick {
    let speed = row.speed.map(|speed| format!(" @{speed}"));
    let size = row.size.map(|size| format!(" {size}"));
    labelled(
        &row.reference,
        &format!(
            "{}{}{}, {} left",
            row.film,
            speed.unwrap_or_default(),
            size.unwrap_or_default(),
            row.left
        ),
    )
}

fn a_paper(row: &PaperRow) -> Pick {
    let size = row.size.map(|size| format!(" {size}"));
    let size = size.unwrap_or_default();
    labelled(
        &row.reference,
        &format!("{}{size}, {} left", row.name, row.left),
    )
}

fn tools(rows: Vec<ToolRow>) -> Vec<Pick> {
    rows.iter()
        .filter(|row| row.state == "in use")
        .map(|row| labelled(&row.reference, &row.name))
        .collect()
}

/// Baths that can be used, those meant for the purpose first.
fn baths(field: &Field, draft: &Draft, bench: &Bench) -> Vec<Pick> {
    let key = field.key.as_ref();
    let purpose = match key {
        "developer" | "stop" | "fixer" => {
            let word_is = |row: &BathRow| row.purpose.is_some_and(|it| it.word() == key);
            return usable(bench, &word_is);
        }
        _ => step_of(draft, bench).and_then(|step| step.bath),
    };
    let purpose = purpose.map(|purpose| purpose.word());
    let meant = |row: &BathRow| purpose.is_some() && row.purpose.map(|it| it.word()) == purpose;
    usable(bench, &meant)
}

fn usable(bench: &Bench, meant: &dyn Fn(&BathRow) -> bool) -> Vec<Pick> {
    let mut rows = bench.store.baths_in_use().unwrap_or_default();
    rows.sort_by_key(|row| !meant(row));
    let pick = |row: &BathRow| {
        let dilution = row.dilution.as_ref().map(|it| format!(" {it}"));
        let name = format!("{}{}", row.name, dilution.unwrap_or_default());
        labelled(&row.reference, &name)
    };
    rows.iter().map(pick).collect()
}

/// The word behind a field: the unit of a figure, or a few words on the thing it names, where its
/// choice does not say them.
pub(super) fn word_on(field: &Field, widget: &Widget, draft: &Draft, bench: &Bench) -> String {
    if let Some(figure) = figure(field, draft, bench) {
        return unit_of(figure).to_owned();
    }
    let FieldKind::Thing(kind) = field.kind else {
        return String::new();
    };
    // What the pane is about stands in its title with a few words on it.
    let in_title = draft.kind.about() == Some(field.key.as_ref()) && kind != ThingKind::Side;
    if in_title {
        return String::new();
    }
    if matches!(&widget.value, Value::Choice(choice) if choice.is_chosen()) {
        return String::new();
    }
    let thing = bench
        .store
        .find(&[kind], &tidy_reference(draft.get(&field.key)));
    match thing.and_then(|thing| bench.life(thing)) {
        Some(life) if kind == ThingKind::Side && draft.kind == Kind::Loaded => {
            let size = life.side().and_then(|side| side.size);
            size.map(|size| size.to_string()).unwrap_or_default()
        }
        Some(life) => match kind {
            ThingKind::Side | ThingKind::Sheet => life.state_word().to_owned(),
            _ => words_of(&life, bench),
        },
        None => String::new(),
    }
}

fn unit_of(figure: &Figure) -> &str {
    match figure.kind {
        FigureKind::Percent => "%",
        FigureKind::Drops => "drops",
        FigureKind::Stops => "stops",
        _ => &figure.unit,
    }
}

/// A few words on what a pane is about.
pub(super) fn words_on(about: &str, bench: &Bench) -> String {
    let one = bench.store.find(&ThingKind::ALL, &tidy_reference(about));
    match one {
        Some(thing) => bench
            .life(thing)
            .map(|life| words_of(&life, bench))
            .unwrap_or_default(),
        None => String::new(),
    }
}

/// What a thing is, in a few words.
fn words_of(life: &Life, bench: &Bench) -> String {
    let film = |life: &Life| -> Option<String> {
        let sheet = life.sheet()?;
        let film_box = bench.store.life_of(sheet.film_box?)?;
        let film_box = film_box.film_box()?;
        let speed = film_box.speed.map(|speed| format!(" @{speed}"));
        let mut exposures = sheet.exposures.iter().rev();
        let subject = exposures.find_map(|one| one.subject.clone());
        let subject = subject.map(|subject| format!(", {subject}"));
        Some(format!(
            "{}{}{}",
            film_box.film,
            speed.unwrap_or_default(),
            subject.unwrap_or_default()
        ))
    };
    let words = match life.thing.kind {
        ThingKind::Sheet => film(life),
        ThingKind::Side => life.side().and_then(|side| {
            let sheet = bench.life(Thing::new(ThingKind::Sheet, side.sheet?))?;
            let film = film(&sheet).unwrap_or_default();
            Some(format!("{}, {film}", sheet.reference))
        }),
        ThingKind::Print => life.print().map(|print| {
            let process = bench.reference.process(&print.process);
            let process = process.map_or(print.process.as_str(), |process| &process.short);
            match &print.title {
                Some(title) => format!("{process}, {title}"),
                None => process.to_owned(),
            }
        }),
        ThingKind::Run => life.run().map(|run| {
            let sheets = run.sheets.iter();
            let sheets: Vec<String> = sheets.map(|id| bench.store.reference_of(*id)).collect();
            sheets.join(", ")
        }),
        ThingKind::Box => life
            .film_box()
            .map(|one| format!("{}, {} left", one.film, one.left)),
        ThingKind::Paper => life
            .paper()
            .map(|one| format!("{}, {} left", one.name, one.left)),
        ThingKind::Bath => life.bath().map(|one| one.name.clone()),
        ThingKind::Lens => life.lens().map(|one| one.name.clone()),
        ThingKind::Camera => life.camera().map(|one| one.name.clone()),
        ThingKind::Holder => life.holder().and_then(|one| one.make.clone()),
        ThingKind::Finding => life
            .finding()
            .and_then(|one| Some(one.found.as_ref()?.about().to_owned())),
        ThingKind::Set => None,
    };
    words.unwrap_or_default()
}
