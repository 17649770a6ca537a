//! The clock of one step over the whole screen, with digits that are read at arm's length; or nothing at
//! all, where no light may fall, and the bell speaks.

use ratatui::buffer::Buffer;
use ratatui::layout::Rect;

use crate::logbook::Thing;
use crate::logbook::counting::{Counting, clock};
use crate::tui::clock::digits::Digits;
use crate::tui::ink::{line_of, rest_of};
use crate::tui::look::Look;
use crate::tui::theme::{Role, Theme};

/// What is shown over the screen.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum StepClock {
    /// The clock of this run or print.
    Large(Thing),
    /// Nothing; with the theme to go back to.
    Dark(Theme),
}

/// Lines under the digits.
const FOOT: u16 = 5;

/// Draws a clock in large digits, or says that nothing is counted.
pub fn render(counting: Option<&Counting>, area: Rect, buf: &mut Buffer, look: &Look) {
    look.theme.paint_ground(area, buf);
    let Some(counting) = counting else {
        let line = rest_of(line_of(area, area.height / 2), 2);
        look.put(buf, line, "nothing is being counted here", Role::Text);
        return;
    };
    let (sign, seconds) = counting.shown();
    let digits = clock(seconds);
    let text = sign.map_or_else(|| digits.clone(), |sign| format!("{sign}{digits}"));
    let figure = Rect {
        y: area.y + 1.min(area.height),
        height: area.height.saturating_sub(1 + FOOT),
        ..area
    }
    .intersection(area);
    let role = if counting.is_over() {
        Role::Warn
    } else {
        Role::Text
    };
    let digits = Digits {
        text: &text,
        thin: false,
    };
    digits.render(figure, buf, look, role);
    let head = rest_of(line_of(area, 0), 1);
    let head = look.put(buf, head, &counting.reference, Role::Heading);
    look.put(buf, rest_of(head, 2), &counting.step_in_words(), Role::Text);
    let state = match () {
        () if counting.paused => "its time stands still".to_owned(),
        () if counting.is_over() => format!("! over; {}", counting.act_in_words()),
        () => counting.act_in_words(),
    };
    let next = counting.next.as_ref();
    let next = next.map_or_else(String::new, |next| format!("then {}", next.in_words()));
    let next = if state.ends_with(&next) {
        String::new()
    } else {
        next
    };
    let light = counting.light.map_or("", |light| light.in_words());
    let lines = [
        (state.as_str(), Role::Heading),
        (&next, Role::Text),
        (light, Role::Quiet),
    ];
    for (at, (words, role)) in (0..).zip(lines) {
        let line = line_of(area, area.height.saturating_sub(FOOT - 1) + at);
        look.put(buf, rest_of(line, 2), words, role);
    }
}
