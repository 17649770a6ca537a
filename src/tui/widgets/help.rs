//! The help page: every key that works here, with a sentence.
//!
//! For: drawn from the table of actions, so that it cannot be out of date. Typing narrows it.

use crossterm::event::{KeyCode, KeyEvent};
use ratatui::buffer::Buffer;
use ratatui::layout::{Position, Rect};

use crate::tui::actions::{Availability, Offer};
use crate::tui::ink::{below, line_of, rest_of, wrap};
use crate::tui::keys::Chord;
use crate::tui::look::Look;
use crate::tui::theme::Role;

use super::Reaction;
use super::find::find;
use super::input::TextInput;
use super::listing::Step;
use super::overlay::Overlay;

/// What was typed to find something, and the first line in view.
#[derive(Debug, Clone, Default)]
pub struct Help {
    typed: TextInput,
    offset: usize,
    /// A heading and a few words that stand before the keys as long as nothing is typed.
    lead: Option<(String, String)>,
}

enum Line<'o> {
    Group(&'o str),
    Words(String),
    Entry {
        keys: String,
        text: String,
        role: Role,
    },
    Blank,
}

impl Help {
    /// A page that begins with a few words under a heading.
    pub fn led_by(heading: impl Into<String>, words: impl Into<String>) -> Help {
        Help {
            lead: Some((heading.into(), words.into())),
            ..Help::default()
        }
    }

    /// Scrolls.
    pub fn step(&mut self, step: Step) {
        self.offset = match step {
            Step::Up(lines) => self.offset.saturating_sub(lines),
            Step::Down(lines) => self.offset.saturating_add(lines),
            Step::PageUp => self.offset.saturating_sub(10),
            Step::PageDown => self.offset.saturating_add(10),
            Step::First => 0,
            Step::Last => usize::MAX,
            Step::To(line) => line,
        };
    }

    /// Takes the words away that narrow the page; returns whether there were any.
    pub fn clear(&mut self) -> bool {
        let narrowed = !self.typed.is_empty();
        if narrowed {
            self.typed = TextInput::default();
            self.offset = 0;
        }
        narrowed
    }

    /// Takes a key; Esc is left to the application when nothing is typed.
    pub fn key(&mut self, key: &KeyEvent) -> Reaction {
        match Chord::of(key).code() {
            KeyCode::Esc if self.clear() => {}
            KeyCode::Esc | KeyCode::Enter => return Reaction::Ignored,
            _ => {
                let reaction = self.typed.key(key);
                if reaction == Reaction::Changed {
                    self.offset = 0;
                }
                return reaction;
            }
        }
        Reaction::Moved
    }

    /// Tells what is offered and how large the screen is, so that the page does not scroll beyond
    /// its end.
    pub fn settle(&mut self, offers: &[Offer], area: Rect) {
        let inner = page(area).inner(area);
        let most = self
            .lines(offers, inner.width)
            .len()
            .saturating_sub(usize::from(inner.height.saturating_sub(2)));
        self.offset = self.offset.min(most);
    }

    /// Draws the page over `area` and returns where the cursor belongs.
    pub fn render(
        &self,
        offers: &[Offer],
        area: Rect,
        buf: &mut Buffer,
        look: &Look,
    ) -> Option<Position> {
        let inner = page(area).render(area, buf, look);
        let lines = self.lines(offers, inner.width);
        let cursor = self
            .typed
            .render(line_of(inner, 0), buf, look, true, "type to find a key");
        let body = below(inner, 2);
        let most = lines.len().saturating_sub(usize::from(body.height));
        let key_cells = key_cells(inner.width);
        let first = self.offset.min(most);
        for (line, entry) in body.rows().zip(lines.iter().skip(first)) {
            match entry {
                Line::Blank => {}
                Line::Group(name) => {
                    look.put(buf, line, name, Role::Heading);
                }
                Line::Words(words) => {
                    look.put(buf, rest_of(line, 2), words, Role::Text);
                }
                Line::Entry { keys, text, role } => {
                    let place = Rect {
                        width: key_cells.saturating_sub(2).min(line.width),
                        ..line
                    };
                    look.put(buf, rest_of(place, 2), keys, Role::Key);
                    look.put(buf, rest_of(line, key_cells), text, *role);
                }
            }
        }
        let in_view = usize::from(body.height);
        for (more, at) in [
            (first > 0, 0),
            (lines.len() > first + in_view, body.height.saturating_sub(1)),
        ] {
            if more {
                let line = line_of(body, at);
                look.put(buf, line, look.symbols.cut, Role::Accent);
            }
        }
        if lines.is_empty() {
            look.put(
                buf,
                line_of(body, 0),
                "no key is described like that",
                Role::Quiet,
            );
        }
        cursor
    }

