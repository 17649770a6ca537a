//! Printing: a file an idea, as in the craft.

mod coating;
mod contrast;
mod cost;
mod droppers;
mod metals;

use notchbook::craft::Size;

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
