//! Figures of the trade: typed quantities and pure functions on them.
//!
//! A quantity is read with `parse` as people write it (`1/15`, `f/22+1/3`, `13 1/2 in`, `68F`),
//! shown with `Display` as people read it, and kept in JSON as a plain number or a short text.
//! Whatever is shown can be read back. A value that cannot be (f/0, a time of 0 s, a density of
//! 40) is never built: not by typing, not from a number and not from a file; the error is an
//! [`Unreadable`] whose text is a sentence for the person who typed it.
//!
//! This floor knows no clock, no chance, no file and no terminal: the same arguments give the same
//! result for ever. What film or paper a figure belongs to is for `reference`, what happened to
//! which sheet for `logbook`.
//!
//! | quantity | kept as | file |
//! |---|---|---|
//! | [`Seconds`] | number, seconds | `seconds.rs` |
//! | [`Aperture`] | text, `f/22+1/3` | `aperture.rs` |
//! | [`Millimetres`] | number, millimetres | `millimetres.rs` |
//! | [`Size`] | text, `8x10 in` | `size.rs` |
//! | [`Celsius`] | number, degrees Celsius | `celsius.rs` |
//! | [`Millilitres`] | number, millilitres | `millilitres.rs` |
//! | [`Area`] | number, square inches | `area.rs` |
//! | [`Capacity`] | whole number of sheets, or text, `24 of 4x5 in` | `area.rs` |
//! | [`Keeping`] | whole number of days, or a date | `keeping.rs` |
//! | [`Density`] | number, log10 units | `density.rs` |
//! | [`Dilution`] | text, `1+31` | `dilution.rs` |
//! | [`FilmSpeed`] | whole number, arithmetic ISO | `film_speed.rs` |
//! | [`ExposureValue`] | number, stops from f/1 at 1 s | `exposure_value.rs` |
//! | [`Stops`] | number, + for more exposure | `stops.rs` |
//! | [`Luminance`], [`Illuminance`] | number, cd/m2 and lux | `brightness.rs` |
//! | [`zones::Zone`] | number, 0 to 10 | `zones/zone.rs` |
//! | a moment | a date and time with its offset | [`moment`] |
//! | [`TimeZone`] | what clocks show, by name or offset | `time_zone.rs` |
//! | several times | numbers, seconds | [`timings`] |
//! | a magnification | number, film over subject | [`magnification`] |
//!
//! A result that a person acts on is a [`Figure`]: the value with the steps that led to it, and the
//! [`Grounds`] it rests on.
//!
//! Figures stand in [`exposure`] (aperture, time and speed against each other), [`meter`] (light in
//! its units), [`zones`] (spot readings), [`series`] (what can be set), [`solve`] (the one of four that
//! is missing), [`bellows`], [`filter`], [`flash`] and [`shutter`] (what lens, filters, flash and
//! shutter take or give), [`solutions`] (what is mixed and how much of it), [`optics`] (focus and
//! movements), [`development`] (times and contrast), [`sensitometry`] (speed and contrast of film from a
//! step tablet), [`printing`] (what is coated and exposed by hand) and [`mat`] (the borders of a window mat).
//! `numeral.rs` reads and writes the numbers inside all of them, and `measure.rs` holds what the
//! quantities kept as plain numbers have in common.

mod aperture;
mod area;
pub mod bellows;
mod brightness;
mod celsius;
mod density;
pub mod development;
mod dilution;
pub mod exposure;
mod exposure_value;
pub mod figure;
mod film_speed;
pub mod filter;
pub mod flash;
mod grounds;
mod keeping;
pub mod magnification;
pub mod mat;
mod measure;
pub mod meter;
mod millilitres;
mod millimetres;
pub mod moment;
mod numeral;
pub mod optics;
pub mod patches;
pub mod printing;
pub mod reciprocity;
#[cfg(test)]
mod scribble;
mod seconds;
pub mod sensitometry;
pub mod series;
pub mod sheet_film;
pub mod shutter;
mod size;
pub mod solutions;
pub mod solve;
mod stops;
pub mod sun;
mod time_zone;
pub mod timings;
mod unreadable;
pub mod zones;

pub use aperture::Aperture;
pub use area::{Area, Capacity};
pub use brightness::{Brightness, Illuminance, Luminance};
pub use celsius::Celsius;
pub use density::Density;
pub use dilution::Dilution;
pub use exposure_value::ExposureValue;
pub use figure::{Amount, Concern, Figure, Impossible, Remark, Step};
pub use film_speed::FilmSpeed;
pub use grounds::{Grounds, Standing};
pub use keeping::Keeping;
pub use millilitres::Millilitres;
pub use millimetres::Millimetres;
pub use numeral::number;
pub(crate) use numeral::trimmed;
pub use seconds::Seconds;
pub use size::{LengthUnit, Size};
pub use stops::Stops;
pub use time_zone::TimeZone;
pub use unreadable::Unreadable;
