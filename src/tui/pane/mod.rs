//! An entry pane: what is typed on the left, what follows from it on the right.
//!
//! For: everything that can be logged. A pane is a [`Draft`] with a form over it; the fields, the
//! suggestions, the lines beside it and the entry all come from the domain's tables, so there is one
//! pane for all deeds.
//!
//! Promises: nothing typed is lost: a wrong field keeps its text and says beside it what is wrong, a
//! refusal leaves the pane as it was, and a pane that is left keeps its draft.
//!
//! Leaves to others: writing the entry ([`super::app`]) and keeping drafts (the store).

use std::path::Path;

use chrono::{DateTime, FixedOffset};
use crossterm::event::KeyEvent;

use super::bench::Bench;
use super::timeline::word;
use super::widgets::Reaction;
use super::widgets::form::Form;
use crate::export::readings_of;
use crate::logbook::draft::{HAPPENED, NOTE, OVER};
use crate::logbook::follows::Follow;
use crate::logbook::reckoning::Outcome;
use crate::logbook::{
    Deed, Draft, EntryId, Field, Kind, Names, Refusal, Settled, ThingKind, tidy_reference,
};

mod beside;
mod draw;
mod offers;
mod suggest;

/// Why an entry is amended: the key of the field in an amending pane.
const WHY: &str = "why";

/// The field of a strip that names a file with its readings.
const FROM_FILE: &str = "from_file";

/// What an amending pane is about.
#[derive(Debug, Clone)]
pub struct Amending {
    /// The entry.
    pub entry: EntryId,
    /// Its number.
    pub row: i64,
    /// What counts of it now.
    pub deed: Deed,
}

/// A pane that is open.
#[derive(Debug, Clone)]
pub struct Pane {
    /// What was typed.
    pub draft: Draft,
    /// What its draft is kept under, from the moment it was opened.
    name: String,
    /// The fields of the draft.
    fields: Vec<Field>,
    form: Form,
    /// What follows from it.
    pub follows: Vec<Follow>,
    /// The last deed of its kind, for comparison.
    last: Option<Deed>,
    /// What the logbook said to it.
    pub refusal: Option<Refusal>,
    /// The entry it amends, if it amends one.
    pub amending: Option<Amending>,
    /// Whether anything was typed since it was opened or brought back.
    pub changed: bool,
    /// Whether it was brought back with what had been typed before.
    pub brought_back: bool,
    /// A few words on what it is about.
    on: String,
    /// Fields the user filled, which no other step fills anew.
    touched: Vec<String>,
    /// What the exposure comes to, reckoned once for each change of the draft.
    reckoned: Outcome,
    /// First line in view of what follows.
    from: usize,
    /// Whether what follows is longer than its place.
    pub too_long: bool,
}

/// What a key did in a pane.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Told {
    /// Nothing.
    Ignored,
    /// Something moved.
    Moved,
    /// The draft is another one now and wants to be kept.
    Typed,
}

/// A time as an amending pane shows it, to the second.
pub(super) fn typed_time(happened: DateTime<FixedOffset>) -> String {
    happened.format("%Y-%m-%d %H:%M:%S").to_string()
}

impl Pane {
    /// A pane over a draft.
    pub fn new(draft: Draft, last: Option<Deed>, bench: &Bench) -> Pane {
        let mut pane = Pane {
            name: String::new(),
            draft,
            fields: Vec::new(),
            form: Form::default(),
            follows: Vec::new(),
            last,
            refusal: None,
            amending: None,
            changed: false,
            brought_back: false,
            on: String::new(),
            touched: Vec::new(),
            reckoned: Ok(None),
            from: 0,
            too_long: false,
        };
        pane.name = format!(
            "{} {}",
            pane.kind().name(),
            pane.about().unwrap_or_default()
        );
        pane.lay_out(bench);
        pane.focus_where_the_hand_is();
        pane
    }

    /// A pane over a draft that was kept under `name`.
    pub fn kept(name: String, draft: Draft, bench: &Bench) -> Pane {
        let mut pane = Pane::new(draft, None, bench);
        pane.name = name;
        pane.brought_back = true;
        pane
    }

