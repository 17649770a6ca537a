//! Leading through a doubt: the dark slide and the log say different things, so which entry was
//! missed?
//!
//! For every answer there is an ordinary entry: one logged late, a strike, an amendment, or the word
//! that the log is right. Nothing is lost by any of them.

use crate::logbook::{EntryId, Kind, Life, Slide};
use crate::store::rows::Line;
use crate::tui::widgets::menu::{Item, Letters, Menu};

/// What the user says happened.
#[derive(Debug, Clone, PartialEq)]
pub enum Answer {
    /// Log this kind of entry, with its own time.
    Late(Kind),
    /// Confirm the log.
    LogIsRight,
    /// Strike this entry.
    Strike(EntryId),
    /// Amend this entry.
    Amend(EntryId),
}

/// The question, with its answers.
#[derive(Debug)]
pub struct Doubt {
    /// The choice.
    pub menu: Menu,
    answers: Vec<(String, Answer)>,
}

impl Doubt {
    /// The question for a side in doubt, from its life and its timeline. `None` if it is in no
    /// doubt.
    pub fn about(life: &Life, lines: &[Line]) -> Option<Doubt> {
        let side = life.side()?;
        let doubt = side.doubt?;
        let last = |kind: Kind| {
            lines
                .iter()
                .rev()
                .find(|line| line.kind == kind && line.struck.is_none())
                .map(|line| line.entry)
        };
        let mut answers: Vec<(&str, &str, Answer)> = Vec::new();
        match doubt.seen {
            Slide::Dark => {
                answers.push((
                    "it was exposed, and nobody logged it",
                    "log it late",
                    Answer::Late(Kind::Exposed),
                ));
            }
            Slide::Bright => {
                if let Some(exposed) = last(Kind::Exposed) {
                    answers.push((
                        "the exposure was made in another side",
                        "amend it",
                        Answer::Amend(exposed),
                    ));
                    answers.push((
                        "the exposure was never made",
                        "strike it",
                        Answer::Strike(exposed),
                    ));
                }
                answers.push((
                    "the sheet was taken out, a fresh one is in",
                    "log both late",
                    Answer::Late(Kind::Unloaded),
                ));
            }
        }
        answers.push((
            "the log is right, the slide is the wrong way round",
            "turn it",
            Answer::LogIsRight,
        ));
        answers.push((
            "the slide was misread",
            "strike the report",
            Answer::Strike(doubt.entry),
        ));
        let items = answers.iter().enumerate().map(|(at, (what, how, _))| {
            let item = Item::new(at.to_string(), *what).with_note(*how);
            match char::from_digit(u32::try_from(at + 1).unwrap_or(0), 10) {
                Some(letter) => item.with_letter(letter),
                None => item,
            }
        });
        let question = format!(
            "The log says {} is {}, and on {} its slide was seen {} side out. Which entry was missed? Whatever you choose, nothing is lost.",
            life.reference,
            life.state_word(),
            doubt.at.format("%-d %b at %H:%M"),
            doubt.seen.word()
        );
        let title = format!("{} is in doubt", life.reference);
        Some(Doubt {
            menu: Menu::new(title, items.collect(), Letters::Pick).asking(question),
            answers: answers
                .into_iter()
                .enumerate()
                .map(|(at, (_, _, answer))| (at.to_string(), answer))
                .collect(),
        })
    }

    /// The answer with this id.
    pub fn answer(&self, id: &str) -> Option<&Answer> {
        self.answers
            .iter()
            .find(|(answer, _)| answer == id)
            .map(|(_, answer)| answer)
    }
}
