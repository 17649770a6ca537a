//! The demo logbook, built and looked at as any SQL tool would.

use std::collections::BTreeSet;
use std::path::{Path, PathBuf};
use std::sync::OnceLock;
use std::time::Instant;

use chrono::{DateTime, FixedOffset, TimeDelta};
use notchbook::demo;
use notchbook::logbook::{Names, ThingKind};
use notchbook::reference::Reference;
use notchbook::store::Store;
use notchbook::world::Scripted;
use rusqlite::{Connection, OpenFlags, types::FromSql};

fn now() -> DateTime<FixedOffset> {
    "2026-11-25T10:30:00+01:00".parse().expect("a time")
}

fn reference() -> Reference {
    Reference::built_in().expect("the built-in reference")
}

/// A demo logbook, closed, and a connection of this test's own to look into it.
struct Demo {
    path: PathBuf,
    db: Connection,
}

/// The demo as it stands at [`now`], built once for all tests that only look.
fn demo() -> Demo {
    static BUILT: OnceLock<PathBuf> = OnceLock::new();
    let path = BUILT.get_or_init(|| {
        let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).join("demo");
        // What an earlier run of the tests left there.
        let _ = std::fs::remove_dir_all(&folder);
        build(&folder, now())
    });
    look_into(path.clone())
}

/// Builds a demo in a folder and says how long it took.
fn build(folder: &Path, now: DateTime<FixedOffset>) -> PathBuf {
    let path = folder.join("demo.notchbook");
    let reference = reference();
    let start = Instant::now();
    let store = demo::build(&path, now, &reference).unwrap_or_else(|error| panic!("{error}"));
    println!("built in {:?}", start.elapsed());
    store.close().expect("closed");
    path
}

fn look_into(path: PathBuf) -> Demo {
    let db = Connection::open_with_flags(&path, OpenFlags::SQLITE_OPEN_READ_ONLY).expect("opened");
    Demo { path, db }
}

impl Demo {
    fn one<T: FromSql>(&self, sql: &str) -> T {
        self.db
            .query_row(sql, [], |row| row.get(0))
            .unwrap_or_else(|error| panic!("{sql}: {error}"))
    }

    fn count(&self, of: &str) -> i64 {
        self.one(&format!("SELECT count(*) FROM {of}"))
    }

    fn texts(&self, sql: &str) -> Vec<String> {
        let mut select = self.db.prepare(sql).expect("a query");
        let rows = select.query_map([], |row| row.get(0)).expect("rows");
        rows.map(|row| row.expect("a row")).collect()
    }
}

#[test]
fn it_holds_a_year_of_work_and_says_what_it_is_made_of() {
    let demo = demo();
    let life = |kind: &str| demo.count(&format!("life WHERE kind = '{kind}' AND reference != ''"));
    let sheets = life("sheet");
    assert!((60..=75).contains(&sheets), "{sheets} sheets");
    assert_eq!(life("holder"), 14);
    assert_eq!(life("camera"), 3);
    assert_eq!(life("lens"), 4);
    assert!(life("run") >= 12);
    assert_eq!(life("print"), 30);
    let each = |sql: &str| demo.texts(sql).into_iter().collect::<BTreeSet<_>>();
    let films = each("SELECT film FROM film_box");
    assert_eq!(films.len(), 5, "{films:?}");
    let processes =
        each("SELECT json_extract(body, '$.process') FROM entry WHERE kind = 'print-begun'");
    assert_eq!(processes.len(), 6, "{processes:?}");
    let sizes = each("SELECT json_extract(body, '$.size') FROM entry WHERE kind = 'loaded'");
    let all = ["4x5 in", "5x7 in", "8x10 in"].map(str::to_owned);
    assert_eq!(sizes, BTreeSet::from(all));
    let days: f64 = demo.one("SELECT (max(happened_us) - min(happened_us)) / 86400e6 FROM entry");
    assert!((330.0..420.0).contains(&days), "{days} days");
}

#[test]
fn its_films_and_papers_are_known_to_the_reference() {
    let demo = demo();
    let reference = reference();
    for film in demo.texts("SELECT film FROM film_box") {
        assert!(reference.film(&film).is_some(), "{film}");
    }
    for paper in
        demo.texts("SELECT json_extract(body, '$.name') FROM entry WHERE kind = 'paper-added'")
    {
        assert!(reference.paper(&paper).is_some(), "{paper}");
    }
}

#[test]
fn every_screen_has_something_to_show() {
    let demo = demo();
    let in_state = |kind: &str, state: &str| {
        demo.count(&format!("life WHERE kind = '{kind}' AND state = '{state}'"))
    };
    for state in ["empty", "loaded", "exposed", "fogged"] {
        assert!(in_state("side", state) > 0, "no side is {state}");
    }
    for state in [
        "loaded",
        "exposed",
        "held exposed",
        "filed",
        "fogged",
        "lost",
        "thrown away",
    ] {
        assert!(in_state("sheet", state) > 0, "no sheet is {state}");
    }
    for state in [
        "in process",
        "dry",
        "pressed",
        "matted",
        "framed",
        "thrown away",
    ] {
        assert!(in_state("print", state) > 0, "no print is {state}");
    }
    for state in ["fresh", "in use", "thrown away"] {
        assert!(in_state("bath", state) > 0, "no bath is {state}");
    }
    assert_eq!(
        demo.texts("SELECT reference FROM life WHERE kind = 'side' AND json_extract(body, '$.particulars.side.doubt') IS NOT NULL"),
        ["H-04 B"]
    );
    let kinds = demo.texts("SELECT DISTINCT kind FROM entry");
    let never = notchbook::logbook::Kind::ALL
        .iter()
        .filter(|kind| !kinds.iter().any(|known| known == kind.name()));
    assert_eq!(never.map(|kind| kind.name()).collect::<Vec<_>>(), [""; 0]);
    for whereabouts in notchbook::logbook::Whereabouts::WORDS {
        let placed = format!(
            "entry WHERE kind = 'placed' AND json_extract(body, '$.whereabouts') = '{whereabouts}'"
        );
        assert!(demo.count(&placed) > 0, "no print was {whereabouts}");
    }
}

