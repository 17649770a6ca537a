//! Long and very short exposures, against what makers and practitioners have printed.

mod makers;
mod practice;

use crate::near;
use chrono::{DateTime, Utc};
use notchbook::craft::reciprocity::{Corrected, Form, Law, correct, factor_of_added};
use notchbook::craft::{Grounds, Seconds, Standing};
use notchbook::figures::reciprocity::{NamedLaw, apart, laws_for, laws_for_any_film};
use notchbook::figures::{Desk, NoKit};
use notchbook::reference::Reference;

fn s(text: &str) -> Seconds {
    Seconds::parse(text).unwrap_or_else(|why| panic!("{why}"))
}

fn laws(film: &str) -> Vec<NamedLaw> {
    let reference = Reference::built_in().unwrap_or_else(|why| panic!("{why}"));
    let now = DateTime::<Utc>::UNIX_EPOCH.fixed_offset();
    let desk = Desk::new(&reference, &NoKit, now);
    if film.is_empty() {
        return laws_for_any_film(&desk);
    }
    laws_for(film, &desk)
}

/// The law of a film whose name begins so.
#[track_caller]
fn law(film: &str, name: &str) -> NamedLaw {
    let laws = laws(film);
    let names: Vec<String> = laws.iter().map(|law| law.name.clone()).collect();
    let found = laws.into_iter().find(|law| law.name.starts_with(name));
    found.unwrap_or_else(|| panic!("{film}: no {name} among {names:?}"))
}

#[track_caller]
fn at(law: &NamedLaw, metered: &str) -> Corrected {
    law.correct(s(metered))
        .unwrap_or_else(|why| panic!("{metered}: {why}"))
        .value
}

#[track_caller]
fn time(law: &NamedLaw, metered: &str) -> f64 {
    at(law, metered).time.expect("a time").value()
}

/// The lens opening as it is written; empty where none is needed.
#[track_caller]
fn open(law: &NamedLaw, metered: &str) -> String {
    at(law, metered)
        .open
        .map_or_else(String::new, |open| open.to_string())
}
