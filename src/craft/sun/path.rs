//! The sun's way through a span of time, in pieces short enough to find anything on it.
//!
//! The sun is followed in steps of ten minutes, and its highest and lowest points are put between
//! them. From one point to the next it then only rises or only sinks, so that no passing of a height is
//! missed, however short the sun stays beyond it, and none is found that is not there.

use chrono::{DateTime, FixedOffset, TimeDelta};

use super::coordinates::Coordinates;
use super::position::{Sun, position};
use crate::craft::TimeZone;

/// Seconds between two looks.
const STEP: f64 = 600.0;
/// Halvings after which an instant is known to well under a millisecond.
const HALVINGS: u32 = 40;

/// The sun's way over a place, from an instant on.
#[derive(Debug)]
pub(super) struct Path {
    from: DateTime<FixedOffset>,
    length: f64,
    zone: TimeZone,
    place: Coordinates,
    /// Seconds after `from` and elevation, in order; a little more than the span at both ends.
    points: Vec<(f64, f64)>,
}

impl Path {
    /// The way from one instant to another, by the clocks of `zone`.
    pub(super) fn new(
        from: DateTime<FixedOffset>,
        to: DateTime<FixedOffset>,
        zone: TimeZone,
        place: Coordinates,
    ) -> Path {
        let length = (to - from).as_seconds_f64();
        let mut path = Path {
            from,
            length,
            zone,
            place,
            points: Vec::new(),
        };
        let mut looks = Vec::new();
        let mut at = -STEP;
        while at < length + 2.0 * STEP {
            looks.push((at, path.elevation(at)));
            at += STEP;
        }
        let mut points = Vec::with_capacity(looks.len() + 4);
        for around in looks.windows(3) {
            let &[before, here, after] = around else {
                continue;
            };
            points.push(here);
            if here.1 > before.1 && here.1 >= after.1 {
                points.push(path.turning(before.0, after.0, |one, other| one < other));
            } else if here.1 < before.1 && here.1 <= after.1 {
                points.push(path.turning(before.0, after.0, |one, other| one > other));
            }
        }
        // The first and the last look have no neighbours on one side.
        points.extend(looks.first().copied());
        points.extend(looks.last().copied());
        points.sort_by(|one, other| one.0.total_cmp(&other.0));
        path.points = points;
        path
    }

    /// The instant so many seconds after the beginning.
    pub(super) fn at(&self, seconds: f64) -> DateTime<FixedOffset> {
        let millis = TimeDelta::milliseconds((seconds * 1000.0).round() as i64);
        let at = self.from.checked_add_signed(millis);
        self.zone.of(at.unwrap_or(self.from))
    }

    /// The sun so many seconds after the beginning.
    pub(super) fn sun(&self, seconds: f64) -> Sun {
        position(self.at(seconds).to_utc(), self.place)
    }

    fn elevation(&self, seconds: f64) -> f64 {
        self.sun(seconds).elevation
    }

    /// Where between two looks the sun turns: `worse` says whether the first elevation is further from
    /// the turning than the second.
    fn turning(&self, mut low: f64, mut high: f64, worse: impl Fn(f64, f64) -> bool) -> (f64, f64) {
        for _ in 0..HALVINGS {
            let third = (high - low) / 3.0;
            let (one, other) = (low + third, high - third);
            if worse(self.elevation(one), self.elevation(other)) {
                low = one;
            } else {
                high = other;
            }
        }
        let at = f64::midpoint(low, high);
        (at, self.elevation(at))
    }

    /// Where `sign` changes between two instants at which it differs, in seconds.
    pub(super) fn change(&self, mut low: f64, mut high: f64, sign: impl Fn(&Sun) -> bool) -> f64 {
        let before = sign(&self.sun(low));
        for _ in 0..HALVINGS {
            let middle = f64::midpoint(low, high);
            if sign(&self.sun(middle)) == before {
                low = middle;
            } else {
                high = middle;
            }
        }
        f64::midpoint(low, high)
    }

    /// When the sun passes an elevation, in seconds, and whether it rises then.
    pub(super) fn passes(&self, elevation: f64) -> Vec<(f64, bool)> {
        let mut passes = Vec::new();
        for pair in self.points.windows(2) {
            let &[one, other] = pair else { continue };
            let (was, is) = (one.1 >= elevation, other.1 >= elevation);
            if was != is {
                let at = self.change(one.0, other.0, |sun| sun.elevation >= elevation);
                passes.push((at, is));
            }
        }
        passes.retain(|pass| self.within(pass.0));
        passes
    }

    /// When the sun stands highest in its daily turn: hour angle 0.
    pub(super) fn noons(&self) -> Vec<f64> {
        let mut noons = Vec::new();
        for pair in self.points.windows(2) {
            let &[one, other] = pair else { continue };
            let (before, after) = (self.sun(one.0).hour_angle, self.sun(other.0).hour_angle);
            // From 180 to -180 it jumps at midnight.
            if before < 0.0 && after >= 0.0 && after - before < 180.0 {
                noons.push(self.change(one.0, other.0, |sun| sun.hour_angle >= 0.0));
            }
        }
        noons.retain(|at| self.within(*at));
        noons
    }

    /// The highest and the lowest elevation within the span.
    pub(super) fn extremes(&self) -> (f64, f64) {
        let ends = [0.0, self.length].map(|at| self.elevation(at));
        let inside = self.points.iter().filter(|point| self.within(point.0));
        let all = inside.map(|point| point.1).chain(ends);
        all.fold((f64::NEG_INFINITY, f64::INFINITY), |(high, low), one| {
            (high.max(one), low.min(one))
        })
    }

    /// The instants within the span at which it was looked, in seconds, with both ends.
    pub(super) fn looks(&self) -> Vec<f64> {
        let inside = self.points.iter().map(|point| point.0);
        let inside = inside.filter(|at| *at > 0.0 && *at < self.length);
        let mut looks: Vec<f64> = std::iter::once(0.0).chain(inside).collect();
        looks.push(self.length);
        looks
    }

    fn within(&self, seconds: f64) -> bool {
        (0.0..self.length).contains(&seconds)
    }
}
