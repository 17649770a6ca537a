//! The settings an exposure comes to, as its pane offers them.
//!
//! For: a pane in which readings are typed. Promises: an empty time or aperture says what will be
//! logged for it, before it is logged. Leaves to others: the reckoning (`logbook::reckoning`).

use super::Pane;
use crate::craft::exposure::Setting;
use crate::figures::exposure::Offer;
use crate::tui::bench::Bench;

impl Pane {
    /// Says in the empty fields what stands for nothing typed.
    pub(super) fn show_plan(&mut self) {
        if self.amending.is_some() {
            return;
        }
        let typed = |key: &str| !self.draft.get(key).trim().is_empty();
        let planned = self.planned();
        let stands_for = [
            (
                "time",
                typed("aperture"),
                planned.map(|it| it.time.to_string()),
            ),
            (
                "aperture",
                typed("time"),
                planned.map(|it| it.aperture.to_string()),
            ),
        ];
        for (key, other_is_typed, planned) in stands_for {
            let stands = planned.filter(|_| other_is_typed && !typed(key));
            if let (Some(planned), Some(field)) = (stands, self.form.field_mut(key)) {
                field.unit = format!("{planned} as reckoned");
            }
        }
    }

    fn offers(&self) -> impl Iterator<Item = Setting> {
        let reckoned = self.reckoned.iter().flatten();
        reckoned.flat_map(|reckoned| reckoned.offers.iter().map(Offer::setting))
    }

    /// The setting that is to be given, as it is reckoned.
    pub fn planned(&self) -> Option<Setting> {
        self.offers().next()
    }

    /// The setting that is offered beside the planned one, wider or smaller.
    pub fn offer_beside(&self, wider: bool) -> Option<Setting> {
        let planned = self.planned()?.aperture.stops();
        let mut others = self.offers().skip(1);
        others.find(|other| (other.aperture.stops() < planned) == wider)
    }

    /// Takes a setting that is offered beside the planned one: its aperture, with the time that is
    /// reckoned for it.
    pub fn take_offer(&mut self, wider: bool, bench: &Bench) {
        let Some(next) = self.offer_beside(wider) else {
            return;
        };
        for (key, text) in [
            ("aperture", next.aperture.to_string()),
            ("time", String::new()),
        ] {
            self.draft.set(key, text.as_str());
            if let Some(field) = self.form.field_mut(key) {
                field.fill(&text);
                field.problem = None;
            }
            if !self.touched.iter().any(|touched| touched == key) {
                self.touched.push(key.to_owned());
            }
        }
        self.changed = true;
        self.refusal = None;
        self.reckon(bench);
    }
}
