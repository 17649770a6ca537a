//! When the sun strikes a wall, a cliff or a house front.

use chrono::{DateTime, FixedOffset};

use super::bearing::Bearing;
use super::coordinates::Coordinates;
use super::day::{Bands, Level};
use super::path::Path;
use super::position::Sun;
use crate::craft::TimeZone;

/// A time in which the sun strikes a wall.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Lit {
    /// When it begins; the beginning of the span if it strikes already.
    pub from: DateTime<FixedOffset>,
    /// When it ends; the end of the span if it strikes still.
    pub to: DateTime<FixedOffset>,
    /// When the sun stands square before the wall, if it does.
    pub square: Option<DateTime<FixedOffset>>,
}

/// When, between two instants, the sun strikes an upright wall that faces `facing`: it is up, and
/// stands within 90 degrees of where the wall faces. Nothing that stands in the way is reckoned with;
/// a time of less than ten minutes may be missed.
#[must_use]
pub fn on_wall(
    facing: Bearing,
    from: DateTime<FixedOffset>,
    to: DateTime<FixedOffset>,
    zone: TimeZone,
    place: Coordinates,
) -> Vec<Lit> {
    let horizon = Bands::default().elevation(Level::Horizon);
    let strikes = |sun: &Sun| sun.elevation > horizon && facing.to(sun.azimuth).abs() < 90.0;
    let left_of_it = |sun: &Sun| facing.to(sun.azimuth) < 0.0;
    let path = Path::new(from, to, zone, place);
    let mut lit: Vec<Lit> = Vec::new();
    let mut begun: Option<Lit> = None;
    let mut before = 0.0;
    for at in path.looks() {
        let (was, is) = (begun.is_some(), strikes(&path.sun(at)));
        let turn = || path.at(path.change(before, at, strikes));
        if is && !was {
            let from = if at > 0.0 { turn() } else { path.at(at) };
            begun = Some(Lit {
                from,
                to,
                square: None,
            });
        }
        if let Some(now) = &mut begun {
            let sides = [before, at].map(|at| left_of_it(&path.sun(at)));
            if is && was && sides[0] != sides[1] {
                now.square = Some(path.at(path.change(before, at, left_of_it)));
            }
            if !is {
                now.to = turn();
                lit.extend(begun.take());
            }
        }
        before = at;
    }
    lit.extend(begun);
    lit
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn lit(facing: &str, place: &str, date: &str, zone: &str) -> Vec<Lit> {
        let zone = TimeZone::parse(zone).unwrap();
        let (from, to) = zone.day(date.parse().unwrap()).unwrap();
        let place = Coordinates::parse(place).unwrap();
        on_wall(Bearing::parse(facing).unwrap(), from, to, zone, place)
    }

    fn clock(at: DateTime<FixedOffset>) -> String {
        at.format("%H:%M").to_string()
    }

    #[test]
    fn a_south_wall_is_lit_around_noon_and_square_at_noon() {
        let lit = lit("S", "46.5 N 8.2 E", "2024-06-21", "+01:00");
        assert_eq!(lit.len(), 1);
        assert_eq!(lit[0].square.map(clock).as_deref(), Some("12:29"));
        assert!(clock(lit[0].from).as_str() > "08:00");
    }

    #[test]
    fn a_north_wall_is_lit_in_the_morning_and_the_evening_of_summer_and_never_in_winter() {
        let summer = lit("N", "46.5 N 8.2 E", "2024-06-21", "+01:00");
        assert_eq!(summer.len(), 2);
        assert_eq!(clock(summer[0].from), "04:34");
        assert_eq!(clock(summer[1].to), "20:23");
        assert!(summer.iter().all(|lit| lit.square.is_none()));
        assert!(lit("N", "46.5 N 8.2 E", "2024-12-21", "+01:00").is_empty());
    }

    #[test]
    fn under_the_midnight_sun_a_wall_is_lit_at_midnight() {
        let lit = lit("N", "70 N 25 E", "2025-06-21", "+01:00");
        assert_eq!(clock(lit[0].from), "00:00");
        assert_eq!(lit.len(), 2);
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(32))]
        #[test]
        fn opposite_walls_share_out_the_day(
            facing in 0.0..360.0_f64,
            latitude in -90.0..=90.0_f64,
            days in 10_957..25_567_i32,
        ) {
            let date = chrono::NaiveDate::from_epoch_days(days).unwrap();
            let zone = TimeZone::parse("UTC").unwrap();
            let (from, to) = zone.day(date).unwrap();
            let place = Coordinates::new(latitude, 0.0).unwrap();
            let facing = Bearing::turned(facing);
            let lit = |facing| on_wall(facing, from, to, zone, place);
            let total: i64 = [facing, facing.opposite()]
                .into_iter()
                .flat_map(lit)
                .map(|lit| {
                    assert!(from <= lit.from && lit.from <= lit.to && lit.to <= to);
                    (lit.to - lit.from).num_seconds()
                })
                .sum();
            let horizon = Bands::default().elevation(Level::Horizon);
            let mut up = 0;
            let mut at = from;
            while at < to {
                up += i64::from(crate::craft::sun::position(at.to_utc(), place).elevation > horizon);
                at += chrono::TimeDelta::minutes(1);
            }
            prop_assert!((total / 60 - up).abs() <= 22, "{total} {up}");
        }
    }
}
