//! The screens: sheets, rack, bench, prints, shelf.
//!
//! Three of them are a list beside the life of what is selected ([`super::browse`]) and differ only in
//! where their rows come from; the rack is drawn as a rack, the bench as its clocks.

pub mod bench;
pub mod prints;
pub mod rack;
pub mod sheets;
pub mod shelf;
