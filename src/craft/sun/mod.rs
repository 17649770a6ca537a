//! Where the sun stands, when it rises and sets, where shadows fall.
//!
//! For: planning a picture at a place, and for warning when the sun looks into the lens. Angles are
//! in degrees; azimuths and bearings go from true north by east, which is not where a compass needle
//! points. Promises: every date from 1800 to 2999 and every place gives finite numbers, and what does
//! not happen on a day (no sunset in the polar summer) is none and not a number. The horizon is level
//! and at the height of the eye: hills, trees and the height of the place are left to the photographer.
//!
//! - [`Coordinates`], [`Bearing`]: places and directions as people write them.
//! - [`position`], [`Sun`]: the sun at an instant.
//! - [`refraction`]: how much the air lifts it.
//! - [`day`], [`Day`]: what it does on a day of the calendar.
//! - [`Lit`], [`on_wall`]: when it strikes a wall.
//! - [`View`], [`Framed`]: whether it is in the picture.

mod bearing;
mod coordinates;
mod day;
mod frame;
mod path;
mod position;
mod refraction;
mod wall;

pub use bearing::Bearing;
pub use coordinates::Coordinates;
pub use day::{Bands, Day, Level, Pass, day};
pub use frame::{Framed, NEAR, Seen, View};
pub use position::{METHOD, Shadow, Sun, julian_day, position, sun};
pub use refraction::{REFRACTION, refraction};
pub use wall::{Lit, on_wall};
