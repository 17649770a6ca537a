//! Film speed, contrast and the curve through a step tablet.
//!
//! No printed table of steps with the speed and contrast that follow from it could be opened, so the
//! family of curves here is constructed: it was made by a formula and rounded to two places, and its
//! results are derived.

use crate::near;
use notchbook::craft::Seconds;
use notchbook::craft::sensitometry::readings::{Sheet, read};
use notchbook::craft::sensitometry::{Curve, Joined, Tablet};

mod constructed;
mod control;
mod growth;
mod interpolation;
mod speed;
mod tablet;

/// Constructed: D(x, t) = b + g w ln(1 + exp((x - x0) / w)) with g = 1.20 (1 - exp(-0.095 t)), w = 0.18,
/// x0 = -1.95 - 0.12 log2(t / 5.5), b = 0.10 + 0.004 t, printed in contact with log H0 = 0.35 and rounded
/// to two places. Not measurements.
const FAMILY: &str = "\
step,tablet_D,logH,t4,t5.5,t8,t11,t16
1,0.05,0.30,0.95,1.22,1.61,1.99,2.45
2,0.20,0.15,0.89,1.15,1.51,1.87,2.31
3,0.35,0.00,0.83,1.07,1.42,1.75,2.17
4,0.50,-0.15,0.78,1.00,1.32,1.64,2.02
5,0.65,-0.30,0.72,0.93,1.23,1.52,1.88
6,0.80,-0.45,0.66,0.85,1.13,1.40,1.74
7,0.95,-0.60,0.61,0.78,1.04,1.29,1.60
8,1.10,-0.75,0.55,0.71,0.94,1.17,1.46
9,1.25,-0.90,0.49,0.64,0.84,1.05,1.32
10,1.40,-1.05,0.44,0.56,0.75,0.94,1.18
11,1.55,-1.20,0.38,0.49,0.65,0.82,1.04
12,1.70,-1.35,0.33,0.42,0.56,0.71,0.90
13,1.85,-1.50,0.27,0.35,0.47,0.59,0.76
14,2.00,-1.65,0.22,0.28,0.38,0.48,0.63
15,2.15,-1.80,0.18,0.23,0.30,0.38,0.50
16,2.30,-1.95,0.15,0.18,0.23,0.30,0.39
17,2.45,-2.10,0.13,0.15,0.19,0.23,0.30
18,2.60,-2.25,0.12,0.14,0.16,0.19,0.24
19,2.75,-2.40,0.12,0.13,0.14,0.16,0.20
20,2.90,-2.55,0.12,0.13,0.14,0.15,0.18
21,3.05,-2.70,0.12,0.12,0.13,0.15,0.17
";

const MINUTES: [f64; 5] = [4.0, 5.5, 8.0, 11.0, 16.0];

fn minutes(value: f64) -> Seconds {
    Seconds::new(value * 60.0).unwrap_or_else(|why| panic!("{why}"))
}

fn family() -> Sheet {
    read(FAMILY, 21).unwrap_or_else(|why| panic!("{why}"))
}

fn curves(joined: Joined) -> Vec<Curve> {
    let sheet = family();
    let tablet = Tablet::measured(&sheet.tablet, "constructed");
    let tablet = tablet.unwrap_or_else(|why| panic!("{why}"));
    let strips = sheet.strips.iter();
    let curves = strips.map(|it| Curve::new(&it.readings, &tablet, Some(0.35), None, joined));
    curves.map(Result::unwrap).collect()
}
