//! The logbook file and other files: missing, foreign, newer, read-only; export and import.

use std::fs;
use std::io::Write as _;
use std::os::unix::fs::PermissionsExt;
use std::process::Stdio;

use super::bench::{Bench, Ran, bytes_of, says};

#[test]
fn a_missing_logbook_is_told_with_how_to_begin() {
    let bench = Bench::empty();
    for words in [
        &["list", "sheets"][..],
        &["log", "expose", "h1a"],
        &["show", "s1"],
        &["undo"],
        &["export"],
        &["check"],
    ] {
        let err = bench.fails(6, words);
        says(&err, &["there is no logbook yet at ", "notchbook begin"]);
    }
    assert!(!bench.logbook().exists());
    bench.fails(2, &["begin", "--read-only"]);
    assert!(!bench.logbook().exists());
    let err = bench.fails(6, &["--logbook", "other.notchbook", "list", "sheets"]);
    says(
        &err,
        &["other.notchbook", "--logbook other.notchbook begin"],
    );
    assert_eq!(bench.json_error(6, &["rack"])["kind"], "logbook");
}

#[test]
fn a_logbook_is_begun_once() {
    let bench = Bench::empty();
    let out = bench.ok(&["begin", "--size", "4x5, 8x10", "--holders", "3"]);
    says(&out, &["a new logbook is at ", "H-01", "H-06"]);
    assert_eq!(
        bench.json(&["rack"])["holders"].as_array().map(Vec::len),
        Some(6)
    );
    let before = bytes_of(&bench.logbook());
    let err = bench.fails(6, &["begin"]);
    says(&err, &["is there already"]);
    assert_eq!(bytes_of(&bench.logbook()), before);
    let mode = fs::metadata(bench.logbook())
        .expect("it is there")
        .permissions()
        .mode();
    assert_eq!(mode & 0o777, 0o600);
}

#[test]
fn nothing_is_begun_when_something_cannot_be_read() {
    let bench = Bench::empty();
    let err = bench.fails(
        4,
        &[
            "begin", "--size", "4x5,huge", "--film", "FP4", "--sheets", "many",
        ],
    );
    says(&err, &["--size", "huge", "--sheets", "many"]);
    assert!(!bench.logbook().exists());
}

#[test]
fn the_logbook_can_be_named_by_an_option_or_the_environment() {
    let bench = Bench::empty();
    bench.ok(&["--logbook", "mine.notchbook", "begin"]);
    bench.ok(&["--logbook", "mine.notchbook", "log", "add-lens", "a lens"]);
    let output = bench
        .command(&["list", "lenses"])
        .env("NOTCHBOOK_LOGBOOK", "mine.notchbook")
        .output()
        .expect("it runs");
    says(&Ran::of(&output).out, &["a lens"]);
    assert!(!bench.logbook().exists());
    let paths = bench.json(&["paths"]);
    assert_eq!(paths["logbook"], bench.logbook().display().to_string());
    assert_eq!(paths["logbook_exists"], false);
}

#[test]
fn a_file_that_is_no_logbook_is_left_as_it_is() {
    let bench = Bench::empty();
    for (name, bytes) in [
        ("note.txt", &b"buy fixer\n"[..]),
        ("half", b"SQLite format 3\0 and no more"),
    ] {
        let path = bench.write(name, bytes);
        let before = bytes_of(&path);
        for words in [
            &["list", "sheets"][..],
            &["log", "add-lens", "x"],
            &["check"],
        ] {
            let mut all = vec!["--logbook", name];
            all.extend(words);
            let err = bench.fails(6, &all);
            says(&err, &[name]);
            assert_eq!(bytes_of(&path), before, "{name} {words:?}");
        }
    }
    let err = bench.fails(6, &["--logbook", ".", "list", "sheets"]);
    assert!(err.starts_with("notchbook: "), "{err}");
}

#[test]
fn a_logbook_of_a_newer_version_is_read_but_not_written() {
    let bench = Bench::loaded();
    let path = bench.logbook();
    let db = rusqlite::Connection::open(&path).expect("it opens");
    let version: i64 = db
        .pragma_query_value(None, "user_version", |row| row.get(0))
        .expect("a version");
    db.pragma_update(None, "user_version", version + 10)
        .expect("it is set");
    db.close().expect("it closes");
    let before = bytes_of(&path);
    let err = bench.fails(6, &["log", "expose", "h1a"]);
    says(&err, &["newer version", "read-only"]);
    bench.fails(6, &["list", "sheets"]);
    says(&bench.ok(&["--read-only", "list", "sheets"]), &["S-0001"]);
    assert_eq!(bytes_of(&path), before);
}

