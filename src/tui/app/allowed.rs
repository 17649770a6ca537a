//! What can be done now: the answers to the table of actions.

use super::{App, Tab};
use crate::logbook::{Kind, Life, Thing, ThingKind};
use crate::tui::actions::Availability;
use crate::tui::browse::Half;
use crate::tui::overlays::Overlay;

const READ_ONLY: &str = "the logbook is open read only: everything can be looked at";

/// Offered, or not at all.
const fn if_so(so: bool) -> Availability {
    if so {
        Availability::Yes
    } else {
        Availability::Hidden
    }
}

impl App {
    /// Whether anything can be logged at all.
    pub(super) fn can_write(&self) -> Availability {
        if self.bench.store.is_read_only() {
            Availability::No(READ_ONLY.into())
        } else {
            Availability::Yes
        }
    }

    pub(super) fn can_log(&self, kind: Kind) -> Availability {
        let Some(life) = self.at_hand() else {
            return Availability::Hidden;
        };
        if self.bench.store.is_read_only() {
            return Availability::No(READ_ONLY.into());
        }
        if self.timeline().possible.contains(&kind) {
            return Availability::Yes;
        }
        let doubtful = life.side().is_some_and(|side| side.doubt.is_some());
        let risky = matches!(
            kind,
            Kind::ExposureBegun | Kind::Exposed | Kind::Unloaded | Kind::RunBegun
        );
        let why = if doubtful && risky {
            format!(
                "{} is in doubt: find out first what happened ({})",
                life.reference,
                self.key_of("resolve")
            )
        } else {
            format!(
                "{} is {}: what can come next is under {}",
                life.reference,
                life.state_word(),
                self.key_of("next")
            )
        };
        Availability::No(why.into())
    }

    pub(super) fn can_open(&self) -> Availability {
        match self.at_hand() {
            Some(_) => self.can_write(),
            None => Availability::Hidden,
        }
    }

    pub(super) fn can_resolve(&self) -> Availability {
        let doubtful = |life: &Life| life.side().is_some_and(|side| side.doubt.is_some());
        let unsure = |life: &Life| doubtful(life) || self.sheet_being_exposed(life).is_some();
        match self.side_at_hand() {
            Some(life) if unsure(&life) => self.can_write(),
            _ => Availability::Hidden,
        }
    }

    /// The side at hand, or the side the sheet at hand is in.
    pub(super) fn side_at_hand(&self) -> Option<Life> {
        let life = self.at_hand()?;
        match life.thing.kind {
            ThingKind::Side => Some(life.clone()),
            ThingKind::Sheet => {
                let side = life.sheet()?.side?;
                self.bench.life(Thing::new(ThingKind::Side, side))
            }
            _ => None,
        }
    }

    pub(super) fn has_thing(&self) -> Availability {
        if_so(self.at_hand().is_some())
    }

    /// An entry can be struck or amended where it can be seen.
    pub(super) fn has_entry(&self) -> Availability {
        let seen = self.browse().is_some() || self.half() == Half::Strip || self.tab == Tab::Curves;
        match self.timeline().selected() {
            Some(_) if seen => self.can_write(),
            _ => Availability::Hidden,
        }
    }

    /// Whether there is a strip under the hand, and no other key meant by the arrows.
    pub(super) fn has_strip(&self) -> Availability {
        if_so(self.half() == Half::List && self.curves.selected().is_some())
    }

    pub(super) fn has_links(&self) -> Availability {
        if_so(self.timeline().selected().is_some())
    }

    pub(super) fn has_trail(&self) -> Availability {
        if_so(!self.trail.is_empty())
    }

    pub(super) fn has_list(&self) -> Availability {
        let narrowed = match self.browse() {
            Some(browse) => browse.is_narrowed(),
            None if self.tab == Tab::Curves => return Availability::Hidden,
            None => self.rack.is_narrowed(),
        };
        if_so(narrowed || self.at_hand().is_some())
    }

    pub(super) fn can_go_to_strip(&self) -> Availability {
        if_so(self.half() == Half::List && self.at_hand().is_some())
    }

    pub(super) fn can_go_back(&self) -> Availability {
        let narrowed = match self.browse() {
            Some(browse) => browse.is_narrowed(),
            None if self.tab == Tab::Curves => self.curves.has_marks(),
            None => self.rack.is_narrowed(),
        };
        if_so(narrowed || self.half() == Half::Strip)
    }

    pub(super) fn has_drafts(&self) -> Availability {
        if_so(self.drafts > 0)
    }

    /// What is on top, the help page left out: it tells what can be done under it.
    pub(super) fn under_help(&self) -> Option<&Overlay> {
        let mut overlays = self.overlays.iter().rev();
        overlays.find(|overlay| !matches!(overlay, Overlay::Help(_)))
    }

    pub(super) fn can_override(&self) -> Availability {
        match self.under_help() {
            Some(Overlay::Pane(pane)) => match &pane.refusal {
                Some(refusal) if refusal.can_be_overridden() => Availability::Yes,
                Some(_) => Availability::No("no reason makes this possible".into()),
                None => Availability::Hidden,
            },
            _ => Availability::Hidden,
        }
    }

    pub(super) fn has_offer(&self, wider: bool) -> Availability {
        match self.under_help() {
            Some(Overlay::Pane(pane)) => if_so(pane.offer_beside(wider).is_some()),
            _ => Availability::Hidden,
        }
    }

    pub(super) fn has_more(&self) -> Availability {
        match self.under_help() {
            Some(Overlay::Pane(pane)) => if_so(pane.too_long),
            Some(Overlay::Reckon(reckoning)) => if_so(reckoning.too_long),
            Some(Overlay::Plan(plan)) => if_so(plan.too_long),
            _ => Availability::Hidden,
        }
    }

    /// Whether the figure on top has an answer.
    pub(super) fn has_result(&self) -> Availability {
        match self.under_help() {
            Some(Overlay::Reckon(reckoning)) => if_so(reckoning.main_result().is_some()),
            _ => Availability::Hidden,
        }
    }

    /// Whether something is typed for the figure on top.
    pub(super) fn has_filled(&self) -> Availability {
        match self.under_help() {
            Some(Overlay::Reckon(reckoning)) => if_so(reckoning.is_filled()),
            _ => Availability::Hidden,
        }
    }
}
