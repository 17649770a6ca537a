//! Strips beside each other, laid out for whoever shows or writes them.
//!
//! For: the screen and the command of curves, and the files both write. [`overlay`] puts the curves of
//! several strips into one chart, [`svg`] writes what is shown as a picture, the tables of `csv_table` as
//! CSV. Promises: what is written says which strip is which by name and by sign, never by colour alone;
//! numbers are written to the last digit. Leaves to others: which strips are shown, and what they tell.

mod csv_table;
mod overlay;
mod pictures;
mod svg_plot;

pub use csv_table::{control_csv, family_csv, readings_csv, safe_cell};
pub use overlay::{NamedStrip, names, overlay, place_on};
pub use pictures::{control_picture, curve_picture, family_picture};
pub use svg_plot::{Picture, SvgError, svg};

use crate::words::words;

words! {
    /// What is shown of strips.
    View {
        /// Their curves over each other.
        Curve = "curve",
        /// What different times give of one film and developer.
        Family = "family",
        /// A series of control strips over time.
        Control = "control",
    }
}

impl View {
    /// The view after this one, around the end.
    #[must_use]
    pub const fn next(self) -> View {
        match self {
            View::Curve => View::Family,
            View::Family => View::Control,
            View::Control => View::Curve,
        }
    }
}
