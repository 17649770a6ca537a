//! kill -9 at any moment: what the screen had shown as saved is in the logbook.

use std::collections::BTreeSet;
use std::time::{Duration, Instant, SystemTime, UNIX_EPOCH};

use crate::hand::Home;

/// How often the program is killed; `NOTCHBOOK_KILLS` asks for more.
const KILLS: u64 = 25;

/// Holders with a loaded side in each logbook, and so exposures that can be logged.
const HOLDERS: usize = 12;

/// Numbers without a pattern, the same ones for the same seed.
struct Dice(u64);

impl Dice {
    fn roll(&mut self, below: u64) -> u64 {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        self.0 % below.max(1)
    }
}

fn number_of(name: &str) -> Option<u64> {
    std::env::var(name).ok()?.parse().ok()
}

fn kills() -> u64 {
    number_of("NOTCHBOOK_KILLS").unwrap_or(KILLS)
}

/// Another one each time unless `NOTCHBOOK_SEED` names it; a test that fails prints it.
fn seed() -> u64 {
    let seed = number_of("NOTCHBOOK_SEED").unwrap_or_else(|| {
        let now = SystemTime::now().duration_since(UNIX_EPOCH);
        now.map_or(1, |now| now.as_micros() as u64 | 1)
    });
    println!("NOTCHBOOK_SEED={seed}");
    seed
}

/// A logbook with loaded sides, in a home of its own each time.
struct Template(Home);

impl Template {
    fn new() -> Template {
        let home = Home::empty();
        home.does(&format!(
            "begin --size 4x5 --holders {HOLDERS} --film FP4_Plus --sheets 50 --speed 80"
        ));
        for holder in 1..=HOLDERS {
            home.does(&format!("log load h{holder}a --box f1"));
        }
        Template(home)
    }

    fn copy(&self) -> Home {
        let copy = Home::empty();
        let of = |home: &Home| home.path().join("data/notchbook");
        std::fs::create_dir_all(of(&copy)).expect("a folder");
        let name = "logbook.notchbook";
        std::fs::copy(of(&self.0).join(name), of(&copy).join(name)).expect("a copy");
        copy
    }
}

/// Logs exposures one after another until `until` has passed, then kills the program. Returns the
/// numbers that the screen had shown, and how long one exposure took.
fn expose_until_killed(home: Home, until: Duration) -> (Home, BTreeSet<i64>, Duration) {
    let mut session = home.open();
    session.wait_for("S-0001");
    session.goes_to(2);
    session.wait_for("H-01 A");
    let began = Instant::now();
    let mut shown = BTreeSet::new();
    'hand: for holder in 0..HOLDERS {
        if holder > 0 {
            session.press("down");
        }
        session.press("e");
        if holder == 0 {
            // There is no last one yet to take the aperture from, so the hand is on that.
            session.type_text("f/8");
            session.press("tab");
        }
        session.type_text(&format!("1/{}", 8 + holder));
        session.press("enter");
        loop {
            if let Some(number) = session.logged("exposed")
                && shown.insert(number)
            {
                break;
            }
            if began.elapsed() >= until {
                break 'hand;
            }
            std::thread::sleep(Duration::from_millis(1));
        }
    }
    let each = began.elapsed() / u32::try_from(shown.len().max(1)).unwrap_or(1);
    session.signal("KILL");
    session.wait_exit();
    shown.extend(session.logged("exposed"));
    (session.into_home().into(), shown, each)
}

#[test]
fn no_entry_that_was_shown_as_saved_is_lost_by_a_kill() {
    let mut dice = Dice(seed());
    let template = Template::new();
    // The first one is let be, to know how long the others take.
    let (home, shown, each) = expose_until_killed(template.copy(), Duration::from_secs(60));
    assert_eq!(shown.len(), HOLDERS);
    is_all_there(&home, &shown);
    let most = each * 5;
    let mut seen = 0;
    for _ in 0..kills() {
        let until = Duration::from_micros(dice.roll(most.as_micros() as u64));
        let (home, shown, _) = expose_until_killed(template.copy(), until);
        is_all_there(&home, &shown);
        seen += shown.len();
    }
    assert!(seen > 0, "no kill came after an entry");
}

#[test]
fn a_first_start_that_is_killed_stands_in_the_way_of_nothing() {
    let mut dice = Dice(seed());
    let began = Instant::now();
    let session = Home::empty().open();
    session.wait_for("welcome");
    let most = began.elapsed().as_micros() as u64;
    session.kill();
    for _ in 0..kills() / 2 {
        let session = Home::empty().open();
        std::thread::sleep(Duration::from_micros(dice.roll(most)));
        let mut session = Home::from(session.kill()).open();
        session.wait_until("the front end", |session| {
            session.with_terminal(vt100::Screen::alternate_screen)
        });
        session.wait_for("holder");
        session.signal("TERM");
        session.wait_exit();
        let home = Home::from(session.into_home());
        home.does("log add-holder --size 4x5 --sides 2");
        home.is_sound();
    }
}

/// Fails unless each of these exposures is in the logbook, and the logbook sound.
#[track_caller]
fn is_all_there(home: &Home, shown: &BTreeSet<i64>) {
    home.is_sound();
    let hits = home.asks("search exposed --limit 200");
    let there: BTreeSet<i64> = hits["hits"]
        .as_array()
        .expect("hits")
        .iter()
        .filter(|hit| hit["kind"] == "exposed")
        .filter_map(|hit| hit["row"].as_i64())
        .collect();
    assert!(shown.is_subset(&there), "shown {shown:?}, there {there:?}");
    // At most one more was on its way.
    assert!(there.len() <= shown.len() + 1, "{shown:?} {there:?}");
}
