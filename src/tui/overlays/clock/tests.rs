//! The hand on the clock: bouncing and held keys, questions, doubts about the counter.

use chrono::TimeDelta;
use crossterm::event::{KeyCode, KeyModifiers};

use super::*;

/// A clock and the time around it.
struct Hand {
    clock: Clock,
    now: Now,
}

fn secs(seconds: f64) -> Duration {
    Duration::from_secs_f64(seconds)
}

impl Hand {
    fn on(plan: Option<f64>, lead_in: u8) -> Hand {
        let now = Now {
            steady: secs(5000.0),
            wall: DateTime::parse_from_rfc3339("2026-03-04T16:02:00+01:00").unwrap(),
            counts_sleep: true,
        };
        let habits = Habits {
            lead_in,
            ..Habits::default()
        };
        Hand {
            clock: Clock::new(plan.map(secs), About::default(), habits, now),
            now,
        }
    }

    /// Lets time pass, with the ticks the clock asks for. Returns how many changed the picture.
    fn wait(&mut self, seconds: f64) -> (Vec<Heard>, usize) {
        let until = self.now.steady + secs(seconds);
        let (mut heard, mut changes) = (Vec::new(), 0);
        while let Some(wait) = self.clock.until_tick(self.now) {
            if self.now.steady + wait > until {
                break;
            }
            self.pass(wait);
            let told = self.clock.tick(self.now);
            heard.extend(told.heard);
            changes += usize::from(told.changed);
        }
        self.pass(until - self.now.steady);
        (heard, changes)
    }

    fn pass(&mut self, by: Duration) {
        self.now.steady += by;
        self.now.wall += by;
    }

    fn key(&mut self, c: char) -> Told {
        let chord = Chord::new(KeyCode::Char(c), KeyModifiers::NONE);
        self.clock.touch(Touch::Key(chord), self.now)
    }

    fn act(&mut self, key: ClockKey) -> Told {
        self.clock.touch(Touch::Act(key), self.now)
    }

    fn stage(&self) -> Stage {
        self.clock.timer().stage()
    }

    fn given(&self) -> f64 {
        self.clock.timer().given(self.now.steady).as_secs_f64()
    }
}

#[test]
fn a_key_that_is_held_down_starts_and_does_not_end() {
    let mut hand = Hand::on(Some(20.0), 0);
    assert_eq!(hand.key(' ').heard, [Heard::Opened { first: true }]);
    // The first repetition comes after half a second, the others quickly.
    hand.wait(0.5);
    for _ in 0..40 {
        assert!(!hand.key(' ').heard.contains(&Heard::Ended));
        hand.wait(0.033);
    }
    assert!(matches!(hand.stage(), Stage::Open { .. }));
    hand.wait(3.0);
    assert!(hand.key(' ').heard.contains(&Heard::Ended));
}

#[test]
fn another_key_ends_at_once_and_a_bounce_does_not_leave_the_result() {
    let mut hand = Hand::on(Some(20.0), 0);
    hand.key(' ');
    hand.wait(0.2);
    hand.key('x');
    assert_eq!(hand.stage(), Stage::Ended);
    hand.wait(0.05);
    assert!(!hand.key('x').back);
    hand.wait(1.0);
    assert!(hand.key('x').back);
}

#[test]
fn tapping_restlessly_ends_it_all_the_same() {
    let mut hand = Hand::on(Some(20.0), 0);
    hand.key(' ');
    for _ in 0..3 {
        hand.wait(0.4);
        hand.key(' ');
    }
    assert_eq!(hand.stage(), Stage::Ended);
}

#[test]
fn the_picture_changes_once_a_second_and_ticks_come_at_most_five_times() {
    let mut hand = Hand::on(Some(20.0), 0);
    hand.key(' ');
    let (heard, changes) = hand.wait(10.02);
    assert_eq!(changes, 10);
    assert_eq!(heard.len(), 10);
    let mut ticks = 0;
    while hand.given() < 12.0 {
        let wait = hand.clock.until_tick(hand.now).unwrap();
        hand.pass(wait);
        hand.clock.tick(hand.now);
        ticks += 1;
    }
    assert!(ticks <= 10, "{ticks} ticks in two seconds");
}

#[test]
fn a_question_does_not_stop_the_counting() {
    let mut hand = Hand::on(Some(20.0), 0);
    hand.key(' ');
    hand.wait(4.0);
    hand.act(ClockKey::Ask);
    assert!(hand.clock.asks());
    hand.wait(2.0);
    hand.act(ClockKey::Ask);
    assert!(!hand.clock.asks());
    assert!((hand.given() - 6.0).abs() < 1e-6);
    // Any other key ends it there and keeps what was given.
    hand.act(ClockKey::Ask);
    hand.wait(1.0);
    assert!(hand.key('k').heard.contains(&Heard::Ended));
    assert!((hand.given() - 7.0).abs() < 1e-6);
    // The same question after the end goes back with the figures.
    hand.act(ClockKey::Ask);
    hand.wait(1.0);
    assert!(hand.key('k').back);
}

