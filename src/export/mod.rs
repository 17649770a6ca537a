//! Text that leaves the program.
//!
//! [`shown()`] and [`shown_line`] stand between stored text and every output: screen, standard
//! output, error message, window title. What is stored stays untouched; what is shown has no
//! control, invisible or direction-changing character left in it.

pub mod shown;

pub use shown::{shown, shown_line};