    /// A pane that amends an entry.
    pub fn amending(settled: &Settled, row: i64, bench: &Bench) -> Pane {
        let mut draft = Draft::of(&settled.deed, &bench.store);
        draft.set(HAPPENED, typed_time(settled.happened));
        let mut pane = Pane::new(draft, None, bench);
        pane.name = format!("amend {}", settled.entry.id);
        pane.amending = Some(Amending {
            entry: settled.entry.id,
            row,
            deed: settled.deed.clone(),
        });
        pane.lay_out(bench);
        pane
    }

    /// Its fields, for tests that fill them.
    #[cfg(test)]
    pub(in crate::tui) const fn form(&self) -> &Form {
        &self.form
    }

    /// What it logs.
    pub const fn kind(&self) -> Kind {
        self.draft.kind
    }

    /// What it is about, as typed.
    pub fn about(&self) -> Option<&str> {
        self.kind()
            .about()
            .map(|key| self.draft.get(key).trim())
            .filter(|about| !about.is_empty())
    }

    /// Its title in three parts: what is done, to what, and a few words on that.
    pub fn title(&self) -> (String, String, String) {
        let about = self.about().unwrap_or_default().to_owned();
        let what = match (&self.amending, self.kind()) {
            (Some(amending), kind) => format!("amend #{}: {}", amending.row, word(kind)),
            (None, Kind::PrintStep) if !self.draft.get("step").is_empty() => {
                format!("{}: {}", Kind::PrintStep.title(), self.draft.get("step"))
            }
            (None, kind) => kind.title().to_owned(),
        };
        (what, about, self.on.clone())
    }

    /// The name its draft is kept under: the kind and the thing it was opened for, whatever is typed
    /// into it later.
    pub fn draft_name(&self) -> &str {
        &self.name
    }

    /// Why the entry is amended, as typed.
    pub fn why(&self) -> &str {
        self.draft.get(WHY).trim()
    }

    /// Puts typed text back that was kept.
    pub fn bring_back(&mut self, typed: impl IntoIterator<Item = (String, String)>, bench: &Bench) {
        for (key, text) in typed {
            if self.draft.get(&key) != text {
                self.touched.push(key.clone());
            }
            self.draft.set(&key, text);
        }
        self.brought_back = true;
        self.lay_out(bench);
    }

    /// Builds the form from the draft: after it was opened, and after a step was chosen that asks
    /// for other figures.
    fn lay_out(&mut self, bench: &Bench) {
        let focus = self.form.focused().map(|field| field.key.clone());
        self.fields = self.draft.fields(&bench.store, &bench.reference);
        let mut form: Vec<_> = self
            .fields
            .iter()
            .map(|field| suggest::widget(field, &self.draft, bench))
            .collect();
        if self.kind() == Kind::StripRead {
            form.push(suggest::plain(
                FROM_FILE,
                "from file",
                "a CSV file with the readings, its path",
                &self.draft,
            ));
        }
        form.push(suggest::plain(
            HAPPENED,
            "when",
            "now; or 16:02, yesterday 9:30, -20m",
            &self.draft,
        ));
        form.push(suggest::plain(
            NOTE,
            "note",
            "whatever else is worth remembering",
            &self.draft,
        ));
        if self.amending.is_some() {
            let why = suggest::plain(
                WHY,
                "why amended",
                "kept beside the old figures",
                &self.draft,
            );
            form.push(why.needed(true));
        }
        if self.draft.typed.contains_key(OVER) {
            let over = suggest::plain(
                OVER,
                "all the same",
                "why the usual order does not hold here",
                &self.draft,
            );
            form.push(over.needed(true));
        }
        // A step is found by several letters, so its field stays as it is while they are typed.
        let finding = self.form.field("step").cloned();
        self.form = Form::new(form);
        if focus.as_deref() == Some("step")
            && let (Some(old), Some(field)) = (finding, self.form.field_mut("step"))
            && old.filled() == field.filled()
        {
            *field = old;
        }
        if let Some(focus) = focus {
            self.form.focus(&focus);
        }
        self.reckon(bench);
    }

