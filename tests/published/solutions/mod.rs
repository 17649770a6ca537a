//! Solutions: a file an idea, as in the craft.

mod baths;
mod dilution;
mod formulas;
mod molar_masses;
mod percent;
mod salts;

use notchbook::craft::{Celsius, Dilution, Millilitres, Seconds, Size};

fn ml(value: f64) -> Millilitres {
    Millilitres::new(value).unwrap_or_else(|why| panic!("{why}"))
}

fn parts(text: &str) -> Dilution {
    Dilution::parse(text).unwrap_or_else(|why| panic!("{why}"))
}

fn at(text: &str) -> Celsius {
    Celsius::parse(text).unwrap_or_else(|why| panic!("{why}"))
}

fn time(text: &str) -> Seconds {
    Seconds::parse(text).unwrap_or_else(|why| panic!("{why}"))
}

fn size(text: &str) -> Size {
    Size::parse(text).unwrap_or_else(|why| panic!("{why}"))
}

#[track_caller]
fn near(value: f64, expected: f64, tolerance: f64) {
    assert!(
        (value - expected).abs() <= tolerance,
        "{value} is not within {tolerance} of {expected}"
    );
}
