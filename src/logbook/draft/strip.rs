//! A strip of steps as it is typed: the tablet, and the densities behind it.
//!
//! For: the fields of a strip, which depend on each other: how many densities there are to be is for the
//! tablet to say, and a table of readings may bring its tablet and its time with it. Promises: a text that
//! holds several strips is never taken for one.

use serde_json::{Map, Value};

use super::value::quantity;
use super::{Desk, Draft};
use crate::craft::Density;
use crate::craft::sensitometry::readings::{self, Sheet, Strip};
use crate::craft::sensitometry::{Tablet, densities, steps};
use crate::logbook::life::Found;
use crate::logbook::{Kind, Names, TabletFound, TabletUsed};

/// More steps than any tablet has.
const MANY: usize = 1000;

/// Reads a tablet: the number of its steps, the name it was kept under, or the density of each step.
pub(super) fn tablet(typed: &str, desk: &Desk<'_>) -> Result<TabletUsed, String> {
    let used = if let Some(steps) = steps(typed) {
        TabletUsed::Steps(steps)
    } else if let Some(kept) = kept_tablet(typed, desk.names) {
        TabletUsed::Measured {
            name: Some(kept.name),
            densities: kept.densities,
        }
    } else if typed.chars().any(char::is_alphabetic) {
        return Err(format!(
            "no tablet called \"{typed}\" is kept in this logbook: write 21, 31 or 11 steps, or the density \
             of each"
        ));
    } else {
        TabletUsed::Measured {
            name: None,
            densities: densities(typed).map_err(|why| why.to_string())?,
        }
    };
    used.tablet().map_err(|why| why.to_string())?;
    Ok(used)
}

/// The densities of a tablet that is kept.
pub(super) fn tablet_densities(typed: &str) -> Result<Value, String> {
    let read = densities(typed).map_err(|why| why.to_string())?;
    Tablet::measured(&read, "").map_err(|why| why.to_string())?;
    quantity(Ok(read))
}

/// The tablet that is kept under a name or a reference, the newest if there are several.
fn kept_tablet(called: &str, names: &dyn Names) -> Option<TabletFound> {
    let wanted = called.trim().to_lowercase();
    let reference = super::tidy_reference(called);
    let mut lives = names.findings();
    lives.sort_by_key(|life| (life.finding().and_then(|finding| finding.at), life.thing.id));
    let mut newest_first =
        lives
            .iter()
            .rev()
            .filter_map(|life| match life.finding()?.found.as_ref()? {
                Found::Tablet(tablet) => Some((life.reference.as_str(), tablet)),
                _ => None,
            });
    let (_, tablet) = newest_first
        .find(|(called, tablet)| *called == reference || tablet.name.to_lowercase() == wanted)?;
    Some(tablet.clone())
}

/// What the draft of a strip says of its tablet: what is typed, else what stands beside the readings.
fn tablet_of(draft: &Draft, desk: &Desk<'_>) -> Result<TabletUsed, String> {
    let typed = draft.get("tablet").trim();
    if let Some((text, value)) = draft.before.get("tablet")
        && text == typed
    {
        return serde_json::from_value(value.clone()).map_err(|why| why.to_string());
    }
    if !typed.is_empty() {
        return tablet(typed, desk);
    }
    match readings::read(draft.get("readings"), MANY) {
        Ok(sheet) if !sheet.tablet.is_empty() => {
            let used = TabletUsed::Measured {
                name: None,
                densities: sheet.tablet,
            };
            used.tablet().map_err(|why| why.to_string())?;
            Ok(used)
        }
        _ => Ok(TabletUsed::default()),
    }
}

/// The strips in the draft of one, with the tablet they were read behind.
pub(in crate::logbook) fn strips(
    draft: &Draft,
    desk: &Desk<'_>,
) -> Result<(TabletUsed, Sheet), String> {
    let used = tablet_of(draft, desk).map_err(|why| format!("of which tablet? {why}"))?;
    let count = used.tablet().map_or(0, |tablet| tablet.count());
    let sheet = readings::read(draft.get("readings"), count).map_err(|why| why.to_string())?;
    Ok((used, sheet))
}

/// Reads the densities of a strip, step by step; nothing where a step was not read.
pub(super) fn strip(draft: &Draft, desk: &Desk<'_>) -> Result<Value, String> {
    let (used, sheet) = strips(draft, desk)?;
    let [only] = sheet.strips.as_slice() else {
        return Err(format!(
            "there are {} strips in it, and an entry is one: type one, or read them all from a file",
            sheet.strips.len()
        ));
    };
    let count = used.tablet().map_or(0, |tablet| tablet.count());
    quantity(Ok(step_by_step(only, count)))
}

fn step_by_step(strip: &Strip, count: usize) -> Vec<Option<Density>> {
    let mut all = vec![None; count];
    for reading in &strip.readings {
        if let Some(place) = reading.step.checked_sub(1).and_then(|at| all.get_mut(at)) {
            *place = Some(reading.density);
        }
    }
    all
}

/// The densities of a strip as they are typed: all of them, or each with its step.
pub(super) fn said(read: &[Option<Density>]) -> String {
    let all: Option<Vec<String>> = read
        .iter()
        .map(|density| density.map(|density| density.value().to_string()))
        .collect();
    let parts = all.unwrap_or_else(|| {
        let each = read.iter().zip(1..);
        let some = each.filter_map(|(density, step)| Some((step, (*density)?)));
        some.map(|(step, density)| format!("{step} {}", density.value()))
            .collect()
    });
    parts.join(" ")
}

/// Adds what a table of readings says beside them: its tablet, and the time over its column.
pub(super) fn add(draft: &Draft, body: &mut Map<String, Value>, desk: &Desk<'_>) {
    let Ok((used, sheet)) = strips(draft, desk) else {
        return;
    };
    if !body.contains_key("tablet")
        && let TabletUsed::Measured { .. } = used
        && let Ok(value) = quantity(Ok(used))
    {
        body.insert("tablet".to_owned(), value);
    }
    let time = sheet.strips.first().and_then(|strip| strip.time);
    if !body.contains_key("time")
        && let Some(time) = time
        && let Ok(value) = quantity(Ok(time))
    {
        body.insert("time".to_owned(), value);
    }
}

impl Draft {
    /// The draft of a strip as several, if its readings are those of several: one for each, with the time
    /// over its column. Any other draft is given back alone, to be read as it is.
    #[must_use]
    pub fn each_strip(&self, desk: &Desk<'_>) -> Vec<Draft> {
        let several = match self.kind {
            Kind::StripRead => strips(self, desk)
                .ok()
                .filter(|(_, it)| it.strips.len() > 1),
            _ => None,
        };
        let Some((used, sheet)) = several else {
            return vec![self.clone()];
        };
        let count = used.tablet().map_or(0, |tablet| tablet.count());
        let each = sheet.strips.iter().map(|strip| {
            let mut draft = self.clone();
            draft.set("readings", said(&step_by_step(strip, count)));
            if let (TabletUsed::Measured { densities, .. }, true) =
                (&used, self.get("tablet").trim().is_empty())
            {
                draft.set(
                    "tablet",
                    crate::craft::sensitometry::said_densities(densities),
                );
            }
            if let Some(time) = strip.time {
                draft.set("time", time.to_string());
            }
            draft
        });
        each.collect()
    }
}
