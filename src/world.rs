//! The clock, the time zone, the counter of passing time and the source of new ids, which everything
//! below receives as arguments.
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
    /// The time that passes, counted from some moment in the past: only differences mean anything.
    /// It never goes back, and setting the machine's clock does not move it.
    fn steady(&self) -> Duration;
    /// Whether [`World::steady`] goes on while the machine sleeps.
    fn counts_sleep(&self) -> bool;
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

    fn steady(&self) -> Duration {
        steady()
    }

    fn counts_sleep(&self) -> bool {
        COUNTS_SLEEP
    }

    fn fresh_id(&mut self) -> Uuid {
        Uuid::now_v7()
    }
}

/// Whether this system has a counter that goes on while the machine sleeps.
const COUNTS_SLEEP: bool = cfg!(any(
    target_os = "linux",
    target_os = "android",
    target_vendor = "apple"
));

/// The system's counter that no one sets and that sleep does not stop.
#[cfg(any(target_os = "linux", target_os = "android", target_vendor = "apple"))]
fn steady() -> Duration {
    use rustix::time::{ClockId, clock_gettime};
    // On Apple's systems it is the monotonic clock that goes on through sleep.
    #[cfg(target_vendor = "apple")]
    const THROUGH_SLEEP: ClockId = ClockId::Monotonic;
    #[cfg(not(target_vendor = "apple"))]
    const THROUGH_SLEEP: ClockId = ClockId::Boottime;
    let time = clock_gettime(THROUGH_SLEEP);
    let whole = Duration::from_secs(u64::try_from(time.tv_sec).unwrap_or(0));
    whole + Duration::from_nanos(u64::try_from(time.tv_nsec).unwrap_or(0))
}

/// The time since the program began to count; on some systems it stands still in sleep.
#[cfg(not(any(target_os = "linux", target_os = "android", target_vendor = "apple")))]
fn steady() -> Duration {
    static BEGAN: std::sync::OnceLock<std::time::Instant> = std::sync::OnceLock::new();
    BEGAN.get_or_init(std::time::Instant::now).elapsed()
}

/// A clock that stands still until it is moved, and ids that count.
#[derive(Debug)]
pub struct Scripted {
    now: DateTime<FixedOffset>,
    steady: Duration,
    counts_sleep: bool,
    count: u64,
}

impl Scripted {
    /// A world in which it is `now`.
    pub const fn new(now: DateTime<FixedOffset>) -> Scripted {
        Scripted {
            now,
            steady: Duration::from_secs(1000),
            counts_sleep: true,
            count: 0,
        }
    }

    /// The same world on a machine whose counter stands still in sleep.
    #[must_use]
    pub const fn forgetting_sleep(mut self) -> Scripted {
        self.counts_sleep = false;
        self
    }

    /// Lets time pass.
    pub fn wait(&mut self, by: Duration) {
        self.now += by;
        self.steady += by;
    }

    /// Lets the machine sleep.
    pub fn sleep(&mut self, by: Duration) {
        self.now += by;
        if self.counts_sleep {
            self.steady += by;
        }
    }

    /// Sets the clock; no time passes by that.
    pub const fn set(&mut self, now: DateTime<FixedOffset>) {
        self.now = now;
    }
}

impl World for Scripted {
    fn now(&self) -> DateTime<FixedOffset> {
        self.now
    }

    fn steady(&self) -> Duration {
        self.steady
    }

    fn counts_sleep(&self) -> bool {
        self.counts_sleep
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
    fn the_steady_counter_passes_as_time_does() {
        let world = System;
        let (began, before) = (std::time::Instant::now(), world.steady());
        std::thread::sleep(Duration::from_millis(30));
        let counted = world.steady() - before;
        assert!(counted >= Duration::from_millis(29), "{counted:?}");
        assert!(
            counted <= began.elapsed() + Duration::from_secs(1),
            "{counted:?}"
        );
    }

    #[test]
    fn setting_a_scripted_clock_moves_no_counter_and_sleep_moves_one_that_counts_it() {
        let now = DateTime::parse_from_rfc3339("2026-03-04T16:02:00+01:00").expect("a time");
        let nap = Duration::from_secs(600);
        for (mut world, counted) in [
            (Scripted::new(now), nap),
            (Scripted::new(now).forgetting_sleep(), Duration::ZERO),
        ] {
            let before = world.steady();
            world.set(now + Duration::from_secs(7200));
            assert_eq!(world.steady(), before);
            world.sleep(nap);
            assert_eq!(world.steady() - before, counted);
        }
    }

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

    #[test]
    fn a_scripted_world_keeps_its_offset_through_the_year() {
        let now = DateTime::parse_from_rfc3339("2026-03-04T16:02:00+01:00").expect("a time");
        let zone = Scripted::new(now).zone();
        let summer = DateTime::parse_from_rfc3339("2026-07-04T12:00:00Z").expect("a time");
        assert_eq!(zone.of(summer).to_rfc3339(), "2026-07-04T13:00:00+01:00");
    }
}
