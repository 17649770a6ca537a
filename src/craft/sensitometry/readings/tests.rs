//! Strips however they are written down.

use super::*;
use proptest::prelude::*;

fn one(text: &str, steps: usize) -> Vec<(usize, f64)> {
    let sheet = read(text, steps).unwrap_or_else(|why| panic!("{text}: {why}"));
    assert_eq!(sheet.strips.len(), 1, "{text}");
    let readings = &sheet.strips[0].readings;
    readings
        .iter()
        .map(|it| (it.step, it.density.value()))
        .collect()
}

#[test]
fn one_strip_is_read_however_it_is_written() {
    let all = [(1, 0.9), (2, 0.6), (3, 0.3), (4, 0.1)];
    for text in [
        "0.9 0.6 0.3 0.1",
        "0,9 0,6 0,3 0,1",
        "0.9, 0.6, 0.3, 0.1",
        "0.9,0.6,0.3,0.1",
        ".9 .6 .3 .1",
        "0.9\n0.6\n0.3\n0.1\n",
        "0.9; 0.6; 0.3; 0.1",
        "1 0.9 2 0.6 3 0.3 4 0.1",
        "1:0.9 2:0.6 3:0.3 4:0.1",
        "1=0.9, 2=0.6, 3=0.3, 4=0.1",
        "4 0.1 3 0.3 2 0.6 1 0.9",
        "1,0.9\n2,0.6\n3,0.3\n4,0.1",
        "1;0,9\n2;0,6\n3;0,3\n4;0,1",
        "1\t0.9\r\n2\t0.6\r\n3\t0.3\r\n4\t0.1\r\n",
        "step,density\n1,0.9\n2,0.6\n3,0.3\n4,0.1",
        "step;D\n1;0,9\n2;0,6\n3;0,3\n4;0,1",
        "\"step\",\"density\"\n2,0.6\n1,0.9\n4,0.1\n3,0.3",
        "density\n0.9\n0.6\n0.3\n0.1",
        "# read on Sunday\n0.9 0.6 0.3 0.1",
        // From the thin end of the film.
        "0.1 0.3 0.6 0.9",
        "1 0.1 2 0.3 3 0.6 4 0.9",
    ] {
        assert_eq!(one(text, 4), all, "{text}");
    }
    assert_eq!(one("1 0.9 3 0.3 4 0.1", 4), [(1, 0.9), (3, 0.3), (4, 0.1)]);
    assert_eq!(
        one("step,density\n1,0.9\n2,\n4,0.1", 4),
        [(1, 0.9), (4, 0.1)]
    );
}

#[test]
fn several_strips_stand_one_a_line_or_one_a_column() {
    for text in [
        "0.9 0.6 0.3 0.1; 1.2 0.8 0.4 0.1",
        "0.9 0.6 0.3 0.1\n1.2 0.8 0.4 0.1",
        "0.9 0.6\n  0.3 0.1;\n  1.2 0.8 0.4 0.1",
        "1 0.9 1.2\n2 0.6 0.8\n3 0.3 0.4\n4 0.1 0.1",
        "step,tablet_D,logH,t4,t8\n1,0.05,0.3,0.9,1.2\n2,0.2,0.1,0.6,0.8\n3,0.35,0,0.3,0.4\n4,0.5,0,0.1,0.1",
        "step t4 t8; 1 0.9 1.2; 2 0.6 0.8; 3 0.3 0.4; 4 0.1 0.1",
    ] {
        let sheet = read(text, 4).unwrap_or_else(|why| panic!("{text}: {why}"));
        let last: Vec<f64> = sheet
            .strips
            .iter()
            .map(|strip| strip.readings[0].density.value())
            .collect();
        assert_eq!(last, [0.9, 1.2], "{text}");
        assert!(
            sheet.strips.iter().all(|it| it.readings.len() == 4),
            "{text}"
        );
        if text.contains("t8") {
            let times = sheet.strips.iter().map(|it| it.time.map(Seconds::value));
            assert_eq!(times.collect::<Vec<_>>(), [Some(240.0), Some(480.0)]);
        }
    }
}

#[test]
fn a_column_of_the_tablet_and_a_column_left_out_are_told() {
    let text = "step,tablet,logH,7m30\n1,0.05,0.3,0.9\n2,0.2,0.1,0.6";
    let sheet = read(text, 21).unwrap();
    let tablet: Vec<f64> = sheet.tablet.iter().map(|it| it.value()).collect();
    assert_eq!(tablet, [0.05, 0.2]);
    assert!(sheet.remarks[0].words.contains("logH is left out"));
    assert_eq!(sheet.strips[0].time.map(Seconds::value), Some(450.0));
    let rising = read("0.1 0.2 0.3 0.4", 4).unwrap();
    assert!(rising.remarks[0].words.contains("read from the dark end"));
}

#[test]
fn what_leaves_something_open_is_refused_with_what_would_do() {
    for (text, says) in [
        ("", "there are no readings"),
        (" ; \n", "there are no readings"),
        ("0.9 0.6 0.3", "3 readings for a tablet of 4 steps"),
        ("0.9 0.6 0.3 0.1 0.1", "5 readings for a tablet of 4 steps"),
        ("0.9 0.6 0.3 7", "\"7\" is not a density from 0 to 6"),
        ("0.9 0.6 0.3 -0.1", "\"-0.1\" is not a density"),
        ("1 0.9 7 0.2", "there is no step 7"),
        ("step,density\n1,0.9\n1,0.8", "step 1 is there twice"),
        ("step,density\nx,0.9", "\"x\" on line 2 is no step"),
        (
            "step,density\n1,0.9,0.8",
            "line 2 has 3 cells under 2 heads",
        ),
        ("step,colour\n1,0.9", "the column \"colour\" is none of"),
        ("step,logH\n1,0.9", "no column holds densities"),
        (
            "0.9 0.6 dark 0.1",
            "the column \"0.9\"|\"dark\" is not a density",
        ),
    ] {
        let why = match read(text, 4) {
            Err(why) => why.to_string(),
            Ok(sheet) => panic!("{text}: {sheet:?}"),
        };
        assert!(
            says.split('|').any(|says| why.contains(says)),
            "{text}: {why}"
        );
    }
}

proptest! {
    #[test]
    fn no_text_makes_the_reader_panic(text in crate::craft::scribble::text(), steps in 0..40_usize) {
        if let Ok(sheet) = read(&text, steps) {
            for reading in sheet.strips.iter().flat_map(|strip| &strip.readings) {
                prop_assert!((1..=steps).contains(&reading.step));
            }
        }
    }

    #[test]
    fn a_list_is_read_back_as_it_was_written(
        densities in prop::collection::vec(0.0..4.0_f64, 21..22),
    ) {
        let mut shown: Vec<String> = densities.iter().map(|it| format!("{it:.2}")).collect();
        shown.sort();
        shown.reverse();
        let sheet = read(&shown.join(" "), 21).unwrap();
        let back = sheet.strips[0].readings.iter().map(|it| it.density.to_string());
        prop_assert_eq!(back.collect::<Vec<_>>(), shown);
    }
}
