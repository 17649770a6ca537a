//! What the quantities that are kept as one plain number have in common.
//!
//! [`measure!`] builds a type around an `f64` that can only hold values of its range, whichever way
//! they come in: by `new`, from JSON, or by the `parse` that each file writes for itself.

/// Declares a quantity: its name, its range, and the words that name the range in an error.
macro_rules! measure {
    ($(#[$about:meta])* $name:ident, $low:literal ..= $high:literal, $range:literal) => {
        $(#[$about])*
        #[derive(Debug, Clone, Copy, PartialEq, PartialOrd, serde::Serialize, serde::Deserialize)]
        #[serde(try_from = "f64", into = "f64")]
        pub struct $name(f64);

        impl $name {
            /// The smallest value there is.
            pub const LOWEST: f64 = $low;
            /// The largest value there is.
            pub const HIGHEST: f64 = $high;

            /// The quantity with this value.
            ///
            /// # Errors
            /// If the value is outside the range, or no number at all; the message names the range.
            pub fn new(value: f64) -> Result<Self, $crate::craft::Unreadable> {
                Self::within(value).ok_or_else(|| {
                    $crate::craft::Unreadable::new(&value.to_string(), $range)
                })
            }

            /// The value as a plain number, in the unit of the type.
            #[must_use]
            pub const fn value(self) -> f64 {
                self.0
            }

            fn within(value: f64) -> Option<Self> {
                // Adding zero turns a negative zero into the ordinary one.
                (Self::LOWEST..=Self::HIGHEST)
                    .contains(&value)
                    .then_some(Self(value + 0.0))
            }

            /// Checks a value that was read from `typed`.
            fn read(value: f64, typed: &str) -> Result<Self, $crate::craft::Unreadable> {
                Self::within(value).ok_or_else(|| $crate::craft::Unreadable::new(typed, $range))
            }
        }

        impl TryFrom<f64> for $name {
            type Error = $crate::craft::Unreadable;

            fn try_from(value: f64) -> Result<Self, Self::Error> {
                Self::new(value)
            }
        }

        impl From<$name> for f64 {
            fn from(quantity: $name) -> Self {
                quantity.0
            }
        }

        impl std::str::FromStr for $name {
            type Err = $crate::craft::Unreadable;

            fn from_str(text: &str) -> Result<Self, Self::Err> {
                Self::parse(text)
            }
        }
    };
}

pub(crate) use measure;
