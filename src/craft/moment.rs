//! When something happened, as people say it: `now`, `16:02`, `yesterday 16:02`, `20 min ago`,
//! `4 mar 16:02`, `2026-03-04`.
//!
//! Nothing here looks at a clock: what `now` is comes in with the text, and so does the [`TimeZone`] that
//! a text without an offset is read in, so that a summer day typed in winter is of summer time. A
//! moment is not judged here: whether it may lie in the future, or before the sheet was loaded, is
//! for the logbook.

mod calendar;

use chrono::{
    DateTime, Datelike, Days, FixedOffset, NaiveDate, NaiveDateTime, NaiveTime, TimeDelta, Timelike,
};

use calendar::{Clock, clock, date, digits, latest, month, year};
use chrono::offset::MappedLocalTime;

pub(super) use calendar::offset;

use super::numeral::plain;
use super::seconds::Seconds;
use super::time_zone::TimeZone;
use super::unreadable::Unreadable;

const WANTED: &str =
    "a moment: write now, 16:02, yesterday 16:02, 20 min ago, 4 mar 16:02 or 2026-03-04 16:02";
const NO_SUCH_DAY: &str =
    "a day of the calendar: that month has no such day, or the year no such month";
const NO_SUCH_TIME: &str = "a time of day: hours go from 0 to 23, minutes and seconds from 0 to 59";
const WHICH_IS_THE_MONTH: &str =
    "clear about day and month: write 4 mar 2026, 4.3.2026 or 2026-03-04";
const TOO_FAR: &str = "a moment from the year 1800 to the year 2999";
const SKIPPED: &str = "a time the clocks showed: they were put forward over it; write the time after \
     the change, or the offset with it, such as 02:30 +01:00";

/// What was found in a text, before it is put together.
#[derive(Debug, Default)]
struct Found {
    day: Option<Day>,
    number: Option<u32>,
    month: Option<u32>,
    year: Option<i32>,
    time: Option<Clock>,
    afternoon: Option<bool>,
    offset: Option<FixedOffset>,
}

#[derive(Debug)]
enum Day {
    Today,
    Yesterday,
    Exactly(NaiveDate),
}

/// Reads a moment; `now` is shown by the clocks of `zone`, in which a time without an offset is read.
///
/// - A time of day alone is of today; one that names the current minute means `now` exactly.
/// - A day alone is noon of that day, today alone is `now`.
/// - A day and month without a year is the latest such day that is not after today.
/// - `-20m` and `20 min ago` count back from `now`, by at most 30 days.
/// - A time that the clocks showed twice is the later one that is not after `now`.
/// - An offset that is typed, as in RFC 3339, is kept.
///
/// ```
/// use notchbook::craft::{TimeZone, moment};
/// let now = "2026-03-05T09:30:12+01:00".parse()?;
/// let zone = TimeZone::parse("Europe/Oslo")?;
/// let read = |text| moment::parse(text, now, zone).map(|at| at.to_rfc3339());
/// assert_eq!(read("yesterday 16:02")?, "2026-03-04T16:02:00+01:00");
/// assert_eq!(read("20 min ago")?, "2026-03-05T09:10:12+01:00");
/// assert_eq!(read("4 jul 16:02")?, "2025-07-04T16:02:00+02:00");
/// assert!(read("31 feb").is_err());
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
///
/// # Errors
/// If the text is no moment, names a day or time that does not exist or that the clocks left out, or
/// lies outside the years 1800 to 2999; the sentence says which.
pub fn parse(
    text: &str,
    now: DateTime<FixedOffset>,
    zone: TimeZone,
) -> Result<DateTime<FixedOffset>, Unreadable> {
    let plain = plain(text);
    let moment = match DateTime::parse_from_rfc3339(text.trim()) {
        Ok(moment) => Ok(moment),
        Err(_) if plain == "now" => return Ok(now),
        Err(_) => match span_ago(&plain) {
            Some(span) => ago(span, now).map(|at| zone.of(at)),
            None => find(&plain).and_then(|found| found.put_together(now, zone)),
        },
    };
    moment
        .and_then(|moment| {
            let sensible = (1800..=2999).contains(&moment.year());
            sensible.then_some(moment).ok_or(TOO_FAR)
        })
        .map_err(|wanted| Unreadable::new(text, wanted))
}

