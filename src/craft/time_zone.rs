//! Time zones: what the clocks of a place showed, or will show, at an instant.
//!
//! For: reading a time that was typed without its offset from universal time, and for days of a place.
//! A July entry typed in November is of summer time, so the offset of now does not do; and a plan for
//! a far place is of the clocks there. Promises: nothing here looks at a clock or at the settings of
//! the machine. The machine's own zone is a function that the program's edge hands in.

use std::fmt;

use chrono::offset::MappedLocalTime;
use chrono::{DateTime, Days, FixedOffset, NaiveDate, NaiveDateTime, NaiveTime, TimeDelta, Utc};
use chrono::{Offset, TimeZone as _};
use chrono_tz::{TZ_VARIANTS, Tz};

use super::moment::offset;
use super::numeral::plain;
use super::unreadable::Unreadable;

const WANTED: &str = "a time zone: write Europe/Oslo, +01:00 or UTC";

/// No two clocks on the earth are further apart than this, and none is changed twice within it.
const WIDEST: TimeDelta = match TimeDelta::try_hours(26) {
    Some(hours) => hours,
    None => TimeDelta::zero(),
};

/// A time zone.
///
/// ```
/// use notchbook::craft::TimeZone;
/// let zone = TimeZone::parse("Europe/Oslo")?;
/// let july = zone.of("2026-07-04T12:00:00Z".parse::<chrono::DateTime<chrono::Utc>>()?);
/// assert_eq!(july.to_rfc3339(), "2026-07-04T14:00:00+02:00");
/// assert_eq!(TimeZone::parse("+01:00")?.to_string(), "+01:00");
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Debug, Clone, Copy)]
pub enum TimeZone {
    /// Clocks that are never changed.
    Fixed(FixedOffset),
    /// A zone of the time zone database by its name.
    Named(Tz),
    /// The zone a machine is set to: its offset from universal time at an instant.
    Machine(fn(DateTime<Utc>) -> FixedOffset),
}

impl TimeZone {
    /// Reads `Europe/Oslo`, `oslo`, `+01:00`, `-3:30`, `+1`, `UTC`.
    ///
    /// # Errors
    /// If there is no such zone, or the last part of a name alone could mean more than one.
    pub fn parse(text: &str) -> Result<TimeZone, Unreadable> {
        let plain = plain(text);
        let hours = plain
            .strip_prefix(['+', '-'])
            .is_some_and(|figures| (1..=2).contains(&figures.len()));
        let shift = if hours {
            offset(&format!("{plain}:00"))
        } else {
            offset(&plain)
        };
        shift
            .map(TimeZone::Fixed)
            .or_else(|| named(&plain.replace(' ', "_")).map(TimeZone::Named))
            .ok_or_else(|| Unreadable::new(text, WANTED))
    }

    /// How far the clocks are ahead of universal time at an instant.
    #[must_use]
    pub fn offset_at(self, at: DateTime<Utc>) -> FixedOffset {
        match self {
            TimeZone::Fixed(offset) => offset,
            TimeZone::Named(zone) => zone.offset_from_utc_datetime(&at.naive_utc()).fix(),
            TimeZone::Machine(offset_at) => offset_at(at),
        }
    }

    /// An instant as the clocks of the zone show it.
    #[must_use]
    pub fn of<Z: chrono::TimeZone>(self, at: DateTime<Z>) -> DateTime<FixedOffset> {
        let at = at.to_utc();
        at.with_timezone(&self.offset_at(at))
    }

    /// The instants at which the clocks show a date and time: one, two when they are put back, none
    /// when they are put forward over it.
    #[must_use]
    pub fn when(self, shown: NaiveDateTime) -> MappedLocalTime<DateTime<FixedOffset>> {
        // Every instant at which it could be shown lies within a day and a bit of it.
        let around = |by: TimeDelta| {
            let near = shown.checked_add_signed(by)?.and_utc();
            let offset = self.offset_at(near);
            let at = offset.from_local_datetime(&shown).single()?;
            (self.offset_at(at.to_utc()) == offset).then_some(at)
        };
        match (around(-WIDEST), around(WIDEST)) {
            (Some(one), Some(other)) if one == other => MappedLocalTime::Single(one),
            (Some(one), Some(other)) => MappedLocalTime::Ambiguous(one.min(other), one.max(other)),
            (Some(one), None) | (None, Some(one)) => MappedLocalTime::Single(one),
            (None, None) => MappedLocalTime::None,
        }
    }

    /// The first instant of a day: midnight, or the minute to which the clocks are put forward over
    /// it. Nothing at the ends of the calendar.
    #[must_use]
    pub fn begins(self, day: NaiveDate) -> Option<DateTime<FixedOffset>> {
        let midnight = day.and_time(NaiveTime::MIN);
        // A zone that moved across the date line has left out a whole day.
        (0..=26 * 60).find_map(|minutes| {
            let shown = midnight.checked_add_signed(TimeDelta::minutes(minutes))?;
            self.when(shown).earliest()
        })
    }

    /// A day from its first instant to that of the next day; nothing at the ends of the calendar, and
    /// for a day that was left out.
    #[must_use]
    pub fn day(self, day: NaiveDate) -> Option<(DateTime<FixedOffset>, DateTime<FixedOffset>)> {
        let from = self.begins(day)?;
        let to = self.begins(day.checked_add_days(Days::new(1))?)?;
        (from.date_naive() == day && from < to).then_some((from, to))
    }
}

