//! Solutions: a file an idea, as in the craft.

mod baths;
mod dilution;
mod formulas;
mod molar_masses;
mod percent;
mod salts;

use crate::near;
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
