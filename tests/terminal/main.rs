//! Whole sessions in a pseudo-terminal: keys go in, the screen is read back.
//!
//! [`session`] is the harness, [`hand`] what a person does with it. [`stage`] is a small application on the front end's own loop, run by
//! this test program in a second process, with which the ways out of the terminal are tried.
#![cfg(unix)]

mod bench;
mod clock;
mod demo;
mod doubt;
mod drafts;
mod endings;
mod figures;
mod find;
mod guard;
mod hand;
mod held;
mod killed;
mod mending;
mod mouse;
mod planning;
mod refused;
mod safelight;
mod session;
mod settings;
mod sizes;
mod stage;
mod two_programs;
mod whole_road;
