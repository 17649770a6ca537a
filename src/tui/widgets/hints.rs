//! The line at the bottom: what can be pressed here.
//!
//! Promises: as many hints as fit, those of lowest rank first; the key for help is always among
//! them; what cannot be done now is left out. Keys that only move the cursor come last, and only
//! where everything else has found room.

use ratatui::buffer::Buffer;
use ratatui::layout::Rect;

use crate::export::shown::width;
use crate::tui::actions::{Availability, Offer};
use crate::tui::ink::rest_of;
use crate::tui::keys::Chord;
use crate::tui::look::Look;
use crate::tui::theme::Role;

/// What the hints are made of.
#[derive(Debug, Clone, Copy)]
pub struct Hints<'h> {
    /// What can be done here, in the order of rank.
    pub offers: &'h [Offer],
    /// Id of the action that opens the help page.
    pub help: &'h str,
    /// First key of a sequence that was begun; only what can follow is shown then.
    pub begun: Option<Chord>,
}

/// Cells between two hints.
const BETWEEN: usize = 3;

/// Rank from which an action only moves the cursor.
pub const MOVING: u8 = 80;

impl Hints<'_> {
    /// Draws the line.
    pub fn render(&self, line: Rect, buf: &mut Buffer, look: &Look) {
        let mut rest = rest_of(line, 1);
        if let Some(chord) = self.begun {
            rest = look.put_all(buf, rest, [(&*format!("{chord} … "), Role::Accent)]);
        }
        for (at, (key, label)) in self
            .fitting(usize::from(rest.width))
            .into_iter()
            .enumerate()
        {
            let gap = if at > 0 { "   " } else { "" };
            rest = look.put_all(
                buf,
                rest,
                [
                    (gap, Role::Text),
                    (&*key, Role::Key),
                    (" ", Role::Text),
                    (label, Role::Quiet),
                ],
            );
        }
    }

    /// Keys and labels that fit into `room`: what can be done, help, and then plain movement.
    fn fitting(&self, room: usize) -> Vec<(String, &'static str)> {
        let cells = |key: &str, label: &str| width(key) + 1 + width(label);
        let help = self.hint_of(|offer| offer.id == self.help).next();
        let mut used = help
            .as_ref()
            .map_or(0, |(key, label)| cells(key, label) + BETWEEN);
        let mut fitting = Vec::new();
        let mut all = true;
        for (key, label) in self.hint_of(|offer| offer.id != self.help && offer.rank < MOVING) {
            let more = cells(&key, label) + BETWEEN;
            if used + more > room + BETWEEN {
                all = false;
                break;
            }
            used += more;
            fitting.push((key, label));
        }
        fitting.extend(help);
        if !all {
            return fitting;
        }
        // A key that is called what it does tells nothing.
        let tells = |key: &str, label: &str| key != label && key.len() < 4;
        for (key, label) in self.hint_of(|offer| offer.rank >= MOVING) {
            let more = cells(&key, label) + BETWEEN;
            let told = fitting.iter().any(|(_, other)| *other == label);
            if !told && tells(&key, label) && used + more <= room + BETWEEN {
                used += more;
                fitting.push((key, label));
            }
        }
        fitting
    }

    fn hint_of(
        &self,
        wanted: impl Fn(&Offer) -> bool,
    ) -> impl Iterator<Item = (String, &'static str)> {
        let begun = self.begun.map(|chord| format!("{chord} "));
        self.offers
            .iter()
            .filter(move |offer| wanted(offer) && offer.available == Availability::Yes)
            .filter_map(move |offer| {
                let key = match &begun {
                    None => offer.keys.first()?.as_str(),
                    Some(begun) => offer
                        .keys
                        .iter()
                        .find_map(|keys| keys.strip_prefix(begun.as_str()))?,
                };
                Some((key.to_owned(), offer.label))
            })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn offer(id: &'static str, keys: &[&str], label: &'static str, rank: u8) -> Offer {
        Offer {
            id,
            keys: keys.iter().map(|key| (*key).to_owned()).collect(),
            label,
            sentence: "Does something.",
            group: "all",
            rank,
            available: Availability::Yes,
        }
    }

    fn offers() -> Vec<Offer> {
        let mut offers = vec![
            offer("next", &["enter"], "next entry", 1),
            offer("strike", &["x"], "strike", 2),
            offer("top", &["g g"], "top", 3),
            offer("help", &["?"], "keys", 9),
            offer("none", &[], "no key", 1),
            offer("up", &["up"], "up", MOVING),
            offer("list", &["h"], "list", MOVING),
            offer("not", &["n"], "not now", 1),
        ];
        offers[7].available = Availability::No("not now".into());
        offers
    }

    fn drawn(wide: u16, begun: Option<Chord>) -> String {
        let area = Rect::new(0, 0, wide, 1);
        let mut buf = Buffer::empty(area);
        let offers = offers();
        let hints = Hints {
            offers: &offers,
            help: "help",
            begun,
        };
        hints.render(area, &mut buf, &Look::plain());
        let text: String = buf.content().iter().map(|cell| cell.symbol()).collect();
        text.trim_end().to_owned()
    }

    #[test]
    fn hints_that_fit_are_shown_and_help_is_always_the_last() {
        assert_eq!(
            drawn(47, None),
            " enter next entry   x strike   g g top   ? keys"
        );
        assert_eq!(drawn(46, None), " enter next entry   x strike   ? keys");
        assert_eq!(drawn(12, None), " ? keys");
    }

    #[test]
    fn movement_comes_last_and_only_where_all_the_rest_has_room() {
        assert_eq!(
            drawn(60, None),
            " enter next entry   x strike   g g top   ? keys   h list"
        );
        assert_eq!(
            drawn(54, None),
            " enter next entry   x strike   g g top   ? keys"
        );
    }

    #[test]
    fn after_the_first_key_of_a_sequence_only_what_can_follow_is_shown() {
        assert_eq!(drawn(60, Some(Chord::char('g'))), " g … g top");
    }
}
