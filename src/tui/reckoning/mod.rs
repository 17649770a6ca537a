//! A reckoning pane: the questions of a figure on the left, its answer on the right, reckoned anew on
//! every key.
//!
//! For: every figure in the table of figures; fields, offers, the answer with its steps, its table and
//! its chart all follow from the recipe. Promises: nothing typed is lost or changed: a text that cannot
//! be read stays and says beside it what is wrong once it was left, and what was typed is there again
//! when the figure is opened the next time in the same session. Nothing is written into the logbook.

use std::collections::{BTreeMap, BTreeSet};

use crossterm::event::KeyEvent;

use super::bench::Bench;
use super::widgets::Reaction;
use super::widgets::field::Value;
use super::widgets::form::Form;
use crate::export::columns::in_columns;
use crate::export::shown::width;
use crate::figures::{Answer, Given, Problem, Recipe, Table};

mod draw;
mod offer;
mod page;

/// What was typed, by key.
pub type Typed = BTreeMap<String, String>;

/// What was typed into the panes of this session, and which figure was the last.
#[derive(Debug, Default)]
pub struct Kept {
    typed: BTreeMap<&'static str, Typed>,
    last: Option<&'static str>,
}

impl Kept {
    /// The word of the figure that was reckoned last.
    pub const fn last(&self) -> Option<&'static str> {
        self.last
    }

    /// Keeps what is typed in a pane that is closed.
    pub fn keep(&mut self, reckoning: &Reckoning) {
        let word = reckoning.recipe.word;
        self.last = Some(word);
        self.typed.insert(word, reckoning.typed());
    }

    /// What was typed for a figure the last time.
    pub fn of(&self, word: &str) -> Typed {
        self.typed.get(word).cloned().unwrap_or_default()
    }
}

/// A reckoning pane that is open.
#[derive(Debug)]
pub struct Reckoning {
    recipe: &'static Recipe,
    form: Form,
    said: Result<Answer, Problem>,
    /// Fields that were left since something was typed into them.
    left: BTreeSet<String>,
    /// Cells that the widest table of this figure takes that was seen, that of its example first.
    table_cells: usize,
    /// First line in view of the answer.
    from: usize,
    /// Lines of the answer that are in view, as last told.
    high: u16,
    /// Whether the answer is longer than its place.
    pub too_long: bool,
}

impl Reckoning {
    /// A pane for a figure, with what was typed before.
    pub fn new(recipe: &'static Recipe, typed: &Typed, bench: &Bench) -> Reckoning {
        let mut reckoning = Reckoning {
            recipe,
            form: Form::default(),
            said: Err(Problem::of_all("")),
            left: BTreeSet::new(),
            table_cells: 0,
            from: 0,
            high: 0,
            too_long: false,
        };
        // Where the answer stands follows from its table, so it need not move once something is typed.
        let typed_there = example(recipe);
        let there =
            bench.at_figures(|desk| (recipe.answer)(&Given::new(recipe.asks, &typed_there, desk)));
        reckoning.table_cells = table_cells(there.as_ref());
        reckoning.fill(typed, bench);
        reckoning
    }

    /// Its fields, for tests that fill them.
    #[cfg(test)]
    pub(in crate::tui) const fn form(&self) -> &Form {
        &self.form
    }

