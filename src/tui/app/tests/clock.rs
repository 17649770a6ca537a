//! The clock, from the pane and back.

use std::cell::RefCell;
use std::io::{self, Write};
use std::rc::Rc;
use std::time::Duration;

use ratatui::layout::Rect;
use ratatui::{Terminal, TerminalOptions, Viewport};

use crate::logbook::{Deed, Kind, Names, ThingKind};
use crate::tui::app::stand::Stand;
use crate::tui::app::tests::with_holders;
use crate::tui::backend::FrameBackend;
use crate::tui::event::Application;
use crate::tui::theme::ThemeName;

/// A loaded side with its exposure pane open: f/32, and a time.
fn at_the_pane(time: &str) -> Stand {
    let mut stand = with_holders();
    stand.log(Kind::Loaded, &[("side", "h1a"), ("film_box", "f1")]);
    stand.press("2 e");
    stand.type_text("f/32");
    stand.press("tab");
    stand.type_text(time);
    stand
}

/// The clock over that pane, without a lead-in.
fn at_the_clock(time: &str) -> Stand {
    let mut stand = at_the_pane(time);
    stand.press("ctrl-t - - -");
    stand
}

#[test]
fn five_seconds_are_counted_and_come_into_the_pane() {
    let mut stand = at_the_pane("5s");
    stand.press("ctrl-t");
    stand.shows("S-0001 in H-01 A");
    stand.shows("planned 5 s at f/32");
    stand.press("- - -");
    stand.shows("no lead-in");
    stand.press("space");
    stand.shows("the shutter is open");
    stand.pass(5.04);
    stand.press("x");
    stand.shows("given 5 s");
    stand.shows("as planned");
    stand.pass(1.0);
    stand.press("space");
    stand.shows("expose  H-01 A");
    stand.press("enter");
    stand.shows("f/32 at 5 s");
}

#[test]
fn what_was_given_is_kept_before_the_hand_is_back_at_the_pane() {
    let mut stand = at_the_clock("20s");
    stand.press("space");
    stand.pass(23.2);
    stand.press("space");
    let drafts = stand.app.bench().store.drafts().expect("the drafts");
    assert_eq!(drafts[0].draft.get("time"), "23.2 s");
}

#[test]
fn leaving_before_the_first_opening_changes_nothing() {
    let mut stand = at_the_pane("20s");
    let before = stand.text();
    stand.press("ctrl-t esc");
    assert_eq!(stand.text(), before);
    // The lead-in can be called off, and the clock be left then.
    stand.press("ctrl-t space");
    stand.pass(2.0);
    stand.press("esc esc");
    assert_eq!(stand.text(), before);
}

#[test]
fn the_key_that_opened_the_clock_starts_nothing_while_it_is_held() {
    let mut stand = at_the_clock("20s");
    stand.press("ctrl-t ctrl-t ctrl-t");
    stand.shows("any other  starts");
}

#[test]
fn the_bell_rings_at_marks_each_second_or_not_at_all() {
    for (choose, rings) in [("", 4), ("b", 14), ("b b", 0)] {
        let mut stand = at_the_clock("12s");
        if !choose.is_empty() {
            stand.press(choose);
        }
        stand.press("space");
        // The opening, ten seconds, twice the plan; and the other seconds.
        stand.pass(12.5);
        assert_eq!(stand.rings, rings, "{choose}");
    }
}

#[test]
fn how_the_clock_is_liked_is_remembered_in_the_settings() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("settings.toml");
    std::fs::write(&path, "theme = \"dark\"  # at home\n").expect("settings");
    let mut stand = at_the_pane("20s");
    stand
        .app
        .like_the_clock(Default::default(), Some(path.clone()));
    stand.press("ctrl-t b b d - esc");
    let text = std::fs::read_to_string(&path).expect("settings");
    assert!(text.starts_with("theme = \"dark\"  # at home\n"), "{text}");
    let (settings, problems) = crate::tui::config::Settings::read(&text);
    assert_eq!(problems, []);
    assert_eq!(settings.clock.bell.word(), "off");
    assert_eq!(settings.clock.count.word(), "up");
    assert_eq!(settings.clock.lead_in, 2);
    stand.press("ctrl-t");
    stand.shows("no bell");
    // A file in which it cannot be put stays as it is, and that is said.
    std::fs::write(&path, "clock = 3\n").expect("settings");
    stand.press("b esc");
    stand.shows("put under [clock]");
}

