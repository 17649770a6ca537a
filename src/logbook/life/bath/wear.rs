//! How far a bath is worn: by what went through it and by its age.
//!
//! [`Wear`] is drawn from the life of a bath and from its row on the shelf alike, so that a pane, the
//! shelf and a refusal say the same. It warns from four fifths of the capacity and from two days before
//! the end of its keeping; what is beyond is refused by the life, with the same numbers. It never
//! mixes two texts: capacity and keeping are those that were logged with the bath.

use chrono::NaiveDate;

use crate::craft::solutions::capacity::NEARLY;
use crate::craft::solutions::fixing::{EXHAUSTED, SLOW};
use crate::craft::{Area, Capacity, Seconds};

/// How many days before its last one a bath is warned of.
pub const SOON_DAYS: i64 = 2;

/// What a bath has behind it, and what it was trusted with.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Wear {
    /// What it is trusted with.
    pub capacity: Option<Capacity>,
    /// How many sheets and prints went through it.
    pub uses: u32,
    /// Their area, as far as it is known.
    pub area: Area,
    /// How many of them are of a size that is not known.
    pub unmeasured: u32,
    /// The last day on which it is good.
    pub last_day: Option<NaiveDate>,
    /// How long film cleared in it when it was fresh, and last.
    pub clearing: Option<(Seconds, Seconds)>,
}

impl Wear {
    /// The area it counts as used by: sheets of a size that is not known count as one of the size its
    /// capacity is told in, where it is told in one.
    pub fn used(&self) -> Area {
        self.area.and(self.guessed(self.unmeasured))
    }

    /// What so many sheets of a size that is not known count as.
    pub fn guessed(&self, sheets: u32) -> Area {
        match self.capacity {
            Some(Capacity::Of { size, .. }) => {
                Area::of(size, f64::from(sheets)).unwrap_or(Area::NONE)
            }
            _ => Area::NONE,
        }
    }

    /// The share of its capacity that is used, 1 when exhausted; `None` where it has none.
    pub fn share(&self) -> Option<f64> {
        let (used, whole) = match self.capacity? {
            Capacity::Sheets(most) => (f64::from(self.uses), f64::from(most)),
            told => (self.used().value(), told.area()?.value()),
        };
        Some(if whole > 0.0 { used / whole } else { 1.0 })
    }

    /// Whether nothing more can go through it.
    pub fn is_exhausted(&self) -> bool {
        self.share().is_some_and(|share| share >= 1.0 - 1e-9)
    }

    /// The days on which it is still good, today among them; 0 and less when its time is over.
    pub fn days_left(&self, today: NaiveDate) -> Option<i64> {
        Some((self.last_day? - today).num_days() + 1)
    }

    /// Whether its time is over.
    pub fn is_too_old(&self, today: NaiveDate) -> bool {
        self.last_day.is_some_and(|last| last < today)
    }

    /// What it can still take: `9 of 12 left`, `10 of 24 4x5 in left`, `280 of 960 sq in left`.
    pub fn left(&self) -> Option<String> {
        let round = |value: f64| crate::craft::trimmed((value + 1e-9).max(0.0), 1);
        Some(match self.capacity? {
            Capacity::Sheets(most) => {
                format!("{} of {most} left", most.saturating_sub(self.uses))
            }
            Capacity::Of { sheets, size } => {
                let used = self.used().value() / size.area_sq_in();
                let (left, all) = (round(sheets - used), round(sheets));
                format!("{left} of {all} {size} left")
            }
            Capacity::Area(whole) => {
                let left = whole.without(self.used()).value();
                format!("{} of {} sq in left", round(left), round(whole.value()))
            }
        })
    }

    /// What is left as a bar of five: `━━━╌╌`; `None` where it has no capacity.
    pub fn bar(&self) -> Option<String> {
        let left = (1.0 - self.share()?).clamp(0.0, 1.0);
        // What is nearly nothing is still something, and only what is whole is five.
        let full = (1..=5).filter(|part| left * 5.0 > f64::from(*part) - 1.0 + 1e-9);
        let full = full.count();
        Some(format!(
            "{}{}",
            "\u{2501}".repeat(full),
            "\u{254c}".repeat(5 - full)
        ))
    }

