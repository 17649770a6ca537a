//! The clocks of the bench, by commands.

use super::bench::{Bench, says};

#[test]
fn the_bench_tells_what_is_counted_and_what_waits() {
    let bench = Bench::loaded();
    says(&bench.ok(&["bench"]), &["nothing stands on the bench"]);
    bench.ok(&["log", "expose", "h1a"]);
    bench.ok(&[
        "log", "develop", "h1a", "--time", "10 min", "--vessel", "tray",
    ]);
    says(&bench.ok(&["bench"]), &["R-0001", "next presoak, 2 min"]);
    bench.ok(&[
        "log",
        "begin-step",
        "r1",
        "--step",
        "develop",
        "--time",
        "10 min",
    ]);
    says(&bench.ok(&["bench"]), &["develop, 2 of 9", "left"]);
    let told = bench.json(&["bench"]);
    let clock = &told["clocks"][0];
    assert_eq!(clock["reference"], "R-0001");
    assert_eq!(clock["planned"], 600.0);
    assert_eq!(clock["place"]["of"], 9);
    assert_eq!(clock["next"]["step"], "stop");
    bench.ok(&["log", "change-step", "r1", "--change", "pause"]);
    says(&bench.ok(&["bench"]), &["paused"]);
    let why = bench.fails(3, &["log", "change-step", "r1", "--change", "pause"]);
    says(&why, &["stands still since"]);
    bench.ok(&["log", "end-step", "r1"]);
    let told = bench.json(&["bench"]);
    assert_eq!(told["waiting"][0]["next"]["step"], "stop");
}