#[test]
fn the_mouse_starts_pauses_and_ends() {
    let mut stand = at_the_pane("20s");
    stand.press("ctrl-t");
    stand.click_on("bell each ten seconds");
    stand.shows("bell each second");
    for _ in 0..3 {
        stand.wheel(40, 10, false);
    }
    stand.shows("no lead-in");
    stand.click(40, 8);
    stand.shows("the shutter is open");
    stand.pass(4.0);
    stand.click_on("closes the shutter for a while");
    stand.shows("4 s given, 16 s to go");
    stand.pass(9.0);
    stand.click_on("opens it again");
    stand.pass(3.0);
    // A wheel that is brushed ends nothing.
    stand.wheel(40, 10, true);
    stand.shows("the shutter is open");
    stand.click(3, 3);
    stand.shows("given 7 s in 2 openings: 4 s, 3 s");
}

#[test]
fn a_wall_clock_that_is_set_changes_nothing_of_an_exposure() {
    let mut stand = at_the_clock("20s");
    stand.press("space");
    stand.pass(10.0);
    let later = stand.app.bench().now() + chrono::TimeDelta::hours(2);
    stand.world.borrow_mut().set(later);
    stand.pass(5.0);
    stand
        .world
        .borrow_mut()
        .set(later - chrono::TimeDelta::hours(4));
    stand.pass(5.0);
    stand.press("space");
    stand.shows("given 20 s");
}

#[test]
fn nothing_is_drawn_between_the_seconds_nor_while_the_shutter_is_closed() {
    let mut stand = at_the_clock("60s");
    stand.press("space");
    let drawn = stand.pass(20.01);
    assert_eq!(drawn, 20);
    stand.press("p");
    assert_eq!(stand.pass(60.0), 0);
    assert_eq!(stand.app.until_tick(), None);
}

/// The state of a thing, as the logbook has it.
fn state_of(stand: &Stand, kind: ThingKind, reference: &str) -> &'static str {
    let bench = stand.app.bench();
    let thing = bench.store.find(&[kind], reference).expect("it is there");
    bench.life(thing).expect("it has a life").state_word()
}

#[test]
fn that_the_shutter_opened_is_in_the_log_at_once() {
    let mut stand = at_the_clock("20s");
    assert_eq!(state_of(&stand, ThingKind::Sheet, "S-0001"), "loaded");
    stand.press("space");
    assert_eq!(
        state_of(&stand, ThingKind::Sheet, "S-0001"),
        "being exposed"
    );
    assert_eq!(state_of(&stand, ThingKind::Side, "H-01 A"), "being exposed");
    stand.pass(20.0);
    stand.press("space");
    stand.pass(1.0);
    stand.press("space enter");
    assert_eq!(state_of(&stand, ThingKind::Sheet, "S-0001"), "exposed");
    // The lead-in opens it as a key does.
    let mut stand = at_the_pane("20s");
    stand.press("ctrl-t space");
    stand.pass(2.9);
    assert_eq!(state_of(&stand, ThingKind::Sheet, "S-0001"), "loaded");
    stand.pass(0.2);
    assert_eq!(
        state_of(&stand, ThingKind::Sheet, "S-0001"),
        "being exposed"
    );
}

#[test]
fn several_openings_are_logged_with_their_sum() {
    let mut stand = at_the_clock("30s");
    stand.press("space");
    stand.pass(12.5);
    stand.press("p");
    stand.shows("12.5 s given, 17.5 s to go");
    stand.pass(40.0);
    stand.press("p");
    stand.pass(17.7);
    stand.press("space");
    stand.pass(1.0);
    stand.press("space");
    stand.shows("30.2 s");
    // The clock is gone on with as long as the exposure is not logged.
    stand.press("ctrl-t");
    stand.shows("given 30.2 s in 2 openings: 12.5 s, 17.7 s");
    stand.press("p");
    stand.pass(5.0);
    stand.press("x");
    stand.pass(1.0);
    stand.press("x enter");
    let bench = stand.app.bench();
    let sheet = bench
        .store
        .find(&[ThingKind::Sheet], "S-0001")
        .expect("the sheet");
    let life = bench.life(sheet).expect("its life");
    let entry = life.sheet().expect("a sheet").exposures[0].entry;
    let settled = bench
        .store
        .as_it_counts(entry)
        .expect("read")
        .expect("there");
    let Deed::Exposed(exposed) = settled.deed else {
        panic!("no exposure");
    };
    assert_eq!(exposed.time.map(|time| time.value()), Some(35.2));
    let openings: Vec<f64> = exposed.openings.iter().map(|time| time.value()).collect();
    assert_eq!(openings, [12.5, 17.7, 5.0]);
    // The next exposure begins with a clock of its own.
    stand.log(Kind::Loaded, &[("side", "h1b"), ("film_box", "f1")]);
    stand.press("right e ctrl-t");
    stand.shows("any other  starts");
}

