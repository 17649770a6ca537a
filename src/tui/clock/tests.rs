//! Scripted moments, and what the timer makes of them.

use proptest::prelude::*;

use super::*;

fn at(seconds: f64) -> Moment {
    Duration::from_secs_f64(1000.0 + seconds)
}

fn secs(seconds: f64) -> Duration {
    Duration::from_secs_f64(seconds)
}

fn timer(plan: f64, lead_in: f64) -> Timer {
    Timer::new(Some(secs(plan)), secs(lead_in))
}

/// Ticks as the loop does, from one moment to another, and collects what is heard.
fn run(timer: &mut Timer, from: f64, to: f64) -> Vec<Heard> {
    let (mut now, to) = (at(from), at(to));
    let mut heard = Vec::new();
    while let Some(wait) = timer.until_change(now, Count::Down) {
        assert!(
            wait > Duration::ZERO,
            "a tick that comes at once never ends"
        );
        if now + wait > to {
            break;
        }
        now += wait;
        heard.extend(timer.advance(now));
    }
    heard
}

#[test]
fn without_a_lead_in_the_first_key_opens_and_the_next_one_ends() {
    let mut timer = timer(5.0, 0.0);
    assert_eq!(timer.press(at(0.0)), [Heard::Opened { first: true }]);
    assert_eq!(timer.stage(), Stage::Open { since: at(0.0) });
    let heard = run(&mut timer, 0.0, 5.2);
    assert_eq!(
        heard,
        [
            Heard::Second,
            Heard::Second,
            Heard::Second,
            Heard::Second,
            Heard::Planned
        ]
    );
    assert_eq!(timer.press(at(5.2)), [Heard::Closed, Heard::Ended]);
    assert_eq!(timer.stage(), Stage::Ended);
    assert_eq!(timer.given(at(99.0)), secs(5.2));
}

#[test]
fn the_lead_in_is_counted_down_and_opens_to_the_very_moment() {
    let mut timer = timer(20.0, 3.0);
    assert!(timer.press(at(0.0)).is_empty());
    let shown = |timer: &Timer, now| timer.shown(at(now), Count::Down);
    assert_eq!(
        (shown(&timer, 0.0).sign, shown(&timer, 0.0).seconds),
        (Some('-'), 3)
    );
    assert_eq!(shown(&timer, 0.5).seconds, 3);
    assert_eq!(shown(&timer, 1.0).seconds, 2);
    assert_eq!(timer.advance(at(1.0)), [Heard::LeadSecond]);
    assert_eq!(timer.advance(at(2.0)), [Heard::LeadSecond]);
    // The tick comes a little late; the opening does not.
    assert_eq!(timer.advance(at(3.07)), [Heard::Opened { first: true }]);
    assert_eq!(timer.stage(), Stage::Open { since: at(3.0) });
    timer.press(at(23.0));
    assert_eq!(timer.given(at(23.0)), secs(20.0));
}

#[test]
fn a_key_in_the_lead_in_calls_it_off() {
    for key in [Timer::press, Timer::pause] {
        let mut timer = timer(20.0, 3.0);
        timer.press(at(0.0));
        assert!(key(&mut timer, at(1.5)).contains(&Heard::LeadSecond));
        assert_eq!(timer.stage(), Stage::Ready);
        assert!(!timer.was_opened());
    }
}

#[test]
fn a_lead_in_that_ran_out_unseen_opens_nothing() {
    let mut timer = timer(20.0, 3.0);
    timer.press(at(0.0));
    timer.advance(at(1.0));
    assert_eq!(timer.advance(at(601.0)), [Heard::CalledOff]);
    assert_eq!(timer.stage(), Stage::Ready);
    assert!(!timer.was_opened());
}

#[test]
fn pauses_do_not_count_and_openings_add_up() {
    let mut timer = timer(30.0, 0.0);
    timer.press(at(0.0));
    assert_eq!(timer.pause(at(12.5)), [Heard::Ten, Heard::Closed]);
    assert_eq!(timer.until_change(at(13.0), Count::Down), None);
    assert_eq!(timer.given(at(40.0)), secs(12.5));
    assert_eq!(timer.pause(at(60.0)), [Heard::Opened { first: false }]);
    timer.pause(at(70.0));
    timer.pause(at(80.0));
    timer.press(at(87.5));
    assert_eq!(timer.openings(at(500.0)), [12.5, 10.0, 7.5].map(secs));
    assert_eq!(timer.given(at(500.0)), secs(30.0));
    // A pause that ends the exposure adds nothing.
    timer.pause(at(90.0));
    timer.pause(at(91.0));
    timer.press(at(95.0));
    assert_eq!(
        (timer.stage(), timer.given(at(99.0))),
        (Stage::Ended, secs(31.0))
    );
}

#[test]
fn after_the_end_the_shutter_can_be_opened_once_more() {
    let mut timer = timer(10.0, 2.0);
    timer.press(at(0.0));
    timer.advance(at(2.0));
    timer.press(at(8.0));
    assert_eq!(timer.pause(at(20.0)), [Heard::Opened { first: false }]);
    timer.press(at(24.0));
    assert_eq!(timer.openings(at(24.0)), [6.0, 4.0].map(secs));
}

