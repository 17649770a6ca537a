//! Texts for the property tests: anything at all, and things close to what the readers accept.

use proptest::prelude::*;

/// Any text, one in two made of the characters that quantities are written with.
pub(crate) fn text() -> impl Strategy<Value = String> {
    prop_oneof![
        any::<String>(),
        "[0-9 /.,:+xXfFmMsShHcCdlozeinEVISOtg@'\"°½⅓⅞′″×−-]{0,18}",
    ]
}
