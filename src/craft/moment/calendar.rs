//! Days, months, hours and offsets as they are written, one word at a time.

use chrono::{Datelike, FixedOffset, NaiveDate, NaiveTime};

use super::{NO_SUCH_DAY, NO_SUCH_TIME, TOO_FAR, WANTED, WHICH_IS_THE_MONTH};

#[derive(Debug, Clone, Copy)]
pub(super) struct Clock {
    pub(super) hour: u32,
    pub(super) minute: u32,
    pub(super) second: Option<u32>,
}

pub(super) fn digits(text: &str) -> Option<u32> {
    let all = !text.is_empty() && text.chars().all(|c| c.is_ascii_digit());
    all.then(|| text.parse().ok()).flatten()
}

/// `mar`, `sept` or `march`, and with a full stop.
pub(super) fn month(word: &str) -> Option<u32> {
    const NAMES: [&str; 12] = [
        "january",
        "february",
        "march",
        "april",
        "may",
        "june",
        "july",
        "august",
        "september",
        "october",
        "november",
        "december",
    ];
    let word = word.strip_suffix('.').unwrap_or(word);
    let at = NAMES
        .iter()
        .position(|name| word.len() >= 3 && name.starts_with(word))?;
    u32::try_from(at + 1).ok()
}

/// `z`, `+01:00`.
pub(in crate::craft) fn offset(word: &str) -> Option<FixedOffset> {
    if word == "z" || word == "utc" {
        return FixedOffset::east_opt(0);
    }
    let ahead = word.starts_with('+');
    let (hours, minutes) = word.strip_prefix(['+', '-'])?.split_once(':')?;
    let (hours, minutes) = (digits(hours)?, digits(minutes)?);
    if hours > 23 || minutes > 59 {
        return None;
    }
    let seconds = i32::try_from(hours * 3600 + minutes * 60).ok()?;
    FixedOffset::east_opt(if ahead { seconds } else { -seconds })
}

/// `16:02`, `16:02:30`, and `4` where an `am` or `pm` stood after it.
pub(super) fn clock(word: &str) -> Result<Clock, &'static str> {
    let parts = word
        .split(':')
        .map(|part| digits(part).filter(|_| part.len() <= 2))
        .collect::<Option<Vec<u32>>>()
        .ok_or(WANTED)?;
    let (hour, minute, second) = match parts[..] {
        [hour] => return Ok(Clock::at_hour(hour)),
        [hour, minute] => (hour, minute, None),
        [hour, minute, second] => (hour, minute, Some(second)),
        _ => return Err(WANTED),
    };
    Ok(Clock {
        hour,
        minute,
        second,
    })
}

impl Clock {
    pub(super) const fn at_hour(hour: u32) -> Self {
        Self {
            hour,
            minute: 0,
            second: None,
        }
    }

    pub(super) fn on_the_day(self, afternoon: Option<bool>) -> Result<NaiveTime, &'static str> {
        let hour = match afternoon {
            None => self.hour,
            Some(_) if !(1..=12).contains(&self.hour) => return Err(NO_SUCH_TIME),
            Some(false) => self.hour % 12,
            Some(true) => self.hour % 12 + 12,
        };
        NaiveTime::from_hms_opt(hour, self.minute, self.second.unwrap_or(0)).ok_or(NO_SUCH_TIME)
    }
}

/// Year, month and day, or with dots day, month and year.
pub(super) fn date(parts: [&str; 3], dotted: bool) -> Result<NaiveDate, &'static str> {
    let [first, second, third] = parts;
    let (year, month, day) = match (first.len(), third.len()) {
        (4, 1 | 2) => (first, second, third),
        (1 | 2, 4) if dotted => (third, second, first),
        (1 | 2, 2 | 4) => return Err(WHICH_IS_THE_MONTH),
        _ => return Err(WANTED),
    };
    let read = |text| digits(text).ok_or(WANTED);
    NaiveDate::from_ymd_opt(self::year(year)?, read(month)?, read(day)?).ok_or(NO_SUCH_DAY)
}

/// `2026`, with all its figures.
pub(super) fn year(word: &str) -> Result<i32, &'static str> {
    let year = digits(word).filter(|_| word.len() == 4).ok_or(WANTED)?;
    i32::try_from(year).map_err(|_| TOO_FAR)
}

/// The latest such day of the calendar that is not after today.
pub(super) fn latest(day: u32, month: u32, today: NaiveDate) -> Result<NaiveDate, &'static str> {
    // Eight years back there has always been a 29 February.
    (0..=8)
        .filter_map(|back| NaiveDate::from_ymd_opt(today.year() - back, month, day))
        .find(|date| *date <= today)
        .ok_or(NO_SUCH_DAY)
}
