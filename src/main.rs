//! Arguments in, logbook open, hand over.
fn main() {}
