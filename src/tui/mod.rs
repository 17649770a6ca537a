//! The front end: what a person sees and presses.
//!
//! Read in this order:
//!
//! - [`event`]: the loop. Draw, wait, let the application answer, draw again only if it changed.
//! - [`terminal`]: the guard that takes the terminal over and gives it back on every way out;
//!   [`crash`] does so when the program itself is at fault.
//! - [`theme`] and [`look`]: roles of text, the three themes, the sets of signs.
//! - [`keys`] and [`actions`]: what can be pressed and what that does, declared once in a table.
//! - [`config`]: the user's own settings; a mistake there is reported and never stops the program.
//! - [`clock`]: the counting of a long exposure, and its large digits.
//! - [`widgets`]: the pieces that screens are made of. Plain data, drawn by pure functions.
//!
//! A new action is one entry in the application's table and one arm where its deed is done; keys,
//! hints, help and the check of the settings follow from the entry. A new screen is data with a
//! function that draws it and a [`actions::Place`] of its own. A pane is a [`widgets::form::Form`]
//! at the left, a [`widgets::ledger`] at the right, and the function that turns one into the other.
//!
//! Everything drawn goes through [`look::Look::put`], which lets no control or invisible
//! character pass.

pub mod actions;
pub mod app;
mod backend;
pub mod bench;
pub mod browse;
pub mod clock;
pub mod config;
pub mod crash;
pub mod event;
pub mod ink;
pub mod keys;
pub mod look;
pub mod nearest;
pub mod overlays;
pub mod pane;
pub mod reckoning;
pub mod run;
pub mod screens;
mod signals;
pub mod terminal;
pub mod theme;
pub mod timeline;
pub mod widgets;