/// A zone by its whole name, or by the last part of it if that names one zone only.
fn named(plain: &str) -> Option<Tz> {
    if plain.is_empty() {
        return None;
    }
    let mut by_whole = TZ_VARIANTS.iter();
    if let Some(zone) = by_whole.find(|zone| zone.name().eq_ignore_ascii_case(plain)) {
        return Some(*zone);
    }
    let mut by_place = TZ_VARIANTS.iter().filter(|zone| {
        let place = zone.name().rsplit('/').next();
        zone.name().contains('/') && place.is_some_and(|place| place.eq_ignore_ascii_case(plain))
    });
    match (by_place.next(), by_place.next()) {
        (Some(zone), None) => Some(*zone),
        _ => None,
    }
}

impl fmt::Display for TimeZone {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            TimeZone::Fixed(offset) if offset.local_minus_utc() == 0 => f.write_str("UTC"),
            TimeZone::Fixed(offset) => offset.fmt(f),
            TimeZone::Named(zone) => f.write_str(zone.name()),
            TimeZone::Machine(_) => f.write_str("the zone of this machine"),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn zone(text: &str) -> TimeZone {
        TimeZone::parse(text).unwrap()
    }

    fn shown(text: &str) -> NaiveDateTime {
        text.parse().unwrap()
    }

    fn texts(when: MappedLocalTime<DateTime<FixedOffset>>) -> Vec<String> {
        match when {
            MappedLocalTime::None => Vec::new(),
            MappedLocalTime::Single(one) => vec![one.to_rfc3339()],
            MappedLocalTime::Ambiguous(one, other) => vec![one.to_rfc3339(), other.to_rfc3339()],
        }
    }

    #[test]
    fn zones_are_read_by_name_and_by_offset() {
        for (text, name) in [
            ("Europe/Oslo", "Europe/Oslo"),
            ("europe/oslo", "Europe/Oslo"),
            ("oslo", "Europe/Oslo"),
            ("America/St_Johns", "America/St_Johns"),
            ("st johns", "America/St_Johns"),
            ("UTC", "UTC"),
            ("Z", "UTC"),
            ("+01:00", "+01:00"),
            ("+1", "+01:00"),
            ("-3:30", "-03:30"),
            ("−3:30", "-03:30"),
        ] {
            assert_eq!(zone(text).to_string(), name, "{text}");
        }
        for text in [
            "", "mars", "+1:00:00", "+25:00", "europe", "+", "1", "CEST!",
        ] {
            assert!(TimeZone::parse(text).is_err(), "{text}");
        }
    }

    #[test]
    fn summer_time_holds_in_summer_and_half_hours_are_kept() {
        for (name, at, offset) in [
            ("Europe/Oslo", "2026-07-04T12:00:00", "+02:00"),
            ("Europe/Oslo", "2026-11-04T12:00:00", "+01:00"),
            ("America/St_Johns", "2026-07-04T12:00:00", "-02:30"),
            ("Australia/Lord_Howe", "2026-01-04T12:00:00", "+11:00"),
            ("Australia/Lord_Howe", "2026-07-04T12:00:00", "+10:30"),
        ] {
            let found = texts(zone(name).when(shown(at)));
            assert_eq!(found, [format!("{at}{offset}")]);
        }
    }

    #[test]
    fn an_hour_that_is_shown_twice_has_two_instants_and_one_that_is_skipped_none() {
        let oslo = zone("Europe/Oslo");
        let twice = ["2026-10-25T02:30:00+02:00", "2026-10-25T02:30:00+01:00"];
        assert_eq!(texts(oslo.when(shown("2026-10-25T02:30:00"))), twice);
        assert!(texts(oslo.when(shown("2026-03-29T02:30:00"))).is_empty());
        let after = texts(oslo.when(shown("2026-03-29T03:00:00")));
        assert_eq!(after, ["2026-03-29T03:00:00+02:00"]);
    }

    #[test]
    fn a_day_is_as_long_as_its_clocks_make_it() {
        let hours = |name: &str, day: &str| {
            let (from, to) = zone(name).day(day.parse().unwrap())?;
            Some((to - from).num_minutes())
        };
        assert_eq!(hours("Europe/Oslo", "2026-03-04"), Some(24 * 60));
        assert_eq!(hours("Europe/Oslo", "2026-03-29"), Some(23 * 60));
        assert_eq!(hours("Europe/Oslo", "2026-10-25"), Some(25 * 60));
        assert_eq!(
            hours("Australia/Lord_Howe", "2026-04-05"),
            Some(24 * 60 + 30)
        );
        // The clocks are put forward at midnight: the day begins at one.
        let beirut = zone("Asia/Beirut").begins("2026-03-29".parse().unwrap());
        assert_eq!(beirut.unwrap().to_rfc3339(), "2026-03-29T01:00:00+03:00");
        // Samoa went over the date line and had no 30 December 2011.
        assert_eq!(hours("Pacific/Apia", "2011-12-30"), None);
        assert_eq!(hours("Pacific/Apia", "2011-12-29"), Some(24 * 60));
    }

    proptest! {
        #[test]
        fn an_instant_is_among_those_at_which_its_clock_time_is_shown(
            seconds in -5_000_000_000_i64..30_000_000_000,
            which in 0..TZ_VARIANTS.len(),
        ) {
            let zone = TimeZone::Named(TZ_VARIANTS[which]);
            let at = zone.of(DateTime::from_timestamp(seconds, 0).unwrap());
            let found = zone.when(at.naive_local());
            prop_assert!(found.earliest() == Some(at) || found.latest() == Some(at), "{at}");
        }

        #[test]
        fn no_text_makes_the_reader_panic(text in crate::craft::scribble::text()) {
            let _ = TimeZone::parse(&text);
        }
    }
}
