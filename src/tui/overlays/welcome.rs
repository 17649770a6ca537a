//! The first words on a new logbook: a size, some holders, a first box of film. All of it can be
//! skipped, and all of it can be logged later.

use crossterm::event::KeyEvent;
use ratatui::buffer::Buffer;
use ratatui::layout::{Position, Rect};

use crate::logbook::{Draft, Kind};
use crate::tui::bench::Bench;
use crate::tui::ink::{below, cells, line_of, wrap};
use crate::tui::look::Look;
use crate::tui::theme::Role;
use crate::tui::widgets::Reaction;
use crate::tui::widgets::choice::{Choice, Pick};
use crate::tui::widgets::field::Field;
use crate::tui::widgets::form::Form;
use crate::tui::widgets::overlay::Overlay;

const WORDS: &str = "This logbook is new. If you like, tell it what you work with; holders and boxes are named in order, H-01, F-01. Leave empty what you do not want, or skip all of it: everything can be added later.";

/// Holders that can be set up at once.
const MOST_HOLDERS: u32 = 60;

/// The questions.
#[derive(Debug)]
pub struct Welcome {
    form: Form,
}

impl Welcome {
    /// The questions, with the formats and films the program knows.
    pub fn new(bench: &Bench) -> Welcome {
        let formats = bench.reference.formats().iter();
        let formats = formats.map(|format| Pick::word(&format.name)).collect();
        let films = bench.reference.films().iter();
        let films = films.map(|film| Pick::word(&film.name)).collect();
        Welcome {
            form: Form::new(vec![
                Field::choice("size", "format", Choice::new(formats).open()).with("4x5"),
                Field::text("holders", "double holders").with_empty("how many, say 5"),
                Field::choice("film", "film", Choice::new(films).open())
                    .with_empty("the first box, as its maker names it"),
                Field::text("sheets", "sheets in the box").with("25"),
                Field::text("speed", "exposed at").with_empty("the speed you use, say 80"),
                Field::text("emulsion", "emulsion number").with_empty("on the box"),
            ]),
        }
    }

    /// Its fields, for tests that fill them.
    #[cfg(test)]
    pub(in crate::tui) const fn form(&self) -> &Form {
        &self.form
    }

    fn filled(&self, key: &str) -> &str {
        self.form
            .field(key)
            .map_or("", |field| field.filled().trim())
    }

    /// The drafts that come of the answers; none when the number of holders cannot be read, which is
    /// said beside the field then.
    pub fn drafts(&mut self) -> Option<Vec<Draft>> {
        let size = self.filled("size").to_owned();
        let holders = match self.filled("holders") {
            "" => 0,
            typed => match typed.parse::<u32>() {
                Ok(number) if number <= MOST_HOLDERS => number,
                _ => {
                    let problem = format!("a whole number up to {MOST_HOLDERS}");
                    self.show("holders", problem);
                    return None;
                }
            },
        };
        let mut drafts = Vec::new();
        for _ in 0..holders {
            let mut draft = Draft::new(Kind::HolderAdded);
            draft.set("size", size.clone());
            draft.set("sides", "2");
            drafts.push(draft);
        }
        if !self.filled("film").is_empty() {
            let mut draft = Draft::new(Kind::BoxAdded);
            for key in ["film", "size", "sheets", "speed", "emulsion"] {
                draft.set(key, self.filled(key));
            }
            drafts.push(draft);
        }
        Some(drafts)
    }

    /// Says beside a field what is wrong with it.
    pub fn show(&mut self, key: &str, problem: String) {
        if let Some(field) = self.form.field_mut(key) {
            field.problem = Some(problem);
        }
        self.form.focus(key);
    }

    /// Takes a key.
    pub fn key(&mut self, key: &KeyEvent) -> Reaction {
        for field in self.form.fields_mut() {
            field.problem = None;
        }
        self.form.key(key)
    }

    /// Takes a paste.
    pub fn paste(&mut self, text: &str) {
        self.form.paste(text);
    }

    fn frame(&self, area: Rect) -> (Overlay<'static>, Vec<String>) {
        let wide = area.width.saturating_sub(8).clamp(20, 66);
        let words = wrap(WORDS, usize::from(wide));
        let problems = self.form.fields().iter();
        let problems = problems.filter(|field| field.problem.is_some()).count();
        let tall = words.len() + 1 + self.form.fields().len() + 2 * problems;
        let frame = Overlay {
            title: "welcome to notchbook",
            foot: "",
            inner: (wide, cells(tall)),
        };
        (frame, words)
    }

    /// Puts the focus on the field drawn at `at`.
    pub fn click(&mut self, area: Rect, at: Position) -> bool {
        let (frame, words) = self.frame(area);
        let form = below(frame.inner(area), cells(words.len() + 1));
        self.form.click(form, at)
    }

    /// Goes to the next field, or the one before.
    pub fn go_on(&mut self, forwards: bool) {
        if forwards {
            self.form.next();
        } else {
            self.form.previous();
        }
    }

    /// Draws the questions and returns where the cursor belongs.
    pub fn render(&self, area: Rect, buf: &mut Buffer, look: &Look) -> Option<Position> {
        let (frame, words) = self.frame(area);
        let mut rest = frame.render(area, buf, look);
        for text in &words {
            look.put(buf, line_of(rest, 0), text, Role::Text);
            rest = below(rest, 1);
        }
        self.form.render(below(rest, 1), buf, look, true)
    }
}