#[test]
fn the_digits_count_down_to_the_plan_and_up_beyond_it() {
    let mut timer = timer(5.0, 0.0);
    let shown = |timer: &Timer, now, count| {
        let shown = timer.shown(at(now), count);
        format!(
            "{}{}",
            shown.sign.map_or(String::new(), String::from),
            shown.seconds
        )
    };
    assert_eq!(shown(&timer, 0.0, Count::Down), "5");
    assert_eq!(shown(&timer, 0.0, Count::Up), "0");
    timer.press(at(0.0));
    for (now, down, up) in [
        (0.0, "5", "0"),
        (0.9, "5", "0"),
        (1.0, "4", "1"),
        (4.5, "1", "4"),
        (5.0, "0", "5"),
        (5.9, "0", "5"),
        (6.0, "+1", "6"),
        (17.3, "+12", "17"),
    ] {
        assert_eq!(shown(&timer, now, Count::Down), down, "{now}");
        assert_eq!(shown(&timer, now, Count::Up), up, "{now}");
    }
    // Without a plan there is nothing to count down from.
    let mut timer = Timer::new(None, Duration::ZERO);
    timer.press(at(0.0));
    assert_eq!(shown(&timer, 7.2, Count::Down), "7");
}

#[test]
fn ten_minutes_of_sleep_are_counted_and_told_once() {
    let mut timer = timer(900.0, 0.0);
    timer.press(at(0.0));
    run(&mut timer, 0.0, 30.0);
    assert_eq!(timer.advance(at(630.4)), [Heard::Ten]);
    assert_eq!(timer.given(at(630.4)), secs(630.4));
    assert_eq!(timer.shown(at(630.4), Count::Down).seconds, 270);
    // Beyond the plan the plan is told, once.
    assert_eq!(timer.advance(at(1500.0)), [Heard::Planned]);
    assert!(
        run(&mut timer, 1500.0, 1503.0)
            .iter()
            .all(|heard| *heard == Heard::Second)
    );
}

#[test]
fn an_exposure_that_began_before_is_counted_on() {
    let mut timer = Timer::going_on(Some(secs(60.0)), at(0.0), at(35.4));
    assert_eq!(timer.given(at(35.4)), secs(35.4));
    assert!(timer.advance(at(35.5)).is_empty());
    assert_eq!(timer.advance(at(36.0)), [Heard::Second]);
    timer.press(at(61.0));
    assert_eq!(timer.openings(at(61.0)), [secs(61.0)]);
}

#[test]
fn a_counter_that_seems_to_go_back_takes_nothing_away() {
    let mut timer = timer(30.0, 0.0);
    timer.press(at(0.0));
    timer.advance(at(12.0));
    assert_eq!(timer.given(at(3.0)), secs(12.0));
    assert!(timer.advance(at(3.0)).is_empty());
    timer.press(at(5.0));
    assert_eq!(timer.given(at(5.0)), secs(12.0));
}

#[test]
fn a_tick_comes_when_the_digits_change_and_when_the_plan_is_reached() {
    let mut timer = timer(5.3, 0.0);
    timer.press(at(0.0));
    assert_eq!(timer.until_change(at(0.0), Count::Up), Some(secs(1.0)));
    // Down from 5.3 the digits change at 0.3, and the second given at 1.
    let wait = timer.until_change(at(0.0), Count::Down).unwrap();
    assert!(
        wait.abs_diff(secs(0.3)) < Duration::from_micros(1),
        "{wait:?}"
    );
    let wait = timer.until_change(at(5.0), Count::Up).unwrap();
    assert!(
        wait.abs_diff(secs(0.3)) < Duration::from_micros(1),
        "{wait:?}"
    );
    assert!(timer.until_change(at(5.4), Count::Down).is_some());
    timer.press(at(6.0));
    assert_eq!(timer.until_change(at(6.0), Count::Up), None);
}

proptest! {
    /// Whatever is pressed whenever: the total is the sum of the openings, and no opening is longer
    /// than the time that passed.
    #[test]
    fn the_total_is_the_sum_of_the_openings(
        steps in proptest::collection::vec((0_u64..20_000, 0_u8..3), 1..60),
        plan in proptest::option::of(1_u64..100),
        lead_in in 0_u64..4,
    ) {
        let mut timer = Timer::new(plan.map(Duration::from_secs), Duration::from_secs(lead_in));
        let mut now = at(0.0);
        let mut closed_before = Duration::ZERO;
        for (wait, key) in steps {
            now += Duration::from_millis(wait);
            match key {
                0 => timer.press(now),
                1 => timer.pause(now),
                _ => timer.advance(now),
            };
            let openings = timer.openings(now);
            prop_assert_eq!(openings.iter().sum::<Duration>(), timer.given(now));
            prop_assert!(timer.given(now) >= closed_before);
            prop_assert!(timer.given(now) <= now - at(0.0));
            prop_assert_eq!(timer.was_opened(), !openings.is_empty());
            closed_before = timer.given(now);
            for count in [Count::Up, Count::Down] {
                let wait = timer.until_change(now, count);
                prop_assert_eq!(wait.is_some(), timer.runs());
                prop_assert!(wait.is_none_or(|wait| wait > Duration::ZERO && wait <= SECOND));
            }
        }
    }

    /// The digits of two directions always stand for the same exposure.
    #[test]
    fn up_and_down_agree_on_the_plan(plan in 1_u64..500, given in 0.0..600.0_f64) {
        let mut timer = Timer::new(Some(Duration::from_secs(plan)), Duration::ZERO);
        timer.press(at(0.0));
        let up = timer.shown(at(given), Count::Up).seconds;
        let down = timer.shown(at(given), Count::Down);
        let together = if given < plan as f64 { up + down.seconds } else { up - down.seconds };
        prop_assert!(together == plan || together == plan - 1 || together == plan + 1);
    }
}