/// The span in `-20m` or `20 min ago`.
fn span_ago(plain: &str) -> Option<&str> {
    plain
        .strip_prefix('-')
        .or_else(|| plain.strip_suffix("ago"))
        .map(str::trim)
}

fn ago(span: &str, now: DateTime<FixedOffset>) -> Result<DateTime<FixedOffset>, &'static str> {
    // Without a unit, "-20" could be minutes or hours, and "-2:30" either of two things.
    if span.contains(':') || !span.contains(char::is_alphabetic) {
        return Err(WANTED);
    }
    let span = Seconds::parse(span).map_err(|_| WANTED)?.value();
    let span = TimeDelta::try_milliseconds((span * 1000.0).round() as i64).ok_or(TOO_FAR)?;
    now.checked_sub_signed(span).ok_or(TOO_FAR)
}

fn find(plain: &str) -> Result<Found, &'static str> {
    let mut found = Found::default();
    for word in plain.split([' ', ',']).filter(|word| !word.is_empty()) {
        // "2026-03-04t16:02": date and time in one word.
        match word.split_once('t') {
            Some((date, time)) if date.contains('-') => {
                found.add(date)?;
                found.add(time)?;
            }
            _ => found.add(word)?,
        }
    }
    Ok(found)
}

impl Found {
    /// Takes in one more word of the text; a second word of the same sort is a mistake.
    fn add(&mut self, word: &str) -> Result<(), &'static str> {
        match word {
            "at" | "on" | "the" | "of" => return Ok(()),
            "today" => return set(&mut self.day, Day::Today),
            "yesterday" => return set(&mut self.day, Day::Yesterday),
            "am" | "a.m." => return set(&mut self.afternoon, false),
            "pm" | "p.m." => return set(&mut self.afternoon, true),
            _ => {}
        }
        if let Some(month) = month(word) {
            return set(&mut self.month, month);
        }
        if let Some(offset) = offset(word) {
            return set(&mut self.offset, offset);
        }
        let (time, half) = match (word.strip_suffix("am"), word.strip_suffix("pm")) {
            (Some(time), _) => (time, Some(false)),
            (_, Some(time)) => (time, Some(true)),
            _ => (word, None),
        };
        if let Some(half) = half {
            set(&mut self.afternoon, half)?;
        }
        if half.is_some() || time.contains(':') {
            return set(&mut self.time, clock(time)?);
        }
        let parts: Vec<&str> = word.split(['-', '/', '.']).collect();
        if let &[first, second, third] = parts.as_slice()
            && !third.is_empty()
        {
            if let Some(month) = month(second) {
                set(&mut self.number, digits(first).ok_or(WANTED)?)?;
                set(&mut self.month, month)?;
                return set(&mut self.year, year(third)?);
            }
            let dotted = !word.contains(['-', '/']);
            return set(
                &mut self.day,
                Day::Exactly(date([first, second, third], dotted)?),
            );
        }
        let bare = ["st", "nd", "rd", "th", "."]
            .into_iter()
            .find_map(|ending| word.strip_suffix(ending))
            .unwrap_or(word);
        match (digits(bare), bare.len()) {
            (Some(day), 1 | 2) => set(&mut self.number, day),
            (Some(_), 4) if bare == word => set(&mut self.year, year(word)?),
            _ if parts.len() == 2 && parts.iter().all(|part| digits(part).is_some()) => {
                Err(WHICH_IS_THE_MONTH)
            }
            _ => Err(WANTED),
        }
    }

    fn put_together(
        self,
        now: DateTime<FixedOffset>,
        zone: TimeZone,
    ) -> Result<DateTime<FixedOffset>, &'static str> {
        let today = now.date_naive();
        // In "4 pm" the number is an hour, in "4 mar" a day.
        let (time, number) = match (self.time, self.afternoon, self.number, self.month) {
            (None, Some(_), Some(hour), None) => (Some(Clock::at_hour(hour)), None),
            (None, Some(_), _, _) => return Err(WANTED),
            (time, _, number, _) => (time, number),
        };
        let names_minute = time.is_some_and(|clock| clock.second.is_none());
        let date = match (self.day, number, self.month, self.year) {
            (Some(Day::Today), None, None, None) => Some(today),
            (Some(Day::Yesterday), None, None, None) => {
                Some(today.checked_sub_days(Days::new(1)).ok_or(TOO_FAR)?)
            }
            (Some(Day::Exactly(date)), None, None, None) => Some(date),
            (None, Some(day), Some(month), Some(year)) => {
                Some(NaiveDate::from_ymd_opt(year, month, day).ok_or(NO_SUCH_DAY)?)
            }
            (None, Some(day), Some(month), None) => Some(latest(day, month, today)?),
            (None, None, None, None) => None,
            _ => return Err(WANTED),
        };
        let time = time
            .map(|clock| clock.on_the_day(self.afternoon))
            .transpose()?;
        let at = match (date, time) {
            (None, None) => return Err(WANTED),
            (Some(date), None) if date == today => return Ok(now),
            (Some(date), None) => date.and_time(NOON),
            (date, Some(time)) => date.unwrap_or(today).and_time(time),
        };
        if self.offset.is_none() && names_minute && same_minute(at, now.naive_local()) {
            return Ok(now);
        }
        match self.offset {
            Some(offset) => at.and_local_timezone(offset).single().ok_or(TOO_FAR),
            None => shown(at, now, zone),
        }
    }
}