#[test]
fn an_exposure_that_was_none_is_dropped_with_a_reason() {
    let mut stand = at_the_clock("20s");
    stand.press("space");
    stand.pass(4.0);
    stand.press("esc");
    stand.shows("Drop this exposure?");
    stand.press("d");
    stand.shows("no exposure was made after all  H-01 A");
    stand.type_text("the cap was on");
    stand.press("enter");
    assert_eq!(state_of(&stand, ThingKind::Sheet, "S-0001"), "loaded");
    // The pane it came from is as it was.
    stand.shows("expose  H-01 A");
    stand.shows("20s");
}

#[test]
fn asking_and_ending_keeps_what_was_given() {
    let mut stand = at_the_clock("20s");
    stand.press("space");
    stand.pass(4.0);
    stand.press("esc k");
    stand.shows("given 4 s");
    stand.pass(1.0);
    stand.press("k");
    stand.shows("expose  H-01 A");
    stand.shows("being exposed: the shutter");
}

/// A front end that is opened again, so much later, while the shutter was open.
fn after_a_crash(later: u64) -> Stand {
    let mut stand = at_the_clock("20s");
    stand.press("space");
    stand.pass(3.0);
    stand.again(Duration::from_secs(later))
}

#[test]
fn after_a_crash_it_is_asked_how_the_exposure_ended() {
    let mut stand = after_a_crash(32);
    stand.shows("S-0001 in H-01 A is being exposed");
    stand.shows("35 s ago");
    stand.press("e");
    stand.shows("expose  H-01 A");
    stand.shows("brought back as you left it");
    stand.shows("35 s ago");
    stand.shows("f/32");
    stand.press("ctrl-u");
    stand.type_text("21s");
    stand.press("enter");
    assert_eq!(state_of(&stand, ThingKind::Sheet, "S-0001"), "exposed");
    let stand = stand.again(Duration::from_secs(60));
    assert!(
        !stand.text().contains("is being exposed"),
        "{}",
        stand.text()
    );
}

#[test]
fn after_a_crash_the_clock_goes_on_where_the_shutter_is_still_open() {
    let mut stand = after_a_crash(32);
    stand.press("c");
    stand.shows("the shutter is open");
    stand.shows("planned 20 s at f/32");
    stand.pass(5.0);
    stand.press("space");
    stand.shows("given 40 s");
    stand.shows("+1 stop over the plan");
    stand.pass(1.0);
    stand.press("space enter");
    stand.shows("f/32 at 40 s");
}

#[test]
fn after_a_crash_an_exposure_that_was_none_is_dropped() {
    let mut stand = after_a_crash(32);
    stand.press("d");
    stand.type_text("the slide was in");
    stand.press("enter");
    assert_eq!(state_of(&stand, ThingKind::Sheet, "S-0001"), "loaded");
}

#[test]
fn the_question_can_wait_and_is_asked_in_the_rack_again() {
    let mut stand = after_a_crash(32);
    stand.press("esc 2");
    stand.shows("BEING EXPOSED");
    stand.press("v");
    stand.shows("S-0001 in H-01 A is being exposed");
    // After days nobody counts on.
    let mut stand = stand.again(Duration::from_secs(3 * 86_400));
    stand.shows("3 days ago");
    let text = stand.text();
    assert!(!text.contains("count on"), "{text}");
    stand.press("esc");
}

