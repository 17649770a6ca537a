//! The clock and the source of new ids, which everything below receives as arguments.
//!
//! Only the program's edges hold a [`World`]: the command line, the front end and the replaying of
//! the demo. Tests and the demo use a [`Scripted`] one, which gives the same times and ids every
//! time it is run.

use std::time::Duration;

use chrono::{DateTime, FixedOffset, Local, Offset, TimeZone as _};
use uuid::Uuid;

use crate::craft::TimeZone;

/// Where the time and new ids come from.
pub trait World {
    /// The time now, in the zone the user is in.
    fn now(&self) -> DateTime<FixedOffset>;
    /// The zone the user is in, in which times are typed: unless it is known better, the one whose
    /// clocks always stand as they do now.
    fn zone(&self) -> TimeZone {
        TimeZone::Fixed(*self.now().offset())
    }
    /// A new id, later than every one before it.
    fn fresh_id(&mut self) -> Uuid;
}

/// The machine's own clock, and ids made from it.
#[derive(Debug, Default)]
pub struct System;

impl World for System {
    fn now(&self) -> DateTime<FixedOffset> {
        Local::now().fixed_offset()
    }

    fn zone(&self) -> TimeZone {
        TimeZone::Machine(|at| Local.offset_from_utc_datetime(&at.naive_utc()).fix())
    }

    fn fresh_id(&mut self) -> Uuid {
        Uuid::now_v7()
    }
}

/// A clock that stands still until it is moved, and ids that count.
#[derive(Debug)]
pub struct Scripted {
    now: DateTime<FixedOffset>,
    count: u64,
}

impl Scripted {
    /// A world in which it is `now`.
    pub const fn new(now: DateTime<FixedOffset>) -> Scripted {
        Scripted { now, count: 0 }
    }

    /// Moves the clock forward.
    pub fn wait(&mut self, by: Duration) {
        self.now += by;
    }

    /// Sets the clock.
    pub const fn set(&mut self, now: DateTime<FixedOffset>) {
        self.now = now;
    }
}

impl World for Scripted {
    fn now(&self) -> DateTime<FixedOffset> {
        self.now
    }

    fn fresh_id(&mut self) -> Uuid {
        self.count += 1;
        let millis = u64::try_from(self.now.timestamp_millis()).unwrap_or(0);
        let mut tail = [0; 10];
        tail[2..].copy_from_slice(&self.count.to_be_bytes());
        uuid::Builder::from_unix_timestamp_millis(millis, &tail).into_uuid()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn scripted_ids_are_repeatable_and_grow() {
        let now = DateTime::parse_from_rfc3339("2026-03-04T16:02:00+01:00").expect("a time");
        let (mut one, mut other) = (Scripted::new(now), Scripted::new(now));
        let mut last = Uuid::nil();
        for step in 0..100 {
            let id = one.fresh_id();
            assert_eq!(id, other.fresh_id());
            assert!(id > last, "ids grow");
            assert_eq!(id.get_version_num(), 7);
            last = id;
            if step % 10 == 0 {
                one.wait(Duration::from_millis(5));
                other.wait(Duration::from_millis(5));
            }
        }
    }
}