    fn lines<'o>(&'o self, offers: &'o [Offer], wide: u16) -> Vec<Line<'o>> {
        let described: Vec<String> = offers
            .iter()
            .map(|offer| {
                format!(
                    "{} {} {}",
                    offer.label,
                    offer.sentence,
                    offer.keys.join(" ")
                )
            })
            .collect();
        let mut found = find(self.typed.text(), described.iter().map(String::as_str));
        found.sort_unstable();
        let found: Vec<&Offer> = found.into_iter().filter_map(|at| offers.get(at)).collect();
        let mut groups: Vec<&str> = Vec::new();
        for offer in &found {
            if !groups.contains(&offer.group) {
                groups.push(offer.group);
            }
        }
        let room = usize::from(wide.saturating_sub(key_cells(wide)));
        let mut lines = Vec::new();
        if let Some((heading, words)) = self.lead.as_ref().filter(|_| self.typed.is_empty()) {
            lines.push(Line::Group(heading));
            let room = usize::from(wide.saturating_sub(3));
            lines.extend(wrap(words, room).into_iter().map(Line::Words));
        }
        for group in groups {
            if !lines.is_empty() {
                lines.push(Line::Blank);
            }
            lines.push(Line::Group(group));
            for offer in found.iter().filter(|offer| offer.group == group) {
                push_offer(&mut lines, offer, room);
            }
        }
        lines
    }
}

fn push_offer(lines: &mut Vec<Line<'_>>, offer: &Offer, room: usize) {
    // Why it cannot be done is told when its key is pressed.
    let (text, role) = match &offer.available {
        Availability::No(_) => (format!("{} Not now.", offer.sentence), Role::Quiet),
        Availability::Yes | Availability::Hidden => (offer.sentence.to_owned(), Role::Text),
    };
    let mut keys = if offer.keys.is_empty() {
        "no key".to_owned()
    } else {
        offer.keys.join(", ")
    };
    for text in wrap(&text, room) {
        let keys = std::mem::take(&mut keys);
        lines.push(Line::Entry { keys, text, role });
    }
}

fn key_cells(wide: u16) -> u16 {
    (wide / 4).clamp(10, 20)
}

fn page(area: Rect) -> Overlay<'static> {
    Overlay {
        title: "keys",
        foot: "",
        inner: (
            area.width.saturating_sub(8).clamp(32, 90),
            area.height.saturating_sub(4),
        ),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crossterm::event::KeyModifiers;

    fn offers() -> Vec<Offer> {
        let offer = |id, keys: &[&str], label, sentence, group| Offer {
            id,
            keys: keys.iter().map(|key| (*key).to_owned()).collect(),
            label,
            sentence,
            group,
            rank: 1,
            available: Availability::Yes,
        };
        let mut offers = vec![
            offer(
                "a",
                &["j", "down"],
                "next",
                "Goes to the next line.",
                "moving",
            ),
            offer(
                "b",
                &["x"],
                "strike",
                "Strikes the entry under the cursor.",
                "entries",
            ),
            offer(
                "c",
                &["k", "up"],
                "previous",
                "Goes to the line before.",
                "moving",
            ),
        ];
        offers[1].available = Availability::No("it is struck already".into());
        offers
    }

    fn drawn(help: &Help) -> String {
        let area = Rect::new(0, 0, 70, 16);
        let mut buf = Buffer::empty(area);
        help.render(&offers(), area, &mut buf, &Look::plain());
        area.rows()
            .map(|row| {
                let text: String = row
                    .columns()
                    .map(|at| buf[at.as_position()].symbol())
                    .collect();
                text.trim_end().to_owned() + "\n"
            })
            .collect()
    }

    #[test]
    fn keys_stand_by_group_with_their_sentences() {
        let page = drawn(&Help::default());
        let moving = page.find("moving").unwrap();
        let entries = page.find("entries").unwrap();
        assert!(moving < page.find("Goes to the line before.").unwrap());
        assert!(page.find("Goes to the line before.").unwrap() < entries);
        assert!(page.contains("j, down"));
        assert!(page.contains("Not now."), "{page}");
    }

    #[test]
    fn a_few_words_stand_before_the_keys_until_something_is_typed() {
        let mut help = Help::led_by("from film to print", "load a side");
        let page = drawn(&help);
        assert!(page.find("load a side").unwrap() < page.find("moving").unwrap());
        help.key(&KeyEvent::new(KeyCode::Char('x'), KeyModifiers::NONE));
        assert!(!drawn(&help).contains("load a side"));
    }

    #[test]
    fn typing_narrows_the_page_and_esc_widens_it_first() {
        let mut help = Help::default();
        for c in "strike".chars() {
            help.key(&KeyEvent::new(KeyCode::Char(c), KeyModifiers::NONE));
        }
        let page = drawn(&help);
        assert!(
            page.contains("entries") && !page.contains("moving"),
            "{page}"
        );
        let esc = KeyEvent::new(KeyCode::Esc, KeyModifiers::NONE);
        assert_eq!(help.key(&esc), Reaction::Moved);
        assert!(drawn(&help).contains("moving"));
        assert_eq!(help.key(&esc), Reaction::Ignored);
    }

    #[test]
    fn the_page_does_not_scroll_beyond_its_end() {
        let mut help = Help::default();
        help.step(Step::PageDown);
        help.settle(&offers(), Rect::new(0, 0, 60, 16));
        assert_eq!(help.offset, 0);
        help.step(Step::PageDown);
        help.settle(&offers(), Rect::new(0, 0, 60, 8));
        assert!(help.offset > 0 && help.offset < 10);
    }
}
