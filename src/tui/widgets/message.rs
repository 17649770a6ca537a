//! Lines and boxes that say something.
//!
//! For: a notice above the hints (saved, refused, a key that cannot be used now and why), a
//! question before something that cannot be taken back, and the line for a window that is too
//! small.
//!
//! Promises: good, doubtful and bad news differ by a sign as well as by colour; a question shows
//! everything it asks about.

use ratatui::buffer::Buffer;
use ratatui::layout::Rect;

use crate::export::shown::width;
use crate::tui::ink::{below, cells, line_of, rest_of, wrap};
use crate::tui::look::Look;
use crate::tui::theme::Role;

use super::overlay::Overlay;

/// What kind of news it is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum News {
    /// For information.
    Plain,
    /// Something was done.
    Good,
    /// Something wants attention.
    Warn,
    /// Something was not done.
    Bad,
}

/// A sentence for the person, which stays until the next key.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Notice {
    /// What kind of news.
    pub news: News,
    /// The sentence.
    pub text: String,
}

impl Notice {
    /// Something for information.
    pub fn plain(text: impl Into<String>) -> Self {
        Self::new(News::Plain, text)
    }

    /// Something was done.
    pub fn good(text: impl Into<String>) -> Self {
        Self::new(News::Good, text)
    }

    /// Something wants attention.
    pub fn warn(text: impl Into<String>) -> Self {
        Self::new(News::Warn, text)
    }

    /// Something was not done.
    pub fn bad(text: impl Into<String>) -> Self {
        Self::new(News::Bad, text)
    }

    fn new(news: News, text: impl Into<String>) -> Self {
        Self {
            news,
            text: text.into(),
        }
    }

    fn sign(&self) -> (&'static str, Role) {
        match self.news {
            News::Plain => ("", Role::Text),
            News::Good => ("+ ", Role::Good),
            News::Warn => ("! ", Role::Warn),
            News::Bad => ("! ", Role::Error),
        }
    }

    /// Lines the notice takes at this width, at most three.
    pub fn height(&self, wide: u16) -> u16 {
        cells(self.lines(wide).len())
    }

    fn lines(&self, wide: u16) -> Vec<String> {
        let (sign, _) = self.sign();
        let mut lines = wrap(
            &format!("{sign}{}", self.text),
            usize::from(wide.saturating_sub(2)),
        );
        lines.truncate(3);
        lines
    }

    /// Draws the notice into as many lines as the area has.
    pub fn render(&self, area: Rect, buf: &mut Buffer, look: &Look) {
        let (_, role) = self.sign();
        for (line, text) in area.rows().zip(self.lines(area.width)) {
            look.put(buf, rest_of(line, 1), &text, role);
        }
    }
}

/// A question with the keys that answer it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Question {
    /// Short name of what is asked.
    pub title: String,
    /// What is asked, in full; line breaks are kept.
    pub text: String,
    /// Keys and what they answer.
    pub answers: Vec<(String, String)>,
}

impl Question {
    /// Draws the question in a box in the middle of `area`.
    pub fn render(&self, area: Rect, buf: &mut Buffer, look: &Look) {
        let room = area.width.saturating_sub(4).clamp(1, 64);
        let text = wrap(&self.text, usize::from(room));
        let answers: usize = self
            .answers
            .iter()
            .map(|(key, answer)| width(key) + width(answer) + 4)
            .sum();
        let widest = text.iter().map(|line| width(line)).max().unwrap_or(0);
        let wide = widest.max(answers).max(width(&self.title) + 6);
        let overlay = Overlay {
            title: &self.title,
            foot: "",
            inner: (cells(wide).min(room), cells(text.len() + 2)),
        };
        let inner = overlay.render(area, buf, look);
        // The answers stay in view even where the question does not fit.
        let answers_at = inner.height.saturating_sub(1);
        for (at, line) in text.iter().enumerate() {
            let at = cells(at);
            if at < answers_at {
                look.put(buf, line_of(inner, at), line, Role::Text);
            }
        }
        let mut rest = line_of(below(inner, answers_at), 0);
        for (key, answer) in &self.answers {
            rest = look.put_all(
                buf,
                rest,
                [
                    (&**key, Role::Key),
                    (" ", Role::Text),
                    (&**answer, Role::Text),
                    ("   ", Role::Text),
                ],
            );
        }
    }
}

/// Draws a line instead of a screen if `area` is smaller than `least`; returns whether it did.
pub fn too_small(area: Rect, least: (u16, u16), buf: &mut Buffer, look: &Look) -> bool {
    let (wide, high) = least;
    if area.width >= wide && area.height >= high {
        return false;
    }
    let text = format!(
        "this window is {} by {}, {wide} by {high} are needed; nothing is lost",
        area.width, area.height
    );
    look.theme.paint_ground(area, buf);
    for (line, text) in area.rows().zip(wrap(&text, usize::from(area.width))) {
        look.put(buf, line, &text, Role::Text);
    }
    true
}

#[cfg(test)]
mod tests {
    use super::*;

    fn rows(buf: &Buffer) -> Vec<String> {
        buf.area
            .rows()
            .map(|row| {
                let text: String = row
                    .columns()
                    .map(|at| buf[at.as_position()].symbol())
                    .collect();
                text.trim_end().to_owned()
            })
            .collect()
    }

    #[test]
    fn a_refusal_is_told_in_full_over_several_lines() {
        let notice = Notice::bad("side B was exposed on 4 March at 16:02; develop it first");
        let area = Rect::new(0, 0, 34, notice.height(34));
        let mut buf = Buffer::empty(area);
        notice.render(area, &mut buf, &Look::plain());
        assert_eq!(
            rows(&buf),
            [
                " ! side B was exposed on 4 March",
                " at 16:02; develop it first"
            ]
        );
    }

    #[test]
    fn a_question_keeps_its_answers_in_view() {
        let question = Question {
            title: "strike".into(),
            text: "Strike the exposure of 4 March? It stays legible.".into(),
            answers: vec![("y".into(), "strike".into()), ("esc".into(), "keep".into())],
        };
        let area = Rect::new(0, 0, 40, 7);
        let mut buf = Buffer::empty(area);
        question.render(area, &mut buf, &Look::plain());
        let drawn = rows(&buf);
        assert!(drawn[0].contains("┌─ strike ─"), "{drawn:?}");
        assert!(
            drawn[1].contains("Strike the exposure of 4 March? It"),
            "{drawn:?}"
        );
        assert!(drawn[4].contains("y strike   esc keep"), "{drawn:?}");
        let small = Rect::new(0, 0, 40, 3);
        let mut buf = Buffer::empty(small);
        question.render(small, &mut buf, &Look::plain());
        assert!(rows(&buf)[1].contains("y strike   esc keep"));
    }

    #[test]
    fn a_window_that_is_too_small_says_what_is_needed() {
        let area = Rect::new(0, 0, 30, 4);
        let mut buf = Buffer::empty(area);
        assert!(too_small(area, (40, 10), &mut buf, &Look::plain()));
        assert!(rows(&buf)[0].starts_with("this window is 30 by 4"));
        assert!(!too_small(area, (30, 4), &mut buf, &Look::plain()));
    }
}