#[test]
fn what_goes_wrong_in_a_year_is_in_it() {
    let demo = demo();
    let twice = "exposure GROUP BY sheet HAVING count(*) > 1";
    assert!(
        !demo
            .texts(&format!("SELECT hex(sheet) FROM {twice}"))
            .is_empty()
    );
    assert!(demo.count("entry WHERE kind = 'exposed' AND over IS NOT NULL") > 0);
    assert!(demo.count("entry WHERE kind = 'exposed' AND json_extract(body, '$.again')") > 0);
    assert!(demo.count("entry WHERE kind = 'fogged' AND body LIKE '%felt%'") > 0);
    assert!(demo.count("entry WHERE kind = 'spoiled' AND body LIKE '%tore%'") > 0);
    assert!(demo.count("entry WHERE kind = 'struck'") > 2);
    assert!(demo.count("entry WHERE kind = 'amended'") > 2);
    assert!(demo.count("entry WHERE over IS NOT NULL") > 3);
    assert!(demo.count("entry WHERE written_us - happened_us > 6 * 3600e6") > 0);
    assert!(demo.count("entry WHERE kind = 'lost'") > 0);
    assert!(demo.count("entry WHERE kind = 'slide-righted'") > 0);
    assert!(demo.count("entry WHERE kind = 'bath-replenished'") > 0);
}

#[test]
fn nothing_in_it_is_out_of_order_and_a_rebuild_changes_nothing() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = build(folder.path(), now());
    let mut store = Store::open(&path, &mut Scripted::new(now())).expect("opened");
    let checked = store.check(&reference()).expect("checked");
    assert_eq!(checked.findings, []);
    let rebuilt = store
        .rebuild(&reference(), &mut |_, _| {})
        .expect("rebuilt");
    assert_eq!(rebuilt.misfits, 0);
    assert_eq!(rebuilt.entries, checked.entries);
}

#[test]
fn a_matted_print_can_be_traced_to_everything_behind_it() {
    let demo = demo();
    let store = Store::open_read_only(&demo.path).expect("opened");
    let print = store.find(&[ThingKind::Print], "P-0005").expect("a print");
    let steps = store.trace_up(print.id, &reference()).expect("traced");
    let told = |role: &str| {
        let step = steps.iter().find(|step| step.role == role);
        step.unwrap_or_else(|| panic!("no {role} behind the print"))
    };
    for (role, said) in [
        ("negative", "range 1.69"),
        ("run", "16 min 30 s at 20.0 C"),
        ("developer", "ID-11 1+1"),
        ("stock bath", "mixed"),
        ("fixer", "mixed"),
        ("holder side", "side A of H-01"),
        ("lens", "300 mm"),
        ("camera", "8x10"),
        ("film box", "emulsion 21F 0877"),
        ("paper", "Platine"),
    ] {
        let summary = &told(role).summary;
        assert!(summary.contains(said), "{role}: {summary}");
    }
    let baths = steps.iter().filter(|step| step.role == "bath");
    let mixed = baths.filter(|bath| bath.summary.contains("mixed")).count();
    assert_eq!(
        mixed, 8,
        "four of the coating, the developer and three to clear"
    );
    let print = steps.first().expect("the print itself");
    for done in ["coat", "expose", "clear, third bath", "pressed", "matted"] {
        assert!(print.facts.iter().any(|fact| fact.label == done), "{done}");
    }
}

#[test]
fn it_is_the_same_every_time() {
    let hashes = "SELECT hex(id) || hex(hash) FROM entry ORDER BY row";
    let folder = tempfile::tempdir().expect("a folder");
    let again = look_into(build(folder.path(), now()));
    assert_eq!(demo().texts(hashes), again.texts(hashes));
}

#[test]
fn it_ends_some_hours_before_now_and_keeps_its_times_of_day() {
    let clock = "SELECT strftime('%H:%M', happened_us / 1000000 + happened_offset * 60, 'unixepoch') \
                 FROM entry ORDER BY row";
    let morning = demo();
    let elsewhere = "2031-02-03T23:59:00-08:00".parse().expect("a time");
    let folder = tempfile::tempdir().expect("a folder");
    let night = look_into(build(folder.path(), elsewhere));
    for (demo, now) in [(&morning, now()), (&night, elsewhere)] {
        let last: i64 = demo.one("SELECT max(written_us) FROM entry");
        let ago = now.to_utc() - DateTime::from_timestamp_micros(last).expect("a time");
        assert!(ago >= TimeDelta::hours(2), "{ago}");
        assert!(ago < TimeDelta::hours(26), "{ago}");
    }
    assert_eq!(morning.texts(clock), night.texts(clock));
}

#[test]
fn an_existing_file_is_not_touched() {
    let folder = tempfile::tempdir().expect("a folder");
    let path: &Path = &folder.path().join("mine.notchbook");
    std::fs::write(path, "my own").expect("written");
    let refused = demo::build(path, now(), &reference());
    assert!(matches!(refused, Err(demo::DemoError::Store(_))));
    assert_eq!(std::fs::read_to_string(path).expect("read"), "my own");
}
