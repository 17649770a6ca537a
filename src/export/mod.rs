//! Text that leaves the program, and tables of readings that come into it.
//!
//! [`shown()`] and [`shown_line`] stand between stored text and every output: screen, standard
//! output, error message, window title. What is stored stays untouched; what is shown has no
//! control, invisible or direction-changing character left in it.
//!
//! [`jsonl`] writes the whole logbook as lines of JSON and takes such lines in; [`write_new_file`]
//! puts what is written into a file of its own, whole or not at all. [`columns`], [`wrap()`] and [`plot`]
//! lay figures, sentences and charts out in a fixed-width font, for the screen and the command line.
//! [`readings_of`] takes in a table of densities.

pub mod columns;
pub mod curves;
pub mod jsonl;
pub mod new_file;
pub mod plot;
mod readings;
pub mod shown;
mod wrap;

pub use new_file::{FileError, write_new_file};
pub use readings::{ReadingsError, readings_of};
pub use shown::{shown, shown_line};
pub use wrap::wrap;
