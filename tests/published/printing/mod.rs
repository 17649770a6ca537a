//! Printing: a file an idea, as in the craft.

mod coating;
mod contrast;
mod cost;
mod droppers;
mod enlarging;
mod fits;
mod lamps;
mod metals;
mod papers;
mod strips;
mod tablets;

use notchbook::craft::{Seconds, Size};

fn size(text: &str) -> Size {
    Size::parse(text).unwrap_or_else(|why| panic!("{why}"))
}

fn time(text: &str) -> Seconds {
    Seconds::parse(text).unwrap_or_else(|why| panic!("{why}"))
}

#[track_caller]
fn near(value: f64, expected: f64, tolerance: f64) {
    assert!(
        (value - expected).abs() <= tolerance,
        "{value} is not within {tolerance} of {expected}"
    );
}
