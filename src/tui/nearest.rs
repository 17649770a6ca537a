//! Finding the name that somebody meant.

/// The candidate that differs least from `word`, if it is close enough to be a slip.
///
/// Counts letters left out, added, replaced and swapped with their neighbour; a third of the word
/// may differ.
///
/// ```
/// use notchbook::tui::nearest::nearest;
/// assert_eq!(nearest("safeligth", ["plain", "dark", "safelight"]), Some("safelight"));
/// assert_eq!(nearest("blue", ["plain", "dark", "safelight"]), None);
/// ```
pub fn nearest<'c>(word: &str, candidates: impl IntoIterator<Item = &'c str>) -> Option<&'c str> {
    let allowed = (word.chars().count() / 3).max(1);
    candidates
        .into_iter()
        .map(|candidate| (distance(word, candidate), candidate))
        .filter(|(steps, _)| *steps <= allowed)
        .min_by_key(|(steps, _)| *steps)
        .map(|(_, candidate)| candidate)
}

/// Optimal string alignment over three rows.
fn distance(from: &str, to: &str) -> usize {
    let from: Vec<char> = from.to_lowercase().chars().collect();
    let to: Vec<char> = to.to_lowercase().chars().collect();
    let mut before: Vec<usize> = Vec::new();
    let mut last: Vec<usize> = (0..=to.len()).collect();
    for (i, a) in from.iter().enumerate() {
        let mut row = vec![i + 1];
        for (j, b) in to.iter().enumerate() {
            let at = |row: &[usize], column: usize| row.get(column).copied().unwrap_or(usize::MAX);
            let replaced = at(&last, j).saturating_add(usize::from(a != b));
            let removed = at(&last, j + 1).saturating_add(1);
            let added = at(&row, j).saturating_add(1);
            let mut steps = replaced.min(removed).min(added);
            let swapped = i > 0 && j > 0 && from.get(i - 1) == Some(b) && to.get(j - 1) == Some(a);
            if swapped {
                steps = steps.min(at(&before, j - 1).saturating_add(1));
            }
            row.push(steps);
        }
        before = std::mem::replace(&mut last, row);
    }
    last.last().copied().unwrap_or(0)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn distance_counts_slips() {
        assert_eq!(distance("sheets.next", "sheets.next"), 0);
        assert_eq!(distance("sheets.nxet", "sheets.next"), 1);
        assert_eq!(distance("sheet.next", "sheets.next"), 1);
        assert_eq!(distance("", "abc"), 3);
    }

    #[test]
    fn the_closest_of_several_wins() {
        assert_eq!(
            nearest("rack.opn", ["rack.close", "rack.open"]),
            Some("rack.open")
        );
        assert_eq!(nearest("zzz", ["rack.close", "rack.open"]), None);
    }
}