    /// The word of its figure.
    pub const fn word(&self) -> &'static str {
        self.recipe.word
    }

    /// What is typed.
    pub fn typed(&self) -> Typed {
        let fields = self.form.fields().iter();
        fields
            .filter(|field| !field.filled().trim().is_empty())
            .map(|field| (field.key.clone(), field.filled().to_owned()))
            .collect()
    }

    /// The result that is asked for, as text.
    pub fn main_result(&self) -> Option<String> {
        let answer = self.said.as_ref().ok()?;
        Some(answer.results.first()?.amount.to_string())
    }

    /// Whether something is typed.
    pub fn is_filled(&self) -> bool {
        self.form
            .fields()
            .iter()
            .any(|field| !field.filled().trim().is_empty())
    }

    /// Puts these answers in place of what was typed.
    fn fill(&mut self, typed: &Typed, bench: &Bench) {
        let focus = self.form.focused().map(|field| field.key.clone());
        let widgets = self.recipe.asks.iter().map(|ask| {
            let text = typed.get(ask.key).map_or("", String::as_str);
            offer::widget(ask, self.recipe, text, bench)
        });
        self.form = Form::new(widgets.collect());
        if let Some(focus) = focus {
            self.form.focus(&focus);
        }
        self.left = typed.keys().cloned().collect();
        self.from = 0;
        self.reckon(bench);
    }

    /// Throws away what was typed.
    pub fn clear(&mut self, bench: &Bench) {
        self.fill(&Typed::new(), bench);
    }

    /// Fills in the example of the figure.
    pub fn show_example(&mut self, bench: &Bench) {
        self.fill(&example(self.recipe), bench);
    }

    /// Goes to the next field, or the one before.
    pub fn go_on(&mut self, forwards: bool, bench: &Bench) {
        self.leave_field();
        if forwards {
            self.form.next();
        } else {
            self.form.previous();
        }
        self.reckon(bench);
    }

    fn leave_field(&mut self) {
        if let Some(field) = self.form.focused() {
            self.left.insert(field.key.clone());
        }
    }

    /// Takes a key that is not one of the pane's actions.
    pub fn key(&mut self, key: &KeyEvent, bench: &Bench) {
        if self.form.key(key) == Reaction::Changed {
            self.changed(bench);
        }
    }

    /// Takes a paste into the focused field.
    pub fn paste(&mut self, text: &str, bench: &Bench) {
        if self.form.paste(text).is_some() {
            self.changed(bench);
        }
    }

    fn changed(&mut self, bench: &Bench) {
        if let Some(field) = self.form.focused() {
            self.left.remove(&field.key);
        }
        self.reckon(bench);
    }

    fn reckon(&mut self, bench: &Bench) {
        let typed = self.typed();
        self.said = bench
            .at_figures(|desk| (self.recipe.answer)(&Given::new(self.recipe.asks, &typed, desk)));
        let cells = table_cells(self.said.as_ref());
        self.table_cells = self.table_cells.max(cells);
        let problem = self.said.as_ref().err();
        for field in self.form.fields_mut() {
            let left = self.left.contains(&field.key);
            let unmatched = match &field.value {
                Value::Choice(choice) => choice.unmatched().map(str::to_owned),
                Value::Text(_) => None,
            };
            let its = problem.filter(|problem| problem.key == Some(field.key.as_str()));
            let empty = field.filled().trim().is_empty();
            field.needed = empty && its.is_some();
            field.problem = match (unmatched, its) {
                _ if !left => None,
                (Some(letters), _) => Some(format!("\"{letters}\" is not among them")),
                (None, Some(problem)) if !empty => Some(problem.says.clone()),
                _ => None,
            };
        }
    }
}

fn example(recipe: &Recipe) -> Typed {
    let owned = |(key, text): &(&str, &str)| ((*key).to_owned(), (*text).to_owned());
    recipe.example.iter().map(owned).collect()
}

/// The cells that the table of an answer takes; none where there is no table.
fn table_cells(said: Result<&Answer, &Problem>) -> usize {
    let table = said.ok().and_then(|answer| answer.table.as_ref());
    let lines = table.map(|table| rows_of(table, usize::MAX));
    let cells = lines.iter().flatten().map(|line| width(line));
    cells.max().unwrap_or(0)
}

/// A table in lines, the heads first.
fn rows_of(table: &Table, room: usize) -> Vec<String> {
    let heads: Vec<String> = table.heads.iter().map(ToString::to_string).collect();
    let cells = |row: &Vec<_>| row.iter().map(ToString::to_string).collect();
    let rows: Vec<Vec<String>> = table.rows.iter().map(cells).collect();
    in_columns(&heads, &rows, room)
}