#[test]
fn nothing_is_written_to_a_logbook_opened_for_reading() {
    let bench = Bench::loaded();
    let err = bench.fails(6, &["log", "expose", "h1a", "--read-only"]);
    says(&err, &["reading only"]);
    let err = bench.fails(6, &["undo", "--read-only"]);
    says(&err, &["reading only"]);
    assert_eq!(bench.json(&["check"])["entries"], 3);
}

#[test]
fn an_export_is_never_written_over_a_file_that_is_there() {
    let bench = Bench::loaded();
    let path = bench.write("out.jsonl", b"mine");
    let err = bench.fails(7, &["export", "out.jsonl"]);
    says(&err, &["out.jsonl", "is there already"]);
    assert_eq!(bytes_of(&path), b"mine");
    says(
        &bench.ok(&["export", "out.jsonl", "--replace"]),
        &["3 entries"],
    );
    assert_eq!(
        fs::read_to_string(&path).expect("text"),
        bench.ok(&["export"])
    );
    let before = bytes_of(&bench.logbook());
    let logbook = bench.logbook().display().to_string();
    let err = bench.fails(2, &["export", &logbook, "--replace"]);
    says(&err, &["is the logbook itself"]);
    bench.fails(2, &["import", &logbook]);
    assert_eq!(bytes_of(&bench.logbook()), before);
    let err = bench.fails(7, &["export", "no/such/folder/out.jsonl"]);
    says(&err, &["no/such/folder/out.jsonl"]);
}

#[test]
fn what_is_exported_is_imported_the_same() {
    let bench = Bench::loaded();
    bench.ok(&[
        "log",
        "expose",
        "h1a",
        "--time",
        "6s",
        "--note",
        "a\u{202e}b",
    ]);
    bench.ok(&["amend", "4", "time=8s", "--why", "misread"]);
    bench.ok(&["export", "out.jsonl"]);
    bench.ok(&["--logbook", "copy.notchbook", "begin"]);
    let rehearsed = bench.json(&[
        "--logbook",
        "copy.notchbook",
        "import",
        "out.jsonl",
        "--dry-run",
    ]);
    assert_eq!(rehearsed["taken"], 5);
    assert_eq!(rehearsed["written"], false);
    let taken = bench.json(&["--logbook", "copy.notchbook", "import", "out.jsonl"]);
    assert_eq!(taken["taken"], 5);
    let again = bench.json(&["--logbook", "copy.notchbook", "import", "out.jsonl"]);
    assert_eq!(
        (again["taken"].clone(), again["known"].clone()),
        (0.into(), 5.into())
    );
    let lines = |out: String| out.lines().skip(1).map(str::to_owned).collect::<Vec<_>>();
    assert_eq!(
        lines(bench.ok(&["export"])),
        lines(bench.ok(&["--logbook", "copy.notchbook", "export"]))
    );
    let document = bench.json(&["export"]);
    assert_eq!(document["lines"].as_array().map(Vec::len), Some(6));
}

#[test]
fn an_import_with_a_bad_line_takes_nothing_unless_told_to_go_on() {
    let bench = Bench::loaded();
    let text = bench.ok(&["export"]);
    let mut lines: Vec<&str> = text.lines().collect();
    let half = lines[3].split_at(lines[3].len() / 2).0.to_owned();
    lines[3] = &half;
    bench.write("bad.jsonl", lines.join("\n").as_bytes());
    bench.ok(&["--logbook", "copy.notchbook", "begin"]);
    let copy = ["--logbook", "copy.notchbook", "import", "bad.jsonl"];
    let err = bench.fails(3, &copy);
    says(&err, &["nothing was taken in", "line 4: ", "--keep-going"]);
    assert_eq!(bench.json_error(3, &copy)["kind"], "refused");
    let going = [&copy[..], &["--keep-going"]].concat();
    let taken = bench.json(&going);
    assert_eq!(taken["taken"], 2);
    assert_eq!(taken["not_taken"][0]["line"], 4);
    bench.write("notes.txt", b"buy fixer\n");
    says(
        &bench.fails(7, &["import", "notes.txt"]),
        &["notes.txt", "not an export"],
    );
    says(
        &bench.fails(7, &["import", "nothing.jsonl"]),
        &["nothing.jsonl", "cannot be read"],
    );
}

