//! Text that leaves the program.