/// When the clocks of `zone` showed a time.
fn shown(
    at: NaiveDateTime,
    now: DateTime<FixedOffset>,
    zone: TimeZone,
) -> Result<DateTime<FixedOffset>, &'static str> {
    match zone.when(at) {
        MappedLocalTime::Single(at) => Ok(at),
        MappedLocalTime::Ambiguous(_, later) if later <= now => Ok(later),
        MappedLocalTime::Ambiguous(earlier, _) => Ok(earlier),
        MappedLocalTime::None => Err(SKIPPED),
    }
}

/// Noon: as far as can be from the day before and the day after.
const NOON: NaiveTime = match NaiveTime::from_hms_opt(12, 0, 0) {
    Some(noon) => noon,
    None => NaiveTime::MIN,
};

fn same_minute(one: NaiveDateTime, other: NaiveDateTime) -> bool {
    let minute = |at: NaiveDateTime| (at.date(), at.hour(), at.minute());
    minute(one) == minute(other)
}

fn set<T>(slot: &mut Option<T>, value: T) -> Result<(), &'static str> {
    match slot.replace(value) {
        None => Ok(()),
        Some(_) => Err(WANTED),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn now() -> DateTime<FixedOffset> {
        DateTime::parse_from_rfc3339("2026-03-05T09:30:12.345+01:00").unwrap()
    }

    fn parse_now(text: &str) -> Result<DateTime<FixedOffset>, Unreadable> {
        parse(text, now(), TimeZone::Fixed(*now().offset()))
    }

    fn read(text: &str) -> String {
        match parse_now(text) {
            Ok(at) => at.to_rfc3339(),
            Err(why) => why.to_string(),
        }
    }

    #[test]
    fn moments_are_read_as_people_say_them() {
        for (text, at) in [
            ("now", "2026-03-05T09:30:12.345+01:00"),
            (" NOW ", "2026-03-05T09:30:12.345+01:00"),
            ("today", "2026-03-05T09:30:12.345+01:00"),
            ("16:02", "2026-03-05T16:02:00+01:00"),
            ("9:05", "2026-03-05T09:05:00+01:00"),
            ("16:02:07", "2026-03-05T16:02:07+01:00"),
            ("4:02 pm", "2026-03-05T16:02:00+01:00"),
            ("4 pm", "2026-03-05T16:00:00+01:00"),
            ("yesterday 4 p.m.", "2026-03-04T16:00:00+01:00"),
            ("4pm", "2026-03-05T16:00:00+01:00"),
            ("12:10 am", "2026-03-05T00:10:00+01:00"),
            ("12pm", "2026-03-05T12:00:00+01:00"),
            ("today 9:05", "2026-03-05T09:05:00+01:00"),
            ("yesterday 16:02", "2026-03-04T16:02:00+01:00"),
            ("16:02 yesterday", "2026-03-04T16:02:00+01:00"),
            ("yesterday", "2026-03-04T12:00:00+01:00"),
            ("4 mar 16:02", "2026-03-04T16:02:00+01:00"),
            ("4 Mar", "2026-03-04T12:00:00+01:00"),
            ("5 mar", "2026-03-05T09:30:12.345+01:00"),
            ("6 mar", "2025-03-06T12:00:00+01:00"),
            ("March 4th, 2025", "2025-03-04T12:00:00+01:00"),
            ("4. sept. 2024 at 7:30", "2024-09-04T07:30:00+01:00"),
            ("4-mar-2026", "2026-03-04T12:00:00+01:00"),
            ("29 feb", "2024-02-29T12:00:00+01:00"),
            ("2026-03-04", "2026-03-04T12:00:00+01:00"),
            ("2026/3/4", "2026-03-04T12:00:00+01:00"),
            ("4.3.2026", "2026-03-04T12:00:00+01:00"),
            ("2026-03-04 16:02", "2026-03-04T16:02:00+01:00"),
            ("2026-03-04T16:02", "2026-03-04T16:02:00+01:00"),
            ("2026-03-04 16:02 -05:00", "2026-03-04T16:02:00-05:00"),
            ("2026-03-04T16:02:30-05:00", "2026-03-04T16:02:30-05:00"),
            ("2026-03-04T16:02:30Z", "2026-03-04T16:02:30+00:00"),
            ("-20m", "2026-03-05T09:10:12.345+01:00"),
            ("−20 min", "2026-03-05T09:10:12.345+01:00"),
            ("20 min ago", "2026-03-05T09:10:12.345+01:00"),
            ("2h ago", "2026-03-05T07:30:12.345+01:00"),
            ("1h30 ago", "2026-03-05T08:00:12.345+01:00"),
            ("½ hour ago", "2026-03-05T09:00:12.345+01:00"),
            ("2 days ago", "2026-03-03T09:30:12.345+01:00"),
        ] {
            assert_eq!(read(text), at, "{text}");
        }
    }

    #[test]
    fn a_time_that_names_the_current_minute_is_now_to_the_millisecond() {
        assert_eq!(parse_now("9:30").unwrap(), now());
        assert_eq!(parse_now("today 09:30").unwrap(), now());
        assert_eq!(read("9:30:00"), "2026-03-05T09:30:00+01:00");
        assert_eq!(read("yesterday 9:30"), "2026-03-04T09:30:00+01:00");
    }

    fn in_oslo(text: &str, now: &str) -> String {
        let now = DateTime::parse_from_rfc3339(now).unwrap();
        match parse(text, now, TimeZone::parse("Europe/Oslo").unwrap()) {
            Ok(at) => at.to_rfc3339(),
            Err(why) => why.to_string(),
        }
    }

    #[test]
    fn a_summer_day_typed_in_winter_is_of_summer_time_and_the_other_way_about() {
        let (winter, summer) = ("2026-11-20T09:30:12+01:00", "2026-07-20T09:30:12+02:00");
        for (text, now, at) in [
            ("4 jul 16:02", winter, "2026-07-04T16:02:00+02:00"),
            ("4 jul", winter, "2026-07-04T12:00:00+02:00"),
            ("2026-07-04 16:02", winter, "2026-07-04T16:02:00+02:00"),
            ("4 jan 16:02", summer, "2026-01-04T16:02:00+01:00"),
            ("4 jan 16:02 +02:00", summer, "2026-01-04T16:02:00+02:00"),
            (
                "30 days ago",
                "2026-04-10T12:00:00+02:00",
                "2026-03-11T11:00:00+01:00",
            ),
        ] {
            assert_eq!(in_oslo(text, now), at, "{text}");
        }
    }

    #[test]
    fn an_hour_the_clocks_showed_twice_is_the_latest_that_has_been() {
        let text = "25 oct 2026 02:20";
        for (now, at) in [
            ("2026-10-25T02:30:00+02:00", "2026-10-25T02:20:00+02:00"),
            ("2026-10-25T02:30:00+01:00", "2026-10-25T02:20:00+01:00"),
            ("2026-12-01T12:00:00+01:00", "2026-10-25T02:20:00+01:00"),
            ("2026-01-01T12:00:00+01:00", "2026-10-25T02:20:00+02:00"),
        ] {
            assert_eq!(in_oslo(text, now), at, "{now}");
        }
    }

    #[test]
    fn an_hour_the_clocks_left_out_is_refused_with_a_way_on() {
        let said = in_oslo("29 mar 2026 02:30", "2026-04-10T12:00:00+02:00");
        assert!(said.contains("put forward over it"), "{said}");
        let said = in_oslo("29 mar 2026 02:30 +01:00", "2026-04-10T12:00:00+02:00");
        assert_eq!(said, "2026-03-29T02:30:00+01:00");
    }

    #[test]
    fn what_does_not_exist_is_refused_with_its_reason() {
        for text in [
            "31 feb",
            "30 feb 2024",
            "29 feb 2025",
            "31 apr",
            "0 mar",
            "2026-13-01",
            "2026-02-30",
            "32.1.2026",
        ] {
            assert!(
                read(text).contains("is not a day of the calendar"),
                "{text}: {}",
                read(text)
            );
        }
        for text in ["24:00", "25:10", "12:60", "12:10:60", "13 pm", "0am"] {
            assert!(
                read(text).contains("is not a time of day"),
                "{text}: {}",
                read(text)
            );
        }
        for text in ["3/4/2026", "3/4", "03-04-2026", "3/4/26"] {
            assert!(
                read(text).contains("is not clear about day and month"),
                "{text}: {}",
                read(text)
            );
        }
        for text in ["1799-12-31", "9999-01-01", "0001-01-01T00:00:00Z"] {
            assert!(
                read(text).contains("is not a moment from the year 1800"),
                "{text}: {}",
                read(text)
            );
        }
    }

    #[test]
    fn what_is_no_moment_is_refused() {
        for text in [
            "",
            "soon",
            "4",
            "mar",
            "2026",
            "-20",
            "20 ago",
            "ago",
            "-2:30",
            "16:02 16:03",
            "today yesterday",
            "4 mar 5 apr",
            "4 mar today",
            "pm",
            "16:02pm x",
            "1:2:3:4",
            "40 days ago",
            "12:345",
        ] {
            assert!(parse_now(text).is_err(), "{text}: {}", read(text));
        }
    }

    proptest! {
        #[test]
        fn a_moment_written_out_is_read_back_the_same(
            seconds in -5_000_000_000_i64..30_000_000_000,
            minutes in -720_i32..=840,
        ) {
            let offset = FixedOffset::east_opt(minutes * 60).unwrap();
            let at = DateTime::from_timestamp(seconds, 0).unwrap().with_timezone(&offset);
            prop_assert_eq!(parse_now(&at.to_rfc3339()).unwrap(), at);
            let in_words = at.format("%-d %b %Y %H:%M:%S %:z").to_string();
            prop_assert_eq!(parse_now(&in_words).unwrap(), at);
            let in_figures = at.format("%Y-%m-%d %H:%M:%S").to_string();
            let there = at.with_timezone(&offset);
            prop_assert_eq!(parse(&in_figures, there, TimeZone::Fixed(offset)).unwrap(), at);
        }

        #[test]
        fn no_text_makes_the_reader_panic(
            text in prop_oneof![
                crate::craft::scribble::text(),
                "[0-9:/.,+ -]{0,12}( ?(am|pm|ago|mar|feb|today|yesterday|min|h|t|z))?",
            ],
            seconds in -5_000_000_000_i64..30_000_000_000,
        ) {
            let now = DateTime::from_timestamp(seconds, 0).unwrap().fixed_offset();
            if let Ok(at) = parse(&text, now, TimeZone::Fixed(*now.offset())) {
                prop_assert!((1800..=2999).contains(&at.year()) || at == now);
            }
        }
    }
}
