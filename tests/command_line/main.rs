//! The command line as a whole: the real program, run again and again on one logbook.

mod ask;
mod bench;
mod clocks;
mod curves;
mod files;
mod life;
mod log;
mod mend;
mod plan;
mod reckon;
mod records;
mod refusals;
