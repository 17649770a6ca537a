//! Whole sessions in a pseudo-terminal: keys go in, the screen is read back.
//!
//! [`session`] is the harness. [`stage`] is a small application on the front end's own loop, run by
//! this test program in a second process, with which the ways out of the terminal are tried.
#![cfg(unix)]

mod guard;
mod session;
mod stage;
