//! Finding by a few letters.

use nucleo_matcher::pattern::{CaseMatching, Normalization, Pattern};
use nucleo_matcher::{Config, Matcher, Utf32Str};

/// The places of all texts that `letters` match, the best first; with no letters, all of them in
/// their own order.
///
/// Letters may stand apart; several words must all match; capitals count only if some are typed.
pub fn find<'t>(letters: &str, texts: impl IntoIterator<Item = &'t str>) -> Vec<usize> {
    let texts = texts.into_iter().enumerate();
    if letters.trim().is_empty() {
        return texts.map(|(at, _)| at).collect();
    }
    let pattern = Pattern::parse(letters, CaseMatching::Smart, Normalization::Smart);
    let mut matcher = Matcher::new(Config::DEFAULT);
    let mut room = Vec::new();
    let mut found: Vec<(u32, usize)> = texts
        .filter_map(|(at, text)| {
            let score = pattern.score(Utf32Str::new(text, &mut room), &mut matcher)?;
            Some((score, at))
        })
        .collect();
    found.sort_by_key(|(score, at)| (std::cmp::Reverse(*score), *at));
    found.into_iter().map(|(_, at)| at).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    const TEXTS: [&str; 3] = ["diffusion screen", "plain", "orange filter"];

    #[test]
    fn letters_find_by_match_and_order_by_quality() {
        assert_eq!(find("dif", TEXTS), [0]);
        assert_eq!(find("fil", TEXTS), [2]);
        assert_eq!(find("screen diff", TEXTS), [0]);
        assert_eq!(find("xyz", TEXTS), Vec::<usize>::new());
    }

    #[test]
    fn no_letters_keep_everything_in_its_order() {
        assert_eq!(find(" ", TEXTS), [0, 1, 2]);
    }
}
