//! Developing film, checked against what others have printed.

use crate::near;
use notchbook::craft::development::temperature::{Cell, TimeTable};
use notchbook::craft::{Celsius, Seconds};
use notchbook::reference::{PublishedTimes, Reference, TimesRow};

mod contrast;
mod drift;
mod run;
mod temperature;

fn celsius(text: &str) -> Celsius {
    Celsius::parse(text).expect("a temperature")
}

fn minutes(minutes: f64) -> Seconds {
    Seconds::new(minutes * 60.0).expect("a time")
}

fn cell(at: &str, time: f64) -> Cell {
    Cell {
        at: celsius(at),
        time: minutes(time),
    }
}

/// The table of one film in one developer, found in the reference by what it says.
fn table(id: &str, is_it: impl Fn(&TimesRow) -> bool) -> TimeTable {
    let reference = Reference::built_in().expect("the reference");
    let of_text = reference
        .times()
        .iter()
        .find(|it| it.id == id)
        .expect("the table");
    let rows: Vec<&TimesRow> = of_text.rows.iter().filter(|row| is_it(row)).collect();
    assert_eq!(rows.len(), 1, "{id}");
    rows[0].times.clone()
}

fn published(id: &str) -> PublishedTimes {
    let reference = Reference::built_in().expect("the reference");
    let found = reference.times().iter().find(|it| it.id == id);
    found.expect("the table").clone()
}
