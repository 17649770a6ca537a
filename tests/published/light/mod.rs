//! From the light to the setting: meters and their units, zones, scenes without a meter, marks.

mod meters;
mod scenes;
mod series;
mod zones;

use crate::near;
use notchbook::craft::{Aperture, ExposureValue, FilmSpeed, Seconds};

fn aperture(text: &str) -> Aperture {
    Aperture::parse(text).unwrap_or_else(|why| panic!("{why}"))
}

fn time(text: &str) -> Seconds {
    Seconds::parse(text).unwrap_or_else(|why| panic!("{why}"))
}

fn speed(value: u32) -> FilmSpeed {
    FilmSpeed::new(value).unwrap_or_else(|why| panic!("{why}"))
}

fn ev(value: f64) -> ExposureValue {
    ExposureValue::new(value).unwrap_or_else(|why| panic!("{why}"))
}

/// Half a unit of the last place that is printed.
#[track_caller]
fn as_printed(value: f64, printed: &str) {
    let places = printed.split_once('.').map_or(0, |(_, part)| part.len());
    let half = 0.5 * 10_f64.powi(-i32::try_from(places).unwrap_or(0));
    let number: f64 = printed.parse().unwrap_or_else(|_| panic!("{printed}"));
    near(value, number, half * 1.000_01);
}
