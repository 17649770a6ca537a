//! Focus and movements: a file an idea, as in the craft.

mod angle;
mod conjugates;
mod coverage;
mod depth;
mod displacement;
mod falloff;
mod pinhole;
mod spread;
mod tilt;

use crate::near;
use notchbook::craft::Millimetres;
use notchbook::craft::optics::Distance;
use notchbook::craft::optics::Frame;

const INCH: f64 = 25.4;

fn mm(value: f64) -> Millimetres {
    Millimetres::new(value).unwrap_or_else(|why| panic!("{why}"))
}

fn off(millimetres: f64) -> Distance {
    Distance::new(millimetres).unwrap_or_else(|why| panic!("{why}"))
}

fn frame(width: f64, height: f64) -> Frame {
    Frame::new(width, height).unwrap_or_else(|why| panic!("{why}"))
}