    /// Puts in the figures of the last time the chosen step was done, but for what was typed.
    fn fill_step(&mut self, bench: &Bench) {
        let thing = bench.store.find(
            &[ThingKind::Print],
            &tidy_reference(self.draft.get("print")),
        );
        let Some(life) = thing.and_then(|thing| bench.life(thing)) else {
            return;
        };
        let step = self.draft.get("step").to_owned();
        let known = life
            .print()
            .and_then(|print| bench.reference.process(&print.process))
            .is_some_and(|process| process.step(&step).is_some());
        if !known {
            return;
        }
        let empty = Draft::new(Kind::PrintStep);
        let Ok((filled, last)) = bench.draft_of_step(empty, &life, Some(&step)) else {
            return;
        };
        let stays = |key: &str| {
            matches!(key, "print" | "step" | HAPPENED | NOTE | OVER)
                || self.touched.iter().any(|touched| touched == key)
        };
        self.draft.typed.retain(|key, _| stays(key));
        for (key, text) in filled.typed {
            if !stays(&key) {
                self.draft.typed.insert(key, text);
            }
        }
        self.last = last;
    }

    /// Where the next key belongs: the time of an exposure like the last one, else the first field
    /// that is needed and empty, else the first one after what it is about.
    fn focus_where_the_hand_is(&mut self) {
        let quick = match self.kind() {
            Kind::Exposed if !self.draft.get("aperture").is_empty() => Some("time"),
            Kind::Exposed => Some("aperture"),
            Kind::Loaded => Some("film_box"),
            Kind::RunEnded => Some("time"),
            _ => None,
        };
        if quick.is_some_and(|key| self.form.focus(key)) {
            return;
        }
        let first = self
            .fields
            .iter()
            .find(|field| {
                self.draft.get(&field.key).is_empty() && field.need == crate::logbook::Need::Must
            })
            .or_else(|| {
                self.fields
                    .iter()
                    .find(|field| Some(field.key.as_ref()) != self.kind().about())
            });
        if let Some(key) = first.map(|field| field.key.to_string()) {
            self.form.focus(&key);
        }
    }

    fn reckon(&mut self, bench: &Bench) {
        for field in &self.fields {
            if let Some(widget) = self.form.field_mut(&field.key) {
                widget.unit = suggest::word_on(field, widget, &self.draft, bench);
            }
        }
        self.reckoned = bench.reckoned(&self.draft);
        self.show_plan();
        self.on = suggest::words_on(self.about().unwrap_or_default(), bench);
        self.follows = bench.follows(&self.draft, self.last.as_ref(), &self.reckoned);
        beside::complete(&mut self.follows, &self.draft, bench);
    }

    /// Goes to the next field, or the one before, and checks the one that is left.
    pub fn go_on(&mut self, forwards: bool, bench: &Bench) {
        let left = self.form.focused().map(|field| field.key.clone());
        if forwards {
            self.form.next();
        } else {
            self.form.previous();
        }
        if let Some(left) = left {
            if left == FROM_FILE {
                self.take_file(bench);
            }
            self.check(&left, bench);
        }
    }

    /// Puts the readings of the file that is named into their field. A file that cannot be read is said
    /// beside its name, and then this is not done.
    pub fn take_file(&mut self, bench: &Bench) -> bool {
        let path = self.draft.get(FROM_FILE).trim().to_owned();
        if path.is_empty() {
            return true;
        }
        match readings_of(Path::new(&path)) {
            Ok(readings) => {
                self.draft.set("readings", readings);
                self.draft.set(FROM_FILE, "");
                self.lay_out(bench);
                true
            }
            Err(why) => {
                if let Some(field) = self.form.field_mut(FROM_FILE) {
                    field.problem = Some(why.to_string());
                }
                self.form.focus(FROM_FILE);
                false
            }
        }
    }

