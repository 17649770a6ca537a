//! Several densities of one negative, each with the name of what it is: `III 0.35, V 0.72, sky 1.31`.
//!
//! For: whoever reads the negative where the zones were placed. Promises: what is said is read back as
//! the same patches; a name or a density that stands alone is refused. What a name means is left to
//! whoever asks: a zone of the scale, or a word.

use serde::{Deserialize, Serialize};

use super::{Density, Unreadable};

const WANTED: &str = "names with their densities: write III 0.35, V 0.72, sky 1.31";

/// A patch of a negative.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Patch {
    /// What it is: a zone, or a word for a part of the picture.
    pub name: String,
    /// Its density.
    pub density: Density,
}

/// Reads patches that stand beside each other.
///
/// ```
/// use notchbook::craft::patches;
/// let read = patches::read("III 0.35 V 0.72, wet stone 1.31")?;
/// assert_eq!(patches::said(&read), "III 0.35, V 0.72, wet stone 1.31");
/// # Ok::<(), notchbook::craft::Unreadable>(())
/// ```
///
/// # Errors
/// If a name has no density or a density no name.
pub fn read(text: &str) -> Result<Vec<Patch>, Unreadable> {
    let unreadable = || Unreadable::new(text, WANTED);
    let mut patches = Vec::new();
    for part in text.replace(", ", ";").split([';', '\n']) {
        let words: Vec<&str> = part.split_whitespace().collect();
        let mut name: Vec<&str> = Vec::new();
        for (index, word) in words.iter().enumerate() {
            // A density has its decimal mark; at the end of a part it may go without.
            let is_density = word.contains(['.', ',']) || index + 1 == words.len();
            match Density::parse(word).ok().filter(|_| is_density) {
                Some(density) if !name.is_empty() => {
                    let name = std::mem::take(&mut name).join(" ");
                    patches.push(Patch { name, density });
                }
                Some(_) => return Err(unreadable()),
                None => name.push(word),
            }
        }
        if !name.is_empty() {
            return Err(unreadable());
        }
    }
    if patches.is_empty() {
        return Err(unreadable());
    }
    Ok(patches)
}

/// Writes patches beside each other.
#[must_use]
pub fn said(patches: &[Patch]) -> String {
    let each: Vec<String> = patches
        .iter()
        .map(|patch| format!("{} {}", patch.name, patch.density))
        .collect();
    each.join(", ")
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn pairs(text: &str) -> Vec<(String, f64)> {
        let patches = read(text).unwrap_or_else(|why| panic!("{why}"));
        let pair = |patch: Patch| (patch.name, patch.density.value());
        patches.into_iter().map(pair).collect()
    }

    #[test]
    fn patches_are_parted_by_their_densities_or_by_commas() {
        let wanted = [("III".to_owned(), 0.35), ("V".to_owned(), 0.72)];
        for text in ["III 0.35 V 0.72", "III 0.35, V 0.72", "III 0,35; V 0,72;"] {
            assert_eq!(pairs(text), wanted, "{text}");
        }
        assert_eq!(
            pairs("step 3 0.5, sky 1"),
            [("step 3".to_owned(), 0.5), ("sky".to_owned(), 1.0)]
        );
    }

    #[test]
    fn a_name_or_a_density_alone_is_asked_back() {
        for text in ["", " , ", "III", "0.35", "III 0.35 V", "III 0.35 0.72"] {
            assert!(read(text).is_err(), "{text}");
        }
    }

    proptest! {
        #[test]
        fn any_text_is_read_or_refused_and_what_is_said_is_read_again(text in "\\PC{0,40}") {
            if let Ok(patches) = read(&text) {
                prop_assert!(!patches.is_empty());
                let again = read(&said(&patches)).unwrap();
                prop_assert_eq!(again.len(), patches.len());
            }
        }
    }
}
