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

use crossterm::event::{KeyCode, KeyEvent};

use super::bench::Bench;
use super::keys::Chord;
use super::widgets::Reaction;
use super::widgets::form::Form;
use crate::logbook::draft::{HAPPENED, NOTE, OVER};
use crate::logbook::follows::Follow;
use crate::logbook::{Deed, Draft, EntryId, Field, Kind, Refusal, Settled};

mod draw;
mod suggest;

/// Why an entry is amended: the key of the field in an amending pane.
const WHY: &str = "why";

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
        let happened = settled.happened.format("%Y-%m-%d %H:%M:%S").to_string();
        draft.set(HAPPENED, happened);
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

    /// Its name, for the title: what is done, and to what.
    pub fn title(&self) -> String {
        match (&self.amending, self.about().unwrap_or_default()) {
            (Some(amending), _) => format!("amend #{}: {}", amending.row, self.kind().name()),
            (None, "") => self.kind().title().to_owned(),
            (None, about) => format!("{}  {about}", self.kind().title()),
        }
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
        form.push(suggest::plain(
            HAPPENED,
            "when",
            "now; or 16:02, yesterday 9:30, 20 min ago",
            &self.draft,
        ));
        form.push(suggest::plain(
            NOTE,
            "note",
            "whatever else is worth remembering",
            &self.draft,
        ));
        if self.amending.is_some() {
            form.push(suggest::plain(
                WHY,
                "why amended",
                "kept beside the old figures",
                &self.draft,
            ));
        }
        if self.draft.typed.contains_key(OVER) {
            form.push(suggest::plain(
                OVER,
                "all the same",
                "why the usual order does not hold here",
                &self.draft,
            ));
        }
        self.form = Form::new(form);
        if let Some(focus) = focus {
            self.form.focus(&focus);
        }
        self.reckon(bench);
    }

    /// Where the next key belongs: the time of an exposure like the last one, else the first field
    /// that is needed and empty, else the first one after what it is about.
    fn focus_where_the_hand_is(&mut self) {
        let quick = match self.kind() {
            Kind::Exposed if !self.draft.get("time").is_empty() => Some("time"),
            Kind::Exposed => Some("aperture"),
            Kind::Loaded => Some("film_box"),
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
                widget.unit = suggest::word_on(field, &self.draft, bench).unwrap_or_default();
            }
        }
        self.follows = bench.follows(&self.draft, self.last.as_ref());
    }

    /// Takes a key that is not one of the pane's actions.
    pub fn key(&mut self, key: &KeyEvent, bench: &Bench) -> Told {
        let left = self.form.focused().map(|field| field.key.clone());
        let reaction = self.form.key(key);
        let moved_on = matches!(
            Chord::of(key).code(),
            KeyCode::Tab | KeyCode::BackTab | KeyCode::Up | KeyCode::Down
        );
        if moved_on && let Some(left) = left {
            self.check(&left, bench);
        }
        match reaction {
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
        self.changed = true;
        self.refusal = None;
        if let Some(field) = self.form.field_mut(&key) {
            field.problem = None;
        }
        if matches!(
            (self.kind(), key.as_str()),
            (Kind::PrintStep, "print" | "step")
        ) {
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

    /// Opens the field for logging it against the order.
    pub fn open_override(&mut self, bench: &Bench) {
        self.draft.typed.entry(OVER.to_owned()).or_default();
        self.lay_out(bench);
        self.form.focus(OVER);
    }

    /// Puts a choice of step in, with the figures of the last time it was done.
    pub fn clear(&mut self, bench: &Bench) {
        let keep = self
            .kind()
            .about()
            .map(|key| (key, self.draft.get(key).to_owned()));
        self.draft.typed.clear();
        if let Some((key, text)) = keep {
            self.draft.set(key, text);
        }
        self.refusal = None;
        self.changed = true;
        self.brought_back = false;
        self.lay_out(bench);
    }

    /// The form, for clicks.
    pub fn form_mut(&mut self) -> &mut Form {
        &mut self.form
    }
}