    /// Takes a key that is not one of the pane's actions.
    pub fn key(&mut self, key: &KeyEvent, bench: &Bench) -> Told {
        match self.form.key(key) {
            Reaction::Ignored => Told::Ignored,
            Reaction::Moved => Told::Moved,
            Reaction::Changed => self.typed(bench),
        }
    }

    /// Takes a paste into the focused field.
    pub fn paste(&mut self, text: &str, bench: &Bench) -> Told {
        match self.form.paste(text) {
            Some(_) => self.typed(bench),
            None => Told::Ignored,
        }
    }

    fn typed(&mut self, bench: &Bench) -> Told {
        let Some((key, text)) = self
            .form
            .focused()
            .map(|field| (field.key.clone(), field.filled().to_owned()))
        else {
            return Told::Moved;
        };
        if self.draft.get(&key) == text {
            return Told::Moved;
        }
        self.draft.set(&key, text);
        if !self.touched.contains(&key) {
            self.touched.push(key.clone());
        }
        self.changed = true;
        self.refusal = None;
        if let Some(field) = self.form.field_mut(&key) {
            field.problem = None;
        }
        if matches!(
            (self.kind(), key.as_str()),
            (Kind::PrintStep, "print" | "step")
        ) {
            self.fill_step(bench);
            self.lay_out(bench);
        } else {
            self.reckon(bench);
        }
        Told::Typed
    }

    /// Says beside a field that was left what is wrong with it, unless it is only empty still.
    fn check(&mut self, key: &str, bench: &Bench) {
        if self.draft.get(key).trim().is_empty() {
            return;
        }
        let Some(field) = self.fields.iter().find(|field| field.key == key) else {
            return;
        };
        let problem = bench
            .at_desk(|desk| self.draft.check(field, desk))
            .err()
            .map(|problem| problem.problem);
        if let Some(field) = self.form.field_mut(key) {
            field.problem = problem;
        }
    }

    /// Shows problems beside their fields and goes to the first.
    pub fn show_problems(&mut self, problems: &[crate::logbook::FieldProblem]) {
        for field in self.form.fields_mut() {
            field.problem = problems
                .iter()
                .find(|problem| problem.key == field.key)
                .map(|problem| problem.problem.clone());
        }
        self.form.focus_problem();
    }

    /// Asks beside the field why the entry is amended.
    pub fn ask_why(&mut self) {
        if let Some(field) = self.form.field_mut(WHY) {
            field.problem = Some("say why: the old figures stay, with this beside them".to_owned());
        }
        self.form.focus(WHY);
    }

    /// Looks at the logbook again: something was logged that the pane does not know of.
    pub fn look_again(&mut self, bench: &Bench) {
        self.lay_out(bench);
    }

    /// Puts figures in that were not typed: what the clock counted. A field the pane does not have is
    /// left out.
    pub fn fill(&mut self, figures: &[(&str, String)], bench: &Bench) {
        for (key, text) in figures {
            if !self.fields.iter().any(|field| field.key == *key) {
                continue;
            }
            self.draft.set(key, text.clone());
            if !self.touched.iter().any(|touched| touched == key) {
                self.touched.push((*key).to_owned());
            }
        }
        self.changed = true;
        self.refusal = None;
        self.lay_out(bench);
        if let Some((key, _)) = figures.first() {
            self.form.focus(key);
        }
    }

    /// Opens the field for logging it against the order.
    pub fn open_override(&mut self, bench: &Bench) {
        self.draft.typed.entry(OVER.to_owned()).or_default();
        self.lay_out(bench);
        self.form.focus(OVER);
    }

    /// Throws away what was typed, but for what the pane is about.
    pub fn clear(&mut self, bench: &Bench) {
        let keep = self
            .kind()
            .about()
            .map(|key| (key, self.draft.get(key).to_owned()));
        self.draft.typed.clear();
        self.touched.clear();
        if let Some((key, text)) = keep {
            self.draft.set(key, text);
        }
        self.refusal = None;
        self.changed = true;
        self.brought_back = false;
        self.lay_out(bench);
    }
}