#[test]
fn esc_calls_a_lead_in_off_without_asking() {
    let mut hand = Hand::on(Some(20.0), 3);
    hand.key(' ');
    hand.wait(1.0);
    hand.act(ClockKey::Ask);
    assert_eq!((hand.stage(), hand.clock.asks()), (Stage::Ready, false));
}

#[test]
fn what_is_liked_is_chosen_before_the_start() {
    let mut hand = Hand::on(Some(20.0), 3);
    for key in [
        ClockKey::Count,
        ClockKey::Bell,
        ClockKey::Cloth,
        ClockKey::LeadIn(-1),
    ] {
        hand.act(key);
    }
    let habits = hand.clock.habits();
    assert_eq!(habits.count, Count::Up);
    assert_eq!(habits.bell, Bell::Seconds);
    assert!(habits.cloth);
    assert_eq!(habits.lead_in, 2);
    for _ in 0..40 {
        hand.act(ClockKey::LeadIn(1));
    }
    assert_eq!(hand.clock.habits().lead_in, Habits::LONGEST_LEAD_IN);
    for _ in 0..40 {
        hand.act(ClockKey::LeadIn(-1));
    }
    hand.key(' ');
    assert!(matches!(hand.stage(), Stage::Open { .. }));
}

#[test]
fn a_wall_clock_that_jumps_two_hours_changes_nothing() {
    for jump in [TimeDelta::hours(2), TimeDelta::hours(-2)] {
        let mut hand = Hand::on(Some(20.0), 3);
        hand.key(' ');
        hand.wait(1.0);
        hand.now.wall += jump;
        hand.wait(5.0);
        hand.now.wall -= jump * 2;
        hand.wait(4.0);
        hand.key(' ');
        assert!((hand.given() - 7.0).abs() < 1e-6, "{}", hand.given());
        assert_eq!(hand.clock.doubt, None);
    }
}

#[test]
fn ten_minutes_of_sleep_are_counted_and_told() {
    let mut hand = Hand::on(Some(900.0), 0);
    hand.key(' ');
    hand.wait(30.0);
    hand.pass(secs(600.0));
    let told = hand.clock.tick(hand.now);
    assert!(told.changed);
    assert!((hand.given() - 630.0).abs() < 0.1);
    let doubt = hand.clock.doubt.clone().unwrap();
    assert!(doubt.contains("the machine slept"), "{doubt}");
    assert!(doubt.contains("10 min"), "{doubt}");
}

#[test]
fn a_counter_that_stands_still_in_sleep_is_told_of() {
    let mut hand = Hand::on(Some(900.0), 0);
    hand.now.counts_sleep = false;
    hand.key(' ');
    hand.wait(30.0);
    assert_eq!(hand.clock.doubt, None);
    hand.now.wall += TimeDelta::minutes(10);
    hand.wait(1.1);
    let doubt = hand.clock.doubt.clone().unwrap();
    assert!(doubt.contains("10 min ahead of the counter"), "{doubt}");
    hand.now.wall -= TimeDelta::minutes(20);
    hand.wait(1.1);
    let doubt = hand.clock.doubt.clone().unwrap();
    assert!(doubt.contains("set back by 10 min"), "{doubt}");
}

#[test]
fn a_thousand_jumps_of_the_wall_clock_move_no_timer() {
    let mut dice = 0x9E37_79B9_7F4A_7C15_u64;
    let mut roll = |below: u64| {
        dice ^= dice << 13;
        dice ^= dice >> 7;
        dice ^= dice << 17;
        dice % below
    };
    let mut hand = Hand::on(None, 0);
    hand.key(' ');
    let mut passed = 0.0;
    for _ in 0..1000 {
        hand.now.wall += TimeDelta::seconds(roll(14_400) as i64 - 7200);
        let wait = roll(3000) as f64 / 1000.0;
        hand.wait(wait);
        passed += wait;
    }
    assert!(
        (hand.given() - passed).abs() < 1e-3,
        "{} {passed}",
        hand.given()
    );
}

#[test]
fn the_figure_is_as_long_as_the_longest_time_beside_it() {
    let shown = |seconds| Shown {
        sign: None,
        seconds,
    };
    for (seconds, with, text) in [
        (0, 0, "0"),
        (99, 0, "99"),
        (100, 0, "1:40"),
        (5, 150, "0:05"),
        (59, 3600, "0:00:59"),
        (7205, 0, "2:00:05"),
    ] {
        assert_eq!(figure(shown(seconds), Duration::from_secs(with)), text);
    }
    let over = Shown {
        sign: Some('+'),
        seconds: 12,
    };
    assert_eq!(figure(over, Duration::from_secs(35)), "+12");
}