    /// What is left in as few words as say it: `9 left`, `18 4x5 left`, `exhausted`, `3 used`.
    pub fn in_short(&self) -> String {
        let round = |value: f64| crate::craft::trimmed(value.max(0.0), 1);
        match self.capacity {
            Some(_) if self.is_exhausted() => "exhausted".to_owned(),
            Some(Capacity::Sheets(most)) => format!("{} left", most.saturating_sub(self.uses)),
            Some(Capacity::Of { sheets, size }) => {
                let left = sheets - self.used().value() / size.area_sq_in();
                let size = size.to_string();
                format!("{} {} left", round(left), size.trim_end_matches(" in"))
            }
            Some(Capacity::Area(whole)) => {
                format!("{} sq in left", round(whole.without(self.used()).value()))
            }
            None if self.uses > 0 => format!("{} used", self.uses),
            None => "fresh".to_owned(),
        }
    }

    /// What went through it, in the words of its capacity: `11 of 12 sheets`, `14 of 24 4x5 in`.
    pub fn gone_through(&self) -> String {
        let round = |value: f64| crate::craft::trimmed(value, 1);
        match self.capacity {
            Some(Capacity::Sheets(most)) => format!("{} of {most}", self.uses),
            Some(Capacity::Of { sheets, size }) => {
                let used = round(self.used().value() / size.area_sq_in());
                format!("{used} of {} {size}", round(sheets))
            }
            Some(Capacity::Area(whole)) => {
                let used = round(self.used().value());
                format!("{used} of {} sq in", round(whole.value()))
            }
            None if self.area > Area::NONE => format!("{} used, {}", self.uses, self.area),
            None => format!("{} used", self.uses),
        }
    }

    /// How it ages: `keeps 12 days more`, `past its keeping since 3 Mar 2026`.
    pub fn age(&self, today: NaiveDate) -> Option<String> {
        let last = self.last_day?;
        Some(match self.days_left(today)? {
            ..=0 => format!("past its keeping since {}", said(last)),
            1 => "good today and not longer".to_owned(),
            days => format!("keeps {days} days more"),
        })
    }

    /// How many times as long as in the fresh bath film takes to clear.
    pub fn slower(&self) -> Option<f64> {
        self.clearing
            .map(|(fresh, last)| last.value() / fresh.value())
    }

    /// Whether it may be used: neither exhausted nor too old, and clearing film as it should.
    pub fn is_good(&self, today: NaiveDate) -> bool {
        let clears = self.slower().is_none_or(|times| times < EXHAUSTED - 1e-9);
        clears && !self.is_exhausted() && !self.is_too_old(today)
    }

    /// What is to be looked at before it is used, worst first; empty while it is well.
    pub fn warnings(&self, today: NaiveDate) -> Vec<String> {
        let mut warnings = Vec::new();
        match self.share() {
            Some(_) if self.is_exhausted() => warnings.push(format!(
                "exhausted, {}: mix a fresh one or replenish it",
                self.gone_through()
            )),
            Some(share) if share >= NEARLY - 1e-9 => warnings.push(format!(
                "nearly exhausted, {}: test it before use",
                self.gone_through()
            )),
            _ => {}
        }
        match self.days_left(today) {
            Some(..=0) => {
                warnings.extend(self.age(today).map(|age| format!("{age}: mix a fresh one")))
            }
            Some(days) if days <= SOON_DAYS + 1 => warnings.extend(self.age(today)),
            _ => {}
        }
        if let (Some((fresh, last)), Some(times)) = (self.clearing, self.slower()) {
            if times >= EXHAUSTED - 1e-9 {
                warnings.push(format!(
                    "film takes {last} to clear, {fresh} when it was fresh: mix a fresh one"
                ));
            } else if times > SLOW {
                warnings.push(format!(
                    "film takes {last} to clear, {fresh} when it was fresh: it nears its end"
                ));
            }
        }
        if self.unmeasured > 0 && matches!(self.capacity, Some(Capacity::Area(_))) {
            warnings.push(format!(
                "{} of a size that is not known went through it and are not counted",
                super::sheets_said(self.unmeasured)
            ));
        }
        warnings
    }
}

