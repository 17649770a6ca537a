//! The screens: sheets, rack, prints, shelf.
//!
//! Three of them are a list beside the life of what is selected ([`super::browse`]) and differ only in
//! where their rows come from; the rack is drawn as a rack.

pub mod prints;
pub mod rack;
pub mod sheets;
pub mod shelf;