#[test]
fn a_reader_that_goes_away_ends_it_quietly() {
    let bench = Bench::loaded();
    for at in 0..60 {
        bench.ok(&[
            "log",
            "note",
            "s1",
            &format!("note {at} {}", "long ".repeat(400)),
        ]);
    }
    let mut running = bench
        .command(&["show", "s1"])
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .expect("it runs");
    drop(running.stdout.take());
    let output = running.wait_with_output().expect("it ends");
    assert_eq!(output.status.code(), Some(0));
    assert_eq!(output.stderr, b"");
}

#[test]
fn own_reference_files_are_used_and_faults_in_them_are_told() {
    let bench = Bench::begun();
    let own = bench.json(&["paths"])["reference"]
        .as_str()
        .expect("a path")
        .to_owned();
    fs::create_dir_all(&own).expect("a folder");
    let mut file = fs::File::create(format!("{own}/films.toml")).expect("a file");
    file.write_all(b"[[film]]\nid = 3\n")
        .expect("it is written");
    let ran = bench.run(&["processes"]);
    assert_eq!(ran.code, 0);
    says(&ran.err, &["left out: ", "films.toml, line 2"]);
    let json = bench.json(&["processes"]);
    says(&json["warnings"].to_string(), &["films.toml"]);
}

#[test]
fn the_demo_is_built_where_it_is_asked_for_and_never_over_a_file() {
    let bench = Bench::empty();
    let out = bench.ok(&["demo", "--here", "show", "--path-only"]);
    let path = out.trim();
    assert!(path.ends_with("demo.notchbook"), "{path}");
    let prints = bench.ok(&["--logbook", path, "list", "prints"]);
    assert!(prints.lines().count() > 20, "{prints}");
    let checked = bench.json(&["--logbook", path, "check"]);
    assert_eq!(checked["sound"], true);
    let err = bench.fails(6, &["demo", "--here", "show", "--path-only"]);
    says(&err, &["demo.notchbook is there already"]);
    assert!(!bench.logbook().exists());
}

#[test]
fn without_a_terminal_the_front_end_says_so() {
    let bench = Bench::begun();
    let err = bench.fails(1, &[]);
    says(&err, &["notchbook: the terminal cannot be used"]);
    bench.fails(2, &["demo", "--json"]);
}

#[test]
fn a_link_and_a_file_without_rights_are_told() {
    let bench = Bench::loaded();
    std::os::unix::fs::symlink(bench.logbook(), bench.path("link")).expect("a link");
    let err = bench.fails(6, &["--logbook", "link", "list", "sheets"]);
    says(&err, &["is a link to another file"]);
    fs::set_permissions(bench.logbook(), fs::Permissions::from_mode(0o000)).expect("it is set");
    if fs::read(bench.logbook()).is_ok() {
        // Whoever runs this may read everything.
        return;
    }
    says(&bench.fails(6, &["list", "sheets"]), &["no permission for"]);
}

#[test]
fn a_logbook_that_another_program_holds_is_told_as_locked() {
    let bench = Bench::loaded();
    let other = rusqlite::Connection::open(bench.logbook()).expect("it opens");
    other.execute_batch("BEGIN IMMEDIATE").expect("it is held");
    let err = bench.fails(6, &["log", "expose", "h1a"]);
    says(&err, &["is in use by another program", "try again"]);
    // Reading waits for nobody.
    says(&bench.ok(&["list", "sheets"]), &["S-0001"]);
    says(&bench.ok(&["trace", "s1"]), &["F-01"]);
    other.execute_batch("ROLLBACK").expect("it is let go");
    bench.ok(&["log", "expose", "h1a"]);
}

#[test]
fn commands_run_at_the_same_time_take_turns() {
    let bench = Bench::loaded();
    let running: Vec<_> = (0..12)
        .map(|at| {
            let note = format!("note {at}");
            let mut command = bench.command(&["log", "note", "s1", &note]);
            command.stdout(Stdio::piped()).stderr(Stdio::piped());
            command.spawn().expect("it runs")
        })
        .collect();
    for one in running {
        let ran = Ran::of(&one.wait_with_output().expect("it ends"));
        assert_eq!((ran.code, ran.err.as_str()), (0, ""));
    }
    let checked = bench.json(&["check"]);
    assert_eq!(checked["entries"], 15);
    assert_eq!(checked["sound"], true);
}
