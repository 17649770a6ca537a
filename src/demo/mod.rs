//! The demo logbook: a year of an invented photographer's work, to look around in.
//!
//! The scenario stands in `assets/demo/` as it would have been typed, line by line (`scenario`
//! says how such a file is written). [`build`] replays it through the one way in: every line becomes
//! a draft, is read at a desk whose clock stands at that line, and is written down like any entry of
//! a user. So the demo holds nothing a user could not have logged, a line the logbook would refuse
//! cannot get into it, and the same `now` gives the same logbook to the last byte of its entries.
//!
//! All times are moved by whole days so that the last line lies some hours before `now`: what waits
//! for development has waited for days and not for years, and what was taken in daylight still was.

use std::path::Path;

use chrono::{DateTime, FixedOffset, TimeDelta};

use crate::reference::Reference;
use crate::store::Store;
use crate::world::Scripted;

mod error;
mod replay;
mod scenario;

#[cfg(test)]
mod tests;

pub use error::{DemoError, Problem};

use replay::Replay;
use scenario::{Act, Shift};

/// Name and text of a file of the scenario.
macro_rules! chapter {
    ($name:literal) => {
        (
            concat!("assets/demo/", $name, ".toml"),
            include_str!(concat!("../../assets/demo/", $name, ".toml")),
        )
    };
}

/// The files of the scenario, in the order in which they happened.
const CHAPTERS: [(&str, &str); 7] = [
    chapter!("1-shelf"),
    chapter!("2-quarry"),
    chapter!("3-mill-and-slipway"),
    chapter!("4-lichen-and-faces"),
    chapter!("5-barn-and-weir"),
    chapter!("6-foreshore"),
    chapter!("7-last-weeks"),
];

/// How long before `now` the last line lies at least; at most it is a day more.
const LAST_LINE_AGO: TimeDelta = TimeDelta::hours(2);

/// Builds the demo logbook in a new file at `path`, as it stands at `now`, and hands it over open.
///
/// ```no_run
/// use notchbook::{demo, reference::Reference};
/// let now = chrono::Local::now().fixed_offset();
/// let store = demo::build("demo.notchbook".as_ref(), now, &Reference::built_in()?)?;
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
///
/// # Errors
/// [`DemoError::Store`] when the file cannot be made, for example because there is one already;
/// [`DemoError::Line`] when a line of the scenario cannot be replayed, which the tests rule out for
/// a released program and a user's own processes of the same name may bring about.
pub fn build(
    path: &Path,
    now: DateTime<FixedOffset>,
    reference: &Reference,
) -> Result<Store, DemoError> {
    replayed(&CHAPTERS, path, now, reference)
}

/// Replays the files of a scenario, given as name and text.
fn replayed(
    files: &[(&'static str, &str)],
    path: &Path,
    now: DateTime<FixedOffset>,
    reference: &Reference,
) -> Result<Store, DemoError> {
    let acts = scenario::read(files)?;
    let (Some(first), Some(last)) = (acts.first(), acts.last()) else {
        return Err(DemoError::Empty);
    };
    let shift = Shift::to_end(last.at, now - LAST_LINE_AGO);
    let mut world = Scripted::new(shift.moment(first.at));
    let mut store = Store::create(path, &mut world)?;
    store.without_waiting(|store| {
        let mut replay = Replay::new(store, world, reference, shift);
        acts.iter()
            .try_for_each(|act| replay.act(act).map_err(|problem| named(act, problem)))
    })??;
    Ok(store)
}

fn named(act: &Act, problem: Problem) -> DemoError {
    DemoError::Line {
        file: act.file.to_owned(),
        line: act.line,
        problem: Box::new(problem),
    }
}
