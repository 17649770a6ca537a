//! Why an entry is struck: what is to be struck, and a line for the reason.

use crossterm::event::KeyEvent;
use ratatui::buffer::Buffer;
use ratatui::layout::{Position, Rect};

use crate::logbook::EntryId;
use crate::tui::ink::{below, cells, line_of, wrap};
use crate::tui::look::Look;
use crate::tui::theme::Role;
use crate::tui::widgets::Reaction;
use crate::tui::widgets::input::TextInput;
use crate::tui::widgets::overlay::Overlay;

/// The question why.
#[derive(Debug)]
pub struct Reason {
    /// The entries that are to be struck, the last one first.
    pub entries: Vec<EntryId>,
    /// What they say.
    what: Vec<String>,
    title: &'static str,
    typed: TextInput,
    /// What the logbook said to it.
    pub refusal: Option<String>,
}

impl Reason {
    /// Asks why these entries are struck. `typed` is a reason to begin with.
    pub fn new(
        title: &'static str,
        entries: Vec<EntryId>,
        what: Vec<String>,
        typed: &str,
    ) -> Reason {
        Reason {
            entries,
            what,
            title,
            typed: TextInput::new(typed),
            refusal: None,
        }
    }

    /// The reason as typed.
    pub fn reason(&self) -> &str {
        self.typed.text().trim()
    }

    /// Takes a key.
    pub fn key(&mut self, key: &KeyEvent) -> Reaction {
        let reaction = self.typed.key(key);
        if reaction == Reaction::Changed {
            self.refusal = None;
        }
        reaction
    }

    /// Takes a paste.
    pub fn paste(&mut self, text: &str) {
        self.typed.paste(text);
    }

    /// Draws the question and returns where the cursor belongs.
    pub fn render(&self, area: Rect, buf: &mut Buffer, look: &Look) -> Option<Position> {
        let wide = area.width.saturating_sub(8).clamp(20, 68);
        let room = usize::from(wide);
        let mut lines: Vec<(String, Role)> = Vec::new();
        for what in &self.what {
            lines.extend(wrap(what, room).into_iter().map(|line| (line, Role::Text)));
        }
        lines.push((String::new(), Role::Text));
        let refused: Vec<String> = match &self.refusal {
            Some(refusal) => wrap(&format!("! {refusal}"), room),
            None => Vec::new(),
        };
        let tall = cells(lines.len() + 2 + refused.len());
        let frame = Overlay {
            title: self.title,
            foot: "",
            inner: (wide, tall),
        };
        let mut rest = frame.render(area, buf, look);
        for (text, role) in &lines {
            look.put(buf, line_of(rest, 0), text, *role);
            rest = below(rest, 1);
        }
        look.put(buf, line_of(rest, 0), "why", Role::Quiet);
        rest = below(rest, 1);
        let cursor = self.typed.render(
            line_of(rest, 0),
            buf,
            look,
            true,
            "kept beside the struck line",
        );
        rest = below(rest, 1);
        for text in &refused {
            look.put(buf, line_of(rest, 0), text, Role::Error);
            rest = below(rest, 1);
        }
        cursor
    }
}
