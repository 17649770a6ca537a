//! The time of a run: tables, agitation, contrast and a long exposure one after the other.

use std::collections::BTreeMap;

use chrono::DateTime;
use notchbook::craft::Standing;
use notchbook::craft::development::asked::Asked;
use notchbook::craft::development::gradient::as_change;
use notchbook::figures::development::{ASKS, Reckoned, Situation, reckon};
use notchbook::figures::{Desk, Given, NoKit};
use notchbook::reference::Reference;

use super::near;

fn run(typed: &[(&str, &str)]) -> Reckoned {
    let reference = Reference::built_in().expect("the reference");
    let now = DateTime::parse_from_rfc3339("2026-03-04T16:02:00+01:00").expect("a time");
    let desk = Desk::new(&reference, &NoKit, now);
    let typed: BTreeMap<String, String> = typed
        .iter()
        .map(|(key, text)| ((*key).to_owned(), (*text).to_owned()))
        .collect();
    reckon(&Situation::typed(Given::new(ASKS, &typed, &desk))).expect("a time")
}

fn in_minutes(reckoned: &Reckoned) -> f64 {
    reckoned.time.value() / 60.0
}

/// Kodak F-32, T-MAX 100 and 400 Professional Films (part 2), rotary tube, rolls (published): D-76,
/// T-MAX 100, 6 min at 70 F and 5.5 min at 72 F. At 71 F the square root of 6 x 5.5 (derived). Tolerance
/// 0.01 min. The table is for a rotary tube already and is not shortened again.
#[test]
fn kodaks_rotary_table_between_two_columns() {
    for agitation in ["", "continuous"] {
        let reckoned = run(&[
            ("film", "T-MAX 100"),
            ("developer", "D-76"),
            ("temperature", "71F"),
            ("agitation", agitation),
        ]);
        near(in_minutes(&reckoned), 5.745, 0.01);
    }
}

/// Ilford, DD-X developer times as transcribed in a note of 2022 (second-hand): FP4 Plus 10 min at 68 F
/// and 8 at 75 F; at 22 C 8.92 min (derived). 15 % less for agitation all the time and the middle of 15
/// to 25 % less for N-1 are common practice, no source. Tolerance 0.02 min.
#[test]
fn a_run_in_a_tray_for_a_contrasty_subject() {
    let mut typed = vec![
        ("film", "FP4 Plus"),
        ("developer", "DD-X"),
        ("temperature", "22 C"),
    ];
    near(in_minutes(&run(&typed)), 8.92, 0.02);
    typed.push(("agitation", "continuous"));
    near(in_minutes(&run(&typed)), 8.92 * 0.85, 0.02);
    typed.push(("contrast", "N-1"));
    let reckoned = run(&typed);
    near(in_minutes(&reckoned), 8.92 * 0.85 * 0.8, 0.02);
    let standing = reckoned.answer.results[0]
        .grounds
        .as_ref()
        .map(|it| it.standing);
    assert_eq!(standing, Some(Standing::Usual));
}

/// Makers' data for Tri-X after 10 s, as compiled by C. Johnson, The Practical Zone System (second-hand):
/// develop 20 % less. The same note of 2022 (second-hand) gives 8 min in DD-X. Exact.
#[test]
fn a_long_exposure_on_tri_x_takes_a_fifth_off() {
    let reckoned = run(&[
        ("film", "Tri-X 400"),
        ("developer", "DD-X"),
        ("contrast", "normally; -20 %"),
    ]);
    near(in_minutes(&reckoned), 6.4, 1e-9);
}

/// L. Barnbaum, The Art of Photography, 1994, p. 77 (second-hand): a metered 30 s on Tri-X raises the
/// contrast by one zone, which N-1 answers; with N-1 asked for by the subject that is N-2. Exact.
#[test]
fn contrast_of_subject_and_long_exposure_add_up() {
    let asked = Asked::parse("less, N-1; N-1").expect("a wish");
    assert_eq!(asked.to_string(), "N-2");
}

/// Derived from a range of 1.05 for grade 2 and an average subject of 2.20 (S. Benskin, second-hand), a
/// zone of 0.30 and a flare of 0.40 (remembered): the gradients of N-2 to N+2 backwards. Tolerance 0.01
/// zone for gradients of three places.
#[test]
fn gradients_as_changes_of_contrast() {
    for (gradient, zones) in [
        (0.438, -2.0),
        (0.5, -1.0),
        (0.583, 0.0),
        (0.7, 1.0),
        (0.875, 2.0),
    ] {
        let figure = as_change(gradient).expect("a change");
        near(figure.value.zones(), zones, 0.01);
        assert_eq!(figure.grounds.standing, Standing::Remembered);
    }
}