/// A day as sentences say it.
pub(in crate::logbook) fn said(day: NaiveDate) -> String {
    day.format("%-d %b %Y").to_string()
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn day(text: &str) -> NaiveDate {
        text.parse().expect("a day")
    }

    fn worn(capacity: &str, uses: u32, sq_in: f64) -> Wear {
        Wear {
            capacity: Capacity::parse(capacity).ok(),
            uses,
            area: Area::new(sq_in).expect("an area"),
            unmeasured: 0,
            last_day: None,
            clearing: None,
        }
    }

    #[test]
    fn it_warns_from_four_fifths_and_is_exhausted_at_the_whole() {
        let today = day("2026-03-04");
        for (capacity, uses, sq_in, says) in [
            ("10", 7, 0.0, ""),
            ("10", 8, 0.0, "nearly exhausted, 8 of 10"),
            ("10", 10, 0.0, "exhausted, 10 of 10"),
            ("10 8x10", 31, 620.0, ""),
            ("10 8x10", 32, 640.0, "nearly exhausted, 8 of 10 8x10 in"),
            ("800 sq in", 40, 800.0, "exhausted, 800 of 800 sq in"),
        ] {
            let warnings = worn(capacity, uses, sq_in).warnings(today);
            let first = warnings.first().map_or("", String::as_str);
            assert!(first.starts_with(says), "{capacity} {uses}: {first}");
            assert_eq!(
                first.is_empty(),
                says.is_empty(),
                "{capacity} {uses}: {first}"
            );
        }
    }

    #[test]
    fn it_warns_two_days_before_its_last_day_and_on_it() {
        let mut wear = worn("10", 0, 0.0);
        wear.last_day = Some(day("2026-03-06"));
        assert!(wear.warnings(day("2026-03-03")).is_empty());
        for (today, says) in [
            ("2026-03-04", "keeps 3 days more"),
            ("2026-03-06", "good today"),
            ("2026-03-07", "past its keeping since 6 Mar 2026"),
        ] {
            let warnings = wear.warnings(day(today));
            assert!(warnings[0].starts_with(says), "{today}: {warnings:?}");
        }
        assert!(!wear.is_too_old(day("2026-03-06")));
        assert!(wear.is_too_old(day("2026-03-07")));
    }

    #[test]
    fn sheets_of_no_known_size_count_as_the_size_the_capacity_is_told_in() {
        let mut wear = worn("10 4x5", 5, 60.0);
        wear.unmeasured = 2;
        assert_eq!(wear.left().as_deref(), Some("5 of 10 4x5 in left"));
        let mut wear = worn("200 sq in", 5, 60.0);
        wear.unmeasured = 2;
        assert_eq!(wear.left().as_deref(), Some("140 of 200 sq in left"));
        assert!(wear.warnings(day("2026-03-04"))[0].contains("2 sheets"));
    }

    #[test]
    fn the_bar_is_whole_when_fresh_and_empty_only_when_exhausted() {
        for (uses, bar) in [
            (0, "━━━━━"),
            (1, "━━━━━"),
            (5, "━━━╌╌"),
            (9, "━╌╌╌╌"),
            (10, "╌╌╌╌╌"),
        ] {
            assert_eq!(worn("10", uses, 0.0).bar().as_deref(), Some(bar), "{uses}");
        }
        assert_eq!(worn("24 4x5", 6, 120.0).in_short(), "18 4x5 left");
    }

    #[test]
    fn it_warns_when_film_clears_half_as_slowly_again_and_is_no_good_at_twice() {
        let today = day("2026-03-04");
        let seconds = |value: f64| Seconds::new(value).expect("a time");
        for (last, says, good) in [
            (45.0, "", true),
            (46.0, "nears its end", true),
            (60.0, "mix a fresh one", false),
        ] {
            let mut wear = worn("10", 1, 0.0);
            wear.clearing = Some((seconds(30.0), seconds(last)));
            let warnings = wear.warnings(today).join("; ");
            assert_eq!(warnings.is_empty(), says.is_empty(), "{last}: {warnings}");
            assert!(warnings.contains(says), "{last}: {warnings}");
            assert_eq!(wear.is_good(today), good, "{last}");
        }
    }

    proptest! {
        #[test]
        fn what_is_left_is_never_below_nothing(sheets in 1..40_u32, uses in 0..80_u32) {
            let area = f64::from(uses) * 20.0;
            for capacity in [format!("{sheets}"), format!("{sheets} 4x5"), format!("{} sq in", sheets * 20)] {
                let wear = worn(&capacity, uses, area);
                let left = wear.left().expect("it has a capacity");
                prop_assert!(!left.starts_with('-'), "{left}");
                prop_assert_eq!(wear.is_exhausted(), uses >= sheets);
            }
        }
    }
}
