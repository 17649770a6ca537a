//! The screens: sheets, rack, bench, prints, shelf, curves.
//!
//! Three of them are a list beside the life of what is selected ([`super::browse`]) and differ only in
//! where their rows come from; the rack is drawn as a rack, the bench as its clocks,
//! the curves as curves.

pub mod bench;
pub mod curves;
pub mod prints;
pub mod rack;
pub mod sheets;
pub mod shelf;
