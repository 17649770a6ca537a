//! Figures checked against what others have printed.
//!
//! One file a chapter. Each check names, above it, the text its numbers come from, and how far they
//! carry: "published" numbers were read in the text named; "second hand" ones in a text that quotes
//! it; "derived" ones follow from the formula named. Where a text is known to have printed a slip,
//! the check asserts that the slip is not reproduced.

mod bellows;
mod development;
mod exposure;
mod faults;
mod film;
mod filters;
mod finishing;
mod flash;
mod light;
mod optics;
mod printing;
mod reciprocity;
mod sensitometry;
mod shutter;
mod solutions;
mod sun;

/// Fails unless a figure is within a tolerance of what was expected.
#[track_caller]
fn near(value: f64, expected: f64, tolerance: f64) {
    assert!(
        (value - expected).abs() <= tolerance,
        "{value} is not within {tolerance} of {expected}"
    );
}
