//! The front end.