#[test]
fn another_program_that_is_writing_delays_no_exposure() {
    let mut stand = at_the_clock("20s");
    let writer = rusqlite::Connection::open(stand.app.bench().store.path()).expect("it opens");
    writer.execute_batch("BEGIN IMMEDIATE").expect("it is free");
    let opened = stand.app.bench().now();
    stand.press("space");
    stand.shows("the shutter is open");
    stand.pass(2.0);
    assert_eq!(state_of(&stand, ThingKind::Sheet, "S-0001"), "loaded");
    writer.execute_batch("ROLLBACK").expect("it was begun");
    stand.pass(1.0);
    assert_eq!(
        state_of(&stand, ThingKind::Sheet, "S-0001"),
        "being exposed"
    );
    let bench = stand.app.bench();
    let sheet = bench
        .store
        .find(&[ThingKind::Sheet], "S-0001")
        .expect("the sheet");
    let life = bench.life(sheet).expect("its life");
    let begun = life.sheet().and_then(|sheet| sheet.begun).expect("begun");
    assert_eq!(begun.at, opened);
    stand.press("space");
    stand.shows("given 3 s");
}

#[test]
fn what_a_pane_says_that_cannot_be_logged_stops_no_clock() {
    let mut stand = with_holders();
    stand.log(Kind::Loaded, &[("side", "h1a"), ("film_box", "f1")]);
    stand.log(
        Kind::Exposed,
        &[("side", "h1a"), ("aperture", "f/22"), ("time", "2s")],
    );
    stand.press("2 e ctrl-t - - - space");
    stand.shows("the clock counts all the same");
    stand.pass(3.0);
    stand.press("space");
    stand.shows("given 3 s");
}

/// Counts the bytes a terminal would get.
#[derive(Clone, Default)]
struct Bytes(Rc<RefCell<usize>>);

impl Write for Bytes {
    fn write(&mut self, bytes: &[u8]) -> io::Result<usize> {
        *self.0.borrow_mut() += bytes.len();
        Ok(bytes.len())
    }

    fn flush(&mut self) -> io::Result<()> {
        Ok(())
    }
}

/// The bytes of each picture while the clock counts, at a size and in a theme.
fn bytes_of_ticks(theme: ThemeName, cloth: bool, size: (u16, u16)) -> Vec<usize> {
    let mut stand = at_the_clock("40s").in_theme(theme);
    stand.resize(size.0, size.1);
    if cloth {
        stand.press("c");
    }
    stand.press("space");
    let bytes = Bytes::default();
    let area = Rect::new(0, 0, size.0, size.1);
    let backend = FrameBackend::new(bytes.clone(), stand.app.look().theme.ground(), || true);
    let viewport = TerminalOptions {
        viewport: Viewport::Fixed(area),
    };
    let mut terminal = Terminal::with_options(backend, viewport).expect("a terminal");
    let mut all = Vec::new();
    for _ in 0..160 {
        terminal.backend_mut().begin_frame().expect("a frame");
        let theme = stand.app.look().theme;
        terminal
            .draw(|frame| {
                theme.paint_ground(area, frame.buffer_mut());
                stand.app.render(area, frame.buffer_mut());
                theme.seal(frame.buffer_mut());
            })
            .expect("a picture");
        all.push(std::mem::take(&mut *bytes.0.borrow_mut()));
        while stand.pass(0.25) == 0 && stand.app.until_tick().is_some() {}
    }
    // The first one draws everything.
    all.split_off(1)
}

/// Only strokes that change are sent, and between them the cursor takes the shortest way.
#[test]
fn a_tick_sends_few_bytes() {
    for (theme, cloth, size, limit) in [
        (ThemeName::Plain, false, (80, 24), 128),
        (ThemeName::Dark, false, (80, 24), 128),
        (ThemeName::Safelight, false, (80, 24), 150),
        (ThemeName::Safelight, true, (80, 24), 150),
        (ThemeName::Dark, false, (160, 50), 365),
    ] {
        let all = bytes_of_ticks(theme, cloth, size);
        let mean = all.iter().sum::<usize>() / all.len();
        let most = all.iter().max().copied().unwrap_or_default();
        println!("{theme:?} cloth {cloth} {size:?}: mean {mean}, most {most}");
        assert!(mean <= limit, "{theme:?} cloth {cloth} {size:?}: {mean}");
    }
}
